import type { Supply } from '../batch/lot.ts';
import { type Exact, exact, subtract, sum, toNumber } from '../exact.ts';
import type { Blend, LeftOut } from '../formulate/blend.ts';
import { hasPlace } from '../formulate/choose-supplies.ts';
import { daysBetween } from './days.ts';
import type { ClosedCandidate, OpenCandidate } from './open-candidate.ts';
import type { LotUse } from './use-plan.ts';

/** What a plan does with every lot that one of its products can take. */
export function lotUses(
  lots: readonly Supply[],
  plannedKg: (id: string) => number,
  blends: readonly Blend[],
  worth: ReadonlyMap<string, number>,
  date: string,
): LotUse[] {
  return lots.map((supply): LotUse => {
    const { id, lot, onHandKg } = supply;
    const used = usedOf(id, blends);
    return {
      supply,
      plannedKg: plannedKg(id),
      usedKg: toNumber(used),
      leftKg: toNumber(subtract(exact(onHandKg), used)),
      ...(lot?.useByDate !== undefined && { daysToUseBy: daysBetween(date, lot.useByDate) }),
      oneKgMoreAdds: worth.get(id) ?? 0,
    };
  });
}

function usedOf(id: string, blends: readonly Blend[]): Exact {
  return sum(
    blends.flatMap(({ lines }) =>
      lines.filter(({ supply }) => supply.id === id).map(({ exactMassKg }) => exactMassKg),
    ),
  );
}

/** Lots that none of the products can take, each with every reason. */
export function lotsLeftOut(
  supplies: readonly Supply[],
  candidates: readonly (OpenCandidate | ClosedCandidate)[],
): LeftOut[] {
  return supplies
    .filter(({ id, lot }) => lot && !candidates.some((candidate) => canTake(candidate, id)))
    .map((supply) => ({ supply, because: whyLeftOut(supply, candidates) }));
}

/** Whether a product that can be made at all has the supply among what may go in. */
export function canTake(candidate: OpenCandidate | ClosedCandidate, id: string): boolean {
  return !('issues' in candidate) && candidate.choice.usable.some((supply) => supply.id === id);
}

function whyLeftOut(supply: Supply, candidates: readonly (OpenCandidate | ClosedCandidate)[]): string {
  const reasons = candidates
    .filter(({ product }) => hasPlace(supply, product))
    .map(({ product, choice }) => {
      const because = choice?.leftOut.find((entry) => entry.supply.id === supply.id)?.because;
      return { name: product.name, because: because ?? 'cannot be made' };
    });
  const [first, ...others] = reasons;
  if (!first) return 'none of these products has a place for it';
  if (first.because !== 'cannot be made' && others.every(({ because }) => because === first.because))
    return first.because;
  return reasons.map(({ name, because }) => `${name}: ${because}`).join('; ');
}
