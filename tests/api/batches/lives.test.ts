import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { recordOrRefuse } from '../../../src/store/records.ts';
import { type Json, startDemo } from '../running.ts';
import { lb, limitOf, lineOf, type Mixer, mixerAt, NITRITE } from './mixer.ts';

/** Whole lives of batches of the demo plant, from the plan to the sealed record. */

let service: Service;
let mixer: Mixer;

beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

const record = (seq: number): Promise<Json> =>
  service.books.store.read(async (db) => JSON.parse((await recordOrRefuse(db, seq)).body));

const plannedKg = (batch: Json, ids: RegExp): number =>
  batch.lines
    .filter(({ materialId }: Json) => ids.test(materialId))
    .reduce((total: number, { loads }: Json) => total + loads[0].planned.kg, 0);

const lot = (id: string): Promise<Json> => mixer.get(`/lots/${id}`);

describe('a ground beef of two loads', () => {
  let batch: Json;

  test('planned: its lots are promised for both loads', async () => {
    batch = await mixer.plan('ground-beef-80-20', 600);
    expect(batch.loads).toBe(2);
    expect(batch.state).toBe('planned');
    expect(batch.limitsAre).toBe('as planned');
    expect(batch.next).toEqual(['weighing', 'cancelled']);
    for (const line of batch.lines) {
      const { reserved } = await lot(line.lotId);
      expect(reserved.kg).toBeCloseTo(2 * line.loads[0].planned.kg, 6);
    }
  });

  test('weighed load by load: a load that is in may be tested while the next is weighed', async () => {
    batch = await mixer.weighAll(batch, [1]);
    expect(batch.state).toBe('weighing');
    expect(batch.limitsAre).toBe('as weighed so far');
    expect(batch.next).toEqual(['weighing', 'taken back', 'weighed', 'tested']);
    const early = await mixer.post(`/batches/${batch.id}/tests`, {
      fatFraction: 0.19,
      method: 'NIR',
      load: 2,
    });
    expect(early.status).toBe(409);
    expect(early.body.detail).toMatch(/Load 2 still waits for .* of line 1/);
    batch = await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.194, method: 'NIR', load: 1 });
    expect(batch.state).toBe('weighing');
    expect(batch.tests).toHaveLength(1);
    batch = await mixer.weighAll(batch);
    expect(batch.open).toEqual([]);
    batch = await mixer.done(`/batches/${batch.id}/weighed`, {});
    expect(batch.state).toBe('weighed');
    expect(batch.limitsAre).toBe('with the test');
    expect(batch.weighed.kg).toBeCloseTo(batch.planned.kg, 6);
  });

  test('a load that tests too fat does not hide behind the other, and is corrected by itself', async () => {
    batch = await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.212, method: 'NIR', load: 2 });
    const fat = batch.limits.filter(({ limitId }: Json) => limitId === 'house-fat-max');
    expect(fat).toMatchObject([{ load: 2, holds: false }]);
    expect(fat[0].value).toBeCloseTo(21.2, 6);
    expect(batch.open[0]).toMatchObject({ load: 2, planned: 'at most 20 %', found: '21.2 %' });
    const proposal = await mixer.done(`/batches/${batch.id}/correction-proposals`, { load: 2 });
    expect(proposal.outcome).toBe('additions');
    batch = await mixer.done(`/batches/${batch.id}/corrections`, { load: 2 });
    expect(batch.state).toBe('weighing');
    const added = batch.lines.filter(({ ofCorrection }: Json) => ofCorrection !== undefined);
    expect(added.length).toBeGreaterThan(0);
    expect(added.every(({ loads }: Json) => loads.length === 1 && loads[0].load === 2)).toBe(true);
    batch = await mixer.weighAll(batch);
    // The test still tells of what was in, so that the addition brings the load back.
    expect(batch.limits.filter(({ holds }: Json) => !holds)).toEqual([]);
    batch = await mixer.done(`/batches/${batch.id}/weighed`, {});
    expect(batch.limits.filter(({ holds }: Json) => !holds)).toEqual([]);
  });

  test('finished, packed, closed; then nothing goes any more', async () => {
    const out = (batch.weighed.lb - 2.1).toFixed(1);
    batch = await mixer.done(`/batches/${batch.id}/finish`, {
      output: { weight: lb(out), useByDate: '2026-12-04' },
      temperatures: [{ what: 'after mixing', value: 38, unit: 'F', time: '10:20' }],
    });
    expect(batch.state).toBe('finished');
    expect(batch.finished.loss.lb).toBeCloseTo(batch.weighed.lb - Number(out), 6);
    // What stuck to the grinder was made of the same as the rest: it makes no product fatter.
    expect(batch.limits.every(({ holds }: Json) => holds)).toBe(true);
    batch = await mixer.done(`/batches/${batch.id}/packs`, { packs: [{ count: 200, net: lb('1') }] });
    batch = await mixer.done(`/batches/${batch.id}/packs`, {
      packs: [
        { count: 40, net: lb('5'), filled: lb('200.8'), useByDate: '2026-12-01' },
        { count: 10, net: lb('10') },
      ],
    });
    expect(batch.packs.map(({ lotId }: Json) => lotId)).toEqual([1, 2, 3].map((n) => `${batch.id}-P${n}`));
    expect((await lot(`${batch.id}-P1`)).useByDate).toBe('2026-12-04');
    const second = await lot(`${batch.id}-P2`);
    expect(second).toMatchObject({ useByDate: '2026-12-01', kind: 'pack', packs: { packed: 40 } });
    expect(second.onHand.lb).toBeCloseTo(200.8, 6);
    expect((await lot(batch.id)).onHand.lb).toBeCloseTo(Number(out) - 200 - 200.8 - 100, 6);
    batch = await mixer.done(`/batches/${batch.id}/closing`, { note: 'label checked' });
    expect(batch).toMatchObject({ state: 'closed', next: [] });
    const sealed = await record(batch.record);
    expect(sealed).toMatchObject({
      id: batch.id,
      state: 'closed',
      reviewedBy: 'Demo',
      note: 'label checked',
      cautions: [],
    });
    expect(sealed.lines).toHaveLength(batch.lines.length);
    expect(sealed.tests).toHaveLength(2);
    for (const [path, body] of [
      ['weighings', { line: 1, load: 1, weight: lb('1') }],
      ['weighings/2/reversal', { reason: 'wrong scale' }],
      ['weighed', {}],
      ['tests', { fatFraction: 0.2, method: 'NIR' }],
      ['corrections', {}],
      ['finish', { output: { weight: lb('1') } }],
      ['packs', { packs: [{ count: 1, net: lb('1') }] }],
      ['closing', {}],
      ['cancellation', { reason: 'not wanted' }],
    ] as const) {
      const { status, body: problem } = await mixer.post(`/batches/${batch.id}/${path}`, body);
      expect(status, path).toBe(409);
      expect(problem.detail, path).toContain(`Batch ${batch.id} is closed`);
    }
    expect((await mixer.get(`/batches?state=closed`)).items).toMatchObject([
      { id: batch.id, version: batch.version },
    ]);
  });
});

