import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, startDemo } from '../running.ts';
import { lb, limitOf, lineOf, type Mixer, mixerAt, NITRITE, times } from './mixer.ts';

/** At the mixer: weights that are off, lots that were not planned, weighings taken back. */

let service: Service;
let mixer: Mixer;

beforeAll(async () => {
  service = await startDemo();
  mixer = mixerAt(service.address);
});
afterAll(() => service.stop());

const lot = (id: string): Promise<Json> => mixer.get(`/lots/${id}`);

const weigh = (batch: Json, body: object) =>
  mixer.post(`/batches/${batch.id}/weighings`, { load: 1, ...body });

/** A batch that is given up again once its questions are asked, so that the next finds the same lots. */
async function asking(product: string, pounds: number, ask: (batch: Json) => Promise<void>): Promise<void> {
  const batch = await mixer.plan(product, pounds);
  await ask(batch);
  await mixer.done(`/batches/${batch.id}/cancellation`, { reason: 'only to ask' });
}

describe('weights', () => {
  test('that are none are refused at their field', () =>
    asking('ground-beef-80-20', 100, async (batch) => {
      for (const value of [
        0,
        '0',
        '0.00',
        -5,
        '-5',
        '',
        'ten',
        '1e3',
        1e-9,
        1e30,
        null,
        '12.3456789',
        [],
        {},
      ]) {
        const { status, body } = await weigh(batch, { line: 1, weight: { value, unit: 'lb' } });
        expect(status, String(value)).toBe(400);
        expect(body.errors[0].pointer, String(value)).toBe('/weight/value');
      }
      const wrongUnit = await weigh(batch, { line: 1, weight: { value: '10', unit: 'stone' } });
      expect(wrongUnit.body.errors).toMatchObject([{ pointer: '/weight/unit' }]);
      const heavy = await weigh(batch, { line: 1, weight: { value: '9999999', unit: 'kg' } });
      expect(heavy.body.errors[0].message).toMatch(/1 mg to 1000000 kg/);
    }));

  test('for a line or a load that is not on the sheet', () =>
    asking('ground-beef-80-20', 100, async (batch) => {
      const noLine = await weigh(batch, { line: 9, weight: lb('1') });
      expect([noLine.status, noLine.body.errors[0].pointer]).toEqual([422, '/line']);
      const noLoad = await weigh(batch, { line: 1, load: 2, weight: lb('1') });
      expect([noLoad.status, noLoad.body.errors[0].pointer]).toEqual([422, '/load']);
      expect((await mixer.post('/batches/250101-001/weighings', { line: 1, weight: lb('1') })).status).toBe(
        404,
      );
    }));

  test('far above the line look like a slip and take nothing without a reason', () =>
    asking('ground-beef-80-20', 100, async (batch) => {
      const [line] = batch.lines;
      const before = await lot(line.lotId);
      const { status, body } = await weigh(batch, { line: 1, weight: times(line.perLoad, 1.2) });
      expect(status).toBe(422);
      expect(body.title).toMatch(/needs a reason/);
      expect(body.errors[0].pointer).toBe('/reason');
      expect(body.detail).toMatch(
        /asks .* lb into load 1; with .* lb there would be .* lb, (20|19\.\d|20\.\d) % more/,
      );
      expect(await lot(line.lotId)).toEqual(before);
    }));

  test('in the wrong unit: grams read as ounces', () =>
    asking('smoked-sausage', 100, async (batch) => {
      const pepper = lineOf(batch, 'black-pepper');
      expect(pepper.perLoad.unit).toBe('g');
      const { status, body } = await weigh(batch, {
        line: pepper.number,
        weight: { value: pepper.perLoad.value, unit: 'oz' },
      });
      expect(status).toBe(422);
      expect(body.detail).toContain('28.3 times as much. Check the weight, its unit and the line');
    }));

  test('that miss by a hundredth are as planned; by more they need a reason in the end', async () => {
    const batch = await mixer.plan('ground-beef-80-20', 100);
    let now = await mixer.done(`/batches/${batch.id}/weighings`, {
      line: 1,
      weight: times(batch.lines[0].perLoad, 0.995),
    });
    expect(now.open).toEqual([]);
    expect(now.lines[0].loads[0].rest.kg).toBe(0);
    const second = batch.lines[1];
    now = await mixer.done(`/batches/${batch.id}/weighings`, { line: 2, weight: times(second.perLoad, 0.5) });
    expect(now.open).toMatchObject([{ line: 2, load: 1, planned: `${second.perLoad.value} lb` }]);
    expect(now.lines[1].loads[0].rest.lb).toBeCloseTo(Number(second.perLoad.value) / 2, 0);
    const refused = await mixer.post(`/batches/${batch.id}/weighed`, {});
    expect(refused.status).toBe(422);
    expect(refused.body.detail).toMatch(/line 2, load 1: planned|line 2, load 1/);
    now = await mixer.done(`/batches/${batch.id}/weighings`, {
      line: 2,
      weight: {
        value: (Number(second.perLoad.value) - Number(times(second.perLoad, 0.5).value)).toFixed(1),
        unit: 'lb',
      },
    });
    expect(now.open).toEqual([]);
    expect(now.lines[1].loads[0].weighings).toHaveLength(2);
    now = await mixer.weighAll(now);
    expect((await mixer.done(`/batches/${batch.id}/weighed`, {})).deviations).toEqual([]);
  });

  test('beyond what is free of a lot say what there is', async () => {
    const batch = await mixer.plan('ground-beef-80-20', 100);
    const [line] = batch.lines;
    const { status, body } = await weigh(batch, {
      line: 1,
      weight: lb('5000'),
      reason: 'this is what it shows',
    });
    expect(status).toBe(409);
    expect(body.detail).toMatch(
      new RegExp(
        `^Lot ${line.lotId} has [\\d.]+ lb for this batch(, and [\\d.]+ lb promised to others)?; 5000 lb is asked`,
      ),
    );
    expect(body.errors[0].pointer).toBe('/weight');
    await mixer.done(`/batches/${batch.id}/cancellation`, { reason: 'only to ask' });
  });
});

