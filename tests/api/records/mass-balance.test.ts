import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { micrograms } from '../../../src/ledger/micrograms.ts';
import type { Db } from '../../../src/store/open.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { type Answered, verifiedStop } from '../stock/client.ts';
import { type Floor, floorOf } from './made.ts';

/**
 * Whatever a plant does on a day, each microgram that came is somewhere: common practice of every mass balance. The sums are
 * taken from the lots, the ledger and the steps, and held against what the recall drills count.
 */

let service: Service;
let floor: Floor;

beforeAll(async () => {
  service = await startDemo();
  floor = await floorOf(service, '2026-11-25T12:00:00.000Z');
}, 60_000);
afterAll(async () => {
  floor.close();
  await verifiedStop(service);
});

const batches = fc.record({
  what: fc.constant('batch' as const),
  product: fc.constantFrom('ground-beef-80-20', 'hamburger-patties', 'smoked-sausage'),
  outFraction: fc.constantFrom(0.8, 0.9, 0.95, 0.985, 1.001),
  rework: fc.constantFrom(0, 4.37),
  discarded: fc.constantFrom(0, 1.03),
  stopAt: fc.constantFrom('weighing', 'weighed', 'finished', 'packed', 'packed', 'packed'),
});
const moves = fc.record({
  what: fc.constant('move' as const),
  pick: fc.nat(1000),
  kind: fc.constantFrom('sold', 'shipped', 'discarded', 'adjusted', 'named'),
  amount: fc.constantFrom(0.37, 1, 3.21),
  takenBack: fc.boolean(),
});

/** What somebody may try; what the books refuse changes nothing. */
const tries = fc.oneof(
  { weight: 3, arbitrary: batches },
  { weight: 5, arbitrary: moves },
  { weight: 1, arbitrary: fc.record({ what: fc.constant('test' as const), pick: fc.nat(1000) }) },
  {
    weight: 1,
    arbitrary: fc.record({ what: fc.constant('receive' as const), amount: fc.constantFrom(33.3, 120.01) }),
  },
);
type Try = typeof tries extends fc.Arbitrary<infer One> ? One : never;

test('what came is what is there, left, was thrown away, sampled, lost or counted differently', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(tries, { minLength: 14, maxLength: 20 }), async (day) => {
      for (const one of day) await attempt(one);
      const sums = await sumsOf();
      expect(sums.receivedUg + sums.withoutLotUg + sums.adjustedUg).toBe(
        sums.onHandUg + sums.inProcessUg + sums.leftUg + sums.discardedUg + sums.samplesUg + sums.lostUg,
      );
      await drillsAddUp();
    }),
    { numRuns: 3, seed: 20261125, endOnFailure: true },
  );
  const { finished, moved, drilled } = done;
  expect(finished).toBeGreaterThan(5);
  expect(moved).toBeGreaterThan(5);
  expect(drilled).toBeGreaterThan(5);
}, 120_000);

const done = { finished: 0, moved: 0, drilled: 0 };

async function attempt(one: Try): Promise<void> {
  if (one.what === 'batch') return makeBatch(one);
  if (one.what === 'move') return moveSome(one);
  if (one.what === 'receive') {
    const body = { materialId: 'beef-trim-85', mass: lb(one.amount), cost: { amount: 3, per: 'lb' } };
    await floor.ask('POST /lots', { body });
    return;
  }
  const { id } = await pickLot(one.pick);
  const body = { fatFraction: 0.2, method: 'NIR', sample: lb(0.1) };
  await floor.ask(`POST /lots/${id}/tests`, { body });
}

async function makeBatch(one: Extract<Try, { what: 'batch' }>): Promise<void> {
  const { ask } = floor;
  const { status, body } = await ask('POST /batches', {
    body: { product: one.product, batchSize: { total: lb(60) } },
  });
  if (status >= 300) return;
  for (const line of body.lines) {
    const [{ load }] = line.loads;
    const weighing = { line: line.number, load, weight: line.perLoad };
    const taken = await ask(`POST /batches/${body.id}/weighings`, { body: weighing });
    if (one.stopAt === 'weighing' && taken.status < 300) return;
  }
  const { body: weighed } = await ask(`POST /batches/${body.id}/weighed`, { body: {} });
  if (one.stopAt === 'weighed' || weighed.weighed === undefined) return;
  const { finished } = (await finish(body.id, weighed.weighed.lb, one)).body;
  if (finished === undefined) return;
  done.finished++;
  if (one.stopAt === 'packed')
    await ask(`POST /batches/${body.id}/packs`, { body: { packs: [{ count: 20, net: pounds(1) }] } });
}

