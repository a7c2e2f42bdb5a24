import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, startDemo } from '../running.ts';
import { lb, type Mixer, mixerAt } from './mixer.ts';

/** Planning: what is promised to whom, and requests that are sent twice or at once. */

let service: Service;
let mixer: Mixer;

beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

const lot = (id: string): Promise<Json> => mixer.get(`/lots/${id}`);
const beef = (pounds: number, more: object = {}) => ({
  product: 'ground-beef-80-20',
  batchSize: { total: { value: pounds, unit: 'lb' } },
  ...more,
});
const cancel = ({ id }: Json) => mixer.done(`/batches/${id}/cancellation`, { reason: 'only to try' });

test('a plan that no blend makes says what would', async () => {
  const { status, body } = await mixer.post('/batches', beef(30_000));
  expect(status).toBe(422);
  expect(body.type).toBe('/problems/no-blend');
  expect(body.detail).toMatch(/makes at most [\d.]+ lb/);
  expect((await mixer.get('/batches')).items).toEqual([]);
});

test('what is promised is not given to the next; what is given up is free again', async () => {
  const first = await mixer.plan('ground-beef-80-20', 400);
  const [{ lotId, loads }] = first.lines;
  const promised = await lot(lotId);
  expect(promised.free.kg).toBeCloseTo(promised.onHand.kg - loads[0].planned.kg, 6);
  const rest = promised.free.lb;
  const second = await mixer.post(
    '/batches',
    beef(400, { use: [{ lotId, min: { value: rest + 1, unit: 'lb' } }] }),
  );
  expect(second.status).toBe(422);
  const cancelled = await cancel(first);
  expect(cancelled).toMatchObject({ state: 'cancelled', next: [], cautions: [] });
  const free = await lot(lotId);
  expect(free.free).toEqual(free.onHand);
  expect((await mixer.post(`/batches/${first.id}/cancellation`, { reason: 'once more' })).status).toBe(409);
});

test('for a day to come, with the lots that are good on it; not for a day that is past', async () => {
  const batch = await mixer.plan('ground-beef-80-20', 100, { date: '2026-12-05' });
  expect(batch).toMatchObject({ id: '261205-001', date: '2026-12-05' });
  for (const { lotId } of batch.lines) {
    expect((await lot(lotId)).useByDate >= '2026-12-05').toBe(true);
  }
  await cancel(batch);
  const { status, body } = await mixer.post('/batches', beef(100, { date: '2026-11-20' }));
  expect([status, body.errors[0].pointer]).toEqual([422, '/date']);
});

test('a lot on hold is promised to no one', async () => {
  const seen = await mixer.plan('ground-beef-80-20', 100);
  await cancel(seen);
  const [{ lotId }] = seen.lines;
  await mixer.done(`/lots/${lotId}/hold`, { reason: 'to be sampled' });
  const batch = await mixer.plan('ground-beef-80-20', 100);
  expect(batch.lines.some((line: Json) => line.lotId === lotId)).toBe(false);
  await cancel(batch);
  await mixer.done(`/lots/${lotId}/release`, { reason: 'the sample is clear' });
});

describe('a fingerprint', () => {
  test('of the blend that was seen plans that one', async () => {
    const seen = (await mixer.post('/blends', beef(100))).body;
    expect(seen.fingerprint).toMatch(/^[0-9a-f]{16}$/);
    expect((await mixer.post('/blends', beef(100))).body.fingerprint).toBe(seen.fingerprint);
    expect((await mixer.post('/blends', beef(101))).body.fingerprint).not.toBe(seen.fingerprint);
    const batch = await mixer.plan('ground-beef-80-20', 100, { fingerprint: seen.fingerprint });
    expect(batch.lines.map(({ perLoad }: Json) => perLoad.value)).toEqual(
      seen.lines.map(({ weight }: Json) => weight.text),
    );
    await cancel(batch);
  });

  test('of another one plans nothing and says what it would be now', async () => {
    const seen = (await mixer.post('/blends', beef(100))).body;
    const [{ lotId }] = seen.lines;
    await mixer.done(`/lots/${lotId}/hold`, { reason: 'to be sampled' });
    const { status, body } = await mixer.post('/batches', beef(100, { fingerprint: seen.fingerprint }));
    await mixer.done(`/lots/${lotId}/release`, { reason: 'the sample is clear' });
    expect(status).toBe(409);
    expect(body.detail).toMatch(/Now it takes .* lb of .* and costs [\d.]+ USD/);
    expect(body.detail).not.toContain(lotId);
  });
});

