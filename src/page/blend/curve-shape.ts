import type { Frame } from '../pictures/scale.ts';

/** The geometry of the picture of cost against fat. */

export interface CurvePoint {
  /** Fat of the finished product, percent. */
  readonly fat: number;
  readonly cost: number;
}

export interface Axes {
  readonly fat: readonly [number, number];
  readonly cost: readonly [number, number];
}

/** Axes that hold every point, the costs with a little air. */
export function axesOf(points: readonly CurvePoint[], range: readonly [number, number]): Axes {
  const costs = points.map(({ cost }) => cost);
  const [low, high] = [Math.min(...costs), Math.max(...costs)];
  const air = Math.max((high - low) * 0.08, high * 0.005);
  return { fat: range, cost: [low - air, high + air] };
}

export const xOf = (fat: number, { fat: [from, to] }: Axes, { left, right, width }: Frame): number =>
  left + ((fat - from) / (to - from)) * (width - left - right);

export const yOf = (cost: number, { cost: [from, to] }: Axes, { top, bottom, height }: Frame): number =>
  height - bottom - ((cost - from) / (to - from)) * (height - top - bottom);

/** The fat at a place of the picture, to half a point. */
export function fatAt(x: number, { fat: [from, to] }: Axes, { left, right, width }: Frame): number {
  const share = Math.min(1, Math.max(0, (x - left) / (width - left - right)));
  return Math.round((from + share * (to - from)) * 2) / 2;
}

/** The cost on the curve, straight between its points; undefined beyond its ends. */
export function costAt(points: readonly CurvePoint[], fat: number): number | undefined {
  for (let index = 1; index < points.length; index++) {
    const [a, b] = [points[index - 1], points[index]];
    if (!a || !b || fat < a.fat || fat > b.fat) continue;
    return b.fat === a.fat ? b.cost : a.cost + ((fat - a.fat) / (b.fat - a.fat)) * (b.cost - a.cost);
  }
  return undefined;
}
