import { GRINDING_NOTES, GRINDING_TITLE, type GrindSource } from '../../documents/logs/grinding.ts';
import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { grouped, lotPlace } from '../../ledger/trace.ts';
import { type Step, stepsOf } from '../../making/batch.ts';
import {
  betweenCleanings,
  type GrinderCleaning,
  type GrindLotBatches,
  type Ground,
  grindLots,
  isBetween,
  isRawGroundBeef,
} from '../../making/logs/grinding.ts';
import { standingWeighings, supplyOf } from '../../making/weighing.ts';
import { batchesWithSteps, type Days, type LoggedBatch } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';
import { lotRows, traceFrom } from '../../store/trace.ts';
import { massText } from '../../units.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { bodyOf } from '../stock/lot-view.ts';
import { around, type BatchAtGrinder, batchesAtGrinder, grinderCleanings } from './at-grinder.ts';
import { timeAt } from './times.ts';
import { nameOfLot } from './trace.ts';

/** Lots of raw ground beef that were produced in these days, each whole, with all that they were made of. */
export async function grindingLog(db: Db, data: PlantBooks, days: Days) {
  const ground = new Map<string, GroundBatch>();
  // A lot that began before the first day or ends after the last is shown whole.
  for await (const batch of batchesWithSteps(db, ['weighed', 'finished'], around(days))) {
    const found = groundOf(batch);
    if (found) ground.set(batch.row.id, found);
  }
  const isOfDays = (day = '') => day >= days.fromDay && day <= days.toDay;
  const { timeZone } = data.plant;
  const cleanings = await grinderCleanings(db, around(days));
  const lots = grindLots(
    [...ground.values()].map((one) => one.ground),
    cleanings.map(({ at }) => at),
  ).filter(({ batches }) => batches.some(({ batchId }) => isOfDays(ground.get(batchId)?.day)));
  const shown = lots.flatMap(({ batches }) => batches.flatMap(({ batchId }) => ground.get(batchId) ?? []));
  const sources = await sourcesOf(db, data, shown);
  const atGrinder = await batchesAtGrinder(db, around(days));
  return {
    title: GRINDING_TITLE,
    notes: GRINDING_NOTES,
    items: lots.map(({ batches, from, until, cleanedBefore, cleanedAfter }, index) => ({
      number: index + 1,
      batches: batches.map(({ batchId }) => ({ batchId, product: ground.get(batchId)?.product ?? '' })),
      producedFrom: timeAt(timeZone, from),
      producedUntil: timeAt(timeZone, until),
      ...(cleanedBefore !== undefined && { cleanedBefore: timeAt(timeZone, cleanedBefore) }),
      ...(cleanedAfter !== undefined && { cleanedAfter: timeAt(timeZone, cleanedAfter) }),
      groundBefore: groundBefore({ batches, from, until }, atGrinder, cleanings),
      sources: sources(batches.flatMap(({ batchId }) => ground.get(batchId)?.weighed ?? [])),
    })),
  };
}

/** What was ground before a lot with no cleaning of the grinder between, of whatever meat: its carry-over. */
function groundBefore(
  { batches, from, until }: Pick<GrindLotBatches, 'batches' | 'from' | 'until'>,
  atGrinder: readonly BatchAtGrinder[],
  cleanings: readonly GrinderCleaning[],
): { batchId: string; product: string }[] {
  const own = new Set(batches.map(({ batchId }) => batchId));
  const { cleanedBefore } = betweenCleanings({ from, until }, cleanings);
  return atGrinder
    .filter((one) => !own.has(one.batchId) && one.from < until)
    .filter((one) => isBetween(one, cleanedBefore === undefined ? {} : { cleanedBefore }))
    .map(({ batchId, product }) => ({ batchId, product }));
}

interface Weighed {
  readonly lotId: string | undefined;
  readonly material: string;
  readonly massUg: number;
}

interface GroundBatch {
  readonly ground: Ground;
  readonly product: string;
  /** On which it was produced. */
  readonly day: string;
  readonly weighed: readonly Weighed[];
}

/** A batch of raw ground beef; undefined for any other. */
function groundOf({ row, steps, basis, supplies }: LoggedBatch): GroundBatch | undefined {
  const weighings = standingWeighings(steps);
  const [first] = weighings;
  const allIn = stepsOf(steps, 'weighed').at(-1);
  if (!first || !allIn) return undefined;
  const produced: Step = stepsOf(steps, 'finished').at(-1) ?? allIn;
  const weighed = weighings.map(({ body }) => ({ body, material: supplyOf(body, supplies).material }));
  const materials = weighed.map(({ material }) => material);
  if (!isRawGroundBeef(basis.product, materials)) return undefined;
  return {
    ground: {
      batchId: row.id,
      from: first.at,
      weighedAt: allIn.at,
      until: produced.at,
      sourceIds: weighings.map(({ body }) => body.lotId ?? body.materialId),
    },
    product: basis.product.name,
    day: produced.day,
    weighed: weighed.map(({ body: { lotId, massUg }, material }) => ({
      lotId,
      material: material.name,
      massUg,
    })),
  };
}

/** Tells what batches were made of: lots as they came, and what rework carried over from batches before. */
async function sourcesOf(
  db: Db,
  data: PlantBooks,
  batches: readonly GroundBatch[],
): Promise<(weighed: readonly Weighed[]) => GrindSource[]> {
  const ids = [...new Set(batches.flatMap(({ weighed }) => weighed.flatMap(({ lotId }) => lotId ?? [])))];
  const rows = new Map((await lotRows(db, ids)).map((row) => [row.id, row]));
  const carried = new Map<string, GrindSource[]>();
  for (const row of rows.values()) {
    if (row.batchId !== null) carried.set(row.id, await carriedOver(db, data, row.id));
  }
  const { units } = data.plant;
  return (weighed) =>
    [...grouped(weighed, ({ lotId, material }) => lotId ?? `without ${material}`).values()].flatMap((own) => {
      const [{ lotId, material }] = own as [Weighed];
      const massUg = own.reduce((sum, one) => sum + one.massUg, 0);
      const row = lotId === undefined ? undefined : rows.get(lotId);
      const source = {
        material,
        ...(lotId !== undefined && { lotId }),
        ...(row && originOf(row)),
        weighed: massText(kilogramsOfMicrograms(massUg), units),
      };
      return [source, ...(carried.get(lotId ?? '') ?? [])];
    });
}

function originOf(row: LotRow): Partial<GrindSource> {
  const { supplierEstablishment, supplierLot, packedDate } = bodyOf(row);
  return {
    ...(supplierEstablishment !== undefined && { supplierEstablishment }),
    ...(supplierLot !== undefined && { supplierLot }),
    ...(packedDate !== undefined && { productionDate: packedDate }),
    ...(row.batchId !== null && { madeIn: row.batchId }),
  };
}

/** Everything received that a lot of rework may carry over. */
async function carriedOver(db: Db, data: PlantBooks, lotId: string): Promise<GrindSource[]> {
  const { lots } = await traceFrom(db, [lotPlace(lotId)], 'back');
  return [...lots.values()].flatMap(({ row }) =>
    row.batchId === null
      ? [{ material: nameOfLot(data, row), lotId: row.id, ...originOf(row), carriedOverBy: lotId }]
      : [],
  );
}
