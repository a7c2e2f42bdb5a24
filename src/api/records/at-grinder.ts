import { stepsOf } from '../../making/batch.ts';
import {
  type AtGrinder,
  betweenCleanings,
  type GrinderCleaning,
  isBetween,
  isGround,
} from '../../making/logs/grinding.ts';
import { standingWeighings } from '../../making/weighing.ts';
import { type BatchTimes, batchTimes, type Days } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import type { TracedBatch } from '../../store/trace.ts';
import { cleaningsDone } from './cleanings.ts';
import type { TraceAnswer } from './contract.ts';
import { dayLater } from './times.ts';

/** What went through a grinder, and when the grinders were cleaned: a grinder carries over until it is. */

/** How far around a day the cleanings and batches that bound it are looked for. */
const AROUND_DAYS = 14;

export function around({ fromDay, toDay }: Days): Days {
  return { fromDay: dayLater(fromDay, -AROUND_DAYS), toDay: dayLater(toDay, AROUND_DAYS) };
}

/** Cleanings and sanitizings of grinders in these days, in the order of time. */
export async function grinderCleanings(db: Db, days: Days): Promise<GrinderCleaning[]> {
  const done = await cleaningsDone(db, days);
  return done
    .filter(({ what, withdrawn }) => what === 'cleaned and sanitized' && !withdrawn)
    .map(({ at, equipment }) => ({ at, grinders: equipment.filter((piece) => /grinder/i.test(piece)) }))
    .filter(({ grinders }) => grinders.length > 0);
}

/** A batch of whatever meat that went through a grinder. */
export interface BatchAtGrinder extends AtGrinder {
  readonly batchId: string;
  readonly product: string;
  readonly day: string;
}

/** Every batch that was ground in these days. */
export async function batchesAtGrinder(db: Db, days: Days): Promise<BatchAtGrinder[]> {
  return (await batchTimes(db, days)).flatMap(atGrinder);
}

/** From the first weighing until all was in; raw until it is finished, since it may be ground once more from the mixer. */
function atGrinder({ row, steps, product }: BatchTimes): BatchAtGrinder[] {
  const [first] = standingWeighings(steps);
  if (!first || !isGround(product)) return [];
  const last = stepsOf(steps, 'weighed').at(-1);
  const finished = stepsOf(steps, 'finished').at(-1);
  const until = product.process.cooking === 'raw' ? finished : last;
  return [{ batchId: row.id, product: product.name, day: row.day, from: first.at, until: until?.at }];
}

/**
 * Batches that are in no trace, but were ground with one that is between the same two cleanings: the grinder may have
 * carried some over. Where no cleaning was written down, whatever was ground within two weeks counts.
 */
export async function sameGrinder(
  db: Db,
  traced: ReadonlyMap<string, TracedBatch>,
): Promise<TraceAnswer['sameGrinder']> {
  const found = new Map<string, TraceAnswer['sameGrinder'][number]>();
  for (const days of daysAround([...traced.values()])) {
    const batches = await batchesAtGrinder(db, days);
    const cleanings = await grinderCleanings(db, around(days));
    const others = batches.filter(({ batchId }) => !traced.has(batchId));
    for (const one of batches.filter(({ batchId }) => traced.has(batchId))) {
      const between = betweenCleanings(one, cleanings);
      for (const other of others.filter((it) => isBetween(it, between))) {
        const { batchId, product, day } = other;
        const beside = found.get(batchId)?.beside ?? [];
        found.set(batchId, { batchId, product, date: day, beside: [...beside, one.batchId] });
      }
    }
  }
  return [...found.values()];
}

/** Spans of days around the days of these batches; spans that meet are one. */
function daysAround(batches: readonly TracedBatch[]): Days[] {
  const spans: { fromDay: string; toDay: string }[] = [];
  for (const day of batches.flatMap(({ row }) => row?.day ?? []).sort()) {
    const { fromDay, toDay } = around({ fromDay: day, toDay: day });
    const last = spans.at(-1);
    if (last && fromDay <= last.toDay) last.toDay = toDay;
    else spans.push({ fromDay, toDay });
  }
  return spans;
}
