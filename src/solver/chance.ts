import { add, compare, type Exact, exact, multiply, ONE, subtract, toNumber, ZERO } from '../exact.ts';
import { activity, type ExactModel, type ExactRow, toLinear, toRow } from './exact-model.ts';
import { type KeptModel, keepOpen } from './keep-open.ts';
import type { Engine } from './model.ts';
import type { PricedOutcome } from './prices.ts';

/**
 * A row that has to hold with a margin, because what its columns bring is not certain: with sd_i the standard
 * deviation of the coefficient of column i, independent of the others, Σ a·x + z·√(Σ sd²·x²) stays at most the upper
 * bound (or, with a minus, at least the lower). A second-order cone, met by planes that touch it.
 */
export interface ChanceRow {
  /** Index into the rows of the model. */
  readonly row: number;
  /** Standard deviations of margin asked. */
  readonly z: number;
  /** One for each column, zero or more. */
  readonly sds: readonly Exact[];
}

export interface ChanceSolution {
  readonly outcome: PricedOutcome;
  /** The planes that were needed: rows that every point with enough margin keeps. */
  readonly cuts: readonly Cut[];
  readonly solves: number;
}

export interface Cut {
  readonly chance: ChanceRow;
  readonly row: ExactRow;
}

/** A margin that is missed by less than this share of the whole point is met. */
const MISSED = 1e-7;
const MOST_SOLVES = 500;

/**
 * The least cost with every chance row held, by tangent planes: solve, lay a plane at the point that misses its
 * margin, solve again. Every plane is implied by the margin (Cauchy and Schwarz), so the least cost so far is
 * always a lower bound. @param cuts planes already known.
 */
export function solveWithChance(
  model: ExactModel,
  chances: readonly ChanceRow[],
  engines: readonly Engine[],
  cuts: readonly Cut[] = [],
): ChanceSolution {
  const start = { columns: model.columns, rows: [...model.rows, ...cuts.map(({ row }) => row)] };
  return keepOpen(toLinear(start), engines, (kept) => {
    const solution = solveKept(kept, model, chances);
    return { ...solution, cuts: [...cuts, ...solution.cuts] };
  });
}

/**
 * The same of a model that is kept open already, whatever its bounds and costs are at the moment. The planes stay in it:
 * they follow from the margins alone and cut nothing off that keeps them.
 * @param model the rows that the margins are about.
 */
export function solveKept(kept: KeptModel, model: ExactModel, chances: readonly ChanceRow[]): ChanceSolution {
  const cuts: Cut[] = [];
  for (let solves = 1; ; solves++) {
    const outcome = kept.solve();
    if (outcome.status !== 'optimal' || solves >= MOST_SOLVES) return { outcome, cuts, solves };
    const size = outcome.values.reduce((sum, value) => sum + Math.abs(value), 0);
    const missed = chances.filter((chance) => missing(model, chance, outcome.values) > MISSED * size);
    if (missed.length === 0) return { outcome, cuts, solves };
    for (const chance of missed) {
      const row = tangentCut(model, chance, outcome.values);
      cuts.push({ chance, row });
      kept.addRow(toRow(row));
    }
  }
}

/** By how much a point misses the margin of a chance row; negative when there is room. In doubles. */
export function missing(model: ExactModel, { row, z, sds }: ChanceRow, values: readonly number[]): number {
  const { upper, lower, terms } = rowOf(model, row);
  const mean = terms.reduce(
    (sum, { column, coefficient }) => sum + toNumber(coefficient) * (values[column] ?? 0),
    0,
  );
  const sd = deviation(sds, values);
  return upper ? mean + z * sd - toNumber(upper) : toNumber(lower ?? ZERO) - mean + z * sd;
}

/** Standard deviation of what the columns bring together, at a point. */
export function deviation(sds: readonly Exact[], values: readonly number[]): number {
  return Math.sqrt(sds.reduce((sum, sd, column) => sum + (toNumber(sd) * (values[column] ?? 0)) ** 2, 0));
}

/** Whether exact weights keep the margin, decided without a root: with room r left, z²·Σ sd²x² must not pass r². */
export function keepsMargin(
  model: ExactModel,
  { row, z, sds }: ChanceRow,
  values: readonly Exact[],
): boolean {
  const exactRow = rowOf(model, row);
  const mean = activity(exactRow, values);
  const room = exactRow.upper ? subtract(exactRow.upper, mean) : subtract(mean, exactRow.lower ?? ZERO);
  if (compare(room, ZERO) < 0) return false;
  let variance = ZERO;
  sds.forEach((sd, column) => {
    const part = multiply(sd, values[column] ?? ZERO);
    variance = add(variance, multiply(part, part));
  });
  const margin = exact(z);
  return compare(multiply(multiply(margin, margin), variance), multiply(room, room)) <= 0;
}

/**
 * The plane that touches the margin at a point: a·x + z·Σ sd·u·x, with u the direction of the spread there. The
 * length of u is held at most 1 exactly, so that the plane never cuts off a point that keeps the margin.
 */
export function tangentCut(
  model: ExactModel,
  { row, z, sds }: ChanceRow,
  values: readonly number[],
): ExactRow {
  const base = rowOf(model, row);
  const parts = sds.map((sd, column) => toNumber(sd) * (values[column] ?? 0));
  const direction = unitVector(parts);
  const side = base.upper ? 1 : -1;
  const tilt = exact(side * z);
  const byColumn = new Map(base.terms.map(({ column, coefficient }) => [column, coefficient]));
  direction.forEach((u, column) => {
    const sd = sds[column] ?? ZERO;
    if (u === ZERO || sd === ZERO) return;
    byColumn.set(column, add(byColumn.get(column) ?? ZERO, multiply(tilt, multiply(sd, u))));
  });
  return {
    ...base,
    plane: true,
    terms: [...byColumn].map(([column, coefficient]) => ({ column, coefficient })),
  };
}

/** Digits of a direction: any direction not longer than 1 gives a true plane. */
const DIRECTION_DIGITS = 12;

/** @param spread of any size: squares of very small ones would vanish, so the largest is brought to 1 first. */
function unitVector(spread: readonly number[]): Exact[] {
  const largest = spread.reduce((max, part) => Math.max(max, Math.abs(part)), 0);
  const parts = spread.map((part) => (largest === 0 ? 0 : part / largest));
  const length = Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));
  if (length === 0) return parts.map(() => ZERO);
  for (let shorter = 1; ; shorter -= 1e-11) {
    const direction = parts.map((part) =>
      exact(Number(((shorter * part) / length).toFixed(DIRECTION_DIGITS))),
    );
    const square = direction.reduce((sum, u) => add(sum, multiply(u, u)), ZERO);
    if (compare(square, ONE) <= 0) return direction;
  }
}

function rowOf(model: ExactModel, row: number): ExactRow {
  const found = model.rows[row];
  if (!found) throw new RangeError(`there is no row ${row}`);
  return found;
}
