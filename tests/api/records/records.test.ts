import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { type Ask, askAs, good, refusal, verifiedStop } from '../stock/client.ts';
import { type Floor, finishedBatch, floorOf, GROUND_BEEF, weighedBatch } from './made.ts';

/**
 * One day of the demo plant: the grinder is cleaned, ground beef is made and leaves rework, the next batch takes the rework,
 * packs are shipped and sold. The plant's clock is six hours behind UTC then.
 */

let service: Service;
let floor: Floor;
let ask: Ask;
let first: string;
let second: string;

beforeAll(async () => {
  service = await startDemo();
  floor = await floorOf(service, '2026-11-25T12:00:00.000Z');
  ask = floor.ask;
  const clean = { equipment: ['grinder', 'mixer'], what: 'cleaned and sanitized' };
  await good(ask('POST /cleanings', { body: { ...clean, at: '2026-11-25T05:30' } }));
  floor.at('2026-11-25T13:00:00.000Z');
  first = await finishedBatch(floor, GROUND_BEEF, {
    output: { weight: { value: '180', unit: 'lb' } },
    rework: [{ weight: { value: '15', unit: 'lb' } }],
    discarded: [{ weight: { value: '2', unit: 'lb' }, reason: 'fell on the floor' }],
    reasons: [{ about: 'yield', reason: 'left in the grinder' }],
  });
  floor.at('2026-11-25T14:00:00.000Z');
  await good(
    ask(`POST /batches/${first}/packs`, {
      body: { packs: [{ count: 100, net: { value: '1', unit: 'lb' } }] },
    }),
  );
  const ship = { to: '=Corner grocery', document: 'D-1042', lines: [{ lotId: `${first}-P1`, packs: 40 }] };
  await good(ask('POST /shipments', { body: ship }));
  await good(ask(`POST /lots/${first}-P1/movements`, { body: { kind: 'sold', packs: 10 } }));
  floor.at('2026-11-25T15:00:00.000Z');
  await good(ask('POST /cleanings', { body: clean }));
  floor.at('2026-11-25T16:00:00.000Z');
  const { body: trim } = await good(ask('GET /products/ground-beef-80-20'));
  await good(
    ask('PUT /products/ground-beef-80-20', {
      body: { ...trim, rework: { productIds: ['ground-beef-80-20'], maxFraction: 0.15 } },
      ifMatch: '*',
    }),
  );
  second = await weighedBatch(floor, {
    ...GROUND_BEEF,
    use: [{ lotId: `${first}-R1`, min: lb(10) }],
  });
}, 60_000);
afterAll(async () => {
  floor.close();
  await verifiedStop(service);
});

const LOT = 'B65-1120';
const trace = async (query: string) => (await good(ask(`GET /trace?${query}`))).body;
const places = (level: Json) =>
  [...level.lots, ...level.batches].map(({ lotId, batchId }: Json) => lotId ?? batchId);
const found = (body: Json, id: string) =>
  body.levels.flatMap(({ lots }: Json) => lots).find(({ lotId }: Json) => lotId === id);

