import type { CostAnswer } from '../../api/reports/contract.ts';

/** What batches cost, added up by day or by product. Money in the currency named. */

export interface CostRow {
  readonly name: string;
  readonly currency: string;
  readonly batches: number;
  readonly planned: number;
  readonly weighed: number;
  /** Thrown away and lost beyond the declared yield; what was gained is not set off against it. */
  readonly lost: number;
  readonly givenAway: number;
}

export type CostsBy = 'day' | 'product';

/** Days in their order, products with the dearest first. */
export function costRows({ batches }: CostAnswer, by: CostsBy): CostRow[] {
  const rows = new Map<string, CostRow>();
  for (const { date, product, currency, planned, weighed, finished, givenAway } of batches) {
    const name = by === 'day' ? date : product;
    const key = JSON.stringify([name, currency]);
    const before = rows.get(key);
    const gained = (cost: number | undefined) => Math.max(0, cost ?? 0);
    rows.set(key, {
      name,
      currency,
      batches: (before?.batches ?? 0) + 1,
      planned: (before?.planned ?? 0) + planned.cost,
      weighed: (before?.weighed ?? 0) + weighed.cost,
      lost: (before?.lost ?? 0) + gained(finished?.discarded.cost) + gained(finished?.lossBeyondYield.cost),
      givenAway: (before?.givenAway ?? 0) + gained(givenAway?.cost),
    });
  }
  return [...rows.values()].sort((one, other) =>
    by === 'day' ? (one.name < other.name ? -1 : 1) : other.weighed - one.weighed,
  );
}
