import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { accountedUg, affectedUg, batchPlace, lotPlace, type Place } from '../../src/ledger/trace.ts';
import type { StepBodies } from '../../src/making/batch.ts';
import { batchOrRefuse, openBatch, takeStep } from '../../src/store/batches.ts';
import { book, openLot } from '../../src/store/lots.ts';
import { openStore, type Store, type Writing } from '../../src/store/store.ts';
import { lotsOfSupplierLot, traceFrom, whereaboutsOf } from '../../src/store/trace.ts';
import { type NewStoreUrl, onEachDatabase } from './databases.ts';
import { act } from './small-plant.ts';

const DAY = '2026-03-02';
const KG = 1_000_000_000;

/** A plant by chance: what is done in it is remembered apart from the books. */
interface Known {
  /** What is on each lot, and what part of it is of each received lot when everything is mixed evenly. */
  readonly lots: Map<string, { massUg: number; readonly of: Map<string, number> }>;
  readonly received: string[];
  readonly packs: string[];
}

const draws = fc.array(fc.nat(1_000_000), { minLength: 30, maxLength: 160 });

/** Draws one after the other, over and over. */
function drawer(numbers: readonly number[]): (below: number) => number {
  let next = 0;
  return (below) => (numbers[next++ % numbers.length] ?? 0) % below;
}

async function fill(store: Store, prefix: string, numbers: readonly number[]): Promise<Known> {
  const draw = drawer(numbers);
  const known: Known = { lots: new Map(), received: [], packs: [] };
  const inBooks = (work: (writing: Writing) => Promise<void>) =>
    store.write(act('plant', prefix), async (writing) => {
      await work(writing);
      return { says: 'a plant by chance', result: null };
    });
  await inBooks(async (writing) => {
    for (let count = 2 + draw(4); count > 0; count--) await receive(writing, known, prefix, draw);
  });
  for (let count = 1 + draw(8); count > 0; count--) {
    await inBooks((writing) => makeBatch(writing, known, draw));
  }
  return known;
}

type Draw = ReturnType<typeof drawer>;

async function receive(writing: Writing, known: Known, prefix: string, draw: Draw): Promise<void> {
  const id = `${prefix}-${known.received.length}`;
  const massUg = (50 + draw(100)) * KG;
  const body = { supplierEstablishment: '00001', supplierLot: `S-${id}` };
  await openLot(writing, { id, kind: 'material', ofId: 'beef trim', body, receivedDay: DAY });
  await book(writing, { lotId: id, kind: 'received', massUg, reservedUg: 0 });
  known.received.push(id);
  known.lots.set(id, { massUg, of: new Map([[id, 1]]) });
}

/** Weighs lots and water in, and sometimes finishes: product, rework, loss and packs, of which some leave. */
async function makeBatch(writing: Writing, known: Known, draw: Draw): Promise<void> {
  const { db } = writing;
  const { received, lots } = known;
  const id = await openBatch(
    writing,
    'p',
    DAY,
    async () => ({ lines: [] }) as unknown as StepBodies['planned'],
  );
  const step = async <Kind extends keyof StepBodies>(kind: Kind, body: object) => {
    await takeStep(writing, await batchOrRefuse(db, id), kind, body as StepBodies[Kind]);
  };
  const of = new Map<string, number>();
  let inUg = 0;
  const usable = [...lots].filter(([lotId]) => received.includes(lotId) || lotId.includes('-R'));
  for (let count = 1 + draw(3); count > 0; count--) {
    const [lotId, lot] = usable[draw(usable.length)] ?? [];
    if (lotId === undefined || !lot || lot.massUg < 2) continue;
    const massUg = 1 + draw(Math.floor(lot.massUg / 2));
    const movement = await book(writing, {
      lotId,
      kind: 'weighed',
      massUg: -massUg,
      reservedUg: 0,
      batchId: id,
    });
    await step('weighing', { load: 1, line: 1, materialId: 'beef trim', lotId, massUg, movement });
    lot.massUg -= massUg;
    inUg += massUg;
    for (const [root, part] of lot.of) of.set(root, (of.get(root) ?? 0) + part * massUg);
  }
  if (draw(2) === 0) {
    const massUg = 1 + draw(5 * KG);
    await step('weighing', { load: 1, line: 2, materialId: 'water', massUg });
    inUg += massUg;
  }
  if (inUg < 100 || draw(5) === 0) return;
  await step('weighed', {});
  const parts = new Map([...of].map(([root, massUg]) => [root, massUg / inUg]));
  const open = async (lotId: string, kind: 'bulk' | 'material', massUg: number) => {
    await openLot(writing, { id: lotId, kind, ofId: 'p', batchId: id, body: {}, receivedDay: DAY });
    await book(writing, { lotId, kind: 'produced', massUg, reservedUg: 0, batchId: id });
    lots.set(lotId, { massUg, of: parts });
  };
  const outUg = Math.floor(inUg * 0.7);
  const reworkUg = Math.floor(inUg / 10);
  const discardedUg = Math.floor(inUg / 50);
  await open(id, 'bulk', outUg);
  await open(`${id}-R1`, 'material', reworkUg);
  await step('finished', { discarded: [{ massUg: discardedUg }] });
  const packUg = 1 + draw(outUg);
  const both = { kind: 'packed', reservedUg: 0, batchId: id } as const;
  const pack = `${id}-P1`;
  await openLot(writing, { id: pack, kind: 'pack', ofId: 'p', batchId: id, body: {}, receivedDay: DAY });
  await book(writing, { ...both, lotId: id, massUg: -packUg, otherLotId: pack });
  await book(writing, { ...both, lotId: pack, massUg: packUg, otherLotId: id });
  lots.set(pack, { massUg: packUg, of: parts });
  known.packs.push(pack);
  await leave(writing, pack, packUg, draw);
}

