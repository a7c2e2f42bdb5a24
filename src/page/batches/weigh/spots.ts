import type { MassUnit } from '../../../units.ts';
import { fixed, inUnit, kilograms } from '../../../units.ts';
import type { Batch, Line, LineInLoad } from '../batch.ts';

/** What is weighed and what is still to be weighed, as this device knows it: with weighings that are not sent yet. */

/** A weighing as the API takes it. */
export interface Weighing {
  readonly line: number;
  readonly load: number;
  readonly weight: { readonly value: string; readonly unit: MassUnit };
  readonly lotId?: string;
  readonly reason?: string;
  readonly meant?: boolean;
}

/** A weighing that was put out on this device. */
export interface PutOut {
  readonly key: string;
  readonly body: Weighing;
  /** The version of the batch when it was put out. */
  readonly seenAt: number;
  /** Who put it out. */
  readonly by: string;
}

/** Those that the batch does not show yet: each weighing of the batch is the arrival of one of them at most. */
export function notArrived(batch: Batch, putOut: readonly PutOut[]): PutOut[] {
  const taken = new Set<number>();
  return putOut.filter(({ body, seenAt, by }) => {
    const there = loadOf(batch, body)?.weighings.find(
      ({ step, weight, lotId, by: whose }) =>
        step > seenAt &&
        whose === by &&
        !taken.has(step) &&
        weight.value === body.weight.value &&
        weight.unit === body.weight.unit &&
        (body.lotId === undefined || body.lotId === lotId),
    );
    if (there) taken.add(there.step);
    return !there;
  });
}

const loadOf = ({ lines }: Batch, { line, load }: Weighing): LineInLoad | undefined =>
  lines.find(({ number }) => number === line)?.loads.find((one) => one.load === load);

/** One line in one load. */
export interface Spot {
  readonly line: Line;
  readonly load: number;
  readonly plannedKg: number;
  /** With what is not sent yet. */
  readonly inKg: number;
  readonly restKg: number;
  /** What is left, as its scale shows it: '86.4'. */
  readonly restText: string;
  readonly isBegun: boolean;
  readonly isUnsent: boolean;
  readonly underKg: number;
  readonly overKg: number;
  readonly weighings: LineInLoad['weighings'];
}

export function spotsOf(batch: Batch, unsent: readonly PutOut[]): Spot[] {
  return batch.lines.flatMap((line) =>
    line.loads.map((at): Spot => {
      const mine = unsent.filter(({ body }) => body.line === line.number && body.load === at.load);
      const unsentKg = mine.reduce((sum, { body }) => sum + kgOf(body.weight), 0);
      const missingKg = at.rest.kg - unsentKg;
      const isDone = at.rest.kg === 0 || (mine.length > 0 && missingKg <= at.tolerance.under.kg);
      const restKg = isDone ? 0 : missingKg;
      const isBegun = at.weighings.length > 0 || mine.length > 0;
      return {
        line,
        load: at.load,
        plannedKg: at.planned.kg,
        inKg: at.weighed.kg + unsentKg,
        restKg,
        restText: isBegun ? asOnScale(restKg, line) : line.perLoad.value,
        isBegun,
        isUnsent: mine.length > 0,
        underKg: at.tolerance.under.kg,
        overKg: at.tolerance.over.kg,
        weighings: at.weighings,
      };
    }),
  );
}

/** A weight in the unit of a line, with the decimals of its scale. */
export function asOnScale(massKg: number, { perLoad }: Pick<Line, 'perLoad'>): string {
  return fixed(inUnit(massKg, perLoad.unit), perLoad.value.split('.')[1]?.length ?? 0);
}

export const kgOf = ({ value, unit }: Weighing['weight']): number =>
  kilograms({ value: Number(value), unit });

/** The next line of a load to weigh: the first that waits after a line, or else the first of all; undefined when none waits. */
export function nextSpot(spots: readonly Spot[], load: number, after = 0): Spot | undefined {
  const waiting = spots.filter((spot) => spot.load === load && spot.restKg > 0);
  return waiting.find(({ line }) => line.number > after) ?? waiting[0];
}

/** The load to weigh: the first that still waits for something, or else the last. */
export function nextLoad(spots: readonly Spot[]): number {
  const waiting = spots.filter(({ restKg }) => restKg > 0).map(({ load }) => load);
  return waiting.length > 0 ? Math.min(...waiting) : Math.max(1, ...spots.map(({ load }) => load));
}
