import { afterEach, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import type { Settings } from '../../../src/api/settings.ts';
import { onEachDatabase } from '../../store/databases.ts';
import { cookieOf, PASSWORD, plain, QUICK, realPlantFolder, tryLogin, withCookie } from '../access/people.ts';
import { type Json, lb, startDemo } from '../running.ts';
import { clientOf, entriesOf, good, refusal, verifiedStop } from '../stock/client.ts';

/** A plant of one's own in place of the demonstration: nothing of the books is lost, nothing of it is left to use. */

const PLANT = {
  name: 'Own Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'America/Denver',
  mixerCapacity: lb(200),
  scales: [{ id: 'floor', name: 'Floor scale', unit: 'lb', division: '0.1', capacity: 500 }],
};
const ADMIN = { name: 'Ana', password: PASSWORD };
const KEPT = [{ id: 'ground-beef-80-20' }, { id: 'fresh-pork-sausage' }];
const EMPTY = { plant: PLANT, keeps: { products: KEPT }, admin: ADMIN };

let service: Service | undefined;
afterEach(async () => {
  if (service) await verifiedStop(service);
  service = undefined;
});

async function started(settings: Partial<Settings> = {}): Promise<Service> {
  service = await startDemo({ ...QUICK, ...settings });
  return service;
}

/** Begins, as a page does, and goes on as the first admin. */
async function begun(running: Service, body: Json = EMPTY) {
  const answer = await plain(running, {
    method: 'POST',
    path: '/v1/beginning',
    headers: { origin: running.address },
    body,
  });
  return { answer, ana: withCookie(running, cookieOf(answer)) };
}

onEachDatabase((newStoreUrl) => {
  test('begins empty, logs its first admin in and makes a first blend of its own lots', async () => {
    const storeUrl = await newStoreUrl();
    const running = await started({ storeUrl });
    const { answer, ana } = await begun(running);
    expect(answer.status, answer.text).toBe(200);
    expect(answer.json).toMatchObject({
      session: { entrance: 'login', caller: { name: 'Ana', role: 'admin' } },
      lotsPutAway: 26,
      productsKept: 2,
      // Salt, sugar, black pepper, sage, red pepper flakes and ginger of the sausage, and water and ice.
      pricesKept: 8,
    });
    expect((await plain(running, { path: '/v1/plant' })).status).toBe(401);

    const plant = (await ana('GET', '/v1/plant')).json;
    expect(plant).toMatchObject({ name: 'Own Plant', timeZone: 'America/Denver' });
    expect(plant.settings).toEqual(PLANT);
    const today = new Intl.DateTimeFormat('sv-SE', { timeZone: 'America/Denver', dateStyle: 'short' });
    expect(plant.today).toBe(today.format(running.books.now()));
    const ids = (await ana('GET', '/v1/products')).json.items.map(({ id }: Json) => id);
    expect(ids).toEqual(['fresh-pork-sausage', 'ground-beef-80-20']);
    expect((await ana('GET', '/v1/lots')).json.total).toBe(0);
    expect((await ana('GET', '/v1/trim')).json.items).toEqual([]);
    expect((await ana('GET', '/v1/house-rules')).json).toMatchObject({
      tighter: [],
      own: [],
      switchedOff: [],
    });
    const moved = (await ana('GET', '/v1/movements?kind=discarded')).json;
    expect(moved.items).toEqual([]);

    for (const [materialId, amount] of [
      ['beef-trim-50', 1.3],
      ['beef-trim-90', 3.6],
    ]) {
      const body = { materialId, mass: lb(300), cost: { amount, per: 'lb' } };
      expect((await ana('POST', '/v1/lots', body)).status).toBe(201);
    }
    const blend = await ana('POST', '/v1/blends', {
      product: 'ground-beef-80-20',
      batchSize: { total: lb(200) },
    });
    expect(blend.status, blend.text).toBe(200);
    expect(blend.json.loads).toBe(1);

    await verifiedStop(running);
    const again = await started({ storeUrl });
    expect((await tryLogin(again, 'Ana', PASSWORD)).json.caller.name).toBe('Ana');
    const [last] = (
      await withCookie(again, cookieOf(await tryLogin(again, 'Ana', PASSWORD)))(
        'GET',
        '/v1/entries?action=plant%20begun',
      )
    ).json.items;
    expect(last.says).toBe('Own Plant was begun with 2 products; 26 lots of the demonstration put away');
  });

  test('is refused once work is booked, and says the way', async () => {
    const running = await started({ storeUrl: await newStoreUrl() });
    const ask = clientOf(running);
    expect((await good(ask('GET /beginning'))).body).toEqual({
      isPossible: true,
      standsStillAt: '2026-11-25',
      needsAdmin: true,
    });
    const receipt = { materialId: 'beef-trim-50', mass: lb(60), cost: { amount: 1.2, per: 'lb' } };
    await good(ask('POST /lots', { body: receipt }));
    const before = await entriesOf(running);
    expect((await good(ask('GET /beginning'))).body).toMatchObject({
      isPossible: false,
      says: expect.stringContaining('1 movement of lots'),
      command: 'STORE=my-plant.sqlite npm start',
    });
    await refusal(ask('POST /beginning', { body: EMPTY }), 409, [], 'STORE=', 'nothing in them is ever lost');
    expect(await entriesOf(running)).toBe(before);
    expect((await good(ask('GET /lots'))).body.total).toBe(27);
  });
});

test('to try things out keeps lots, prices and the day that stands still', async () => {
  const running = await started();
  const { ana, answer } = await begun(running, { plant: PLANT, keeps: 'all', admin: ADMIN });
  expect(answer.json).toMatchObject({ lotsPutAway: 0, productsKept: 8, pricesKept: 28 });
  expect((await ana('GET', '/v1/plant')).json).toMatchObject({ name: 'Own Plant', today: '2026-11-25' });
  expect((await ana('GET', '/v1/lots')).json.total).toBe(26);
  // Nothing is booked yet, so that whoever has tried enough begins for themselves.
  const { admin: _, ...later } = EMPTY;
  const emptied = await ana('POST', '/v1/beginning', later);
  expect(emptied.json).toMatchObject({ session: { caller: { name: 'Ana' } }, lotsPutAway: 26 });
});

test('done twice is as done once', async () => {
  const running = await started();
  const { ana } = await begun(running);
  const { admin: _, ...later } = EMPTY;
  const again = await ana('POST', '/v1/beginning', later);
  expect(again.json).toMatchObject({ lotsPutAway: 0, testsWithdrawn: 0, productsKept: 2, pricesKept: 8 });
});

test('a recipe goes under a standard of the market of the plant', async () => {
  const running = await started();
  const { ana } = await begun(running, {
    ...EMPTY,
    plant: { ...PLANT, jurisdiction: 'ca', currency: 'CAD', units: 'kg' },
    keeps: { products: [{ id: 'fresh-pork-sausage', productClass: 'fresh-sausage' }, { id: 'bratwurst' }] },
  });
  const { json } = await ana('GET', '/v1/products');
  expect(json.items.map(({ standard }: Json) => standard.jurisdiction)).toEqual(['us', 'ca']);
});

test('a plant of its own files is begun only by its admin', async () => {
  const running = await started({ plantFolder: realPlantFolder() });
  expect((await plain(running, { method: 'POST', path: '/v1/beginning', body: EMPTY })).status).toBe(401);
  const setUp = await plain(running, {
    method: 'POST',
    path: '/v1/set-up',
    body: { code: running.access.setUp.code(), ...ADMIN },
  });
  const ana = withCookie(running, cookieOf(setUp));
  const { json } = await ana('GET', '/v1/beginning');
  expect(json).toEqual({ isPossible: true, needsAdmin: false });
  expect((await ana('POST', '/v1/beginning', EMPTY)).json.errors[0].pointer).toBe('/admin');
});

test.each<[string, Json, number, string[], string]>([
  ['without an admin', { plant: PLANT, keeps: { products: KEPT } }, 422, ['/admin'], 'is missing'],
  [
    'with a weak password',
    { ...EMPTY, admin: { ...ADMIN, password: 'short' } },
    400,
    ['/admin/password'],
    '10',
  ],
  [
    'with a day of its own',
    { ...EMPTY, plant: { ...PLANT, demoDate: '2026-01-01' } },
    422,
    ['/plant/demoDate'],
    'take it out',
  ],
  [
    'under no rules',
    { ...EMPTY, plant: { ...PLANT, jurisdiction: 'moon' } },
    422,
    ['/plant/jurisdiction'],
    'the jurisdictions are',
  ],
  [
    'without scales',
    { ...EMPTY, plant: { ...PLANT, scales: [] } },
    400,
    ['/plant/scales'],
    'at least one scale',
  ],
  [
    'with a product that is none',
    { ...EMPTY, keeps: { products: [{ id: 'moon-pie' }] } },
    422,
    ['/keeps/products/0/id'],
    'no product',
  ],
  [
    'under no standard',
    { ...EMPTY, keeps: { products: [{ id: 'bratwurst', productClass: 'moon' }] } },
    422,
    ['/keeps/products/0/productClass'],
    'the classes are',
  ],
  ['without saying what stays', { plant: PLANT, admin: ADMIN }, 400, ['/keeps'], 'to try things out'],
])('%s it is refused and nothing has changed', async (_name, body, status, pointers, word) => {
  const running = await started();
  await refusal(clientOf(running)('POST /beginning', { body }), status, pointers, word);
  expect(await entriesOf(running)).toBe(1);
  expect((await good(clientOf(running)('GET /plant'))).body.name).toBe('Demo Plant');
});