describe('cure', () => {
  test('above the plan asks for a reason at once, by a single division', () =>
    asking('smoked-sausage', 300, async (batch) => {
      const cure = lineOf(batch, 'curing-salt-6.25');
      const decimals = cure.perLoad.value.split('.')[1]?.length ?? 0;
      const over = {
        value: (Number(cure.perLoad.value) + 10 ** -decimals).toFixed(decimals),
        unit: cure.perLoad.unit,
      };
      const { status, body } = await weigh(batch, { line: cure.number, weight: over });
      expect([status, body.errors[0].pointer]).toEqual([422, '/reason']);
    }));

  test('too much of it: a caution at once, a reason for the limit, product on hold, and all of it on record', async () => {
    let batch = await mixer.plan('smoked-sausage', 300);
    const cure = lineOf(batch, 'curing-salt-6.25');
    batch = await mixer.done(`/batches/${batch.id}/weighings`, {
      line: cure.number,
      weight: times(cure.perLoad, 1.1),
      reason: 'it was in the bowl with the salt',
    });
    const { value } = limitOf(batch, NITRITE);
    expect(value).toBeGreaterThan(160);
    const found = `at most 156 ppm, found ${Number(value.toPrecision(4))} ppm`;
    expect(batch.cautions[0]).toMatch(/^NOT LAWFUL as it stands: /);
    expect(batch.cautions[0]).toContain(found);
    batch = await mixer.weighAll(batch);
    const bare = await mixer.post(`/batches/${batch.id}/weighed`, {});
    expect(bare.status).toBe(422);
    expect(bare.body.detail).toContain(`limitId ${NITRITE}`);
    expect(bare.body.detail).toContain(found);
    const reasons = batch.open
      .filter(({ reason }: Json) => reason === undefined)
      .map(({ limitId }: Json) => ({ limitId, reason: 'too much cure went in' }));
    batch = await mixer.done(`/batches/${batch.id}/weighed`, { reasons });
    expect(batch.deviations).toMatchObject([
      { line: cure.number, reason: 'it was in the bowl with the salt' },
      { limitId: NITRITE, reason: 'too much cure went in' },
    ]);
    // The same finding keeps its reason; a yield is another finding.
    expect(batch.open.every(({ reason }: Json) => reason !== undefined)).toBe(true);
    const output = { weight: lb((batch.weighed.lb * 0.9 - 10).toFixed(1)) };
    batch = await mixer.done(`/batches/${batch.id}/finish`, {
      output,
      rework: [{ weight: lb('10') }],
      temperatures: [{ what: 'highest internal, cooking', value: 71.5, unit: 'C' }],
    });
    const held = await lot(batch.id);
    expect(held.held).toContain(found);
    expect((await lot(`${batch.id}-R1`)).held).toContain(found);
    const packs = { packs: [{ count: 10, net: lb('1') }] };
    const packing = await mixer.post(`/batches/${batch.id}/packs`, packs);
    expect(packing.status).toBe(409);
    expect(packing.body.detail).toContain(`Lot ${batch.id} is on hold`);
    const closing = await mixer.post(`/batches/${batch.id}/closing`, {});
    expect(closing.status).toBe(409);
    expect(closing.body.detail).toMatch(/still on hold. Decide what becomes of it first/);
    await mixer.done(`/lots/${batch.id}/release`, { reason: 'the inspector let it go as animal food' });
    await mixer.done(`/lots/${batch.id}-R1/release`, { reason: 'together with the rest' });
    await mixer.done(`/batches/${batch.id}/packs`, packs);
    batch = await mixer.done(`/batches/${batch.id}/closing`, {});
    const sealed = await service.books.store.read(async (db) => {
      const row = await db
        .selectFrom('records')
        .select('body')
        .where('seq', '=', batch.record)
        .executeTakeFirstOrThrow();
      return JSON.parse(row.body) as Json;
    });
    expect(sealed.cautions[0]).toContain(found);
    expect(sealed.deviations.some(({ limitId }: Json) => limitId === NITRITE)).toBe(true);
    expect(sealed.lots).toMatchObject([
      {
        lotId: batch.id,
        by: 'Demo',
        says: expect.stringContaining('the inspector let it go as animal food'),
      },
      { lotId: `${batch.id}-R1`, says: expect.stringContaining('together with the rest') },
    ]);
  });

  test('too little of it is a departure and a caution too, though no limit is missed', async () => {
    let batch = await mixer.plan('smoked-sausage', 300);
    const cure = lineOf(batch, 'curing-salt-6.25');
    batch = await mixer.done(`/batches/${batch.id}/weighings`, {
      line: cure.number,
      weight: times(cure.perLoad, 0.8),
    });
    expect(batch.cautions).toEqual([expect.stringMatching(/^Less cure than planned: /)]);
    for (const line of batch.lines) {
      if (line.number !== cure.number)
        await mixer.done(`/batches/${batch.id}/weighings`, { line: line.number, weight: line.perLoad });
    }
    const bare = await mixer.post(`/batches/${batch.id}/weighed`, {});
    expect(bare.body.detail).toContain(`line ${cure.number}, load 1`);
    batch = await mixer.done(`/batches/${batch.id}/weighed`, {
      reasons: [{ line: cure.number, reason: 'the bag ran out' }],
    });
    expect(batch.cautions).toEqual([expect.stringContaining('ask your process authority')]);
  });

  test('of one load in the other: each load has to hold by itself', async () => {
    let batch = await mixer.plan('smoked-sausage', 500);
    expect(batch.loads).toBe(2);
    const planned = limitOf(batch, NITRITE).value;
    const cure = lineOf(batch, 'curing-salt-6.25');
    for (const line of batch.lines) {
      for (const load of [1, 2]) {
        if (line.number === cure.number) continue;
        await mixer.done(`/batches/${batch.id}/weighings`, { line: line.number, load, weight: line.perLoad });
      }
    }
    batch = await mixer.done(`/batches/${batch.id}/weighings`, {
      line: cure.number,
      load: 1,
      weight: times(cure.perLoad, 2),
      reason: 'both bowls went into load 1',
    });
    const { status, body } = await mixer.post(`/batches/${batch.id}/weighed`, {
      reasons: [{ line: cure.number, load: 2, reason: 'its cure is in load 1' }],
    });
    expect(status).toBe(422);
    expect(body.detail).toContain('in load 1: at most 156 ppm');
    expect(limitOf(batch, NITRITE)).toMatchObject({ load: 1, holds: false });
    expect(limitOf(batch, NITRITE).value).toBeCloseTo(2 * planned, 6);
  });
});