describe('a trace', () => {
  test('goes forward through rework and packs to who got them, with every weight', async () => {
    const body = await trace(`lotId=${LOT}`);
    expect(body.levels.map((level: Json) => places(level).sort())).toEqual([
      [LOT],
      [first, second],
      [first, `${first}-R1`],
      [`${first}-P1`],
    ]);
    const flow = (from: Json, to: Json) =>
      body.flows.find((one: Json) => JSON.stringify([one.from, one.to]) === JSON.stringify([from, to])).mass
        .lb;
    expect(flow({ batchId: first }, { lotId: first })).toBe(180);
    expect(flow({ lotId: `${first}-R1` }, { batchId: second })).toBe(10);
    expect(flow({ lotId: first }, { lotId: `${first}-P1` })).toBe(100);
    expect(body.consignees).toMatchObject([
      { to: '=Corner grocery', document: 'D-1042', kind: 'shipped', lotId: `${first}-P1`, mass: { lb: 40 } },
      { kind: 'sold', lotId: `${first}-P1`, mass: { lb: 10 } },
    ]);
    const share = flow({ lotId: LOT }, { batchId: first }) / 200;
    expect(found(body, `${first}-P1`)).toMatchObject({ mayContain: true, onHand: { lb: 50 } });
    expect(found(body, `${first}-P1`).share).toBeCloseTo(share, 12);
    expect(found(body, `${first}-P1`).estimate.lb).toBeCloseTo(share * 100, 6);
  });

  test('goes back to the suppliers, and says the same share', async () => {
    const back = await trace(`lotId=${first}-P1&direction=back`);
    expect(back.levels.map(places)).toEqual([[`${first}-P1`], [first], [first], [LOT, 'B85-1119']]);
    expect(back.suppliers).toMatchObject([
      { supplierEstablishment: '00001', supplierLot: 'A-3172', lotIds: ['B85-1119'] },
      { supplierEstablishment: '00001', supplierLot: 'A-3187', lotIds: [LOT] },
    ]);
    const forward = await trace(`lotId=${LOT}`);
    expect(found(back, LOT).share).toBeCloseTo(found(forward, `${first}-P1`).share, 12);
    const ofRework = await trace(`batchId=${second}&direction=back`);
    expect(ofRework.levels.map((level: Json) => places(level).sort())).toEqual([
      [second],
      [`${first}-R1`, LOT, 'B85-1119'].sort(),
      [first],
    ]);
  });

  test("starts from the supplier's own number", async () => {
    const body = await trace('supplierLot=A-3187&supplierEstablishment=00001');
    expect(body.start.lotIds).toEqual([LOT]);
    expect(body.levels).toEqual((await trace(`lotId=${LOT}`)).levels);
  });

  test('is told in words', async () => {
    const { text, headers } = await floor.text(`/trace?lotId=${LOT}`, 'text/plain');
    expect(headers['content-type']).toBe('text/plain; charset=utf-8');
    expect(text).toContain(`TRACE FORWARD from lot ${LOT} (Est. 00001, supplier's lot A-3187)`);
    expect(text).toContain('As the books stood on 2026-11-25 10:00');
    expect(text).toContain('3 STEPS ON');
    expect(text).toMatch(
      /Packs \S+-P1, Ground beef 80\/20: 100\.00 lb, 50\.00 lb on hand, may contain it, \d/,
    );
    expect(text).toContain('over the counter, to whom is not known: 10.00 lb');
  });

  test('needs one place to start, which is in the books', async () => {
    await refusal(ask('GET /trace?lotId=NONE'), 404, [], 'GET /v1/lots');
    await refusal(ask('GET /trace?batchId=NONE'), 404, [], 'GET /v1/batches');
    await refusal(ask('GET /trace?supplierLot=A-3187&supplierEstablishment=9'), 404, [], 'Est. 9');
    await refusal(ask('GET /trace'), 400, ['/lotId'], 'exactly one');
    await refusal(ask(`GET /trace?lotId=${LOT}&batchId=${first}`), 400, ['/lotId'], 'exactly one');
    await refusal(ask(`GET /trace?lotId=${LOT}&supplierEstablishment=1`), 400, ['/supplierEstablishment']);
    await refusal(ask(`GET /trace?lotId=${LOT}&direction=up`), 400, ['/direction'], 'forward, back');
  });
});

