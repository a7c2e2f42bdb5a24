import type { Column, Engine, Row } from '../solver/model.ts';
import { solve } from '../solver/solve.ts';
import type { BatchModel } from './batch-model.ts';

/** Rounds of widening the set of lines whose rounding is allowed for; two are nearly always enough. */
const ROUNDS = 4;

/** How far rounding may move a line in the whole batch, in kilograms, both figures zero or more. */
export interface Slip {
  readonly underKg: number;
  readonly overKg: number;
}

/**
 * The least-cost blend that stays inside its limits however its lines are rounded: every limit is held back
 * by the most that the slips of the lines in use can move it. Where a limit leaves no such room (a cure
 * asked for exactly at its limit) its holding back gives way, at a price that only then is worth paying, and
 * the rounding itself must keep the limit.
 * @param start a solution of the model. @param slipOf what rounding may do to a column of that weight.
 */
export function weighable(
  model: BatchModel,
  start: readonly number[],
  slipOf: (column: number, massKg: number) => Slip,
  engines: readonly Engine[],
): readonly number[] {
  const inUse = new Set<number>();
  let values = start;
  for (let round = 0; round < ROUNDS; round++) {
    const before = inUse.size;
    values.forEach((massKg, column) => {
      if (massKg > 1e-9) inUse.add(column);
    });
    if (round > 0 && inUse.size === before) break;
    const slips = model.columns.map((_, column) =>
      inUse.has(column) ? slipOf(column, values[column] ?? 0) : { underKg: 0, overKg: 0 },
    );
    values = solveHeldBack(model, slips, engines) ?? values;
  }
  return values;
}

function solveHeldBack(
  model: BatchModel,
  slips: readonly Slip[],
  engines: readonly Engine[],
): readonly number[] | undefined {
  const dearest = model.columns.reduce((max, { cost }) => Math.max(max, Math.abs(cost)), 1);
  const columns: Column[] = [...model.columns];
  const rows = model.rows.map((row, index): Row => {
    if (!model.limitOfRow.has(index)) return row;
    const isMax = Number.isFinite(row.upper);
    const back = worstSlip(row, slips, isMax ? 1 : -1);
    if (back === 0) return row;
    const largest = row.terms.reduce((max, { coefficient }) => Math.max(max, Math.abs(coefficient)), 0);
    const give = columns.push({ cost: (100 * dearest) / largest, lower: 0, upper: back }) - 1;
    return {
      ...row,
      lower: row.lower + back,
      upper: row.upper - back,
      terms: [...row.terms, { column: give, coefficient: isMax ? -1 : 1 }],
    };
  });
  const outcome = solve({ columns, rows }, engines);
  // The exact check decides in the end, so a second solve that fails only costs the room for rounding.
  return outcome.status === 'optimal' ? outcome.values.slice(0, model.columns.length) : undefined;
}

/** The most that slips can push a row toward its bound. @param toward 1 for an upper bound, -1 for a lower. */
function worstSlip({ terms }: Row, slips: readonly Slip[], toward: 1 | -1): number {
  return terms.reduce((total, { column, coefficient }) => {
    const { underKg, overKg } = slips[column] ?? { underKg: 0, overKg: 0 };
    const push = toward * coefficient;
    return total + (push > 0 ? push * overKg : -push * underKg);
  }, 0);
}
