import { columnWorths, ON, type WorthAsked } from './column-worth.ts';
import type { KeptModel } from './keep-open.ts';
import type { Column, Engine } from './model.ts';
import type { Priced } from './prices.ts';

/**
 * Over which costs an optimum stays best. The least cost as a function of one column's cost is a chain of straight
 * lines that only bends downward, so its corners are found exactly by walking from line to line (Newton's method on
 * a concave function); unlike the ranges of one basis they are right at a degenerate optimum too.
 */

/** What ranging starts from: an optimum of the kept model as it stands. */
export interface Optimal {
  readonly cost: number;
  readonly values: readonly number[];
}

/** Lines walked before giving up; two or three are usual. */
const MOST_LINES = 60;
const SAME_COST = 1e-9;
/** Less of a column than this is none. */
const NONE = 1e-7;
/** How far up a cost is tried before it counts as any cost, in costs of the dearest column. */
const FAR = 1000;
/** A cost below this share of the dearest is none. */
const NOTHING = 1e-8;

/** Costs of a column between which an optimum stays one; without an end it stays so however far the cost goes. */
export interface CostRange {
  readonly from?: number;
  readonly to?: number;
}

/**
 * The range of every column at once: of an unused one the cost below which it would be used, if there is any; of a used
 * one both ends. A column on a bound is asked what it is worth there, which takes no solve of the model; one between its
 * bounds, and every one where the row prices are not to be trusted, is walked.
 * @param kept the model that the optimum is of, as it stands.
 */
export function costRanges(kept: KeptModel, optimum: Priced, engines: readonly Engine[]): CostRange[] {
  const { columns } = kept.model();
  const at = columns.map(({ lower, upper }, column) => {
    const value = optimum.values[column] ?? 0;
    return { isUsed: value > ON, isLeast: value <= lower + ON, isMost: value >= upper - ON };
  });
  const asked = at.flatMap(({ isLeast, isMost }, column): WorthAsked[] =>
    isLeast === isMost ? [] : [{ column, end: isLeast ? 'least' : 'most' }],
  );
  const worths = columnWorths(kept.model(), optimum, asked, engines);
  const worthOf = new Map(worths?.map((worth, index) => [asked[index]?.column, worth]));
  const dearest = dearestCost(columns);
  return columns.map(({ cost }, column): CostRange => {
    const { isUsed, isLeast, isMost } = at[column] as (typeof at)[number];
    const worth = worthOf.get(column);
    if (isLeast && isMost) return isUsed ? { from: Math.min(cost, 0) } : {};
    if (worth === undefined) {
      if (isUsed) return costRange(kept, column, optimum);
      const from = entryCost(kept, column, optimum);
      return from === undefined ? {} : { from };
    }
    if (!isUsed) return worth <= NOTHING * dearest ? {} : { from: Math.min(cost, worth) };
    if (isLeast) return { from: Math.min(cost, Math.max(0, worth)) };
    const isEnd = worth < cost + FAR * dearest;
    return { from: Math.min(cost, 0), ...(isEnd && { to: Math.max(cost, worth) }) };
  });
}

/**
 * The cost below which an unused column would be used; undefined when it would not even at no cost.
 * @returns at most the column's present cost.
 */
export function entryCost(kept: KeptModel, column: number, optimal: Optimal): number | undefined {
  const present = costIn(kept, column);
  const same = sameCost(optimal.cost);
  try {
    let cost = 0;
    for (let line = 0; line < MOST_LINES; line++) {
      kept.setCost(column, cost);
      const outcome = kept.solve();
      if (outcome.status !== 'optimal') return undefined;
      const used = outcome.values[column] ?? 0;
      const saved = optimal.cost - outcome.cost;
      if (saved <= same || used <= NONE) return line === 0 ? undefined : Math.min(cost, present);
      cost += saved / used;
      if (cost >= present) return present;
    }
    return undefined;
  } finally {
    kept.setCost(column, present);
  }
}

/** The costs of a used column between which the optimum stays best; without an upper end it is best at any cost. */
export function costRange(
  kept: KeptModel,
  column: number,
  optimal: Optimal,
): { readonly from: number; readonly to?: number } {
  const present = costIn(kept, column);
  try {
    const from = Math.min(present, Math.max(0, walk(kept, column, optimal, present, 0) ?? 0));
    const dearest = dearestCost(kept.model().columns);
    const to = walk(kept, column, optimal, present, present + FAR * dearest);
    return { from, ...(to !== undefined && { to: Math.max(present, to) }) };
  } finally {
    kept.setCost(column, present);
  }
}

/** From a far cost back toward the present one, to where the optimum is best again; undefined if it is so already. */
function walk(
  kept: KeptModel,
  column: number,
  optimal: Optimal,
  present: number,
  far: number,
): number | undefined {
  const used = optimal.values[column] ?? 0;
  let at = far;
  for (let line = 0; line < MOST_LINES; line++) {
    kept.setCost(column, at);
    const outcome = kept.solve();
    if (outcome.status !== 'optimal') return at;
    const stays = optimal.cost + used * (at - present);
    const other = outcome.values[column] ?? 0;
    const better = stays - outcome.cost > sameCost(Math.max(Math.abs(stays), Math.abs(optimal.cost)));
    if (!better || Math.abs(other - used) <= NONE) return line === 0 ? undefined : at;
    const otherNow = outcome.cost - other * (at - present);
    const next = present + (otherNow - optimal.cost) / (used - other);
    if (!Number.isFinite(next) || Math.abs(next - present) >= Math.abs(at - present)) return at;
    at = next;
  }
  return at;
}

function dearestCost(columns: readonly Column[]): number {
  return columns.reduce((max, { cost }) => Math.max(max, Math.abs(cost)), 1);
}

function costIn(kept: KeptModel, column: number): number {
  return boundsIn(kept, column).cost;
}

function boundsIn(kept: KeptModel, column: number) {
  const found = kept.model().columns[column];
  if (!found) throw new RangeError(`there is no column ${column}`);
  return found;
}

function sameCost(cost: number): number {
  return SAME_COST * Math.max(1, Math.abs(cost));
}
