import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, startDemo } from '../running.ts';
import { lb, limitOf, lineOf, type Mixer, mixerAt } from './mixer.ts';

/** What comes out of the mixer, and the packs that are made of it. */

let service: Service;
let mixer: Mixer;

beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

const lot = (id: string): Promise<Json> => mixer.get(`/lots/${id}`);
const finish = ({ id }: Json, body: object) => mixer.post(`/batches/${id}/finish`, body);
const pack = ({ id }: Json, ...packs: object[]) => mixer.post(`/batches/${id}/packs`, { packs });

describe('what comes out', () => {
  let batch: Json;
  beforeAll(async () => {
    batch = await mixer.weighed('smoked-sausage', 100);
  });
  const weight = (share: number) => lb((batch.weighed.lb * share).toFixed(1));

  test('nothing is refused', async () => {
    const none = await finish(batch, { output: { weight: lb('0') } });
    expect([none.status, none.body.errors[0].pointer]).toEqual([400, '/output/weight/value']);
    const allAside = await finish(batch, {
      output: { weight: lb('1') },
      discarded: [{ weight: weight(1.1), stage: 'raw', reason: 'metal in it' }],
    });
    expect([allAside.status, allAside.body.errors[0].pointer]).toEqual([422, '/rework']);
    expect(allAside.body.detail).toMatch(/More is taken out raw than the [\d.]+ lb that were weighed in/);
  });

  test('far below the declared yield needs its reason, far beyond what water there was has none', async () => {
    const low = await finish(batch, { output: { weight: weight(0.85) } });
    expect(low.status).toBe(422);
    expect(low.body.detail).toMatch(/yield: 90.0 %, found 8[45]\.\d % \(about "yield"\)/);
    const limitIdAlone = await finish(batch, {
      output: { weight: weight(0.85) },
      reasons: [{ line: 1, reason: 'a line is no yield' }],
    });
    expect(limitIdAlone.body.detail).toContain('about "yield"');
    const gone = await finish(batch, {
      output: { weight: weight(0.2) },
      reasons: [{ about: 'yield', reason: 'over-cooked' }],
    });
    expect([gone.status, gone.body.errors[0].pointer]).toEqual([422, '/output/weight']);
    expect(gone.body.detail).toMatch(
      /A yield of (19|20)\.\d % means that more water is gone than the batch held/,
    );
  });

  test('more than went in needs its reason too', async () => {
    const gain = await finish(batch, { output: { weight: weight(1.01) } });
    expect(gain.status).toBe(422);
    expect(gain.body.detail).toMatch(/found (100|101)\.\d %, [\d.]+ lb more than was weighed in/);
  });

  test('far more than went in is refused, whatever the reason: it would thin every limit', async () => {
    const reasons = [{ about: 'yield', reason: 'the scale says so' }];
    const grown = await finish(batch, { output: { weight: weight(1.2) }, reasons });
    expect([grown.status, grown.body.errors[0].pointer]).toEqual([422, '/output/weight']);
    expect(grown.body.detail).toMatch(/lb more came out than the [\d.]+ lb that were weighed in/);
    const aside = await finish(batch, {
      output: { weight: weight(0.9) },
      rework: [{ weight: weight(0.15) }],
      reasons,
    });
    expect([aside.status, aside.body.errors[0].pointer]).toEqual([422, '/output/weight']);
  });

  test('past its use-by date as it is made is refused', async () => {
    const past = await finish(batch, { output: { weight: weight(0.9), useByDate: '2026-11-24' } });
    expect([past.status, past.body.errors[0].pointer]).toEqual([422, '/output/useByDate']);
    const rework = await finish(batch, {
      output: { weight: weight(0.8) },
      rework: [{ weight: weight(0.1), useByDate: '2026-11-24' }],
    });
    expect([rework.status, rework.body.errors[0].pointer]).toEqual([422, '/rework/0/useByDate']);
  });

  test('with reasons it is a fact; no temperature noted is a caution', async () => {
    const { status, body } = await finish(batch, {
      output: { weight: weight(0.86) },
      discarded: [{ weight: lb('1.0'), stage: 'finished', reason: 'burst links' }],
      reasons: [
        { about: 'yield', reason: 'the smokehouse ran long' },
        { limitId: 'house-fat-max', reason: 'drier than planned' },
      ],
    });
    expect(status, JSON.stringify(body)).toBe(200);
    expect(body.deviations).toMatchObject([
      { about: 'yield', planned: '90.0 %', reason: 'the smokehouse ran long' },
      { limitId: 'house-fat-max', planned: 'at most 28 %', reason: 'drier than planned' },
    ]);
    expect(body.cautions).toEqual([
      expect.stringMatching(/^No temperature of the cooking and cooling is noted/),
    ]);
    const { output, discarded, loss, costPerKg } = body.finished;
    expect(output.mass.kg + discarded[0].mass.kg + loss.kg).toBeCloseTo(body.weighed.kg, 9);
    // What was thrown away is paid for by what is left.
    expect(costPerKg * output.mass.kg).toBeCloseTo(body.cost, 2);
    expect((await lot(body.id)).costPerKg).toBeCloseTo(costPerKg, 9);
  });
});