describe('logs', () => {
  test('the grinding log has its lots from cleaning to cleaning, with every supplier', async () => {
    const { body } = await good(ask('GET /logs/grinding'));
    expect(body).toMatchObject({ plant: 'Demo Plant', establishment: '00000', fromDay: '2026-11-19' });
    expect(body.items).toMatchObject([
      {
        batches: [{ batchId: first, product: 'Ground beef 80/20' }],
        producedFrom: { at: '2026-11-25T13:00:00.000Z', shown: '2026-11-25 07:00' },
        cleanedBefore: { shown: '2026-11-25 05:30' },
        cleanedAfter: { shown: '2026-11-25 09:00' },
      },
      { batches: [{ batchId: second }], cleanedBefore: { shown: '2026-11-25 09:00' } },
    ]);
    const [one, two] = body.items;
    expect(
      one.sources
        .map(({ lotId, supplierLot, productionDate }: Json) => [lotId, supplierLot, productionDate])
        .sort(),
    ).toEqual([
      [LOT, 'A-3187', '2026-11-18'],
      ['B85-1119', 'A-3172', '2026-11-17'],
    ]);
    const carried = two.sources.filter(({ carriedOverBy }: Json) => carriedOverBy === `${first}-R1`);
    expect(carried.map(({ supplierLot }: Json) => supplierLot).sort()).toEqual(['A-3172', 'A-3187']);
    expect(JSON.stringify(body.notes)).toContain('320.3(c)');
    const { text } = await floor.text('/logs/grinding', 'text/csv');
    expect(text).toContain(`${first}-R1,"made here, batch ${first}"`);
  });

  test('a restricted ingredient is logged with how its limits stand; a cooked product is no raw ground beef', async () => {
    const id = await weighedBatch(floor, { product: 'smoked-sausage', batchSize: { total: lb(150) } });
    const { body } = await good(ask('GET /logs/restricted-ingredients'));
    const cure = body.items.find(({ substances }: Json) => substances.includes('sodium nitrite'));
    expect(cure).toMatchObject({ batchId: id, product: 'Smoked sausage', planned: cure.weighed, by: 'Demo' });
    expect(cure.standing.map(({ unit, holds }: Json) => [unit, holds])).toContainEqual(['ppm', true]);
    expect(body.items.some(({ material }: Json) => /trim/.test(material))).toBe(false);
    const { body: grinding } = await good(ask('GET /logs/grinding'));
    expect(grinding.items).toHaveLength(2);
  });

  test('fat tests are logged by the day of their sample, with what the batch was told by them', async () => {
    const test = { fatFraction: 0.05, method: 'NIR' };
    const { status } = await ask(`POST /batches/${second}/tests`, { body: { ...test, fatFraction: 0.23 } });
    expect(status).toBe(200);
    const { body } = await good(ask('GET /logs/fat-tests?fromDay=2026-11-25&toDay=2026-11-25'));
    expect(body.items).toMatchObject([
      { batchId: second, of: 'Ground beef 80/20', fatPercent: '23.00', method: 'NIR', by: 'Demo' },
    ]);
    expect(body.items[0].notMet.length).toBeGreaterThan(0);
    expect(body.items[0]).not.toHaveProperty('withdrawn');
    await good(ask('POST /lots/B73-1120/tests', { body: { fatFraction: 0.72, method: 'NIR' } }));
    const { body: wrong } = await good(ask('GET /tests?lotId=B73-1120&fromDay=2026-11-25'));
    const reason = { reason: 'lean was read for fat' };
    await good(ask(`POST /tests/${wrong.items[0].seq}/withdrawal`, { body: reason }));
    const { body: after } = await good(ask('GET /logs/fat-tests?fromDay=2026-11-25'));
    expect(after.items.map(({ withdrawn }: Json) => withdrawn)).toEqual([
      undefined,
      'lean was read for fat (Demo)',
    ]);
  });

  test.each(['grinding', 'fat-tests', 'restricted-ingredients', 'cleanings'])(
    'the log of %s comes as a table and as a page whose style the browser may use',
    async (name) => {
      const csv = await floor.text(`/logs/${name}?fromDay=2026-11-01`, 'text/csv');
      expect(csv.headers['content-type']).toBe('text/csv; charset=utf-8');
      const lines = csv.text.split('\r\n');
      expect(lines.length).toBeGreaterThan(2);
      expect(lines.at(-1)).toBe('');
      const page = await floor.text(`/logs/${name}`, 'text/html');
      expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
      for (const word of ['Demo Plant, Est. 00000', 'From 2026-11-19 to 2026-11-25', 'Reviewed by'])
        expect(page.text).toContain(word);
      const style = /<style>(.*)<\/style>/s.exec(page.text)?.[1] ?? '';
      const hash = createHash('sha256').update(style).digest('base64');
      expect(page.headers['content-security-policy']).toContain(`'sha256-${hash}'`);
      expect(page.text).not.toMatch(/<script| style=/);
    },
  );

  test('days are in order and at most a year', async () => {
    await refusal(
      ask('GET /logs/grinding?fromDay=2026-11-02&toDay=2026-11-01'),
      400,
      ['/fromDay'],
      'exchange',
    );
    await refusal(ask('GET /logs/grinding?fromDay=2025-01-01&toDay=2026-11-01'), 400, ['/fromDay'], '366');
  });
});

