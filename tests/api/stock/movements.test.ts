import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { micrograms } from '../../../src/ledger/micrograms.ts';
import { book, openLot } from '../../../src/store/lots.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { type Ask, clientOf, entriesOf, good, refusal, verifiedStop } from './client.ts';

let service: Service;
let ask: Ask;
beforeAll(async () => {
  service = await startDemo();
  ask = clientOf(service);
});
afterAll(() => verifiedStop(service));

let count = 0;
let lotId = '';
/** A fresh lot of 100 lb for each test. */
beforeEach(async () => {
  lotId = `M-${++count}`;
  await good(ask('POST /lots', { body: receipt(lotId) }));
});

const receipt = (id: string) => ({
  id,
  materialId: 'beef-trim-73',
  mass: lb(100),
  cost: { amount: 2, per: 'lb' },
  useByDate: '2026-12-05',
});
const move = (body: Json, id = lotId) => ask(`POST /lots/${id}/movements`, { body });
const onHandLb = async (id = lotId) => (await good(ask(`GET /lots/${id}`))).body.onHand.lb;

describe('a movement', () => {
  test('of a count is booked as the difference, up or down', async () => {
    const down = await good(move({ kind: 'adjusted', counted: lb(97.5), reason: 'monthly count' }));
    expect(down.body.movement).toMatchObject({
      kind: 'adjusted',
      mass: { lb: -2.5 },
      after: { onHand: { lb: 97.5 } },
      entered: { value: '97.5', unit: 'lb' },
      reason: 'monthly count',
      by: 'Demo',
      day: '2026-11-25',
    });
    expect(down.body.lot.onHand.lb).toBe(97.5);
    expect(down.etag).toBe(`"${down.body.lot.version}"`);
    expect((await good(ask(`GET ${down.location}`))).body).toEqual(down.body.movement);
    const up = await good(
      move({ kind: 'adjusted', counted: { value: 50, unit: 'kg' }, reason: 'found more' }),
    );
    expect(up.body.movement.mass.kg).toBeCloseTo(50 - 97.5 * 0.45359237, 9);
    expect(up.body.lot.onHand.kg).toBe(50);
    await refusal(
      move({ kind: 'adjusted', counted: { value: 50, unit: 'kg' }, reason: 'again' }),
      422,
      ['/counted'],
      'nothing to adjust',
    );
  });

  test('of what was discarded, sold or shipped takes it out, to the last of it', async () => {
    await good(move({ kind: 'discarded', mass: lb(10), reason: 'fell on the floor' }));
    const sold = await good(move({ kind: 'sold', mass: lb(20), to: 'Tomas', pieces: 4 }));
    expect(sold.body.movement).toMatchObject({ mass: { lb: -20 }, to: 'Tomas', pieces: 4 });
    const shipped = await good(move({ kind: 'shipped', mass: 'all', to: 'Corner grocery', document: 'D-1' }));
    expect(shipped.body.movement).toMatchObject({ to: 'Corner grocery', document: 'D-1' });
    expect(shipped.body.movement.mass.lb).toBeCloseTo(-70, 9);
    expect(await onHandLb()).toBe(0);
    await refusal(move({ kind: 'sold', mass: 'all' }), 409, ['/mass'], 'nothing of it is free');
  });

  test.each<[string, Json, number, string[], string]>([
    [
      'of more than there is',
      { kind: 'sold', mass: lb(101) },
      409,
      ['/mass'],
      '100.00 lb (45.36 kg) is free',
    ],
    ['without a reason', { kind: 'discarded', mass: lb(1) }, 400, ['/reason'], 'is missing'],
    ['without a weight', { kind: 'sold' }, 400, ['/mass'], 'give mass or packs'],
    ['with two weights', { kind: 'sold', mass: lb(1), packs: 1 }, 400, ['/mass'], 'keep one'],
    ['of packs of no packs', { kind: 'sold', packs: 1 }, 422, ['/packs'], 'not kept in packs'],
    ['to nobody', { kind: 'shipped', mass: lb(1) }, 400, ['/to', '/document'], 'is missing'],
    [
      'that batches book',
      { kind: 'weighed', mass: lb(1) },
      400,
      ['/kind'],
      'adjusted, discarded, sold, shipped',
    ],
    [
      'below nothing',
      { kind: 'adjusted', counted: lb(-1), reason: 'slip' },
      400,
      ['/counted/value'],
      'negative',
    ],
  ])('%s is refused and changes nothing', async (_name, body, status, pointers, word) => {
    const before = await entriesOf(service);
    await refusal(move(body), status, pointers, word);
    expect([await entriesOf(service), await onHandLb()]).toEqual([before, 100]);
  });

  test('of a lot that is past its day is no sale', async () => {
    const sale = { kind: 'sold', mass: lb(1) };
    await refusal(move(sale, 'P72-1110'), 409, [], 'past its use-by date 2026-11-22');
    await good(move({ kind: 'discarded', mass: lb(1), reason: 'past its day' }, 'P72-1110'));
  });

  test('of a lot that has changed since it was read says so', async () => {
    const { etag } = await good(ask(`GET /lots/${lotId}`));
    const sale = { kind: 'sold', mass: lb(1) };
    await good(ask(`POST /lots/${lotId}/movements`, { body: sale, ifMatch: etag }));
    const late = ask(`POST /lots/${lotId}/movements`, { body: sale, ifMatch: etag });
    await refusal(late, 412, [], '1.00 lb sold');
    expect(await onHandLb()).toBe(99);
  });

  test('and others at the same time take no more than there is', async () => {
    const sales = Array.from({ length: 5 }, () => move({ kind: 'sold', mass: lb(30) }));
    const statuses = (await Promise.all(sales)).map(({ status }) => status);
    expect(statuses.sort()).toEqual([201, 201, 201, 409, 409]);
    expect(await onHandLb()).toBe(10);
    const { etag } = await good(ask(`GET /lots/${lotId}`));
    const edits = ['Dock', 'Cooler 2'].map((location) =>
      ask(`PATCH /lots/${lotId}`, { body: { location }, ifMatch: etag }),
    );
    expect((await Promise.all(edits)).map(({ status }) => status).sort()).toEqual([200, 412]);
  });

  test('sent again under its key is booked once', async () => {
    const sent = { body: { kind: 'sold', mass: lb(30) }, key: 'sale-1' };
    const first = await good(ask(`POST /lots/${lotId}/movements`, sent));
    expect(await good(ask(`POST /lots/${lotId}/movements`, sent))).toEqual(first);
    expect(await onHandLb()).toBe(70);
  });
});

