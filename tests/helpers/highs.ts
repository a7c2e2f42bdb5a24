import loadHighs from 'highs';
import type { LinearModel } from '../../src/solver/model.ts';

/**
 * HiGHS as an opponent: an LP code with nothing in common with the engine of the product.
 * Published source: Huangfu and Hall, "Parallelizing the dual revised simplex method", Mathematical
 * Programming Computation 10 (2018); WebAssembly build in the npm package highs.
 */
// The package types its default as a namespace, while at run time the import is the loader itself.
const load = loadHighs as unknown as typeof loadHighs.default;
const highs = await load();

export type HighsAnswer =
  | { readonly status: 'optimal'; readonly cost: number; readonly values: readonly number[] }
  | { readonly status: 'infeasible' | 'unbounded' };

export function solveWithHighs(model: LinearModel): HighsAnswer {
  // A few models end as "unknown" with the tight tolerances; then another of its ways decides.
  const answer =
    ask(model, TIGHT) ??
    ask(model, USUAL) ??
    ask(model, PRESOLVED) ??
    ask(model, PRIMAL) ??
    ask(model, INTERIOR);
  if (!answer) throw new Error('HiGHS has no answer');
  return answer;
}

// By default coefficients up to 1e-9 are dropped: the smallest allowed value keeps them.
const USUAL = { output_flag: false, presolve: 'off', small_matrix_value: 1e-12 };
const PRESOLVED = { ...USUAL, presolve: 'on' };
/** Other ways to the same optimum: the primal simplex, an interior point. */
const PRIMAL = { ...USUAL, simplex_strategy: 4 };
const INTERIOR = { ...USUAL, solver: 'ipm' };
const TIGHT = { ...USUAL, primal_feasibility_tolerance: 1e-9, dual_feasibility_tolerance: 1e-9 };

function ask({ columns, rows }: LinearModel, options: typeof USUAL): HighsAnswer | undefined {
  // HiGHS calls every model without columns empty, whatever its rows say.
  if (columns.length === 0) {
    const holds = rows.every(({ lower, upper }) => lower <= 0 && upper >= 0);
    return holds ? { status: 'optimal', cost: 0, values: [] } : { status: 'infeasible' };
  }
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  for (const { terms } of rows) {
    const merged = new Map<number, number>();
    for (const { column, coefficient } of terms) {
      merged.set(column, (merged.get(column) ?? 0) + coefficient);
    }
    for (const [column, coefficient] of merged) {
      if (coefficient === 0) continue;
      indices.push(column);
      values.push(coefficient);
    }
    starts.push(indices.length);
  }
  const bound = (value: number) => (Number.isFinite(value) ? value : Math.sign(value) * highs.infinity);
  const model = highs.createModel();
  try {
    model.options.set(options);
    model.passModel({
      numCols: columns.length,
      numRows: rows.length,
      colCost: columns.map(({ cost }) => cost),
      colLower: columns.map(({ lower }) => bound(lower)),
      colUpper: columns.map(({ upper }) => bound(upper)),
      rowLower: rows.map(({ lower }) => bound(lower)),
      rowUpper: rows.map(({ upper }) => bound(upper)),
      matrix: {
        format: 'csr',
        numRows: rows.length,
        numCols: columns.length,
        starts,
        indices,
        values,
      },
    });
    model.run();
    const status = model.getModelStatus();
    const { optimal, infeasible, unbounded } = highs.constants.modelStatus;
    if (status === infeasible) return { status: 'infeasible' };
    if (status === unbounded) return { status: 'unbounded' };
    if (status === optimal) {
      return {
        status: 'optimal',
        cost: model.getObjectiveValue(),
        values: [...model.getSolution().colValue],
      };
    }
    return undefined;
  } finally {
    model.dispose();
  }
}