describe('a cleaning', () => {
  const clean = (fields: Json) =>
    ask('POST /cleanings', { body: { equipment: ['stuffer'], what: 'cleaned', ...fields } });

  test('is not yet to come, not long gone, and at a time that there was', async () => {
    await refusal(clean({ at: '2026-11-25T10:01' }), 422, ['/at'], 'it is 2026-11-25 10:00');
    await refusal(clean({ at: '2026-09-01T10:00' }), 422, ['/at'], '31 days');
    await refusal(clean({ at: '2026-02-30T10:00' }), 422, ['/at'], 'no time');
    await refusal(clean({ at: 'yesterday' }), 400, ['/at'], '2026-11-25T14:30');
    await refusal(clean({ equipment: [] }), 400, ['/equipment'], 'at least one');
    await refusal(clean({ what: 'hosed' }), 400, ['/what'], 'cleaned and sanitized');
  });

  test('that was written down wrong is corrected, and the logs go by what is right', async () => {
    const body = { equipment: ['Grinder 2'], what: 'cleaned and sanitized', at: '2026-11-25T08:30' };
    const { body: wrong, location } = await good(ask('POST /cleanings', { body }));
    const cleanedAfter = async () =>
      (await good(ask('GET /logs/grinding'))).body.items.map((item: Json) => item.cleanedAfter?.shown);
    expect(await cleanedAfter()).toEqual(['2026-11-25 08:30', undefined]);
    const correct = (fields: Json) =>
      ask(`POST ${location}/corrections`, {
        body: { reason: 'wrote the wrong hour', corrects: 'It was at 8:45, not at 8:30.', fields },
      });
    await refusal(correct({ at: '2026-11-25T23:00' }), 422, ['/fields/at'], 'not yet');
    await refusal(correct({ colour: 'red' }), 400, ['/fields'], 'unknown field');
    const { body: correction } = await good(correct({ at: '2026-11-25T08:45' }));
    expect(correction).toMatchObject({ kind: 'correction', corrects: wrong.record, by: 'Demo' });
    expect(await cleanedAfter()).toEqual(['2026-11-25 08:45', undefined]);
    const { body: old } = await good(ask(`GET ${location}`));
    expect(old).toMatchObject({ correctedBy: [correction.seq], body: { at: '2026-11-25T14:30:00.000Z' } });
    const { body: second } = await good(
      ask(`POST /records/${correction.seq}/corrections`, {
        body: {
          reason: 'was another machine',
          corrects: 'The grinder was not cleaned.',
          fields: { withdrawn: true },
        },
      }),
    );
    expect((await good(ask(`GET ${location}`))).body.correctedBy).toEqual([correction.seq, second.seq]);
    expect(await cleanedAfter()).toEqual(['2026-11-25 09:00', undefined]);
  });
});

