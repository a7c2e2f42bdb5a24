import type { BatchAnswer } from '../../api/batches/contract.ts';
import { kilograms } from '../../units.ts';

type Line = Pick<BatchAnswer['lines'][number], 'lotId' | 'loads'>;

/**
 * The lots that really went in on a line, each with its weight in all loads: where the planned one ran out there are two.
 * The planned lot stands first; alone, and with nothing, where nothing of the line was weighed.
 */
export function lotsWeighed({
  lotId,
  loads,
}: Line): { readonly lotId: string | undefined; readonly kg: number }[] {
  const kgOf = new Map<string | undefined, number>();
  for (const { lotId: taken, weight } of loads.flatMap(({ weighings }) => weighings)) {
    kgOf.set(taken, (kgOf.get(taken) ?? 0) + kilograms({ value: Number(weight.value), unit: weight.unit }));
  }
  if (kgOf.size === 0) return [{ lotId, kg: 0 }];
  return [...kgOf]
    .map(([taken, kg]) => ({ lotId: taken, kg }))
    .toSorted((a, b) => Number(b.lotId === lotId) - Number(a.lotId === lotId));
}