describe('a movement that is wrong', () => {
  const reverse = (seq: number) =>
    ask(`POST /movements/${seq}/reversal`, { body: { reason: 'booked on the wrong lot' } });

  test('is taken back once, and both stay to be read', async () => {
    const sold = (await good(move({ kind: 'sold', mass: lb(40) }))).body.movement;
    const back = (await good(reverse(sold.seq))).body;
    expect(back.movement).toMatchObject({ kind: 'sold', mass: { lb: 40 }, reverses: sold.seq });
    expect(back.lot.onHand.lb).toBe(100);
    await refusal(reverse(sold.seq), 409, [], `by movement ${back.movement.seq}`);
    await refusal(reverse(back.movement.seq), 409, [], 'book what is right anew');
    const { body: all } = await good(ask(`GET /movements?lotId=${lotId}&kind=sold`));
    expect(all.items).toMatchObject([{ reversedBy: back.movement.seq }, { reverses: sold.seq }]);
  });

  test('may be the receipt itself, as long as all of it is there', async () => {
    const { body: all } = await good(ask(`GET /movements?lotId=${lotId}`));
    const sold = (await good(move({ kind: 'sold', mass: lb(1) }))).body.movement;
    await refusal(reverse(all.items[0].seq), 409, ['/mass'], '99.00 lb');
    await good(reverse(sold.seq));
    expect((await good(reverse(all.items[0].seq))).body.lot.onHand.lb).toBe(0);
  });

  test('is not there, is none, or is of another kind', async () => {
    await refusal(reverse(999_999), 404, [], 'There is no movement');
    const reason = { body: { reason: 'no such thing' } };
    await refusal(ask('POST /movements/one/reversal', reason), 404, [], 'no movement \\"one\\"');
    const test = { body: { fatFraction: 0.28, method: 'NIR', sample: lb(1) } };
    await good(ask(`POST /lots/${lotId}/tests`, test));
    const { body: tested } = await good(ask(`GET /movements?lotId=${lotId}&kind=tested`));
    await refusal(reverse(tested.items[0].seq), 409, [], 'was tested');
  });
});

