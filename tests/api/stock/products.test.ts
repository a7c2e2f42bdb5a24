import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Service } from '../../../src/api/service.ts';
import { demoProduct, type Json, lb, startDemo } from '../running.ts';
import { type Ask, askAs, clientOf, entriesOf, good, refusal, verifiedStop } from './client.ts';

let service: Service;
let ask: Ask;
beforeAll(async () => {
  service = await startDemo();
  ask = clientOf(service);
});
afterAll(() => verifiedStop(service));

const product = (id: string): Json => ({ ...demoProduct('ground-beef-80-20'), id, name: `Test ${id}` });
const blendOf = (id: string) => ask('POST /blends', { body: { product: id, batchSize: { total: lb(100) } } });

describe('a product', () => {
  test('is added, read with its version, listed, and made at once', async () => {
    const body = product('new-one');
    const added = await good(ask('POST /products', { body }));
    expect([added.body, added.etag, added.location]).toEqual([body, '"1"', '/products/new-one']);
    const read = await good(ask('GET /products/new-one'));
    expect([read.body, read.etag]).toEqual([body, '"1"']);
    const { body: list } = await good(ask('GET /products'));
    expect(list.versions['new-one']).toBe(1);
    expect(list.items).toContainEqual(body);
    expect((await good(blendOf('new-one'))).body.outcome).toBe('blend');
  });

  test('is written anew in the version that was read, and blends go by it', async () => {
    const { etag } = await good(ask('POST /products', { body: product('edited') }));
    const leaner = { ...product('edited'), targets: [{ measure: 'fat', min: 0.1, max: 0.12 }] };
    const put = await good(ask('PUT /products/edited', { body: leaner, ifMatch: etag }));
    expect([put.body, put.etag]).toEqual([leaner, '"2"']);
    const { body: blend } = await good(blendOf('edited'));
    expect(blend.raw.fatFraction).toBeLessThan(0.121);
    await refusal(ask('PUT /products/edited', { body: leaner }), 428, [], 'If-Match');
    const late = ask('PUT /products/edited', { body: leaner, ifMatch: etag });
    await refusal(late, 412, [], 'Product edited changed since', 'Demo on 2026-11-25', 'changed: targets');
    const renamed = { ...leaner, id: 'other' };
    await refusal(
      ask('PUT /products/edited', { body: renamed, ifMatch: '*' }),
      422,
      ['/id'],
      'id of a product stays',
    );
    await refusal(ask('PUT /products/none', { body: product('none'), ifMatch: '*' }), 404, [], 'No product');
  });

  test.each<[string, Json, number, string[], string]>([
    ['under an id that is taken', product('bratwurst'), 409, ['/id'], 'There is a product'],
    [
      'with two ids that are wrong',
      {
        ...product('bad'),
        seasoning: [
          { materialId: 'moon-dust', basis: 'green weight', fraction: 0.01 },
          { materialId: 'beef-trim-73', basis: 'green weight', fraction: 0.01 },
        ],
      },
      422,
      ['/seasoning/0/materialId', '/seasoning/1/materialId'],
      'no such material',
    ],
    [
      'of a class that there is not',
      { ...product('bad'), standard: { jurisdiction: 'us', productClass: 'meat-pie' } },
      422,
      ['/standard/productClass'],
      'the classes are',
    ],
    [
      'of a place without rules',
      { ...product('bad'), standard: { jurisdiction: 'moon', productClass: 'x' } },
      422,
      ['/standard/jurisdiction'],
      'the jurisdictions are us',
    ],
    [
      'without a meat block',
      { ...product('bad'), meatBlock: [] },
      400,
      ['/meatBlock', '/meatBlock'],
      'at least one part',
    ],
    ['with a field that is none', { ...product('bad'), colour: 'red' }, 400, ['/colour'], 'unknown field'],
  ])('%s is refused and changes nothing', async (_name, body, status, pointers, word) => {
    const before = await entriesOf(service);
    await refusal(ask('POST /products', { body }), status, pointers, word);
    expect(await entriesOf(service)).toBe(before);
  });

  test('is withdrawn: it is made no more, and its id may be used again', async () => {
    await good(ask('POST /products', { body: product('gone') }));
    const { body } = await good(ask('DELETE /products/gone'));
    expect(body).toEqual({ id: 'gone', withdrawn: true, version: 2 });
    await refusal(ask('GET /products/gone'), 404, [], 'The products are bratwurst');
    await refusal(ask('DELETE /products/gone'), 404, [], 'No product');
    await refusal(blendOf('gone'), 422, ['/product'], 'is no product of the plant');
    expect((await good(ask('POST /products', { body: product('gone') }))).etag).toBe('"3"');
    await refusal(ask('DELETE /products/gone', { ifMatch: '"2"' }), 412, [], 'was added');
  });

  test('sent again under its key is added once', async () => {
    const sent = { body: product('once'), key: 'product-1' };
    const first = await good(ask('POST /products', sent));
    expect(await good(ask('POST /products', sent))).toEqual(first);
  });

  test('is not written by the floor', async () => {
    const floor = await askAs(service, 'floor');
    await refusal(floor.ask('POST /products', { body: product('floors') }), 403, [], 'formulator or admin');
    floor.close();
  });
});