describe('another lot than planned', () => {
  test('that cannot go in is refused in clear words', () =>
    asking('smoked-sausage', 100, async (batch) => {
      const pork = batch.lines.find(({ lotId }: Json) => lotId?.startsWith('P'));
      const cure = lineOf(batch, 'curing-salt-6.25');
      const salt = lineOf(batch, 'salt');
      const reason = 'the planned one is not to be found';
      const tries: readonly [line: Json, lotId: string, status: number, says: RegExp][] = [
        [pork, 'NO-SUCH', 422, /no such lot is on hand/],
        [pork, 'B90-1123', 422, /line \d+ is .*, the lot is /],
        [pork, 'CTM-1123', 422, /the lot is /],
        [cure, 'STPP-0812', 422, /the lot is /],
        [salt, 'CURE-0812', 422, /the lot is /],
        [pork, 'P72-1110', 409, /past its use-by date 2026-11-22/],
      ];
      for (const [line, lotId, status, says] of tries) {
        const answer = await weigh(batch, { line: line.number, weight: line.perLoad, lotId, reason });
        expect(answer.status, `${lotId}: ${JSON.stringify(answer.body)}`).toBe(status);
        expect(answer.body.detail).toMatch(says);
      }
    }));

  test('that the standard does not allow is refused with its rule', () =>
    asking('ground-beef-80-20', 100, async (batch) => {
      const { status, body } = await weigh(batch, {
        line: 1,
        weight: batch.lines[0].perLoad,
        lotId: 'BFT-1118',
        reason: 'more fat was wanted',
      });
      expect(status).toBe(422);
      expect(body.errors[0].pointer).toBe('/lotId');
      expect(body.detail).toMatch(/BFT-1118 cannot go in: /);
    }));

  test('on hold, or with too little on it', () =>
    asking('ground-beef-80-20', 100, async (batch) => {
      const [line] = batch.lines;
      const other = ['B85-1119', 'B90-0914', 'B95-1121'].find(
        (id) => !batch.lines.some(({ lotId }: Json) => lotId === id),
      );
      await mixer.done(`/lots/${other}/hold`, { reason: 'smells odd' });
      const held = await weigh(batch, {
        line: 1,
        weight: line.perLoad,
        lotId: other,
        reason: 'it was nearer',
      });
      expect(held.status).toBe(409);
      expect(held.body.detail).toContain(`Lot ${other} is on hold`);
      await mixer.done(`/lots/${other}/release`, { reason: 'it was the box' });
      const slip = await weigh(batch, { line: 1, weight: lb('3000'), lotId: other, reason: 'it was nearer' });
      expect([slip.status, slip.body.errors[0].pointer]).toEqual([422, '/meant']);
      const short = await weigh(batch, {
        line: 1,
        weight: lb('3000'),
        lotId: other,
        meant: true,
        reason: 'it was nearer',
      });
      expect(short.status).toBe(409);
      expect(short.body.detail).toMatch(/has [\d.]+ lb for this batch/);
    }));

  test('needs a reason, is drawn on, and stands in the deviations', async () => {
    let batch = await mixer.plan('ground-beef-80-20', 100);
    const [line] = batch.lines;
    const other = ['B90-0914', 'B95-1121', 'B85-1119'].find(
      (id) => !batch.lines.some(({ lotId }: Json) => lotId === id),
    );
    const bare = await weigh(batch, { line: 1, weight: line.perLoad, lotId: other });
    expect([bare.status, bare.body.errors[0].pointer]).toEqual([422, '/reason']);
    const before = await lot(String(other));
    const planned = await lot(line.lotId);
    const half = times(line.perLoad, 0.5);
    await mixer.done(`/batches/${batch.id}/weighings`, { line: 1, weight: half });
    const rest = (Number(line.perLoad.value) - Number(half.value)).toFixed(1);
    batch = await mixer.done(`/batches/${batch.id}/weighings`, {
      line: 1,
      weight: lb(rest),
      lotId: other,
      reason: 'the planned lot was frozen through',
    });
    expect((await lot(String(other))).onHand.lb).toBeCloseTo(before.onHand.lb - Number(rest), 6);
    expect(batch.lines[0].loads[0].weighings.map(({ lotId }: Json) => lotId)).toEqual([line.lotId, other]);
    batch = await mixer.weighAll(batch);
    const reasons = batch.open
      .filter(({ reason }: Json) => reason === undefined)
      .map(({ limitId }: Json) => ({ limitId, reason: 'leaner than planned' }));
    batch = await mixer.done(`/batches/${batch.id}/weighed`, { reasons });
    expect(batch.deviations[0]).toMatchObject({
      line: 1,
      planned: `from ${line.lotId}`,
      found: `${rest} lb from ${other}`,
      reason: 'the planned lot was frozen through',
    });
    // What was promised and not used is free again.
    const after = await lot(line.lotId);
    expect(after.onHand.lb).toBeCloseTo(planned.onHand.lb - Number(half.value), 6);
    expect(after.reserved.kg).toBeCloseTo(planned.reserved.kg - line.loads[0].planned.kg, 6);
  });
});