describe('weight that is promised to a batch', () => {
  test('is neither sold, discarded nor counted away, and the batch is named', async () => {
    for (const { id } of (await good(ask('GET /lots?limit=500'))).body.items) {
      if (id !== lotId && /^(B73|M-)/.test(id)) {
        await good(move({ kind: 'discarded', mass: 'all', reason: 'room for one' }, id));
      }
    }
    const request = {
      product: 'ground-beef-80-20',
      batchSize: { total: lb(300) },
      use: [{ lotId, min: lb(60) }],
    };
    const { body: batch } = await good(ask('POST /batches', { body: request }));
    const { body: lot } = await good(ask(`GET /lots/${lotId}`));
    expect(lot.reserved.lb).toBeGreaterThanOrEqual(60);
    expect(lot.free.lb).toBeCloseTo(lot.onHand.lb - lot.reserved.lb, 9);
    await refusal(move({ kind: 'sold', mass: lb(95) }), 409, ['/mass'], `promised to batch ${batch.id}`);
    await refusal(
      move({ kind: 'discarded', mass: lb(100), reason: 'spoiled' }),
      409,
      ['/mass'],
      `promised to batch ${batch.id}`,
    );
    const counted = { kind: 'adjusted', counted: lb(1), reason: 'monthly count' };
    await refusal(move(counted), 409, ['/counted'], `promised to batch ${batch.id}`);
    const { body: ofBatch } = await good(ask(`GET /movements?batchId=${batch.id}`));
    expect(ofBatch.items.map(({ kind }: Json) => kind)).toContain('reserved');
    await refusal(
      ask(`POST /movements/${ofBatch.items[0].seq}/reversal`, { body: { reason: 'not mine' } }),
      409,
      [],
      `was reserved by batch ${batch.id}`,
    );
  });
});

describe('movements are listed', () => {
  test('in pages after one another, by lot, kind and day', async () => {
    for (const mass of [lb(1), lb(2), lb(3)]) await good(move({ kind: 'sold', mass }));
    const first = (await good(ask(`GET /movements?lotId=${lotId}&limit=2`))).body;
    const rest = (await good(ask(`GET /movements?lotId=${lotId}&limit=2&after=${first.next}`))).body;
    const kinds = [...first.items, ...rest.items].map(({ kind, mass }: Json) => [kind, mass.lb]);
    expect(kinds).toEqual([
      ['received', 100],
      ['sold', -1],
      ['sold', -2],
      ['sold', -3],
    ]);
    expect(rest.next).toBeUndefined();
    const days = `lotId=${lotId}&fromDay=2026-11-25&toDay=2026-11-25`;
    expect((await good(ask(`GET /movements?${days}`))).body.items).toHaveLength(4);
    expect((await good(ask(`GET /movements?lotId=${lotId}&fromDay=2026-11-26`))).body.items).toEqual([]);
    await refusal(ask('GET /movements?after=x'), 400, ['/after'], 'next of the page before');
  });
});

