import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { type Ask, askAs, clientOf, entriesOf, good, refusal, verifiedStop } from './client.ts';

let service: Service;
let ask: Ask;
beforeAll(async () => {
  service = await startDemo();
  ask = clientOf(service);
});
afterAll(() => verifiedStop(service));

const RECEIPT = {
  materialId: 'beef-trim-73',
  mass: lb(720),
  cost: { amount: 2, per: 'lb' },
  packedDate: '2026-11-23',
  useByDate: '2026-12-05',
  supplierEstablishment: '00001',
  supplierLot: 'A-9',
  location: 'Cooler 1',
};
const ids = ({ items }: Json) => items.map(({ id }: Json) => id);
const receive = async (fields: Json = {}) => good(ask('POST /lots', { body: { ...RECEIPT, ...fields } }));

describe('lots are listed', () => {
  test('in pages after one another that together hold each once', async () => {
    const { body: all } = await good(ask('GET /lots?limit=500'));
    expect(all.next).toBeUndefined();
    const found: string[] = [];
    let after = '';
    for (let pages = 0; pages < 100; pages++) {
      const { body: page } = await good(ask(`GET /lots?limit=7${after}`));
      found.push(...ids(page));
      expect(page.total).toBe(all.total);
      if (page.next === undefined) break;
      after = `&after=${page.next}`;
    }
    expect(found).toEqual(ids(all));
    expect(found).toHaveLength(all.total);
    const { body: second } = await good(ask('GET /lots?limit=3&offset=3'));
    expect(ids(second)).toEqual(found.slice(3, 6));
  });

  test('by kind, material, hold and what is on hand', async () => {
    const { body: lot } = await receive({ id: 'LISTED', hold: 'waits for its certificate' });
    expect(lot.held).toBe('waits for its certificate');
    const found = async (query: string) => ids((await good(ask(`GET /lots?${query}`))).body);
    expect(await found('held=true')).toEqual(['LISTED']);
    expect(await found('materialId=beef-trim-73&held=false')).not.toContain('LISTED');
    expect(await found('kind=pack')).toEqual([]);
    expect(await found('onHand=false')).toEqual([]);
    const all = { kind: 'discarded', mass: 'all', reason: 'spoiled' };
    await good(ask('POST /lots/LISTED/movements', { body: all }));
    expect(await found('onHand=false')).toEqual(['LISTED']);
    expect(await found('onHand=any&materialId=beef-trim-73')).toContain('LISTED');
    expect(await found('materialId=beef-trim-73')).not.toContain('LISTED');
  });

  test('not by what is no filter', async () => {
    await refusal(ask('GET /lots?kind=meat'), 400, ['/kind'], 'material, bulk, pack');
    await refusal(ask('GET /lots?onHand=yes'), 400, ['/onHand'], 'true, false, any');
  });
});

describe('one lot is read', () => {
  test('with its weights, tests, version and the way to its movements', async () => {
    const { body: lot, etag } = await good(ask('GET /lots/B73-1120'));
    expect(lot).toMatchObject({
      kind: 'material',
      materialId: 'beef-trim-73',
      onHand: { kg: 326.5865064, lb: 720 },
      reserved: { kg: 0, lb: 0 },
      free: { kg: 326.5865064, lb: 720 },
    });
    expect(etag).toBe(`"${lot.version}"`);
    const { body: movements } = await good(ask(`GET ${lot.movements.replace('/v1', '')}`));
    expect(movements.items).toMatchObject([{ kind: 'received', mass: { lb: 720 }, by: 'meatblock' }]);
  });

  test('unless it is not there', async () => {
    await refusal(ask('GET /lots/NONE'), 404, [], 'There is no lot \\"NONE\\"');
  });
});

