import type { WhereaboutsAnswer } from '../../api/records/contract.ts';

/** What became of everything that was made of a lot, as parts of a whole. */

export type PartName = 'onHand' | 'inProcess' | 'shipped' | 'sold' | 'gone' | 'loss' | 'counter' | 'short';

export interface Part {
  readonly name: PartName;
  /** To whom, where somebody got it. */
  readonly to?: string;
  readonly massKg: number;
  readonly isAccounted: boolean;
}

/** Every part that is not 0, those accounted for first. Below 0 is what was gained. */
export function partsOf(where: WhereaboutsAnswer): Part[] {
  const { onHand, inProcess, shipped, sold, discarded, samples, lossInProcess } = where;
  const part = (name: PartName, massKg: number, isAccounted = true): Part => ({ name, massKg, isAccounted });
  return [
    part('onHand', onHand.material.kg + onHand.bulk.kg + onHand.packs.kg),
    part('inProcess', inProcess.kg),
    ...shipped.map(({ to, mass }) => ({ ...part('shipped', mass.kg), to })),
    ...sold.map(({ to, mass }) => ({ ...part('sold', mass.kg), to })),
    part('gone', discarded.kg + samples.kg),
    part('loss', lossInProcess.kg),
    part('counter', where.soldAtCounter.kg, false),
    part('short', where.countedShort.kg, false),
  ].filter(({ massKg }) => massKg !== 0);
}

export interface CountedLot {
  readonly onHandKg: number;
  /** Undefined while it was not found. */
  readonly foundKg: number | undefined;
}

/**
 * What a drill would come to if it were finished now, as the service counts: of each lot no more than the books have,
 * and the percentage rounded down to a tenth, because only all is 100 %.
 */
export function countedNow(where: WhereaboutsAnswer, lots: readonly CountedLot[]) {
  const { onHand, accounted, affected } = where;
  const elsewhereKg = accounted.kg - onHand.material.kg - onHand.bulk.kg - onHand.packs.kg;
  const foundKg = lots.reduce((sum, lot) => sum + Math.min(lot.foundKg ?? 0, lot.onHandKg), 0);
  const accountedKg = elsewhereKg + foundKg;
  const isAll = accountedKg >= affected.kg - 1e-9;
  const percent =
    affected.kg === 0 || isAll ? 100 : Math.min(99.9, Math.floor((accountedKg / affected.kg) * 1000) / 10);
  return { foundKg, accountedKg, percent };
}

/** '1:04:09' of so many milliseconds. */
export function clockText(ms: number): string {
  const seconds = Math.max(0, Math.floor(ms / 1000));
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  return `${hours > 0 ? `${hours}:${two(minutes)}` : minutes}:${two(seconds % 60)}`;
}
