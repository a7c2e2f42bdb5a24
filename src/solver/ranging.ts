import type { KeptModel } from './keep-open.ts';

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
    const dearest = kept.model().columns.reduce((max, { cost }) => Math.max(max, Math.abs(cost)), 1);
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