test('a fresh sausage: seasoning and water have no lots, and go in all the same', async () => {
  let batch = await mixer.weighed('fresh-pork-sausage', 200);
  const salt = lineOf(batch, 'salt');
  expect(salt.lotId).toBeUndefined();
  expect(salt.loads[0].weighings).toMatchObject([{ weight: salt.perLoad, by: 'Demo' }]);
  const weighed = batch.weighed.lb;
  batch = await mixer.done(`/batches/${batch.id}/finish`, {
    output: { weight: lb((weighed - 6).toFixed(1)) },
    rework: [{ weight: lb('4'), stage: 'raw' }],
    discarded: [{ weight: lb('1'), stage: 'raw', reason: 'fell on the floor' }],
  });
  const { finished } = batch;
  const parts = finished.output.mass.kg + finished.rework[0].mass.kg + finished.discarded[0].mass.kg;
  expect(parts + finished.loss.kg).toBeCloseTo(batch.weighed.kg, 9);
  const rework = await lot(finished.rework[0].lotId);
  expect(rework).toMatchObject({ kind: 'material', batchId: batch.id });
  // All that was put in is paid for by what was kept.
  const spent = rework.costPerKg * rework.onHand.kg + finished.costPerKg * finished.output.mass.kg;
  expect(spent).toBeCloseTo(batch.cost, 2);
  expect(finished.costPerLb).toBeCloseTo(finished.costPerKg * 0.45359237, 9);
});