describe('a lot is received', () => {
  test('under an id of its own or a number of the day, and blends may use it at once', async () => {
    const cheap = { materialId: 'beef-trim-85', cost: { amount: 0.01, per: 'lb' }, mass: lb(900) };
    const { body: first, location, etag } = await receive(cheap);
    expect(first.id).toMatch(/^L261125-\d{3}$/);
    expect(location).toBe(`/lots/${first.id}`);
    expect(first).toMatchObject({ receivedDate: '2026-11-25', onHand: { lb: 900 }, location: 'Cooler 1' });
    const again = await good(ask(`GET ${location}`));
    expect([again.body, again.etag]).toEqual([first, etag]);
    const { body: second } = await receive();
    expect(Number(second.id.slice(8))).toBe(Number(first.id.slice(8)) + 1);
    const request = { product: 'ground-beef-80-20', batchSize: { total: lb(200) } };
    const { body: blend } = await good(ask('POST /blends', { body: request }));
    expect(blend.lines.map(({ lotId }: Json) => lotId)).toContain(first.id);
  });

  test('in boxes, exactly', async () => {
    const boxes = { count: 12, mass: lb(60) };
    const { body: lot } = await receive({ id: 'BOXED', mass: undefined, boxes });
    expect(lot).toMatchObject({ onHand: { lb: 720, kg: 326.5865064 }, boxKg: 27.2155422 });
    const { body: movements } = await good(ask('GET /movements?lotId=BOXED'));
    expect(movements.items).toMatchObject([{ boxes: 12, entered: { value: '60', unit: 'lb' } }]);
  });

  test('with the countries of its animals, which blends and later changes keep', async () => {
    const origin = { bornIn: 'MX', raisedIn: 'US', slaughteredIn: 'US' };
    const { body: lot, etag } = await receive({ id: 'ORIGIN', origin });
    expect(lot.origin).toEqual(origin);
    expect((await good(ask('GET /lots/ORIGIN'))).body.origin).toEqual(origin);
    const others = { ...origin, bornIn: 'US' };
    const changed = await good(ask('PATCH /lots/ORIGIN', { body: { origin: others }, ifMatch: etag }));
    expect(changed.body.origin).toEqual(others);
    const body = { origin: null };
    const gone = await good(ask('PATCH /lots/ORIGIN', { body, ifMatch: changed.etag }));
    expect(gone.body).not.toHaveProperty('origin');
    const { body: chain } = await good(ask('GET /entries?subjectId=ORIGIN'));
    expect(JSON.stringify(chain)).toContain('born in US, raised in US, slaughtered in US');
    const { body: demo } = await good(ask('GET /lots/B90-0914'));
    expect(demo.origin).toEqual({ bornIn: 'CA', raisedIn: 'CA', slaughteredIn: 'CA' });
  });

  test('with its fat test, in place of the figure that it came with', async () => {
    const measuredFat = { fatFraction: 0.27, method: 'supplier certificate' };
    const { body: came } = await receive({ id: 'CAME', measuredFat });
    expect(came.measuredFat).toEqual(measuredFat);
    const { body: lot } = await receive({
      id: 'TESTED',
      measuredFat,
      test: { fatFraction: 0.291, method: 'NIR', sample: lb(2) },
    });
    expect(lot.measuredFat).toMatchObject({ fatFraction: 0.291, method: 'NIR' });
    expect(lot.tests).toMatchObject([{ fatFraction: 0.291, supplierEstablishment: '00001', by: 'Demo' }]);
    expect(lot.onHand.lb).toBeCloseTo(718, 9);
  });

  test.each<[string, Json, number, string[], string]>([
    ['without a weight', { mass: undefined }, 400, ['/mass'], 'give mass or boxes'],
    ['with two weights', { boxes: { count: 1, mass: lb(60) } }, 400, ['/boxes'], 'keep one of the two'],
    [
      'in boxes beyond counting',
      { mass: undefined, boxes: { count: 9999, mass: lb(2e6) } },
      400,
      ['/boxes'],
      'more than 1000000 kg together',
    ],
    ['of nothing', { mass: lb(0) }, 400, ['/mass/value'], 'above 0'],
    ['of an unknown material', { materialId: 'moon-dust' }, 422, ['/materialId'], 'no such material'],
    ['under the id of a material', { id: 'beef-trim-73' }, 422, ['/id'], 'is the id of a material'],
    ['under an id that is taken', { id: 'B73-1120' }, 409, ['/id'], 'There is a lot'],
    ['from tomorrow', { receivedDate: '2026-11-26' }, 422, ['/receivedDate'], 'after today, 2026-11-25'],
    ['packed after it came', { packedDate: '2026-11-26' }, 422, ['/packedDate'], 'is after receivedDate'],
    ['past its day', { useByDate: '2026-11-20' }, 422, ['/useByDate'], 'is before receivedDate'],
    [
      'tested before it came',
      { test: { fatFraction: 0.2, method: 'NIR', date: '2026-11-20' } },
      422,
      ['/date'],
      'when the lot came',
    ],
    [
      'with more sample than it has',
      { test: { fatFraction: 0.2, method: 'NIR', sample: lb(721) } },
      409,
      [],
      'on hand',
    ],
    [
      'salt with a fat test',
      { materialId: 'salt', test: { fatFraction: 0.2, method: 'NIR' } },
      422,
      [],
      'only the fat of meat',
    ],
    [
      'from no country',
      { origin: { bornIn: 'UK', raisedIn: 'GB', slaughteredIn: 'GB' } },
      400,
      ['/origin/bornIn'],
      'such as US, CA, MX or GB',
    ],
    [
      'with half an origin',
      { origin: { bornIn: 'US' } },
      400,
      ['/origin/raisedIn', '/origin/slaughteredIn'],
      'is missing',
    ],
    ['with a field that is none', { colour: 'red' }, 400, ['/colour'], 'unknown field'],
  ])('but not %s, and then nothing is written', async (_name, fields, status, pointers, word) => {
    const before = await entriesOf(service);
    await refusal(ask('POST /lots', { body: { ...RECEIPT, ...fields } }), status, pointers, word);
    expect(await entriesOf(service)).toBe(before);
  });

  test('once, however often the same request is sent', async () => {
    const sent = { body: RECEIPT, key: 'receipt-1' };
    const first = await good(ask('POST /lots', sent));
    const before = await entriesOf(service);
    expect(await good(ask('POST /lots', sent))).toEqual(first);
    expect(await entriesOf(service)).toBe(before);
    const other = { body: { ...RECEIPT, mass: lb(1) }, key: 'receipt-1' };
    await refusal(ask('POST /lots', other), 409, [], 'was used for another request');
  });
});