const MATERIAL = {
  id: 'own-paprika',
  name: 'Own paprika',
  declaredName: 'paprika',
  kind: 'spice',
  composition: {
    waterFraction: 0.1,
    fatFraction: 0.13,
    proteinFraction: 0.14,
    carbohydrateFraction: 0.54,
    ashFraction: 0.08,
  },
};

describe("a material of the plant's own", () => {
  test('is added, found, priced and used in a product', async () => {
    const added = await good(ask('POST /materials', { body: MATERIAL }));
    expect(added.body).toMatchObject({ id: 'own-paprika', own: true, version: 1 });
    expect(added.location).toBe('/materials/own-paprika');
    expect(await good(ask('GET /materials/own-paprika'))).toMatchObject({ body: added.body, etag: '"1"' });
    const { body: found } = await good(ask('GET /materials?search=own-pap'));
    expect(found.items).toEqual([added.body]);
    const body = { cost: { amount: 6, per: 'lb' } };
    const priced = await good(ask('PUT /prices/own-paprika', { body }));
    expect(priced.body).toMatchObject({ materialId: 'own-paprika', costPerLb: 6, version: 1 });
    const sausage = demoProduct('fresh-pork-sausage');
    sausage.id = 'paprika-sausage';
    sausage.seasoning.push({ materialId: 'own-paprika', basis: 'green weight', fraction: 0.01 });
    await good(ask('POST /products', { body: sausage }));
    const { body: blend } = await good(blendOf('paprika-sausage'));
    expect(blend.lines.map(({ materialId }: Json) => materialId)).toContain('own-paprika');
  });

  test('keeps the figures of a panel and where it was made', async () => {
    const told = {
      ...MATERIAL,
      id: 'own-cumin',
      madeIn: 'IN',
      allergens: ['mustard'],
      composition: {
        ...MATERIAL.composition,
        transFatFraction: 0.001,
        monounsaturatedFatFraction: 0.08,
        polyunsaturatedFatFraction: 0.02,
        fiberFraction: 0.1,
        sugarsFraction: 0.03,
        addedSugarsFraction: 0,
        potassiumMgPerKg: 17_880,
        calciumMgPerKg: 9310,
        ironMgPerKg: 663.6,
        vitaminDMcgPerKg: 0,
      },
    };
    const { body } = await good(ask('POST /materials', { body: told }));
    expect(body).toMatchObject(told);
    expect((await good(ask('GET /materials/own-cumin'))).body).toEqual(body);
    const { madeIn: _, ...without } = told;
    const put = await good(ask('PUT /materials/own-cumin', { body: without, ifMatch: '*' }));
    expect(put.body).not.toHaveProperty('madeIn');
    await good(ask('DELETE /materials/own-cumin'));
  });

  test('is not withdrawn, or made another kind, while a product or a lot uses it', async () => {
    await refusal(ask('DELETE /materials/own-paprika'), 409, [], 'product paprika-sausage');
    const meat = { ...MATERIAL, kind: 'skeletal meat', species: 'beef' };
    await refusal(
      ask('PUT /materials/own-paprika', { body: meat, ifMatch: '"1"' }),
      422,
      ['/kind'],
      'product paprika-sausage',
    );
    await good(ask('DELETE /products/paprika-sausage'));
    const lot = {
      id: 'PAPRIKA',
      materialId: 'own-paprika',
      mass: lb(5),
      cost: { amount: 6, per: 'lb' },
      state: 'dry',
    };
    await good(ask('POST /lots', { body: lot }));
    await refusal(ask('DELETE /materials/own-paprika'), 409, [], 'lot PAPRIKA');
    const gone = { kind: 'discarded', mass: 'all', reason: 'stale' };
    await good(ask('POST /lots/PAPRIKA/movements', { body: gone }));
    await good(ask('DELETE /materials/own-paprika'));
    await refusal(ask('GET /materials/own-paprika'), 404, [], 'No material');
    const { body: prices } = await good(ask('GET /prices'));
    expect(prices.items.map(({ materialId }: Json) => materialId)).not.toContain('own-paprika');
    const counted = { kind: 'adjusted', counted: lb(1), reason: 'found one more' };
    await refusal(ask('POST /lots/PAPRIKA/movements', { body: counted }), 422, [], 'was withdrawn');
    expect((await good(blendOf('bratwurst'))).body.outcome).toBe('blend');
  });

  test('is written anew in the version that was read', async () => {
    const { etag } = await good(ask('POST /materials', { body: { ...MATERIAL, id: 'own-sage' } }));
    const body = { ...MATERIAL, id: 'own-sage', declaredName: 'spice' };
    await refusal(ask('PUT /materials/own-sage', { body }), 428, [], 'If-Match');
    const put = await good(ask('PUT /materials/own-sage', { body, ifMatch: etag }));
    expect([put.body.declaredName, put.etag]).toEqual(['spice', '"2"']);
    const late = ask('PUT /materials/own-sage', { body, ifMatch: etag });
    await refusal(late, 412, [], 'changed: declaredName');
    const renamed = { ...body, id: 'other' };
    await refusal(ask('PUT /materials/own-sage', { body: renamed, ifMatch: '*' }), 422, ['/id'], 'stays');
  });

  test('that was tested may be withdrawn, and blends go on', async () => {
    const meat = {
      ...MATERIAL,
      id: 'own-bison',
      kind: 'skeletal meat',
      species: 'beef',
      composition: { waterFraction: 0.6, fatFraction: 0.2, proteinFraction: 0.19 },
    };
    await good(ask('POST /materials', { body: meat }));
    const lot = {
      id: 'BISON',
      materialId: 'own-bison',
      mass: lb(10),
      cost: { amount: 6, per: 'lb' },
      supplierEstablishment: '00009',
      test: { fatFraction: 0.22, method: 'NIR', sample: lb(10) },
    };
    await good(ask('POST /lots', { body: lot }));
    await good(ask('DELETE /materials/own-bison'));
    expect((await good(blendOf('ground-beef-80-20'))).body.outcome).toBe('blend');
    await good(ask('GET /trim'));
    expect((await good(ask('GET /tests?lotId=BISON'))).body.items).toHaveLength(1);
  });

  test.each<[string, Json, number, string[], string]>([
    ['under an id of the tables', { ...MATERIAL, id: 'salt' }, 422, ['/id'], 'in the tables already'],
    ['under the id of a lot', { ...MATERIAL, id: 'B73-1120' }, 422, ['/id'], 'is the id of a lot'],
    [
      'with a species it cannot have',
      { ...MATERIAL, id: 'bad', species: 'beef' },
      422,
      ['/species'],
      'has no species',
    ],
    [
      'that cures with nothing',
      { ...MATERIAL, id: 'bad', kind: 'curing agent' },
      400,
      ['/kind'],
      'must be one of',
    ],
    [
      'of more than the whole',
      { ...MATERIAL, id: 'bad', composition: { waterFraction: 0.9, fatFraction: 0.9, proteinFraction: 0 } },
      400,
      ['/composition'],
      'more than the whole',
    ],
  ])('%s is refused and changes nothing', async (_name, body, status, pointers, word) => {
    const before = await entriesOf(service);
    await refusal(ask('POST /materials', { body }), status, pointers, word);
    expect(await entriesOf(service)).toBe(before);
  });

  test('is none that the tables hold: those stay as they are', async () => {
    const body = { ...MATERIAL, id: 'salt' };
    await refusal(ask('PUT /materials/salt', { body, ifMatch: '*' }), 422, [], 'ingredient tables');
    await refusal(ask('DELETE /materials/salt'), 422, [], 'ingredient tables');
    const { body: salt, etag } = await good(ask('GET /materials/salt'));
    expect(salt.own).toBe(false);
    expect(etag).not.toMatch(/^"\d+"$/);
  });
});

