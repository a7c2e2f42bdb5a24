import type { Viewed } from './viewed.ts';

type Worth = NonNullable<Viewed['worth']>;

export interface PriceRow {
  readonly supplyId: string;
  readonly material: string;
  /** Per kilogram, as all prices here. */
  readonly price: number;
  readonly isUsed: boolean;
  /**
   * Of a lot in the blend: from where to where the blend stays best. Of another: the price below which it goes in, and its
   * own price; then the blend stays best between them and beyond. Absent where no price brings it in.
   */
  readonly from?: number;
  readonly to?: number;
}

/** Most lots that are drawn: of those that do not go in, the ones that are nearest to going in. */
const MOST_UNUSED = 8;

/** Lots in the blend first, then those that are nearest to going in. */
export function priceRows({ used, notUsed }: Worth): PriceRow[] {
  const inBlend = used.flatMap(
    ({ supplyId, material, costPerKg: price, bestFromPerKg, bestToPerKg }): PriceRow[] =>
      bestFromPerKg === undefined
        ? []
        : [
            {
              supplyId,
              material,
              price,
              isUsed: true,
              from: bestFromPerKg,
              ...(bestToPerKg !== undefined && { to: bestToPerKg }),
            },
          ],
  );
  const outside = notUsed
    .flatMap(({ supplyId, material, costPerKg: price, wouldEnterBelowPerKg: from }) =>
      from === undefined ? [] : [{ supplyId, material, price, isUsed: false, from }],
    )
    .sort((a, b) => (a.price - a.from) / a.price - (b.price - b.from) / b.price);
  return [...inBlend, ...outside.slice(0, MOST_UNUSED)];
}

/** A scale for all rows together: a price as a share of the width, 0 to 1. */
export function scaleOf(rows: readonly PriceRow[]): (price: number) => number {
  const figures = rows.flatMap(({ price, from, to, isUsed }) => [
    price,
    // A band that begins at nothing says only that cheaper is always fine: it is cut at the edge.
    ...(from !== undefined && (!isUsed || from > price * 0.3) ? [from] : []),
    ...(to !== undefined && to < price * 2 ? [to] : []),
  ]);
  const [low, high] = [Math.min(...figures), Math.max(...figures)];
  const air = Math.max((high - low) * 0.06, high * 0.01);
  return (price) => Math.min(1, Math.max(0, (price - low + air) / (high - low + 2 * air)));
}