describe('taken back', () => {
  test('the lot has its weight again, promised again; twice is refused', async () => {
    let batch = await mixer.plan('ground-beef-80-20', 100);
    const [line] = batch.lines;
    const before = await lot(line.lotId);
    batch = await mixer.done(`/batches/${batch.id}/weighings`, { line: 1, weight: line.perLoad });
    const step = batch.lines[0].loads[0].weighings[0].step;
    const back = `/batches/${batch.id}/weighings/${step}/reversal`;
    expect((await mixer.post(back, {})).body.errors[0].pointer).toBe('/reason');
    const blocked = await mixer.post(`/batches/${batch.id}/cancellation`, { reason: 'not wanted' });
    expect(blocked.status).toBe(409);
    batch = await mixer.done(back, { reason: 'wrong pallet' });
    expect(batch.next).toEqual(['weighing', 'cancelled']);
    const after = await lot(line.lotId);
    expect([after.onHand, after.reserved, after.free]).toEqual([before.onHand, before.reserved, before.free]);
    const twice = await mixer.post(back, { reason: 'wrong pallet' });
    expect(twice.status).toBe(409);
    expect(twice.body.detail).toBe(`Weighing ${step} was taken back already, by Demo: wrong pallet.`);
    expect(
      (await mixer.post(`/batches/${batch.id}/weighings/99/reversal`, { reason: 'wrong one' })).status,
    ).toBe(404);
    expect((await mixer.post(`/batches/${batch.id}/weighed`, {})).status).toBe(409);
    await mixer.done(`/batches/${batch.id}/cancellation`, { reason: 'the grinder is down' });
    expect((await lot(line.lotId)).reserved.kg).toBeCloseTo(before.reserved.kg - line.loads[0].planned.kg, 9);
  });

  test('after all was weighed: the batch waits for it, and a test of the mix tells nothing any more', async () => {
    let batch = await mixer.weighed('ground-beef-80-20', 100);
    batch = await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.21, method: 'NIR' });
    expect(limitOf(batch, 'house-fat-max').holds).toBe(false);
    const last = batch.lines.at(-1);
    const { step } = last.loads[0].weighings[0];
    batch = await mixer.done(`/batches/${batch.id}/weighings/${step}/reversal`, {
      reason: 'it is still on the scale',
    });
    expect(batch.state).toBe('weighing');
    expect(limitOf(batch, 'house-fat-max').holds).toBe(true);
    batch = await mixer.weighAll(batch);
    batch = await mixer.done(`/batches/${batch.id}/weighed`, {});
    expect(batch.limitsAre).toBe('as weighed');
    const correction = await mixer.post(`/batches/${batch.id}/corrections`, {});
    expect(correction.status).toBe(409);
    expect(correction.body.detail).toMatch(/has no fat test since it was weighed/);
  });
});