describe('a cured sausage that is cooked and smoked, and its rework', () => {
  let first: Json;

  test('a yield below 1 and cooked rework', async () => {
    first = await mixer.weighed('smoked-sausage', 300);
    const weighed = first.weighed.lb;
    first = await mixer.done(`/batches/${first.id}/finish`, {
      output: { weight: lb((weighed * 0.9 - 20).toFixed(1)), useByDate: '2026-12-20' },
      rework: [{ weight: lb('20'), stage: 'finished' }],
      temperatures: [{ what: 'highest internal, cooking', value: 160, unit: 'F' }],
    });
    expect(first.finished.yieldFraction).toBeCloseTo(0.9, 3);
    expect(first.deviations).toEqual([]);
    expect(first.cautions).toEqual([]);
    const rework = await lot(`${first.id}-R1`);
    expect(rework).toMatchObject({ useByDate: '2026-12-20', materialId: `rework-${first.id}` });
    expect(rework.onHand.lb).toBeCloseTo(20, 6);
    await mixer.done(`/batches/${first.id}/closing`, {});
  });

  test('goes into no batch as long as the product takes none', async () => {
    const batch = await mixer.plan('smoked-sausage', 150);
    expect(batch.lines.some(({ lotId }: Json) => lotId === `${first.id}-R1`)).toBe(false);
    await mixer.done(`/batches/${batch.id}/cancellation`, { reason: 'only a look' });
  });

  test('goes into a later batch of the same product, and its nitrite with it', async () => {
    const { body: product, etag = '' } = await mixer.call('GET', '/products/smoked-sausage');
    const changed = { ...product, rework: { productIds: ['smoked-sausage'], maxFraction: 0.1 } };
    const put = await mixer.call('PUT', '/products/smoked-sausage', changed, { 'if-match': etag });
    expect(put.status, JSON.stringify(put.body)).toBe(200);
    const rework = `${first.id}-R1`;
    let batch = await mixer.plan('smoked-sausage', 250, {
      use: [{ lotId: rework, min: { value: 15, unit: 'lb' } }],
    });
    const line = batch.lines.find(({ lotId }: Json) => lotId === rework);
    expect(Number(line.perLoad.value)).toBeGreaterThanOrEqual(15);
    // Said again without the forms: what went into the first batch, for each kilogram that came out of it.
    const meatKg = (of: Json) => plannedKg(of, /^(pork|beef)/);
    const cureKg = (of: Json) => plannedKg(of, /^curing-salt-6.25$/) * 0.0625;
    const outKg = first.weighed.kg * first.finished.yieldFraction;
    const reworkKg = line.loads[0].planned.kg;
    const nitriteKg = cureKg(batch) + (cureKg(first) / outKg) * reworkKg;
    const greenKg = meatKg(batch) + (meatKg(first) / outKg) * reworkKg;
    const { value, holds } = limitOf(batch, NITRITE);
    expect(value).toBeCloseTo((nitriteKg / greenKg) * 1e6, 6);
    expect(value).toBeGreaterThan((cureKg(batch) / greenKg) * 1e6 + 5);
    expect(holds).toBe(true);
    batch = await mixer.weighAll(batch);
    batch = await mixer.done(`/batches/${batch.id}/weighed`, {});
    expect(limitOf(batch, NITRITE).value).toBeCloseTo(value, 6);
    expect((await lot(rework)).onHand.lb).toBeCloseTo(20 - Number(line.perLoad.value), 6);
  });
});
