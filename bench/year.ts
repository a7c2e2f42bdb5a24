import type { StepBodies } from '../src/making/batch.ts';
import { openBatch, takeStep } from '../src/store/batches.ts';
import { keepDocument } from '../src/store/documents.ts';
import { book, openLot } from '../src/store/lots.ts';
import type { Store, Writing } from '../src/store/store.ts';

/** Years of a plant that makes twenty batches a day: trim comes in, batches take four lots each, packs go out. */

export const BATCHES_A_DAY = 20;
export const DAYS_A_YEAR = 250;

const LOTS_A_DAY = 16;
const KG = 1_000_000_000;

/** Calendar day number n of the scenario. */
export function dayOf(n: number): string {
  return new Date(Date.UTC(2020, 0, 1) + n * 86_400_000).toISOString().slice(0, 10);
}

/** Writes days into a store. @param from number of the first day. */
export async function writeDays(store: Store, from: number, days: number): Promise<void> {
  for (let n = from; n < from + days; n++) await writeDay(store, dayOf(n));
}

export const lotId = (day: string, n: number) => `${day}-L${n}`;
export const packId = (batch: string) => `${batch}-P1`;

async function writeDay(store: Store, day: string): Promise<void> {
  const act = (action: string, kind: string, id: string) => ({
    by: { id: 'bench', name: 'Bench' },
    at: `${day}T12:00:00.000Z`,
    day,
    action,
    subject: { kind, id },
  });
  await store.write(act('lots received', 'lot', day), async (writing) => {
    for (let n = 0; n < LOTS_A_DAY; n++) {
      const id = lotId(day, n);
      await openLot(writing, {
        id,
        kind: 'material',
        ofId: 'beef-trim-85',
        body: {
          costPerKg: 5,
          state: 'chilled',
          supplierEstablishment: `0000${n % 5}`,
          supplierLot: `S-${id}`,
        },
        receivedDay: day,
      });
      await book(writing, { lotId: id, kind: 'received', massUg: 300 * KG, reservedUg: 0 });
    }
    return { says: `${LOTS_A_DAY} lots`, result: null };
  });
  let rework: string | undefined;
  for (let n = 0; n < BATCHES_A_DAY; n++) {
    rework = await store.write(act('batch made', 'batch', `${day}/${n}`), async (writing) => ({
      says: 'made',
      result: await writeBatch(writing, day, n, rework),
    }));
  }
}

/** A batch of four lots and what the one before left over. @returns the lot that it leaves over. */
async function writeBatch(
  writing: Writing,
  day: string,
  n: number,
  rework: string | undefined,
): Promise<string> {
  const lots = [0, 1, 2, 3].map((k) => ({ id: lotId(day, (n * 3 + k) % LOTS_A_DAY), massUg: 40 * KG }));
  const takes = rework === undefined ? lots : [...lots, { id: rework, massUg: 2 * KG }];
  const weighedUg = takes.reduce((total, { massUg }) => total + massUg, 0);
  const basisHash = await keepDocument(writing, { product: { name: 'bench' } });
  const batchId = await openBatch(writing, 'bench-product', day, async () =>
    planOf(takes, basisHash, weighedUg, day),
  );
  const row = async () =>
    writing.db.selectFrom('batches').selectAll().where('id', '=', batchId).executeTakeFirstOrThrow();
  for (const [index, { id, massUg }] of takes.entries()) {
    const movement = await book(writing, {
      lotId: id,
      kind: 'weighed',
      massUg: -massUg,
      reservedUg: 0,
      batchId,
    });
    await takeStep(writing, await row(), 'weighing', {
      load: 1,
      line: index + 1,
      materialId: 'beef-trim-85',
      lotId: id,
      weight: { value: String(massUg / KG), unit: 'kg' },
      massUg,
      movement,
    });
  }
  await takeStep(writing, await row(), 'weighed', {
    weighedUg,
    labelHash: basisHash,
    deviations: [],
    limits: [],
    makeup: NO_MAKEUP,
  });
  const restId = `${batchId}-R1`;
  const outputUg = weighedUg - 2 * KG;
  await openLot(writing, {
    id: batchId,
    kind: 'bulk',
    ofId: 'bench-product',
    batchId,
    body: {},
    receivedDay: day,
  });
  await book(writing, { lotId: batchId, kind: 'produced', massUg: outputUg, reservedUg: 0, batchId });
  await openLot(writing, {
    id: restId,
    kind: 'material',
    ofId: 'rework',
    batchId,
    body: {},
    receivedDay: day,
  });
  await book(writing, { lotId: restId, kind: 'produced', massUg: 2 * KG, reservedUg: 0, batchId });
  const pack = packId(batchId);
  await openLot(writing, {
    id: pack,
    kind: 'pack',
    ofId: 'bench-product',
    batchId,
    body: {},
    receivedDay: day,
  });
  const packed = { kind: 'packed', reservedUg: 0, batchId } as const;
  await book(writing, { ...packed, lotId: batchId, massUg: -outputUg, otherLotId: pack });
  await book(writing, { ...packed, lotId: pack, massUg: outputUg, otherLotId: batchId });
  await book(writing, {
    lotId: pack,
    kind: 'shipped',
    massUg: -outputUg,
    reservedUg: 0,
    details: { to: 'Consignee 1', document: batchId },
  });
  return restId;
}

const NO_MAKEUP = { fatFraction: 0.2, waterFraction: 0.6, proteinFraction: 0.18, saltFraction: 0 };

function planOf(
  takes: readonly { readonly id: string; readonly massUg: number }[],
  hash: string,
  batchUg: number,
  date: string,
): StepBodies['planned'] {
  return {
    productId: 'bench-product',
    date,
    loads: 1,
    batchUg,
    lines: takes.map(({ id, massUg }, index) => ({
      number: index + 1,
      supplyId: id,
      materialId: 'beef-trim-85',
      material: 'Beef trim 85 % lean',
      lotId: id,
      perLoad: { value: String(massUg / KG), unit: 'kg' },
      scaleId: 'floor',
      perLoadUg: massUg,
      loads: [1],
    })),
    request: {},
    basisHash: hash,
    suppliesHash: hash,
    sheetHash: hash,
    labelHash: hash,
    cost: 1,
    currency: 'USD',
  };
}
