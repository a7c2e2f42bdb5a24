import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { verifyStore } from '../../../src/store/verify.ts';
import { type Json, startDemo } from '../running.ts';
import { lb, leftOf, type Mixer, mixerAt, times } from './mixer.ts';

/** Whatever hands do at the mixer, in turn or not: the service never fails, and the books add up. */

let service: Service;
let mixer: Mixer;

beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

const PRODUCTS = ['ground-beef-80-20', 'fresh-pork-sausage', 'smoked-sausage', 'hamburger-patties'] as const;
const LOTS = ['B95-1121', 'P80-1121', 'CURE-0812', 'PBF-1120', 'P72-1110', 'MSP-1102'] as const;
const ACTS = [
  'weigh',
  'weigh all',
  'other lot',
  'take back',
  'weighed',
  'test',
  'correct',
  'finish',
  'pack',
  'close',
  'cancel',
] as const;

const ONWARD = ['weigh all', 'weighed', 'finish', 'pack', 'close'] as const;

interface Move {
  readonly act: (typeof ACTS)[number];
  readonly pick: number;
  readonly by: number;
  readonly withReason: boolean;
}

const moves: fc.Arbitrary<Move> = fc.record({
  // What brings a batch on comes more often, so that many lives reach their end.
  act: fc.constantFrom(...ACTS, ...ONWARD, ...ONWARD, ...ONWARD),
  pick: fc.nat(40),
  by: fc.constantFrom(0.3, 0.9, 0.995, 1, 1, 1, 1.004, 1.05, 1.3, 16),
  withReason: fc.constantFrom(true, true, true, false),
});

const reason = 'it came about so';

/** Every departure there could be, with a reason. */
const allReasons = ({ lines, limits }: Json) => [
  ...lines.map(({ number }: Json) => ({ line: number, reason })),
  ...limits.map(({ limitId }: Json) => ({ limitId, reason })),
  { about: 'yield', reason },
];

async function make(batch: Json, { act, pick, by, withReason }: Move): Promise<void> {
  const to = (path: string, body: object) => mixer.post(`/batches/${batch.id}/${path}`, body);
  const line = batch.lines[pick % batch.lines.length];
  const load = (pick % batch.loads) + 1;
  const why = withReason ? { reason } : {};
  const reasons = withReason ? allReasons(batch) : [];
  const weight = times(line.perLoad, by);
  const done = batch.steps.filter(({ kind }: Json) => kind === 'weighing');
  if (act === 'weigh') await to('weighings', { line: line.number, load, weight, ...why });
  if (act === 'weigh all') for (const left of leftOf(batch)) await to('weighings', { ...left, ...why });
  if (act === 'other lot') {
    await to('weighings', {
      line: line.number,
      load,
      weight,
      lotId: LOTS[pick % LOTS.length],
      meant: pick % 2 === 0,
      ...why,
    });
  }
  if (act === 'take back') {
    await to(`weighings/${done[pick % Math.max(done.length, 1)]?.number ?? pick}/reversal`, { reason });
  }
  if (act === 'weighed') await to('weighed', { reasons });
  if (act === 'test') {
    const whole = pick % 3 === 0 ? {} : { load };
    await to('tests', { fatFraction: Math.min(1, 0.2 * by), method: 'NIR', ...whole });
  }
  if (act === 'correct') await to('corrections', { load });
  if (act === 'finish') {
    await to('finish', {
      output: { weight: lb((batch.weighed.lb * 0.9 * by + 0.1).toFixed(1)) },
      rework: pick % 2 === 0 ? [{ weight: lb('3.5'), stage: pick % 4 === 0 ? 'raw' : 'finished' }] : [],
      discarded: pick % 5 === 0 ? [{ weight: lb('1.5'), stage: 'raw', reason }] : [],
      reasons,
    });
  }
  if (act === 'pack') await to('packs', { packs: [{ count: pick + 1, net: lb(String(by)) }] });
  if (act === 'close') await to('closing', {});
  if (act === 'cancel') await to('cancellation', { reason });
}

test('random lives', async () => {
  const seen = new Map<string, number>();
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...PRODUCTS),
      fc.constantFrom(30, 30, 30, 410),
      fc.array(moves, { minLength: 5, maxLength: 24 }),
      async (product, pounds, hands) => {
        const size = { total: { value: pounds, unit: 'lb' } };
        const { status, body } = await mixer.post('/batches', { product, batchSize: size });
        if (status !== 201) return;
        for (const move of hands) {
          // The helper refuses an answer of 500 or of another form.
          await make(await mixer.get(`/batches/${body.id}`), move);
        }
        const { state, lines, weighed } = await mixer.get(`/batches/${body.id}`);
        seen.set(state, (seen.get(state) ?? 0) + 1);
        const inLines = lines.flatMap(({ loads }: Json) => loads.map((load: Json) => load.weighed.kg));
        const total = inLines.reduce((sum: number, kg: number) => sum + kg, 0);
        expect(weighed.kg).toBeCloseTo(total, 6);
      },
    ),
    { numRuns: 20, seed: 20261125 },
  );
  expect([...seen.keys()]).toEqual(expect.arrayContaining(['weighing', 'finished', 'closed', 'cancelled']));
  const { findings } = await service.books.store.read((db) => verifyStore(db));
  expect(findings).toEqual([]);
  const lots = await service.books.store.read((db) => db.selectFrom('lots').selectAll().execute());
  for (const { id, onHandUg, reservedUg } of lots) {
    expect(onHandUg, id).toBeGreaterThanOrEqual(reservedUg);
    expect(reservedUg, id).toBeGreaterThanOrEqual(0);
  }
  const open = await service.books.store.read((db) =>
    db
      .selectFrom('movements')
      .innerJoin('batches', 'batches.id', 'movements.batchId')
      .select(({ fn }) => ['batches.id', fn.sum<number>('movements.reservedUg').as('left')])
      .where('batches.state', 'not in', ['planned', 'weighing'])
      .groupBy('batches.id')
      .execute(),
  );
  // Nothing stays promised to a batch that is done with weighing.
  expect(open.filter(({ left }) => Number(left) !== 0)).toEqual([]);
});