describe('what is known of a lot is changed', () => {
  test('in the version that was read, and null takes a field away', async () => {
    const { etag } = await receive({ id: 'EDITED' });
    const body = {
      state: 'frozen',
      note: 'into the freezer',
      useByDate: '2027-11-20',
      supplierLot: null,
      box: lb(60),
      cost: { amount: 3, per: 'lb' },
    };
    const { body: lot, etag: next } = await good(ask('PATCH /lots/EDITED', { body, ifMatch: etag }));
    expect(lot).toMatchObject({ state: 'frozen', useByDate: '2027-11-20', costPerLb: 3, boxKg: 27.2155422 });
    expect(lot).not.toHaveProperty('supplierLot');
    expect(lot.location).toBe('Cooler 1');
    expect(Number(next.slice(1, -1))).toBe(Number(etag.slice(1, -1)) + 1);
    const gone = await good(ask('PATCH /lots/EDITED', { body: { useByDate: null }, ifMatch: next }));
    expect(gone.body).not.toHaveProperty('useByDate');
  });

  test('not without a version, and not in one that others have changed: who did what is told', async () => {
    const { etag } = await receive({ id: 'SHARED' });
    const body = { location: 'Cooler 2' };
    await refusal(ask('PATCH /lots/SHARED', { body }), 428, [], 'If-Match');
    const floor = await askAs(service, 'floor');
    const counted = { kind: 'adjusted', counted: lb(700), reason: 'monthly count' };
    await good(floor.ask('POST /lots/SHARED/movements', { body: counted }));
    await good(floor.ask('PATCH /lots/SHARED', { body: { location: 'Dock' }, ifMatch: '*' }));
    floor.close();
    const before = await entriesOf(service);
    const late = await ask('PATCH /lots/SHARED', { body, ifMatch: etag });
    expect(late.status).toBe(412);
    expect(late.body.detail).toMatch(
      /^Lot SHARED changed since version 2, which you read; version 4 stands now: Tomas on 2026-11-25 at \d\d:\d\d: -20\.00 lb adjusted: monthly count; Tomas on 2026-11-25 at \d\d:\d\d: location Dock\. Read it again/,
    );
    expect(await entriesOf(service)).toBe(before);
    expect((await good(ask('GET /lots/SHARED'))).body.location).toBe('Dock');
  });

  test.each<[string, Json, number, string[], string]>([
    ['nothing', {}, 400, [''], 'changes nothing'],
    ['a state without a reason', { state: 'frozen' }, 400, ['/note'], 'say why'],
    ['a note about nothing', { note: 'hm', location: 'x' }, 400, ['/note'], 'without state'],
    ['a day before it came', { useByDate: '2026-11-01' }, 422, ['/useByDate'], 'is before receivedDate'],
    ['its weight', { location: 'Dock', onHand: lb(1) }, 400, ['/onHand'], 'unknown field'],
  ])('but not %s', async (_name, body, status, pointers, word) => {
    await refusal(ask('PATCH /lots/B73-1120', { body, ifMatch: '*' }), status, pointers, word);
  });

  test('in its price only by those who plan', async () => {
    const floor = await askAs(service, 'floor');
    const body = { cost: { amount: 1, per: 'lb' } };
    await refusal(floor.ask('PATCH /lots/B73-1120', { body, ifMatch: '*' }), 403, [], 'formulator or admin');
    await good(floor.ask('PATCH /lots/B73-1120', { body: { location: 'Dock' }, ifMatch: '*' }));
    floor.close();
    const inspector = await askAs(service, 'inspector');
    await refusal(inspector.ask('POST /lots', { body: RECEIPT }), 403, [], 'Tomas has the role inspector');
    inspector.close();
  });
});