test('ten at once for lots that only some can have: no more is promised than is there', async () => {
  const answers = await Promise.all(Array.from({ length: 10 }, () => mixer.post('/batches', beef(800))));
  const planned = answers.filter(({ status }) => status === 201).map(({ body }) => body);
  const others = answers.filter(({ status }) => status !== 201);
  expect(planned.length).toBeGreaterThan(1);
  expect(others.length).toBeGreaterThan(0);
  for (const { status, body } of others) expect([409, 422], body.detail).toContain(status);
  expect(new Set(planned.map(({ id }) => id)).size).toBe(planned.length);
  const promised = new Map<string, number>();
  for (const { lines } of planned) {
    for (const { lotId, loads } of lines) {
      const kg = loads.reduce((total: number, load: Json) => total + load.planned.kg, 0);
      promised.set(lotId, (promised.get(lotId) ?? 0) + kg);
    }
  }
  for (const [id, kg] of promised) {
    const { onHand, reserved } = await lot(id);
    expect(reserved.kg).toBeCloseTo(kg, 5);
    expect(reserved.kg).toBeLessThanOrEqual(onHand.kg);
  }
  for (const batch of planned) await cancel(batch);
});

describe('sent again under its key', () => {
  test('a plan is made once, though its lots are gone by then', async () => {
    const fingerprint = (await mixer.post('/blends', beef(400))).body.fingerprint;
    const body = beef(400, { fingerprint });
    const key = { 'idempotency-key': 'plan-1' };
    const sent = { 'content-type': 'application/json', ...key };
    const first = await mixer.post('/batches', body, sent);
    expect(first.status).toBe(201);
    const again = await mixer.post('/batches', body, sent);
    expect([again.status, again.body, again.etag]).toEqual([201, first.body, first.etag]);
    const other = await mixer.post('/batches', beef(401), sent);
    expect(other.status).toBe(409);
    expect(other.body.detail).toContain('"plan-1" was used for another request');
    await cancel(first.body);
  });

  test('a weighing takes once', async () => {
    const batch = await mixer.plan('ground-beef-80-20', 100);
    const [line] = batch.lines;
    const before = await lot(line.lotId);
    const body = { line: 1, weight: line.perLoad };
    const path = `/batches/${batch.id}/weighings`;
    const [one, two] = await Promise.all([
      mixer.post(path, body, { 'idempotency-key': 'w-1' }),
      mixer.post(path, body, { 'idempotency-key': 'w-1' }),
    ]);
    expect(one).toEqual(two);
    expect((await lot(line.lotId)).onHand.kg).toBeCloseTo(before.onHand.kg - line.loads[0].planned.kg, 6);
    const other = await mixer.post(path, { line: 1, weight: lb('1') }, { 'idempotency-key': 'w-1' });
    expect(other.status).toBe(409);
  });

  test('a correction is added once', async () => {
    let batch = await mixer.weighed('ground-beef-80-20', 100);
    batch = await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.215, method: 'NIR' });
    const path = `/batches/${batch.id}/corrections`;
    const first = await mixer.post(path, {}, { 'idempotency-key': 'c-1' });
    expect(first.status, JSON.stringify(first.body)).toBe(200);
    expect(await mixer.post(path, {}, { 'idempotency-key': 'c-1' })).toEqual(first);
    expect((await mixer.get(`/batches/${batch.id}`)).corrections).toHaveLength(1);
  });
});

test('a version that is not the present one: what happened since', async () => {
  const batch = await mixer.plan('ground-beef-80-20', 100);
  const { etag = '' } = await mixer.call('GET', `/batches/${batch.id}`);
  const weigh = (line: Json) =>
    mixer.post(
      `/batches/${batch.id}/weighings`,
      { line: line.number, weight: line.perLoad },
      { 'if-match': etag },
    );
  expect((await weigh(batch.lines[0])).status).toBe(200);
  const late = await weigh(batch.lines[1]);
  expect(late.status).toBe(412);
  expect(late.body.detail).toBe(
    `Batch ${batch.id} is no longer as you read it: version 1 then, 2 and weighing now (weighing by Demo). Read it again and decide anew.`,
  );
});