const pounds = (value: number) => ({ value: value.toFixed(2), unit: 'lb' });

function finish(
  id: string,
  weighedLb: number,
  { outFraction, rework, discarded }: Extract<Try, { what: 'batch' }>,
): Promise<Answered> {
  const body = {
    output: { weight: pounds(weighedLb * outFraction - rework - discarded) },
    rework: rework > 0 ? [{ weight: pounds(rework) }] : [],
    discarded: discarded > 0 ? [{ weight: pounds(discarded), reason: 'fell on the floor' }] : [],
    reasons: [{ about: 'yield', reason: 'left in the grinder' }],
  };
  return floor.ask(`POST /batches/${id}/finish`, { body });
}

async function pickLot(pick: number): Promise<Json> {
  const { body } = await floor.ask('GET /lots?limit=200');
  // What was made here is moved as often as what came.
  const made = body.items.filter(({ batchId }: Json) => batchId !== undefined);
  const from = made.length > 0 && pick % 3 > 0 ? made : body.items;
  return from[pick % from.length];
}

async function moveSome({ pick, kind, amount, takenBack }: Extract<Try, { what: 'move' }>): Promise<void> {
  const { ask } = floor;
  const lot = await pickLot(pick);
  const mass = { mass: lb(amount) };
  const bodies: Record<typeof kind, Json> = {
    sold: { kind: 'sold', ...mass },
    named: { kind: 'sold', ...mass, to: 'River diner' },
    shipped: { kind: 'shipped', ...mass, to: 'Corner grocery', document: 'D-1' },
    discarded: { kind: 'discarded', ...mass, reason: 'torn film' },
    adjusted: {
      kind: 'adjusted',
      counted: lb(Math.max(0, lot.onHand.lb + (pick % 2 ? amount : -amount))),
      reason: 'counted',
    },
  };
  const { status, body } = await ask(`POST /lots/${lot.id}/movements`, { body: bodies[kind] });
  if (status >= 300) return;
  done.moved++;
  if (takenBack)
    await ask(`POST /movements/${body.movement.seq}/reversal`, { body: { reason: 'wrong lot' } });
}

interface Sums {
  readonly receivedUg: number;
  /** Weighed in without a lot, such as water: nothing of it was ever received. */
  readonly withoutLotUg: number;
  readonly adjustedUg: number;
  readonly onHandUg: number;
  readonly inProcessUg: number;
  readonly leftUg: number;
  /** Of lots, and at the end of batches. */
  readonly discardedUg: number;
  readonly samplesUg: number;
  /** Each finished batch by itself: what went in, less all that came out. */
  readonly lostUg: number;
}

/** From the tables as they are, with no help of the code that traces. */
async function sumsOf(): Promise<Sums> {
  return service.books.store.read(async (db) => {
    const lots = await db.selectFrom('lots').select(['id', 'onHandUg']).execute();
    const movements = await db.selectFrom('movements').select(['kind', 'massUg', 'batchId']).execute();
    const of = (...kinds: string[]) =>
      movements.reduce((sum, { kind, massUg }) => sum + (kinds.includes(kind) ? massUg : 0), 0);
    const batches = await batchSums(db);
    const total = (field: keyof (typeof batches)[number]) =>
      batches.reduce((sum, one) => sum + Number(one[field]), 0);
    const open = batches.filter(({ isFinished }) => !isFinished);
    expect(of('packed')).toBe(0);
    expect(total('fromLotsUg')).toBe(0 - of('weighed'));
    expect(total('keptUg')).toBe(of('produced'));
    return {
      receivedUg: of('received'),
      withoutLotUg: total('withoutLotUg'),
      adjustedUg: of('adjusted'),
      onHandUg: lots.reduce((sum, { onHandUg }) => sum + onHandUg, 0),
      inProcessUg: open.reduce((sum, { fromLotsUg, withoutLotUg }) => sum + fromLotsUg + withoutLotUg, 0),
      leftUg: 0 - of('sold', 'shipped'),
      discardedUg: total('discardedUg') - of('discarded'),
      samplesUg: 0 - of('tested'),
      lostUg: total('lostUg'),
    };
  });
}