test('a test that finds the mix unlawful holds the product, though its weights were right', async () => {
  let batch = await mixer.weighed('ground-beef-80-20', 100);
  batch = await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.31, method: 'NIR' });
  // 9 CFR 319.15(a): ground beef has no more than 30 % fat.
  const broken = batch.limits.filter(({ holds, authority }: Json) => !holds && authority === 'law');
  expect(broken).toMatchObject([{ bound: 30, value: 31, citation: expect.stringContaining('319.15(a)') }]);
  expect(batch.cautions[0]).toContain('at most 30 %, found 31 %');
  const output = { weight: lb((batch.weighed.lb - 0.5).toFixed(1)) };
  const bare = await finish(batch, { output });
  expect(bare.status).toBe(422);
  const reasons = batch.open.map(({ limitId }: Json) => ({
    limitId,
    reason: 'the trim was fatter than its tag',
  }));
  const { body } = await finish(batch, { output, reasons });
  expect(body.state).toBe('finished');
  expect(body.finished.hold).toContain('at most 30 %, found 31 %');
  expect((await lot(batch.id)).held).toBe(body.finished.hold);
});

test('product made with a lot that is on hold by now is on hold itself, and its rework', async () => {
  let batch = await mixer.weighed('ground-beef-90-10', 60);
  const [{ lotId }] = batch.lines;
  await mixer.done(`/lots/${lotId}/hold`, { reason: 'the supplier calls it back' });
  batch = await mixer.done(`/batches/${batch.id}/finish`, {
    output: { weight: lb((batch.weighed.lb - 5.4).toFixed(1)) },
    rework: [{ weight: lb('5'), stage: 'raw' }],
  });
  const hold = `made with lot ${lotId}, which is on hold`;
  expect(batch.finished.hold).toBe(hold);
  for (const id of [batch.id, `${batch.id}-R1`]) expect((await lot(id)).held, id).toBe(hold);
  await mixer.done(`/lots/${lotId}/release`, { reason: 'it was another lot of his' });
});

test('a fat that no mix of the lots can have is refused', async () => {
  const batch = await mixer.weighed('fresh-pork-sausage', 100);
  const { status, body } = await mixer.post(`/batches/${batch.id}/tests`, {
    fatFraction: 0.99,
    method: 'NIR',
  });
  expect([status, body.errors[0].pointer]).toEqual([422, '/fatFraction']);
  expect(body.detail).toMatch(/99.0 % of fat cannot be in a mix of these lots, only [\d.]+ % to [\d.]+ %/);
});

test('a batch without meat leaves no rework', async () => {
  let batch = await mixer.plan('fresh-pork-sausage', 100);
  const salt = lineOf(batch, 'salt');
  batch = await mixer.done(`/batches/${batch.id}/weighings`, { line: salt.number, weight: salt.perLoad });
  const reasons = [
    ...batch.lines.map(({ number }: Json) => ({ line: number, reason: 'the mixer broke' })),
    ...batch.limits.map(({ limitId }: Json) => ({ limitId, reason: 'the mixer broke' })),
  ];
  batch = await mixer.done(`/batches/${batch.id}/weighed`, { reasons });
  const { status, body } = await finish(batch, {
    output: { weight: { value: '100', unit: 'g' } },
    rework: [{ weight: { value: '100', unit: 'g' } }],
    reasons: [...reasons, { about: 'yield', reason: 'the mixer broke' }],
  });
  expect([status, body.errors?.[0].pointer], JSON.stringify(body)).toEqual([422, '/rework']);
});