test('a lot that runs past its use-by date while the batch waits goes in no more', async () => {
  const batch = await mixer.plan('ground-beef-80-20', 60);
  const [line] = batch.lines;
  const { etag = '' } = await mixer.call('GET', `/lots/${line.lotId}`);
  const put = await mixer.call(
    'PATCH',
    `/lots/${line.lotId}`,
    { useByDate: '2026-11-24' },
    { 'if-match': etag },
  );
  expect(put.status, JSON.stringify(put.body)).toBe(200);
  const { status, body } = await weigh(batch, { line: 1, weight: line.perLoad });
  expect(status).toBe(409);
  expect(body.detail).toContain('past its use-by date 2026-11-24');
});

describe('what was said to be missing', () => {
  test('is waited for no more: a correction asks only for what it adds', async () => {
    let batch = await mixer.plan('ground-beef-80-20', 500);
    const fattest = lineOf(batch, 'beef-trim-65');
    const at = batch.lines.indexOf(fattest);
    batch = await mixer.weighAll(batch, [1]);
    batch = await mixer.done(`/batches/${batch.id}/weighings`, {
      line: fattest.number,
      load: 2,
      weight: times(fattest.perLoad, 0.95),
    });
    const { step } = batch.lines[at].loads[1].weighings[0];
    batch = await mixer.weighAll({
      ...batch,
      lines: batch.lines.filter((_: Json, index: number) => index !== at),
    });
    const reasons = [{ line: fattest.number, load: 2, reason: 'the last box was short' }];
    batch = await mixer.done(`/batches/${batch.id}/weighed`, { reasons });
    await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.224, method: 'NIR', load: 1 });
    batch = await mixer.done(`/batches/${batch.id}/corrections`, { load: 1 });
    expect(batch.state).toBe('weighing');
    const restOf = (now: Json, load: number) => now.lines[at].loads[load - 1].rest.kg;
    expect(restOf(batch, 2)).toBe(0);
    batch = await mixer.weighAll(batch);
    expect(batch.lines[at].loads[1].weighings).toHaveLength(1);
    // The whole may be tested: nothing is waited for.
    batch = await mixer.done(`/batches/${batch.id}/tests`, { fatFraction: 0.198, method: 'NIR' });
    const told = batch.open
      .filter(({ reason }: Json) => reason === undefined)
      .map(({ limitId }: Json) => ({ limitId, reason: 'tested on the whole' }));
    batch = await mixer.done(`/batches/${batch.id}/weighed`, { reasons: told });
    expect(batch.state).toBe('weighed');
    // What is taken back after all is missing again.
    batch = await mixer.done(`/batches/${batch.id}/weighings/${step}/reversal`, {
      reason: 'still in the tub',
    });
    expect(restOf(batch, 2)).toBeCloseTo(fattest.loads[1].planned.kg, 9);
  });

  test('has one reason for a whole load', async () => {
    let batch = await mixer.plan('bratwurst', 500);
    expect(batch.loads).toBe(2);
    batch = await mixer.weighAll(batch, [1]);
    const bare = await mixer.post(`/batches/${batch.id}/weighed`, {});
    expect(bare.status).toBe(422);
    const reasons = [
      { load: 2, reason: 'the grinder broke down' },
      { line: 1, load: 2, reason: 'this box goes to the next batch' },
    ];
    batch = await mixer.done(`/batches/${batch.id}/weighed`, { reasons });
    const ofLoad = batch.deviations.filter(({ load }: Json) => load === 2);
    expect(ofLoad).toHaveLength(batch.lines.length);
    expect(ofLoad[0].reason).toBe('this box goes to the next batch');
    expect(new Set(ofLoad.slice(1).map(({ reason }: Json) => reason))).toEqual(
      new Set(['the grinder broke down']),
    );
    const other = [{ load: 1, reason: 'of another load' }];
    expect((await mixer.post(`/batches/${batch.id}/finish`, { output: {}, reasons: other })).status).toBe(
      400,
    );
  });
});

