import { loadEngines } from '../../src/solver/engines/load.ts';

/** The engines of the product, as the service has them. */
export const { engines: ENGINES } = await loadEngines();