async function batchSums(db: Db) {
  const rows = await db.selectFrom('batchSteps').selectAll().orderBy('batchId').orderBy('number').execute();
  return [...new Set(rows.map(({ batchId }) => batchId))].map((id) => {
    const steps = rows
      .filter(({ batchId }) => batchId === id)
      .map((row) => ({ ...row, body: JSON.parse(row.body) }));
    const bodies = (kind: string): Json[] => steps.flatMap((step) => (step.kind === kind ? [step] : []));
    const back = bodies('taken back').map(({ body }) => body.step);
    const weighings = bodies('weighing').filter(({ number }) => !back.includes(number));
    const sum = (parts: Json[]) => parts.reduce((total: number, { massUg }) => total + massUg, 0);
    const inUg = sum(weighings.map(({ body }) => body));
    const withoutLotUg = sum(weighings.flatMap(({ body }) => (body.lotId === undefined ? [body] : [])));
    const [finished] = bodies('finished');
    const parts = (given: Json[]) =>
      given.reduce((total, { weight }) => total + micrograms(Number(weight.value), weight.unit), 0);
    const keptUg = finished ? parts([finished.body.output, ...finished.body.rework]) : 0;
    const discardedUg = finished ? parts(finished.body.discarded) : 0;
    return {
      isFinished: finished !== undefined,
      fromLotsUg: inUg - withoutLotUg,
      withoutLotUg,
      keptUg,
      discardedUg,
      lostUg: finished ? inUg - keptUg - discardedUg : 0,
    };
  });
}

/** What each drill accounts for is all that went into its places, and no more. */
async function drillsAddUp(): Promise<void> {
  const { body: lots } = await floor.ask('GET /lots?onHand=any&limit=200');
  const received = lots.items.filter(({ batchId }: Json) => batchId === undefined);
  for (const { id } of received) {
    const { body: trace } = await floor.ask(`GET /trace?lotId=${id}`);
    if (trace.levels.length < 2) continue;
    done.drilled++;
    const { body: drill } = await floor.ask('POST /recall-drills', { body: { lotId: id, reason: 'drill' } });
    const { whereabouts: where } = drill;
    expect(where.affected.kg).toBeCloseTo(cameKg(trace, id) + (await countedOverKg(trace)), 6);
    const lost = where.soldAtCounter.kg + where.countedShort.kg;
    expect(where.accounted.kg).toBeCloseTo(where.affected.kg - lost, 6);
    expect(where.percentAccounted === 100).toBe(lost === 0);
  }
}

/** The lot, and what went into each batch beside what the trace leads into it. */
function cameKg({ levels, flows }: Json, startId: string): number {
  const batches = levels.flatMap((level: Json) => level.batches);
  const start = levels[0].lots.find(({ lotId }: Json) => lotId === startId);
  const led = flows.reduce((sum: number, { to, mass }: Json) => sum + (to.batchId ? mass.kg : 0), 0);
  return start.came.kg + batches.reduce((sum: number, { weighed }: Json) => sum + weighed.kg, 0) - led;
}

async function countedOverKg({ levels }: Json): Promise<number> {
  const ids = levels.flatMap((level: Json) => level.lots.map(({ lotId }: Json) => lotId));
  const { body } = await floor.ask('GET /movements?kind=adjusted&limit=200');
  const net = new Map<string, number>();
  for (const { lotId, mass } of body.items) net.set(lotId, (net.get(lotId) ?? 0) + mass.kg);
  return ids.reduce((sum: number, id: string) => sum + Math.max(0, net.get(id) ?? 0), 0);
}