describe('a recall drill', () => {
  const start = (fields: Json) =>
    ask('POST /recall-drills', { body: { lotId: LOT, reason: 'yearly drill', ...fields } });

  test('says where everything is, is counted, and is sealed in two records', async () => {
    const { body: drill, location } = await good(start({}));
    const { flows } = await trace(`lotId=${LOT}`);
    const takenLb = flows
      .filter(({ from }: Json) => from.lotId === LOT)
      .reduce((sum: number, { mass }: Json) => sum + mass.lb, 0);
    const { whereabouts } = drill;
    // The lot itself, with all else that went into the two batches; the rework is inside already.
    const affectedLb = 600 - takenLb + 200 + 190 + (await sausageLb());
    expect(whereabouts.affected.lb).toBeCloseTo(affectedLb, 6);
    expect(whereabouts).toMatchObject({
      onHand: { bulk: { lb: 80 }, packs: { lb: 50 } },
      shipped: [{ to: '=Corner grocery', mass: { lb: 40 } }],
      soldAtCounter: { lb: 10 },
      discarded: { lb: 2 },
    });
    expect(whereabouts.lossInProcess.lb).toBeCloseTo(3, 6);
    expect(whereabouts.accounted.lb).toBeCloseTo(affectedLb - 10, 6);
    const floored = Math.floor(((affectedLb - 10) / affectedLb) * 1000) / 10;
    expect(whereabouts.percentAccounted).toBeCloseTo(floored, 6);
    expect(drill.lots.map(({ lotId }: Json) => lotId).sort()).toEqual(
      [LOT, first, `${first}-P1`, `${first}-R1`].sort(),
    );
    floor.at('2026-11-25T16:42:30.000Z');
    const counted = drill.lots.filter(({ lotId }: Json) => lotId !== first);
    const foundLots = counted.map(({ lotId, onHand }: Json) => ({ lotId, mass: lb(onHand.lb + 5) }));
    await refusal(
      ask(`POST ${location}/finish`, { body: { found: [{ lotId: 'B73-1120', mass: lb(1) }] } }),
      422,
      ['/found/0/lotId'],
      'not affected',
    );
    const { body: ended } = await good(ask(`POST ${location}/finish`, { body: { found: foundLots } }));
    expect(ended.finished).toMatchObject({ minutes: 42.5, by: 'Demo' });
    // The bulk was not found; what is above the books elsewhere does not make up for it.
    expect(ended.finished.accounted.lb).toBeCloseTo(affectedLb - 10 - 80, 5);
    expect(ended.finished.counted).toContainEqual({
      lotId: first,
      books: expect.objectContaining({ lb: 80 }),
      found: { kg: 0, lb: 0 },
      difference: expect.objectContaining({ lb: -80 }),
      note: 'not looked for or not found',
    });
    await refusal(ask(`POST ${location}/finish`, { body: { found: [] } }), 409, [], 'finished already');
    expect((await good(ask(`GET ${location}`))).body).toEqual(ended);
    const { body: records } = await good(ask(`GET /records?kind=recall%20drill&subjectId=${drill.id}`));
    expect(records.items.map(({ seq }: Json) => seq)).toEqual([ended.records.start, ended.records.finish]);
    const page = await floor.text(location, 'text/html');
    for (const word of [
      `Recall drill ${drill.id}`,
      '42.5 minutes',
      'Shipped to =Corner grocery',
      'Demo Plant',
    ])
      expect(page.text).toContain(word);
    const { body: list } = await good(ask('GET /recall-drills'));
    expect(list.items).toMatchObject([{ id: drill.id, state: 'finished', minutes: 42.5 }]);
  });

  /** Of the smoked sausage, which may have taken of the lot too: all of it, but not the lot twice. */
  async function sausageLb(): Promise<number> {
    const { levels } = await trace(`lotId=${LOT}`);
    return levels[1].batches
      .filter(({ product }: Json) => product.id === 'smoked-sausage')
      .reduce((sum: number, { weighed }: Json) => sum + weighed.lb, 0);
  }

  test('holds all affected lots on hand in the same write, by those who may plan', async () => {
    const worker = await askAs(service, 'floor');
    await refusal(
      worker.ask('POST /recall-drills', { body: { lotId: LOT, reason: 'a call', hold: true } }),
      403,
      [],
      'take hold out',
    );
    worker.close();
    const { body: drill } = await good(start({ lotId: `${first}-R1`, hold: true, reason: 'metal found' }));
    expect(drill.putOnHold).toEqual([`${first}-R1`]);
    const { body: lot } = await good(ask(`GET /lots/${first}-R1`));
    expect(lot.held).toBe(`recall drill ${drill.id}: metal found`);
  });

  test('is of something in the books', async () => {
    await refusal(start({ lotId: 'NONE' }), 422, ['/lotId'], 'There is no lot');
    await refusal(start({ lotId: undefined }), 400, ['/lotId'], 'exactly one');
    await refusal(ask('GET /recall-drills/NONE'), 404, [], 'GET /v1/recall-drills');
    await refusal(ask('POST /recall-drills/NONE/finish', { body: { found: [] } }), 404, []);
  });
});

describe('records', () => {
  test('are listed page by page, by kind, by subject and by day', async () => {
    const { body: all } = await good(ask('GET /records'));
    const { body: page } = await good(ask('GET /records?limit=2'));
    const { body: next } = await good(ask(`GET /records?limit=2&after=${page.next}`));
    expect([...page.items, ...next.items]).toEqual(all.items.slice(0, 4));
    for (const item of all.items) expect((await good(ask(`GET /records/${item.seq}`))).body).toEqual(item);
    expect(all.items.filter(({ correctedBy }: Json) => correctedBy.length > 0)).toHaveLength(2);
    const { body: cleanings } = await good(
      ask('GET /records?kind=cleaning&fromDay=2026-11-25&toDay=2026-11-25'),
    );
    expect(cleanings.items.length).toBeGreaterThan(1);
    expect((await good(ask('GET /records?fromDay=2026-11-26'))).body.items).toEqual([]);
  });

  test('that are not there are not found, and only planners correct', async () => {
    await refusal(ask('GET /records/9999'), 404, []);
    await refusal(ask('GET /records/one'), 404, []);
    const inspector = await askAs(service, 'inspector');
    const body = { reason: 'a slip', corrects: 'It was the other one.' };
    await refusal(inspector.ask('POST /records/1/corrections', { body }), 403, []);
    inspector.close();
    await refusal(ask('POST /records/1/corrections', { body: { ...body, corrects: 'no' } }), 400, [
      '/corrects',
    ]);
    await refusal(ask('POST /records/9999/corrections', { body }), 404, []);
  });
});