describe('packs', () => {
  let batch: Json;
  beforeAll(async () => {
    batch = await mixer.weighed('ground-beef-90-10', 100);
    batch = await mixer.done(`/batches/${batch.id}/finish`, {
      output: { weight: lb((batch.weighed.lb - 0.4).toFixed(1)), useByDate: '2026-12-02' },
    });
  });

  test('of more than there is say what there is, and none is made', async () => {
    const { status, body } = await pack(batch, { count: 10, net: lb('1') }, { count: 500, net: lb('1') });
    expect(status).toBe(409);
    expect(body.detail).toMatch(
      new RegExp(`These packs hold 500.00 lb; [\\d.]+ lb of lot ${batch.id} is left`),
    );
    expect((await mixer.get(`/batches/${batch.id}`)).packs).toEqual([]);
    expect((await mixer.call('GET', `/lots/${batch.id}-P1`)).status).toBe(404);
  });

  test('that hold less than they declare, or far more, are refused', async () => {
    const less = await pack(batch, { count: 50, net: lb('1'), filled: lb('49.5') });
    expect([less.status, less.body.errors[0].pointer]).toEqual([422, '/packs/0/filled']);
    expect(less.body.detail).toContain('99.0 % of what they declare. Fill them up, or declare less');
    const more = await pack(batch, { count: 5, net: lb('1'), filled: lb('50') });
    expect(more.body.detail).toContain('1000.0 % of what they declare. Check count, net and filled');
  });

  test('keep no longer than what is in them', async () => {
    const longer = await pack(batch, { count: 5, net: lb('1'), useByDate: '2026-12-03' });
    expect([longer.status, longer.body.errors[0].pointer]).toEqual([422, '/packs/0/useByDate']);
    const past = await pack(batch, { count: 5, net: lb('1'), useByDate: '2026-11-01' });
    expect(past.status).toBe(422);
  });

  test('empty the bulk to the last', async () => {
    const { onHand } = await lot(batch.id);
    const { status, body } = await pack(batch, { count: 1, net: lb(onHand.lb.toFixed(1)) });
    expect(status, JSON.stringify(body)).toBe(200);
    expect((await lot(batch.id)).onHand.kg).toBe(0);
    const pounds = await lot(`${batch.id}-P1`);
    expect(pounds.onHand).toEqual(onHand);
    expect((await mixer.done(`/batches/${batch.id}/closing`, {})).state).toBe('closed');
  });
});

test('limits of the plan stand as they were planned, whatever the house asks later', async () => {
  const batch = await mixer.plan('ground-beef-80-20', 50);
  const { body: product, etag = '' } = await mixer.call('GET', '/products/ground-beef-80-20');
  const stricter = { ...product, targets: [{ measure: 'fat', min: 0.1, max: 0.12 }] };
  const put = await mixer.call('PUT', '/products/ground-beef-80-20', stricter, { 'if-match': etag });
  expect(put.status, JSON.stringify(put.body)).toBe(200);
  expect(limitOf(await mixer.get(`/batches/${batch.id}`), 'house-fat-max').bound).toBe(20);
});

describe('cure that is missing', () => {
  test('puts what comes out on hold; a load that was never made lacks none', async () => {
    let batch = await mixer.plan('smoked-sausage', 500);
    expect(batch.loads).toBe(2);
    const cure = lineOf(batch, 'curing-salt-6.25');
    batch = await mixer.weighAll({ ...batch, lines: batch.lines.filter((line: Json) => line !== cure) }, [1]);
    const reasons = [{ load: 2, reason: 'the mixer broke down' }];
    const cureless = [...reasons, { line: cure.number, load: 1, reason: 'forgotten' }];
    batch = await mixer.done(`/batches/${batch.id}/weighed`, { reasons: cureless });
    expect(batch.cautions).toEqual([
      expect.stringContaining('THE LABEL IS NOT AS PLANNED'),
      expect.stringContaining('in load 1: 0 g of'),
    ]);
    expect(batch.cautions[1]).not.toContain('load 2');
    batch = await mixer.done(`/batches/${batch.id}/finish`, {
      output: { weight: lb((batch.weighed.lb * 0.9).toFixed(1)), useByDate: '2026-12-02' },
    });
    expect(batch.finished.hold).toMatch(/^less cure than planned: Curing salt .* in load 1: 0 g of \d+ g$/);
    expect((await mixer.get(`/lots/${batch.id}`)).held).toBe(batch.finished.hold);
    const { status, body } = await pack(batch, { count: 10, net: lb('1') });
    expect(status).toBe(409);
    expect(body.detail).toContain('less cure than planned');
  });
});
