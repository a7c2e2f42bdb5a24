import { accountedUg, affectedUg, type Whereabouts } from '../../ledger/trace.ts';
import { weight } from '../stock/lot-view.ts';
import type { WhereaboutsAnswer } from './contract.ts';
import { percentOf } from './trace.ts';

/** What the figures of a drill count, for whoever reads them years later. */
export const COUNTS = [
  'Affected is everything that was made with any of it, with the other materials in it, whatever became of it.',
  'Accounted for is what the books show as on hand, in process, shipped or sold to someone known, discarded, taken as a sample, or lost in a process that has its record.',
  'Not accounted for is what was sold over the counter to someone not known, and what was missing when lots were counted.',
  'What was ground between the same two cleanings of the grinder without any of it having been weighed in stands beside it, in no figure.',
  'At the finish, of what is on hand only what was found counts, and of each lot no more than the books have: what is found beyond them makes up for nothing that is missing.',
];

export function whereaboutsAnswer(where: Whereabouts): WhereaboutsAnswer {
  const { onHand, shipped, sold } = where;
  const named = (parts: ReadonlyMap<string, number>) =>
    [...parts].sort().map(([to, massUg]) => ({ to, mass: weight(massUg) }));
  return {
    affected: weight(affectedUg(where)),
    onHand: { material: weight(onHand.material), bulk: weight(onHand.bulk), packs: weight(onHand.packs) },
    inProcess: weight(where.inProcess),
    shipped: named(shipped),
    sold: named(sold),
    soldAtCounter: weight(where.soldAtCounter),
    discarded: weight(where.discarded),
    samples: weight(where.samples),
    lossInProcess: weight(where.lossInProcess),
    countedShort: weight(where.countedShort),
    accounted: weight(accountedUg(where)),
    percentAccounted: percentOf(accountedUg(where), affectedUg(where)),
  };
}
