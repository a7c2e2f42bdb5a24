import type { Column, Engine, LinearModel, Row } from './model.ts';
import { solvePriced } from './prices.ts';
import { rowScale, scaleRows } from './scale.ts';
import { SolverFault } from './solve.ts';

/** A row that may be missed, and how dear a miss of it is. */
export interface SoftRow {
  readonly rowIndex: number;
  readonly weight: number;
}

/** A row that has to give when not all rows can hold at once. */
export interface Give {
  readonly rowIndex: number;
  /** How far the row goes past its bound, in the unit of its own scale: negative below the lower bound. */
  readonly by: number;
}

export interface Relaxation {
  readonly gives: readonly Give[];
  readonly values: readonly number[];
  /** Where rows have to give, these prices prove it: no point keeps them all. */
  readonly rowPrices: readonly number[];
}

/** Engines answer to about 1e-8: a smaller miss is told apart from none only when nothing larger is there. */
const NOISE = 1e-7;

/**
 * When a model has no solution: the point that misses the soft rows by least in all, and which of them give.
 * Rows that are not named stay hard. Undefined when even that has no solution.
 * @param soft the rows that may give; a row of higher weight gives only when those of lower cannot help.
 */
export function relax(
  model: LinearModel,
  soft: readonly SoftRow[],
  engines: readonly Engine[],
): Relaxation | undefined {
  const columns: Column[] = model.columns.map((column) => ({ ...column, cost: 0 }));
  // Misses are weighed against each other, so a row in parts per million must count like one in kilograms.
  const rows: Row[] = [...scaleRows(model).rows];
  const escapes: { rowIndex: number; under: number; over: number }[] = [];
  for (const { rowIndex, weight } of soft) {
    const row = rows[rowIndex] as Row;
    const under = columns.push({ cost: weight, lower: 0, upper: Number.POSITIVE_INFINITY }) - 1;
    const over = columns.push({ cost: weight, lower: 0, upper: Number.POSITIVE_INFINITY }) - 1;
    rows[rowIndex] = {
      ...row,
      terms: [...row.terms, { column: under, coefficient: 1 }, { column: over, coefficient: -1 }],
    };
    escapes.push({ rowIndex, under, over });
  }
  const outcome = solvePriced({ columns, rows }, engines);
  if (outcome.status === 'infeasible') return undefined;
  if (outcome.status === 'unbounded') throw new SolverFault('a sum of misses cannot be unbounded', model);
  const at = (column: number) => outcome.values[column] ?? 0;
  const misses = escapes
    .map(({ rowIndex, under, over }) => ({ rowIndex, by: at(over) - at(under) }))
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
  const clear = misses.filter(({ by }) => Math.abs(by) > NOISE);
  return {
    gives: clear.length > 0 ? clear : misses.slice(0, 1).filter(({ by }) => by !== 0),
    values: outcome.values.slice(0, model.columns.length),
    rowPrices: model.rows.map((row, index) => (outcome.rowPrices[index] ?? 0) * rowScale(row)),
  };
}
