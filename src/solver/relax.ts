import type { Column, Engine, LinearModel, Row } from './model.ts';
import { SolverFault, solve } from './solve.ts';

/** A row that has to give when not all rows can hold at once. */
export interface Give {
  readonly rowIndex: number;
  /** How far the row goes past its bound, in the unit of the row: negative below the lower bound. */
  readonly by: number;
}

export interface Relaxation {
  readonly gives: readonly Give[];
  readonly values: readonly number[];
}

/**
 * When a model has no solution: the point that misses the named rows by least in all, and which of them give.
 * Rows that are not named stay hard. Undefined when even that has no solution.
 * @param soft indices of the rows that may give.
 */
export function relax(
  model: LinearModel,
  soft: readonly number[],
  engines: readonly Engine[],
): Relaxation | undefined {
  const columns: Column[] = model.columns.map((column) => ({ ...column, cost: 0 }));
  const rows: Row[] = model.rows.map((row) => ({ ...row, terms: [...row.terms] }));
  const escapes: { rowIndex: number; under: number; over: number }[] = [];
  for (const rowIndex of soft) {
    const row = rows[rowIndex] as Row;
    const under = columns.push({ cost: 1, lower: 0, upper: Number.POSITIVE_INFINITY }) - 1;
    const over = columns.push({ cost: 1, lower: 0, upper: Number.POSITIVE_INFINITY }) - 1;
    rows[rowIndex] = {
      ...row,
      terms: [...row.terms, { column: under, coefficient: 1 }, { column: over, coefficient: -1 }],
    };
    escapes.push({ rowIndex, under, over });
  }
  const outcome = solve({ columns, rows }, engines);
  if (outcome.status === 'infeasible') return undefined;
  if (outcome.status === 'unbounded') throw new SolverFault('a sum of misses cannot be unbounded', model);
  const at = (column: number) => outcome.values[column] ?? 0;
  return {
    gives: escapes
      .map(({ rowIndex, under, over }) => ({ rowIndex, by: at(over) - at(under) }))
      .filter(({ by }) => Math.abs(by) > 1e-6),
    values: outcome.values.slice(0, model.columns.length),
  };
}