async function leave(writing: Writing, lotId: string, massUg: number, draw: Draw): Promise<void> {
  const quarter = Math.floor(massUg / 4);
  if (quarter === 0) return;
  const out = { lotId, massUg: -quarter, reservedUg: 0 };
  await book(writing, { ...out, kind: 'shipped', details: { to: 'Corner grocery', document: 'D-1' } });
  const wrong = await book(writing, { ...out, kind: 'shipped', details: { to: 'Nobody', document: 'D-2' } });
  await book(writing, { ...out, massUg: quarter, kind: 'shipped', reverses: wrong, reason: 'wrong lot' });
  if (draw(2) === 0) await book(writing, { ...out, kind: 'sold' });
  if (draw(2) === 0) await book(writing, { ...out, kind: 'adjusted', reason: 'count' });
}

const near = (found: number | undefined, wanted: number) => expect(found ?? 0).toBeCloseTo(wanted, 9);

function tracing(newStoreUrl: NewStoreUrl): void {
  const withStore = async (work: (store: Store) => Promise<void>) => {
    const store = await openStore(await newStoreUrl());
    try {
      await work(store);
    } finally {
      await store.close();
    }
  };
  const trace = (store: Store, start: Place, direction: 'forward' | 'back') =>
    store.read((db) => traceFrom(db, [start], direction));

  test('both ways tell one truth, and its kilograms add up: on hand, gone, lost or still in the mixer', async () => {
    await withStore(async (store) => {
      let plants = 0;
      await fc.assert(
        fc.asyncProperty(draws, async (numbers) => {
          const known = await fill(store, `L${++plants}`, numbers);
          for (const root of known.received) {
            const forward = await trace(store, lotPlace(root), 'forward');
            for (const [id, { of }] of known.lots) {
              near(forward.shares.get(lotPlace(id)), of.get(root) ?? 0);
              expect(forward.lots.has(id), `${root} to ${id}`).toBe(of.has(root));
            }
          }
          for (const pack of known.packs) {
            const back = await trace(store, lotPlace(pack), 'back');
            const of = known.lots.get(pack)?.of ?? new Map<string, number>();
            for (const root of known.received) near(back.shares.get(lotPlace(root)), of.get(root) ?? 0);
            expect([...back.lots.keys()].filter((id) => known.received.includes(id)).sort()).toEqual(
              [...of.keys()].sort(),
            );
          }
          for (const root of known.received) {
            const found = await trace(store, lotPlace(root), 'forward');
            const where = whereaboutsOf(found);
            const within = new Map<Place, number>();
            for (const { to, massUg } of found.flows) within.set(to, (within.get(to) ?? 0) + massUg);
            const fromOutside =
              [...found.lots.values()].reduce(
                (sum, { row, cameUg }) => sum + cameUg - (within.get(lotPlace(row.id)) ?? 0),
                0,
              ) +
              [...found.batches.values()].reduce(
                (sum, { id, weighedUg }) => sum + weighedUg - (within.get(batchPlace(id)) ?? 0),
                0,
              );
            expect(affectedUg(where)).toBe(fromOutside);
            expect(accountedUg(where)).toBe(affectedUg(where) - where.soldAtCounter - where.countedShort);
            expect(where.shipped.has('Nobody')).toBe(false);
          }
        }),
        { numRuns: 10 },
      );
    });
  });

  test('a circle in the books ends', async () => {
    await withStore(async (store) => {
      await store.write(act('plant', 'circle'), async (writing) => {
        for (const [id, batchId] of [['A'], ['R', 'X'], ['OUT', 'X']] as const) {
          const made = batchId === undefined ? {} : { batchId };
          await openLot(writing, { id, kind: 'material', ofId: 'p', body: {}, receivedDay: DAY, ...made });
        }
        const line = { massUg: 10 * KG, reservedUg: 0 };
        await book(writing, { ...line, lotId: 'A', kind: 'received' });
        await book(writing, { ...line, lotId: 'R', kind: 'produced', batchId: 'X' });
        await book(writing, { ...line, lotId: 'OUT', kind: 'produced', batchId: 'X' });
        for (const lotId of ['A', 'R'])
          await book(writing, { lotId, kind: 'weighed', massUg: -10 * KG, reservedUg: 0, batchId: 'X' });
        return { says: 'rework of a batch in itself', result: null };
      });
      const forward = await trace(store, lotPlace('A'), 'forward');
      expect(forward.levels).toEqual([['lot A'], ['batch X'], ['lot OUT', 'lot R']]);
      near(forward.shares.get('lot OUT'), 1);
      const back = await trace(store, lotPlace('OUT'), 'back');
      expect(back.levels).toEqual([['lot OUT'], ['batch X'], ['lot A', 'lot R']]);
      near(back.shares.get('lot A'), 1);
    });
  });

  test("a supplier's number finds the lots that came under it", async () => {
    await withStore(async (store) => {
      await fill(store, 'L', [1, 2, 3]);
      const find = (supplierLot: string, supplierEstablishment?: string) =>
        store.read((db) =>
          lotsOfSupplierLot(db, store.dialect, {
            supplierLot,
            ...(supplierEstablishment !== undefined && { supplierEstablishment }),
          }),
        );
      expect(await find('S-L-1')).toEqual(['L-1']);
      expect(await find('S-L-1', '00001')).toEqual(['L-1']);
      expect(await find('S-L-1', '00002')).toEqual([]);
      expect(await find("S' or 1=1 --")).toEqual([]);
    });
  });
}

describe('weight is traced', () => onEachDatabase(tracing));