describe('a price', () => {
  test('is written, seen by the next blend, and withdrawn', async () => {
    const { body: before } = await good(ask('GET /prices'));
    const sage = before.items.find(({ materialId }: Json) => materialId === 'sage');
    expect(sage).toMatchObject({ version: 1, costPerLb: 7.2 });
    const body = { cost: { amount: 107.2, per: 'lb' } };
    const put = await good(ask('PUT /prices/sage', { body, ifMatch: '"1"' }));
    expect([put.body.costPerLb, put.etag]).toEqual([107.2, '"2"']);
    const { body: blend } = await good(blendOf('fresh-pork-sausage'));
    const line = blend.lines.find(({ materialId }: Json) => materialId === 'sage');
    expect(line.cost).toBeCloseTo(107.2 * line.mass.lb, 6);
    const late = ask('PUT /prices/sage', { body, ifMatch: '"1"' });
    await refusal(late, 412, [], 'Price sage changed since', '107.2 USD per lb');
    await good(ask('DELETE /prices/sage'));
    await refusal(ask('DELETE /prices/sage'), 404, [], 'No price');
    await refusal(blendOf('fresh-pork-sausage'), 422, ['/product'], 'sage');
  });

  test('is of a material that there is, and no less than nothing', async () => {
    const cost = { amount: 1, per: 'lb' };
    await refusal(ask('PUT /prices/moon-dust', { body: { cost } }), 404, [], 'No material');
    const below = { cost: { amount: -1, per: 'lb' } };
    await refusal(ask('PUT /prices/salt', { body: below }), 400, ['/cost/amount'], 'must not be negative');
  });
});