describe('a refused lot', () => {
  test('that weighs more than the books say is adjusted to what the scale shows', async () => {
    const receipt = { id: 'LAST', materialId: 'beef-trim-85', mass: { value: 60, unit: 'lb' } };
    await mixer.done('/lots', { ...receipt, cost: { amount: 3, per: 'lb' }, useByDate: '2026-12-02' });
    const batch = await mixer.plan('ground-beef-80-20', 80, {
      use: [{ lotId: 'LAST', min: { value: 60, unit: 'lb' } }],
    });
    const { number: line } = batch.lines.find(({ lotId }: Json) => lotId === 'LAST');
    const { status, body } = await weigh(batch, { line, weight: lb('60.4') });
    expect([status, body.errors[0].pointer]).toEqual([409, '/weight']);
    expect(body.detail).toContain('adjust the lot to 60.4 lb first');
    await mixer.done('/lots/LAST/movements', {
      kind: 'adjusted',
      counted: { value: 60.4, unit: 'lb' },
      reason: 'all of it is on the scale',
    });
    expect((await weigh(batch, { line, weight: lb('60.4') })).status).toBe(200);
    expect((await lot('LAST')).onHand.kg).toBe(0);
  });

  test('that is on hold says why', async () => {
    const batch = await mixer.plan('ground-beef-80-20', 60);
    const [{ lotId }] = batch.lines;
    await mixer.done(`/lots/${lotId}/hold`, { reason: 'the supplier called' });
    const { status, body } = await weigh(batch, { line: 1, weight: batch.lines[0].perLoad });
    expect([status, body.errors[0].pointer]).toEqual([409, '/lotId']);
    expect(body.detail).toContain('the supplier called');
    await mixer.done(`/lots/${lotId}/release`, { reason: 'another lot was meant' });
  });
});
