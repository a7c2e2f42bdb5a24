import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { type Ask, clientOf, entriesOf, good, refusal, verifiedStop } from './client.ts';

let service: Service;
let ask: Ask;
beforeAll(async () => {
  service = await startDemo();
  ask = clientOf(service);
});
afterAll(() => verifiedStop(service));

const REQUEST = {
  product: 'ground-beef-80-20',
  batchSize: { total: lb(200) },
  use: [{ lotId: 'B73-1120', min: lb(60) }],
};
const trimOf = async (supplier: string) =>
  (await good(ask('GET /trim'))).body.items.find(
    ({ supplierEstablishment, materialId }: Json) =>
      supplierEstablishment === supplier && materialId === 'beef-trim-73',
  );

describe('a fat test of a lot', () => {
  test('changes the next blend, what is learned of the trim, and the lot by its sample', async () => {
    const { body: lot } = await good(ask('GET /lots/B73-1120'));
    const blendBefore = (await good(ask('POST /blends', { body: REQUEST }))).body;
    const trimBefore = await trimOf(lot.supplierEstablishment);
    const body = { fatFraction: 0.36, method: 'NIR', sample: lb(1) };
    const { body: tested, location } = await good(ask('POST /lots/B73-1120/tests', { body }));
    expect(tested.onHand.lb).toBeCloseTo(lot.onHand.lb - 1, 9);
    const found = tested.tests.at(-1);
    expect(found).toMatchObject({
      fatFraction: 0.36,
      lotId: 'B73-1120',
      materialId: 'beef-trim-73',
      supplierEstablishment: lot.supplierEstablishment,
      date: '2026-11-25',
      by: 'Demo',
    });
    expect((await good(ask(`GET ${location}`))).body.items.at(-1)).toEqual(found);
    const blendAfter = (await good(ask('POST /blends', { body: REQUEST }))).body;
    expect(blendAfter.outcome).toBe('blend');
    expect(blendAfter.lines).not.toEqual(blendBefore.lines);
    const trimAfter = await trimOf(lot.supplierEstablishment);
    expect(trimAfter.tests).toBe((trimBefore?.tests ?? 0) + 1);
    expect(trimAfter.meanFraction).toBeGreaterThan(trimBefore?.meanFraction ?? 0);
  });

  test('that was wrong is withdrawn: blends go by what was known before, and the test stays in the books', async () => {
    const request = { ...REQUEST, use: [{ lotId: 'B85-1119', min: lb(60) }] };
    const blend = async () => (await good(ask('POST /blends', { body: request }))).body.lines;
    const before = await blend();
    const { body: tested } = await good(
      ask('POST /lots/B85-1119/tests', { body: { fatFraction: 0.3, method: 'NIR' } }),
    );
    const { seq } = tested.tests.at(-1);
    expect(await blend()).not.toEqual(before);
    const body = { reason: 'sample of another lot' };
    const { body: withdrawn } = await good(ask(`POST /tests/${seq}/withdrawal`, { body }));
    expect(withdrawn).toMatchObject({ seq, withdrawn: { reason: body.reason, by: 'Demo' } });
    expect(await blend()).toEqual(before);
    const { body: lot } = await good(ask('GET /lots/B85-1119'));
    expect(lot.tests.map((one: Json) => one.seq)).not.toContain(seq);
    expect((await good(ask('GET /tests?lotId=B85-1119'))).body.items.at(-1)).toEqual(withdrawn);
    await refusal(ask(`POST /tests/${seq}/withdrawal`, { body }), 409, [], 'withdrawn already');
    await refusal(ask('POST /tests/99999/withdrawal', { body }), 404, [], 'no test 99999');
    await refusal(ask('POST /tests/soup/withdrawal', { body }), 404, [], 'no test');
  });

  test('counts with the others of the lot by their mean', async () => {
    const test = (fatFraction: number) =>
      ask('POST /lots/B50-1118/tests', { body: { fatFraction, method: 'NIR' } });
    const earlier = (await good(ask('GET /lots/B50-1118'))).body.tests.map(
      ({ fatFraction }: Json) => fatFraction,
    );
    await good(test(0.48));
    const { body: lot } = await good(test(0.5));
    const all = [...earlier, 0.48, 0.5];
    const mean = all.reduce((sum, fat) => sum + fat, 0) / all.length;
    expect(lot.measuredFat.fatFraction).toBeCloseTo(mean, 12);
    expect(lot.measuredFat.method).toContain(`${all.length} tests by`);
  });

  test('of a lot without a supplier tells of that lot alone', async () => {
    const cost = { amount: 2, per: 'lb' };
    const body = { id: 'NOBODYS', materialId: 'beef-trim-73', mass: lb(50), cost };
    await good(ask('POST /lots', { body }));
    const { body: before } = await good(ask('GET /trim'));
    const found = { fatFraction: 0.3, method: 'NIR' };
    const { body: lot } = await good(ask('POST /lots/NOBODYS/tests', { body: found }));
    expect(lot.tests[0]).not.toHaveProperty('supplierEstablishment');
    expect(lot.measuredFat.fatFraction).toBe(0.3);
    expect((await good(ask('GET /trim'))).body).toEqual(before);
  });

  test.each<[string, string, Json, number, string[], string]>([
    ['above the whole', 'B73-1123', { fatFraction: 27, method: 'NIR' }, 400, ['/fatFraction'], '0.27'],
    ['by no method', 'B73-1123', { fatFraction: 0.27 }, 400, ['/method'], 'is missing'],
    [
      'from tomorrow',
      'B73-1123',
      { fatFraction: 0.27, method: 'NIR', date: '2026-11-26' },
      422,
      ['/date'],
      '2026-11-26',
    ],
    [
      'with too large a sample',
      'B73-1123',
      { fatFraction: 0.27, method: 'NIR', sample: lb(99_999) },
      409,
      [],
      'on hand',
    ],
    ['of no lot', 'NONE', { fatFraction: 0.27, method: 'NIR' }, 404, [], 'NONE'],
  ])('%s is refused and changes nothing', async (_name, id, body, status, pointers, word) => {
    const before = await entriesOf(service);
    await refusal(ask(`POST /lots/${id}/tests`, { body }), status, pointers, word);
    expect(await entriesOf(service)).toBe(before);
  });

  test('sent again under its key is one test', async () => {
    const sent = { body: { fatFraction: 0.27, method: 'NIR' }, key: 'test-1' };
    const first = await good(ask('POST /lots/B73-1123/tests', sent));
    expect(await good(ask('POST /lots/B73-1123/tests', sent))).toEqual(first);
    expect((await good(ask('GET /tests?lotId=B73-1123&fromDay=2026-11-25'))).body.items).toHaveLength(1);
  });
});

describe('tests are listed', () => {
  test('in pages after one another and by their days', async () => {
    const { body: all } = await good(ask('GET /tests?limit=500'));
    const first = (await good(ask('GET /tests?limit=5'))).body;
    const rest = (await good(ask(`GET /tests?limit=500&after=${first.next}`))).body;
    expect([...first.items, ...rest.items]).toEqual(all.items);
    const [{ date }] = all.items;
    const ofDay = (await good(ask(`GET /tests?fromDay=${date}&toDay=${date}&limit=500`))).body.items;
    expect(ofDay).toEqual(all.items.filter((one: Json) => one.date === date));
    expect((await good(ask('GET /tests?batchId=NONE'))).body.items).toEqual([]);
  });
});
