import { loadHighs } from '../../src/solver/engines/highs.ts';
import type { LinearModel } from '../../src/solver/model.ts';

/**
 * HiGHS alone, for comparing what the product answers with the optimum of a model that was built by other means. It is
 * an engine of the product as well: what holds it to account is glpsol and the exact proof (tests/solver).
 * Published source: Huangfu and Hall, "Parallelizing the dual revised simplex method", Mathematical
 * Programming Computation 10 (2018); WebAssembly build in the npm package highs.
 */
const highs = await loadHighs();

export type HighsAnswer =
  | { readonly status: 'optimal'; readonly cost: number; readonly values: readonly number[] }
  | { readonly status: 'infeasible' | 'unbounded' };

export function solveWithHighs(model: LinearModel): HighsAnswer {
  return highs.solve(model);
}