test('steps out of turn say what the batch is and when they fit', async () => {
  const planned = await mixer.plan('ground-beef-80-20', 100);
  const refusals: readonly [path: string, body: object, fits: string][] = [
    ['weighings/1/reversal', { reason: 'wrong scale' }, 'weighing or weighed'],
    ['weighed', {}, 'weighing'],
    ['tests', { fatFraction: 0.2, method: 'NIR' }, 'weighing or weighed'],
    ['correction-proposals', {}, 'weighing or weighed'],
    ['corrections', {}, 'weighing or weighed'],
    ['finish', { output: { weight: lb('100') } }, 'weighed'],
    ['packs', { packs: [{ count: 1, net: lb('1') }] }, 'finished or packed'],
    ['closing', {}, 'finished or packed'],
  ];
  for (const [path, body, fits] of refusals) {
    const { status, body: problem } = await mixer.post(`/batches/${planned.id}/${path}`, body);
    expect(status, path).toBe(409);
    expect(problem.detail, path).toMatch(new RegExp(`^Batch ${planned.id} is planned; .* ${fits}\\.$`));
  }
  const unknown = await mixer.post('/batches/990101-001/weighed', {});
  expect(unknown.status).toBe(404);
});

test('bodies that are not what they must be name their field', async () => {
  const { id } = await mixer.plan('ground-beef-80-20', 100);
  const broken: readonly [path: string, body: unknown, pointer: string][] = [
    ['', {}, '/product'],
    ['', beef(100, { fingerprint: '' }), '/fingerprint'],
    ['', beef(100, { lots: [] }), '/lots'],
    ['', { product: 'no-such', batchSize: { total: { value: 1, unit: 'lb' } } }, '/product'],
    [`/${id}/weighings`, { weight: lb('1') }, '/line'],
    [`/${id}/weighings`, { line: 1.5, weight: lb('1') }, '/line'],
    [`/${id}/weighings`, { line: 1, weight: lb('1'), reason: 'x' }, '/reason'],
    [`/${id}/weighings`, { line: 1, weight: '120 lb' }, '/weight'],
    [`/${id}/weighings/2/reversal`, { reason: '' }, '/reason'],
    [`/${id}/weighed`, { reasons: [{ reason: 'it was so' }] }, '/reasons/0'],
    [`/${id}/weighed`, { reasons: [{ line: 1, limitId: 'a', reason: 'it was so' }] }, '/reasons/0'],
    [`/${id}/weighed`, { reasons: 'short' }, '/reasons'],
    [`/${id}/tests`, { fatFraction: 21.3, method: 'NIR' }, '/fatFraction'],
    [`/${id}/tests`, { fatFraction: 0.2 }, '/method'],
    [`/${id}/correction-proposals`, { confidence: 1 }, '/confidence'],
    [`/${id}/corrections`, { load: 0 }, '/load'],
    [`/${id}/finish`, {}, '/output'],
    [`/${id}/finish`, { output: { weight: lb('0') } }, '/output/weight/value'],
    [`/${id}/finish`, { output: { weight: lb('1'), useByDate: '2026-13-01' } }, '/output/useByDate'],
    [
      `/${id}/finish`,
      { output: { weight: lb('1') }, temperatures: [{ what: 'core', value: 900, unit: 'F' }] },
      '/temperatures/0/value',
    ],
    [
      `/${id}/finish`,
      { output: { weight: lb('1') }, discarded: [{ weight: lb('1') }] },
      '/discarded/0/reason',
    ],
    [`/${id}/packs`, { packs: [] }, '/packs'],
    [`/${id}/packs`, { packs: [{ count: 0, net: lb('1') }] }, '/packs/0/count'],
    [`/${id}/closing`, { note: '' }, '/note'],
    [`/${id}/cancellation`, {}, '/reason'],
  ];
  for (const [path, body, pointer] of broken) {
    const { status, body: problem } = await mixer.post(`/batches${path}`, body);
    const what = `${path} ${JSON.stringify(body)}: ${JSON.stringify(problem)}`;
    expect([400, 422], what).toContain(status);
    expect(problem.errors[0].pointer, what).toBe(pointer);
  }
});

test('what there is to read: sheet, label, lists', async () => {
  const batch = await mixer.plan('fresh-pork-sausage', 100);
  const sheet = await mixer.get(`/batches/${batch.id}/sheet`);
  expect(sheet.weigh.map(({ weight }: Json) => weight)).toEqual(
    batch.lines.map(({ perLoad }: Json) => perLoad.value),
  );
  expect((await mixer.get(`/batches/${batch.id}/label`)).ingredients.text).toMatch(/^pork/i);
  expect((await mixer.call('GET', '/batches/990101-001/sheet')).status).toBe(404);
  const all = (await mixer.get('/batches?limit=200')).items;
  const pages: Json[] = [];
  for (let before = ''; ; ) {
    const page = await mixer.get(`/batches?limit=4${before}`);
    pages.push(...page.items);
    if (page.next === undefined) break;
    before = `&before=${page.next}`;
  }
  expect(pages).toEqual(all);
  expect(all.map(({ id }: Json) => id)).toEqual([...all.map(({ id }: Json) => id)].sort().reverse());
});
