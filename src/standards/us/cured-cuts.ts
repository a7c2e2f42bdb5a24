import type { Standard } from '../../rules/standard.ts';

/** Cured and cooked cuts: pork by its protein, bacon, country ham, corned and roast beef. */
export const CURED_CUT_STANDARDS: readonly Standard[] = [];