describe('a shipment', () => {
  const ship = (lines: Json[], key?: string) =>
    ask('POST /shipments', {
      body: { to: 'Corner grocery', document: 'D-1042', lines },
      ...(key !== undefined && { key }),
    });

  test('takes several lots, some twice, under one document', async () => {
    const other = `${lotId}-B`;
    await good(ask('POST /lots', { body: receipt(other) }));
    const lines = [
      { lotId, mass: lb(10) },
      { lotId: other, mass: 'all' },
      { lotId, mass: lb(5), pieces: 2 },
    ];
    const { body } = await good(ship(lines));
    expect(body.total.lb).toBeCloseTo(115, 9);
    expect(body.movements.map(({ lotId: id, document }: Json) => [id, document])).toEqual([
      [lotId, 'D-1042'],
      [other, 'D-1042'],
      [lotId, 'D-1042'],
    ]);
    expect([await onHandLb(), await onHandLb(other)]).toEqual([85, 0]);
  });

  test('leaves nothing behind when one of its lots cannot leave', async () => {
    const fine = { lotId, mass: lb(10) };
    const before = await entriesOf(service);
    await refusal(ship([fine, { lotId, mass: lb(91) }]), 409, ['/lines/1/mass'], '90.00 lb');
    await refusal(ship([fine, { lotId: 'NONE', mass: lb(1) }]), 422, ['/lines/1/lotId'], 'no lot');
    await refusal(ship([fine, { lotId: 'P72-1110', mass: lb(1) }]), 409, ['/lines/1/lotId'], '2026-11-22');
    await refusal(ship([fine, { lotId }]), 400, ['/lines/1/mass'], 'give mass or packs');
    await refusal(ship([]), 400, ['/lines'], 'at least one line');
    expect([await entriesOf(service), await onHandLb()]).toEqual([before, 100]);
  });

  test('sent again under its key leaves once', async () => {
    const first = await good(ship([{ lotId, mass: lb(10) }], 'shipment-1'));
    expect(await good(ship([{ lotId, mass: lb(10) }], 'shipment-1'))).toEqual(first);
    expect(await onHandLb()).toBe(90);
  });
});

describe('packs', () => {
  test('leave by their count, and the last of them take all that is there', async () => {
    const id = await packsOf(40, 'P-1');
    const { body: lot } = await good(ask(`GET /lots/${id}`));
    expect(lot).toMatchObject({
      kind: 'pack',
      productId: 'ground-beef-80-20',
      packs: { packed: 40, onHand: 40 },
    });
    const sold = await good(move({ kind: 'sold', packs: 15 }, id));
    expect(sold.body.movement).toMatchObject({ packs: 15 });
    expect(sold.body.movement.mass.lb).toBeCloseTo(-15, 6);
    expect(sold.body.lot.packs.onHand).toBe(25);
    await refusal(move({ kind: 'sold', packs: 26 }, id), 409, ['/packs'], '26 packs are asked, 25 are free');
    const lines = [{ lotId: id, packs: 25 }];
    await good(ask('POST /shipments', { body: { to: 'Corner grocery', document: 'D-2', lines } }));
    expect(await onHandLb(id)).toBe(0);
    await refusal(
      ask(`POST /lots/${id}/tests`, { body: { fatFraction: 0.2, method: 'NIR' } }),
      422,
      [],
      'test the batch',
    );
    await refusal(
      ask(`PATCH /lots/${id}`, { body: { supplierLot: 'x' }, ifMatch: '*' }),
      422,
      ['/supplierLot'],
      'was made here',
    );
  });

  test('are counted in packs; a right number moves nothing', async () => {
    const id = await packsOf(40, 'P-2');
    const count = (more: object, of = id) => move({ kind: 'adjusted', reason: 'end of day', ...more }, of);
    const { movement, lot } = (await good(count({ countedPacks: 37 }))).body;
    expect(movement.entered).toEqual({ value: '37', unit: 'packs' });
    expect(movement.mass.lb).toBeCloseTo(-3, 6);
    expect(lot.packs).toMatchObject({ packed: 40, onHand: 37 });
    // A broken pack stays what it is.
    await good(move({ kind: 'sold', mass: lb(0.4) }, id));
    await refusal(count({ countedPacks: 37 }), 422, ['/countedPacks'], 'nothing to adjust');
    await good(count({ countedPacks: 0 }));
    expect(await onHandLb(id)).toBe(0);
    await refusal(count({}), 400, ['/counted'], 'or countedPacks');
    await refusal(count({ counted: lb(1), countedPacks: 1 }), 400, ['/counted'], 'keep one');
    await refusal(count({ countedPacks: -1 }), 400, ['/countedPacks'], 'negative');
    await refusal(count({ countedPacks: 2 }, 'B73-1120'), 422, ['/countedPacks'], 'not kept in packs');
  });
});

