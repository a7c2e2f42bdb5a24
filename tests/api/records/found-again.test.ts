import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, startDemo } from '../running.ts';
import { type Ask, good, refusal, verifiedStop } from '../stock/client.ts';
import { type Floor, finishedBatch, floorOf, GROUND_BEEF } from './made.ts';

/** What was sealed is found by product, by lot and newest first, with what seals it. */

let service: Service;
let floor: Floor;
let ask: Ask;
let batch: string;

beforeAll(async () => {
  service = await startDemo();
  floor = await floorOf(service, '2026-11-25T12:00:00.000Z');
  ask = floor.ask;
  await good(ask('POST /cleanings', { body: { equipment: ['grinder'], what: 'cleaned and sanitized' } }));
  batch = await finishedBatch(floor, GROUND_BEEF, { output: { weight: { value: '200', unit: 'lb' } } });
  const packs = { packs: [{ count: 50, net: { value: '1', unit: 'lb' } }] };
  await good(ask(`POST /batches/${batch}/packs`, { body: packs }));
  const lines = [{ lotId: `${batch}-P1`, packs: 20 }];
  await good(ask('POST /shipments', { body: { to: 'Corner grocery', document: 'D-1', lines } }));
  await good(ask(`POST /batches/${batch}/closing`, { body: {} }));
}, 60_000);
afterAll(async () => {
  floor.close();
  await verifiedStop(service);
});

const found = async (query: string): Promise<Json[]> =>
  (await good(ask(`GET /records?${query}`))).body.items.map(({ kind, subjectId }: Json) => [kind, subjectId]);

test('records are found by product, by lot, and the newest first', async () => {
  expect(await found('')).toEqual([
    ['cleaning', '2026-11-25'],
    ['batch', batch],
  ]);
  expect(await found('order=newest')).toEqual([
    ['batch', batch],
    ['cleaning', '2026-11-25'],
  ]);
  const { body: first } = await good(ask('GET /records?order=newest&limit=1'));
  expect(await found(`order=newest&after=${first.next}`)).toEqual([['cleaning', '2026-11-25']]);
  const [line] = (await good(ask(`GET /batches/${batch}`))).body.lines;
  for (const query of ['productId=ground-beef-80-20', `lotId=${line.lotId}`, `lotId=${batch}`]) {
    expect(await found(query), query).toEqual([['batch', batch]]);
  }
  expect(await found('productId=smoked-sausage')).toEqual([]);
  expect(await found('lotId=B50-0908')).toEqual([]);
});

test('a record shows the entry that seals it, and its own hash in it', async () => {
  const { body: record } = await good(ask('GET /records/1'));
  const { body: entries } = await good(ask('GET /entries?subjectKind=cleaning'));
  const [{ seq, says, hash, previousHash }] = entries.items;
  expect(record.entry).toEqual({ seq, says, hash, previousHash, rowHash: expect.any(String) });
  expect(record.entry.rowHash).toMatch(/^[0-9a-f]{64}$/);
});

test('a drill keeps who was contacted, and nobody who got none of it', async () => {
  const { body: drill, location } = await good(
    ask('POST /recall-drills', { body: { lotId: batch, reason: 'yearly drill' } }),
  );
  const finish = (contacted: Json) => ask(`POST ${location}/finish`, { body: { found: [], contacted } });
  await refusal(finish([{ to: 'Somebody' }]), 422, ['/contacted/0/to'], 'got none of it');
  const grocery = { to: 'Corner grocery', note: 'stopped selling' };
  await refusal(finish([grocery, grocery]), 422, ['/contacted/1/to'], 'stands twice');
  const { body } = await good(finish([grocery]));
  expect(body.finished.contacted).toEqual([grocery]);
  const page = await floor.text(location, 'text/html');
  expect(page.text).toContain('stopped selling');
  const { body: newest } = await good(ask('GET /recall-drills?order=newest'));
  expect(newest.items[0].id).toBe(drill.id);
});

test("each supplier's trim comes lot by lot, several tests of a lot as their mean", async () => {
  const { body } = await good(ask('GET /reports/trim'));
  const { body: known } = await good(ask('GET /trim'));
  const pick = ({ materialId, supplierEstablishment, meanFraction, sdFraction }: Json) => ({
    materialId,
    supplierEstablishment,
    meanFraction,
    sdFraction,
  });
  expect(body.items.map(pick)).toEqual(known.items.map(pick));
  const twice = body.items.find(
    ({ supplierEstablishment, materialId }: Json) =>
      supplierEstablishment === '00002' && materialId === 'beef-trim-50',
  );
  // demo-data/fat-tests.csv: 55.0 by microwave and 54.2 by solvent extraction are of one lot.
  expect(twice.lots.find(({ lotId }: Json) => lotId === 'B50-1020')).toEqual({
    lotId: 'B50-1020',
    date: '2026-10-20',
    fatFraction: 0.546,
    tests: 2,
    methods: ['microwave', 'solvent extraction'],
  });
  expect(twice).toMatchObject({ lotCount: 6, classMeanFraction: 0.5, classSdFraction: 0.035 });
  const days = twice.lots.map(({ date }: Json) => date);
  expect(days).toEqual([...days].sort());
  const { body: last } = await good(ask('GET /reports/trim?limit=1'));
  expect(last.items.every(({ lots }: Json) => lots.length === 1)).toBe(true);
});
