import { keepOpen } from './keep-open.ts';
import type { Engine, LinearModel } from './model.ts';

/** What is held together or dropped together: rows, and ends of columns that can be let go. */
export interface Group {
  readonly rows: readonly number[];
  readonly columns: readonly FreeEnd[];
}

/** A column with the widest bounds it can be given. */
export interface FreeEnd {
  readonly column: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * A smallest set of groups that cannot hold together: taken alone they have no point, and without any one of them the
 * others have. Found by dropping one group after the other for good whenever no point appears (Chinneck and
 * Dravnieks, ORSA Journal on Computing 3 (1991), deletion filtering). Several orders are tried and the smallest set
 * is kept; a still smaller one may exist. Undefined when the model has a point.
 * @returns indices into groups, in their order.
 */
export function conflictOf(
  model: LinearModel,
  groups: readonly Group[],
  engines: readonly Engine[],
): readonly number[] | undefined {
  const free: LinearModel = {
    columns: model.columns.map((column) => ({ ...column, cost: 0 })),
    rows: model.rows,
  };
  return keepOpen(free, engines, (kept) => {
    const hasPoint = () => kept.solve().status === 'optimal';
    if (hasPoint()) return undefined;
    const drop = ({ rows, columns }: Group) => {
      for (const row of rows) kept.setRow(row, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
      for (const { column, lower, upper } of columns) kept.setColumn(column, lower, upper);
    };
    const restore = ({ rows, columns }: Group) => {
      for (const row of rows) kept.setRow(row, lowerOf(model, row), upperOf(model, row));
      for (const { column } of columns) {
        const { lower, upper } = model.columns[column] ?? { lower: 0, upper: 0 };
        kept.setColumn(column, lower, upper);
      }
    };
    const filter = (order: readonly number[]): readonly number[] => {
      const left = new Set(order);
      for (const index of order) {
        const group = groups[index] as Group;
        drop(group);
        if (hasPoint()) restore(group);
        else left.delete(index);
      }
      for (const index of order) if (!left.has(index)) restore(groups[index] as Group);
      return [...left].sort((a, b) => a - b);
    };
    const all = groups.map((_, index) => index);
    const first = filter(all);
    const second = filter(all.toReversed());
    // What the first two found, dropped before the others: a set that shares little with them, if there is one.
    const third = filter([...all].sort((a, b) => Number(first.includes(b)) - Number(first.includes(a))));
    return [first, second, third].reduce((least, other) => (other.length < least.length ? other : least));
  });
}

function lowerOf({ rows }: LinearModel, row: number): number {
  return rows[row]?.lower ?? Number.NEGATIVE_INFINITY;
}

function upperOf({ rows }: LinearModel, row: number): number {
  return rows[row]?.upper ?? Number.POSITIVE_INFINITY;
}
