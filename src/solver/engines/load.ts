import type { EngineName } from '../engine-names.ts';
import type { Engine } from '../model.ts';
import { loadHighs } from './highs.ts';
import { javascriptLpSolver } from './javascript-lp-solver.ts';

/** The engines of the product. */
export interface Loaded {
  readonly engines: readonly Engine[];
  /** Whether one of them must be loaded anew before it can be asked again. */
  readonly isBroken: () => boolean;
}

/**
 * Loads the engines. @param only the one engine to use where the plant says so; the choice is by problem otherwise.
 * @param doubted told of every answer that was not believed.
 */
export async function loadEngines(
  only?: EngineName,
  doubted?: (engine: string, why: string) => void,
): Promise<Loaded> {
  const highs = await loadHighs();
  const engines = [javascriptLpSolver, highs]
    .filter(({ name }) => only === undefined || name === only)
    .map((engine) => ({ ...engine, doubted: (why: string) => doubted?.(engine.name, why) }));
  return { engines, isBroken: highs.isBroken };
}