describe('a lot on hold', () => {
  test('says why, is neither sold nor shipped, and is released by those who plan', async () => {
    await receive({ id: 'HELD' });
    const { body: held } = await good(ask('POST /lots/HELD/hold', { body: { reason: 'torn bag' } }));
    expect(held.held).toBe('torn bag');
    await refusal(ask('POST /lots/HELD/hold', { body: { reason: 'again' } }), 409, [], 'already: torn bag');
    const sale = { kind: 'sold', mass: lb(1) };
    await refusal(ask('POST /lots/HELD/movements', { body: sale }), 409, [], 'is on hold: torn bag');
    const floor = await askAs(service, 'floor');
    const release = { body: { reason: 'rewrapped' } };
    await refusal(floor.ask('POST /lots/HELD/release', release), 403, [], 'formulator or admin');
    floor.close();
    const { body: free } = await good(ask('POST /lots/HELD/release', release));
    expect(free).not.toHaveProperty('held');
    await refusal(ask('POST /lots/HELD/release', release), 409, [], 'not on hold');
    await good(ask('POST /lots/HELD/movements', { body: sale }));
  });

  test('is not promised to a batch', async () => {
    const { body: lots } = await good(ask('GET /lots?limit=500'));
    const beef = lots.items.filter(({ materialId }: Json) => materialId.startsWith('beef-trim'));
    for (const { id, held } of beef) {
      if (held === undefined) await good(ask(`POST /lots/${id}/hold`, { body: { reason: 'recall drill' } }));
    }
    const batch = { product: 'ground-beef-80-20', batchSize: { total: lb(100) } };
    const { status, body } = await ask('POST /batches', { body: batch });
    expect([409, 422]).toContain(status);
    expect(JSON.stringify(body)).toMatch(/on hold|No lot on hand can go into the meat block/);
  });

  test('needs a reason', async () => {
    await refusal(ask('POST /lots/B73-1120/hold', { body: { reason: ' ' } }), 400, ['/reason'], 'why');
    await refusal(ask('POST /lots/NONE/hold', { body: { reason: 'torn bag' } }), 404, [], 'NONE');
  });
});
