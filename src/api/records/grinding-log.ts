import { GRINDING_NOTES, GRINDING_TITLE, type GrindSource } from '../../documents/logs/grinding.ts';
import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { grouped, lotPlace } from '../../ledger/trace.ts';
import { type Step, stepsOf } from '../../making/batch.ts';
import { type Ground, grindLots, isRawGroundBeef } from '../../making/logs/grinding.ts';
import { standingWeighings, supplyOf } from '../../making/weighing.ts';
import { batchesWithSteps, type Days, type LoggedBatch } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';
import { lotRows, traceFrom } from '../../store/trace.ts';
import { massText } from '../../units.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { bodyOf } from '../stock/lot-view.ts';
import { cleaningsDone } from './cleanings.ts';
import { dayLater, timeAt } from './times.ts';
import { nameOfLot } from './trace.ts';

/** How far before and after the days of a log its cleanings are looked for. */
const CLEANING_DAYS = 14;

/** Batches of raw ground beef of these days, as lots of the grinding log with all that they were made of. */
export async function grindingLog(db: Db, data: PlantBooks, days: Days) {
  const ground = new Map<string, GroundBatch>();
  for await (const batch of batchesWithSteps(db, ['weighed', 'finished'], days)) {
    const found = groundOf(batch, days);
    if (found) ground.set(batch.row.id, found);
  }
  const sources = await sourcesOf(db, data, [...ground.values()]);
  const { timeZone } = data.plant;
  const cleanings = await grinderCleanings(db, days);
  const lots = grindLots(
    [...ground.values()].map((one) => one.ground),
    cleanings,
  );
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
      sources: sources(batches.flatMap(({ batchId }) => ground.get(batchId)?.weighed ?? [])),
    })),
  };
}

/** Instants at which a grinder was cleaned and sanitized, around these days. */
async function grinderCleanings(db: Db, { fromDay, toDay }: Days): Promise<string[]> {
  const done = await cleaningsDone(db, {
    fromDay: dayLater(fromDay, -CLEANING_DAYS),
    toDay: dayLater(toDay, CLEANING_DAYS),
  });
  return done
    .filter(({ what, withdrawn }) => what === 'cleaned and sanitized' && !withdrawn)
    .filter(({ equipment }) => equipment.some((piece) => /grinder/i.test(piece)))
    .map(({ at }) => at);
}

interface Weighed {
  readonly lotId: string | undefined;
  readonly material: string;
  readonly massUg: number;
}

interface GroundBatch {
  readonly ground: Ground;
  readonly product: string;
  readonly weighed: readonly Weighed[];
}

/** A batch of raw ground beef that was produced in these days; undefined for any other. */
function groundOf({ row, steps, basis, supplies }: LoggedBatch, days: Days): GroundBatch | undefined {
  const weighings = standingWeighings(steps);
  const [first] = weighings;
  const allIn = stepsOf(steps, 'weighed').at(-1);
  if (!first || !allIn) return undefined;
  const produced: Step = stepsOf(steps, 'finished').at(-1) ?? allIn;
  if (produced.day < days.fromDay || produced.day > days.toDay) return undefined;
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