describe('what a batch made', () => {
  test('leaves with a caution until its record was reviewed', async () => {
    const { body: batch } = await good(
      ask('POST /batches', {
        body: { product: 'ground-beef-80-20', batchSize: { total: lb(50) }, use: [] },
      }),
    );
    for (const { number, perLoad } of batch.lines)
      await good(
        ask(`POST /batches/${batch.id}/weighings`, { body: { line: number, load: 1, weight: perLoad } }),
      );
    await good(ask(`POST /batches/${batch.id}/weighed`, { body: {} }));
    const output = { weight: { value: '50', unit: 'lb' } };
    await good(ask(`POST /batches/${batch.id}/finish`, { body: { output } }));
    const packs = [{ count: 20, net: { value: '1', unit: 'lb' } }];
    await good(ask(`POST /batches/${batch.id}/packs`, { body: { packs } }));
    const lotId = `${batch.id}-P1`;
    const lines = [
      { lotId, packs: 2 },
      { lotId: batch.id, mass: lb(1) },
    ];
    const shipped = () =>
      good(ask('POST /shipments', { body: { to: 'Corner grocery', document: 'D-7', lines } }));
    const caution = [expect.stringContaining(`Batch ${batch.id} is not closed`)];
    expect((await shipped()).body.cautions).toEqual(caution);
    expect((await good(move({ kind: 'sold', packs: 1 }, lotId))).body.cautions).toEqual(caution);
    const counted = await good(move({ kind: 'adjusted', countedPacks: 16, reason: 'count' }, lotId));
    expect(counted.body.cautions).toEqual([]);
    await good(ask(`POST /batches/${batch.id}/closing`, { body: {} }));
    expect((await shipped()).body.cautions).toEqual([]);
  });
});

describe('a lot that is promised to the last', () => {
  test('says how some of it becomes free', async () => {
    const { body: whole } = await good(ask('GET /lots/B50-0306'));
    const plan = async (mass: number) => {
      const use = [{ lotId: 'B50-0306', min: lb(mass), max: lb(mass) }];
      const body = { product: 'smoked-sausage', batchSize: { meat: lb(mass * 4) }, use };
      return (await good(ask('POST /batches', { body }))).body;
    };
    const idle = await plan(20);
    const begun = await plan(20);
    const line = begun.lines.find(({ lotId }: { lotId?: string }) => lotId === 'B50-0306');
    await good(
      ask(`POST /batches/${begun.id}/weighings`, {
        body: { line: line.number, load: 1, weight: { value: '5.0', unit: 'lb' } },
      }),
    );
    const advice = [`cancel batch ${idle.id}, not begun yet`, `go on with batch ${begun.id}`];
    await refusal(
      move({ kind: 'discarded', mass: lb(whole.onHand.lb - 10), reason: 'a box fell' }, 'B50-0306'),
      409,
      ['/mass'],
      ...advice,
    );
    await refusal(
      move({ kind: 'adjusted', counted: lb(10), reason: 'a box fell' }, 'B50-0306'),
      409,
      ['/counted'],
      ...advice,
    );
  });
});

/** A lot of packs of 1 lb, put into the books as a batch does it. */
async function packsOf(packs: number, id: string): Promise<string> {
  const act = {
    by: { id: 'ana', name: 'Ana' },
    at: '2026-11-25T12:00:00.000Z',
    day: '2026-11-25',
    action: 'batch packed',
    subject: { kind: 'lot', id },
  };
  await service.books.store.write(act, async (writing) => {
    const body = {
      product: 'Ground beef 80/20',
      state: 'chilled',
      costPerKg: 5,
      count: packs,
      net: { value: '1', unit: 'lb' },
    };
    await openLot(writing, { id, kind: 'pack', ofId: 'ground-beef-80-20', body, receivedDay: act.day });
    await book(writing, { lotId: id, kind: 'packed', massUg: micrograms(packs, 'lb'), reservedUg: 0 });
    return { says: 'packed', result: null };
  });
  return id;
}
