import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { problemSchema } from '../../src/api/contract/blend-answer.ts';
import type { Service } from '../../src/api/service.ts';
import {
  demoProduct,
  type Json,
  lb,
  type Received,
  type Sent,
  send,
  startDemo,
  strictly,
} from './running.ts';

let service: Service;
beforeAll(async () => {
  service = await startDemo();
});
afterAll(() => service.stop());

const GOOD = { product: 'ground-beef-80-20', batchSize: { total: lb(500) } };
const JSON_TYPE = { 'content-type': 'application/json' };

const beef = () => demoProduct('ground-beef-80-20');
const fresh = () => demoProduct('fresh-pork-sausage');
const italian = () => demoProduct('italian-sausage');
const without = (object: Json, field: string) => {
  const { [field]: _, ...rest } = object;
  return rest;
};
const season = (product: Json, ...lines: Json[]) => ({
  ...product,
  seasoning: [...product.seasoning, ...lines],
});
const line = (materialId: string, fraction = 0.003) => ({ materialId, basis: 'green weight', fraction });

const LOT = {
  id: 'L-1',
  materialId: 'beef-trim-80',
  onHand: lb(900),
  cost: { amount: 3, per: 'lb' },
};
const MATERIAL = {
  id: 'own-beef',
  name: 'Own beef',
  declaredName: 'beef',
  kind: 'skeletal meat',
  species: 'beef',
  composition: { waterFraction: 0.6, fatFraction: 0.2, proteinFraction: 0.18 },
};

/** One exhibit: a request that nothing good can be made of, and what its sender must be told. */
interface Exhibit {
  readonly name: string;
  readonly sent: Sent;
  readonly status: number;
  /** Last part of the problem's type; the status alone names most of them. */
  readonly kind: string;
  /** Every place that must be pointed to. */
  readonly pointers?: readonly string[];
  /** What the answer must say: the value that is wrong and what to write instead. */
  readonly words: readonly string[];
  readonly allow?: string;
}

const form = (name: string, body: unknown, pointers: string[], ...words: string[]): Exhibit => ({
  name,
  sent: { body },
  status: 400,
  kind: 'invalid-request',
  pointers,
  words,
});
const unusable = (name: string, body: unknown, pointers: string[], ...words: string[]): Exhibit => ({
  name,
  sent: { body },
  status: 422,
  kind: 'cannot-be-used',
  pointers,
  words,
});
const text = (name: string, raw: string | Buffer, ...words: string[]): Exhibit => ({
  name,
  sent: { raw, headers: JSON_TYPE },
  status: 400,
  kind: 'not-json',
  words,
});
const query = (name: string, path: string, pointers: string[], ...words: string[]): Exhibit => ({
  name,
  sent: { method: 'GET', path },
  status: 400,
  kind: 'invalid-request',
  pointers,
  words,
});
const nowhere = (name: string, path: string, ...words: string[]): Exhibit => ({
  name,
  sent: { method: 'GET', path },
  status: 404,
  kind: 'not-found',
  words,
});
const total = (value: unknown, unit: unknown = 'lb') => ({ ...GOOD, batchSize: { total: { value, unit } } });
const lots = (...given: unknown[]) => ({ ...GOOD, lots: given });
const materials = (...given: unknown[]) => ({ ...GOOD, materials: given });
const product = (given: unknown) => ({ ...GOOD, product: given });
const raw = (batchSize: string) => `{"product":"ground-beef-80-20","batchSize":${batchSize}}`;

const SIZES = ['total', 'meat', 'finished', 'pieces'];

const UNKNOWN_FIELDS: Exhibit[] = [
  form(
    'an unknown field',
    { ...GOOD, colour: 'red' },
    ['/colour'],
    'colour',
    'the fields here are product, batchSize',
  ),
  form('two unknown fields', { ...GOOD, a: 1, b: 2 }, ['/a', '/b'], 'the fields here are'),
  form(
    'an unknown field deep inside',
    lots({ ...LOT, cost: { ...LOT.cost, tax: 1 } }),
    ['/lots/0/cost/tax'],
    'tax',
  ),
  form(
    'an unknown field of an inline product',
    product({ ...beef(), colour: 'red' }),
    ['/product/colour'],
    'colour',
  ),
  form('a field whose name needs escapes', { ...GOOD, 'a/b~c': 1 }, ['/a~1b~0c'], 'a/b~c'),
  form(
    'a substance that no rule counts',
    materials({ ...MATERIAL, substances: { iron: 0.1 } }),
    ['/materials/0/substances/iron'],
    'iron',
  ),
];

const NUMBERS: Exhibit[] = [
  text('NaN written as JSON', raw('{"total":{"value":NaN,"unit":"lb"}}'), 'JSON'),
  text('Infinity written as JSON', raw('{"total":{"value":Infinity,"unit":"lb"}}'), 'JSON'),
  {
    ...form('a number beyond all numbers', undefined, ['/batchSize/total/value'], 'must be a number'),
    sent: { raw: raw('{"total":{"value":1e999,"unit":"lb"}}'), headers: JSON_TYPE },
  },
  form('a text for a number', total('500'), ['/batchSize/total/value'], '"500"', 'must be a number'),
  form('a negative batch', total(-5), ['/batchSize/total/value'], '-5', 'above 0'),
  form('a batch of nothing', total(0), ['/batchSize/total/value'], '0: it must be above 0'),
  form('a batch beyond any plant', total(1e9), ['/batchSize/total/value'], '1000000000', 'to 1000000 kg'),
  form(
    'a percent of fat where a fraction is due',
    lots({ ...LOT, measuredFat: { fatFraction: 20, method: 'NIR' } }),
    ['/lots/0/measuredFat/fatFraction'],
    '20 is above 1',
    '0.2 for 20 %',
  ),
  form(
    'a fat above a hundred percent',
    lots({ ...LOT, measuredFat: { fatFraction: 250, method: 'NIR' } }),
    ['/lots/0/measuredFat/fatFraction'],
    '250 is above 1',
    'fraction',
    'write a fraction such as',
  ),
  form(
    'a percent of seasoning where a fraction is due',
    product(season(fresh(), line('caraway', 1.75))),
    ['/product/seasoning/7/fraction'],
    '1.75 is above 1',
    '0.0175 for 1.75 %',
  ),
  form(
    'a percent target where a fraction is due',
    product({ ...beef(), targets: [{ measure: 'fat', max: 20 }] }),
    ['/product/targets/0/max'],
    '20 is above 1',
    '0.2 for 20 %',
  ),
  form(
    'water, fat and protein above the whole',
    materials({ ...MATERIAL, composition: { ...MATERIAL.composition, fatFraction: 0.3 } }),
    ['/materials/0/composition'],
    '0.3',
    '1.08',
    'correct one of them',
  ),
  form(
    'a nitrite content in percent',
    materials({ ...MATERIAL, substances: { 'sodium nitrite': 6.25 } }),
    ['/materials/0/substances/sodium nitrite'],
    '6.25',
    '0.0625 for 6.25 %',
  ),
  form(
    'a negative price',
    lots({ ...LOT, cost: { amount: -3, per: 'lb' } }),
    ['/lots/0/cost/amount'],
    '-3: it must not be negative',
  ),
  form(
    'a price without its unit',
    lots({ ...LOT, cost: 3 }),
    ['/lots/0/cost'],
    '3: it must be a price with its unit',
    '{"amount": 3.1, "per": "lb"}',
  ),
  form(
    'a price beyond all prices',
    lots({ ...LOT, cost: { amount: 1e7, per: 'lb' } }),
    ['/lots/0/cost/amount'],
    '10000000',
    'at most',
  ),
  form(
    'more on hand than any plant has',
    lots({ ...LOT, onHand: lb(1e7) }),
    ['/lots/0/onHand/value'],
    '10000000',
    'at most',
  ),
  form(
    'a negative cholesterol content',
    materials({ ...MATERIAL, composition: { ...MATERIAL.composition, cholesterolMgPerKg: -1 } }),
    ['/materials/0/composition/cholesterolMgPerKg'],
    '-1',
    'negative',
  ),
  form(
    'an origin in one word',
    lots({ ...LOT, origin: 'US' }),
    ['/lots/0/origin'],
    '"US": it must be the countries of its animals',
    '"slaughteredIn": "US"',
  ),
  form(
    'more fiber than carbohydrate',
    materials({ ...MATERIAL, composition: { ...MATERIAL.composition, fiberFraction: 0.1 } }),
    ['/materials/0/composition/fiberFraction'],
    '0.1 is more than carbohydrateFraction 0',
  ),
  form(
    'a country in words',
    materials({ ...MATERIAL, madeIn: 'Mexico' }),
    ['/materials/0/madeIn'],
    '"Mexico"',
    'such as US, CA, MX or GB',
  ),
];

const UNITS_AND_DATES: Exhibit[] = [
  form('an unknown unit', total(500, 'stone'), ['/batchSize/total/unit'], '"stone"', 'kg, g, lb, oz'),
  form('a unit in capitals', total(500, 'LB'), ['/batchSize/total/unit'], '"LB"', 'kg, g, lb, oz'),
  form(
    'a weight without a unit',
    { ...GOOD, batchSize: { total: 500 } },
    ['/batchSize/total'],
    '500',
    '{"value": 500, "unit": "lb"}',
  ),
  form('units the sheet cannot be in', { ...GOOD, units: 'oz' }, ['/units'], '"oz"', 'lb, kg'),
  form(
    'a day that is not in the calendar',
    { ...GOOD, date: '2026-02-30' },
    ['/date'],
    '"2026-02-30"',
    'such as',
  ),
  form('a day in another order', { ...GOOD, date: '11/25/2026' }, ['/date'], '"11/25/2026"', '2026-11-25'),
  form(
    'a state no lot is in',
    lots({ ...LOT, state: 'warm' }),
    ['/lots/0/state'],
    '"warm"',
    'chilled, frozen, dry',
  ),
  unusable(
    'a day before any lot was received',
    { ...GOOD, date: '2026-01-02' },
    ['/lots'],
    'received only on',
    'Receive a lot',
  ),
  unusable(
    'a day after every use-by day',
    { ...GOOD, date: '2030-01-02' },
    ['/lots'],
    'past its use-by date',
  ),
];

const BATCH_SIZES: Exhibit[] = [
  form('no batch size', without(GOOD, 'batchSize'), ['/batchSize'], 'is missing', ...SIZES),
  form('null for a batch size', { ...GOOD, batchSize: null }, ['/batchSize'], 'null', ...SIZES),
  form('a bare number for a batch size', { ...GOOD, batchSize: 500 }, ['/batchSize'], '500', ...SIZES),
  form('an empty batch size', { ...GOOD, batchSize: {} }, ['/batchSize'], 'has no size', ...SIZES),
  form(
    'a batch size of another name',
    { ...GOOD, batchSize: { weight: lb(5) } },
    ['/batchSize'],
    'weight',
    ...SIZES,
  ),
  form(
    'two batch sizes at once',
    { ...GOOD, batchSize: { total: lb(500), pieces: 10 } },
    ['/batchSize'],
    '"total", "pieces"',
    'exactly one',
  ),
  form(
    'half a piece',
    { product: 'bratwurst', batchSize: { pieces: 1.5 } },
    ['/batchSize/pieces'],
    '1.5',
    'whole number',
  ),
  form(
    'pieces as a text',
    { product: 'bratwurst', batchSize: { pieces: '400' } },
    ['/batchSize/pieces'],
    '"400"',
    'whole number',
  ),
  form(
    'no pieces at all',
    { product: 'bratwurst', batchSize: { pieces: 0 } },
    ['/batchSize/pieces'],
    '0',
    'must be at least 1',
  ),
  unusable(
    'pieces of a product without a piece weight',
    { ...GOOD, batchSize: { pieces: 10 } },
    ['/batchSize/pieces'],
    'form.pieceMass',
    'by weight',
  ),
  unusable(
    'a batch that no scale of the plant can show',
    total(0.0001),
    ['/batchSize'],
    'Make a larger batch',
  ),
  unusable(
    'a cured batch whose cure no scale can show',
    { product: 'smoked-sausage', batchSize: { total: { value: 10, unit: 'g' } } },
    ['/batchSize'],
    'Curing salt',
    '0.1 g',
    'Make a larger batch',
  ),
];

const PRODUCTS: Exhibit[] = [
  form('no product', without(GOOD, 'product'), ['/product'], 'is missing', 'id'),
  form('null for a product', product(null), ['/product'], 'null', 'id'),
  form('a number for a product', product(5), ['/product'], '5', 'id'),
  form(
    'an empty object for a product',
    product({}),
    ['/product/standard', '/product/meatBlock'],
    'is missing',
  ),
  form(
    'a product without a standard',
    product(without(beef(), 'standard')),
    ['/product/standard'],
    'is missing',
    'productClass',
  ),
  form(
    'a product id with a space and marks',
    product('ground beef!'),
    ['/product'],
    '"ground beef!"',
    'letters',
  ),
  form('a product id in other letters', product('höllenwurst-✂'), ['/product'], '"höllenwurst-✂"', 'letters'),
  form('half a character for a product', product('\ud800'), ['/product'], 'cannot be kept'),
  unusable(
    'an unknown product id',
    product('meat-pie'),
    ['/product'],
    '"meat-pie"',
    'the products are bratwurst',
  ),
  unusable('a product id that every object has', product('constructor'), ['/product'], '"constructor"'),
  unusable(
    'an unknown jurisdiction',
    product({ ...beef(), standard: { jurisdiction: 'moon', productClass: 'ground-beef' } }),
    ['/product/standard/jurisdiction'],
    '"moon"',
    'the jurisdictions are us',
  ),
  unusable(
    'an unknown product class',
    product({ ...beef(), standard: { jurisdiction: 'us', productClass: 'meat-pie' } }),
    ['/product/standard/productClass'],
    '"meat-pie"',
    'the classes are ground-beef',
  ),
  form(
    'a target whose min is above its max',
    product({ ...beef(), targets: [{ measure: 'fat', min: 0.3, max: 0.2 }] }),
    ['/product/targets/0/min'],
    '0.3 is above max 0.2',
    'swap or correct',
  ),
  form(
    'a target given twice',
    product({
      ...beef(),
      targets: [
        { measure: 'fat', min: 0.1 },
        { measure: 'fat', max: 0.2 },
      ],
    }),
    ['/product/targets/1/measure'],
    '"fat" stands twice',
  ),
  unusable(
    'an unknown material in the meat block',
    product({ ...beef(), meatBlock: [{ name: 'beef', materialIds: ['unicorn'] }] }),
    ['/product/meatBlock/0/materialIds/0'],
    '"unicorn"',
    'correct the id',
  ),
  unusable(
    'an unknown material in the seasoning',
    product(season(fresh(), line('stardust'))),
    ['/product/seasoning/7/materialId'],
    '"stardust"',
    'correct the id',
  ),
  unusable(
    'an unknown material for a casing',
    product({ ...italian(), form: { ...italian().form, casingMaterialId: 'stardust' } }),
    ['/product/form/casingMaterialId'],
    '"stardust"',
  ),
  unusable(
    'salt for a casing',
    product({ ...italian(), form: { ...italian().form, casingMaterialId: 'salt' } }),
    ['/product/form/casingMaterialId'],
    '"salt"',
    'casing',
  ),
  unusable(
    'salt in the meat block',
    product({ ...fresh(), meatBlock: [{ name: 'pork', materialIds: ['salt'] }] }),
    ['/product/meatBlock/0/materialIds/0'],
    '"salt"',
    'seasoning line',
  ),
  unusable(
    'meat as a seasoning',
    product(season(fresh(), line('pork-trim-72', 0.02))),
    ['/product/seasoning/7/materialId'],
    '"pork-trim-72"',
    'meat block',
  ),
  unusable(
    'a casing as a seasoning',
    product(season(fresh(), line('hog-casing', 0.02))),
    ['/product/seasoning/7/materialId'],
    '"hog-casing"',
    'casingMaterialId',
  ),
  unusable(
    'phosphate in fresh sausage',
    product(season(fresh(), line('sodium-tripolyphosphate'))),
    ['/product/seasoning/7/materialId'],
    'sodium-tripolyphosphate',
    '9 CFR',
    'Take the line out',
  ),
  unusable(
    'Italian sausage without fennel or anise',
    product({
      ...italian(),
      seasoning: italian().seasoning.filter(({ materialId }: Json) => !/fennel|anise/.test(materialId)),
    }),
    ['/product/seasoning'],
    'fennel or anise',
    '9 CFR 319.145(a)',
    'Add a seasoning line',
  ),
  unusable(
    'soy protein in ground beef',
    product(season(beef(), line('isolated-soy-protein', 0.03))),
    ['/product/seasoning/0/materialId'],
    'isolated-soy-protein',
    'No binder or extender',
    'Take the line out',
  ),
  unusable(
    'dry milk in ground beef',
    product(season(beef(), line('nonfat-dry-milk', 0.03))),
    ['/product/seasoning/0/materialId'],
    'nonfat-dry-milk',
    'No binder or extender',
  ),
  unusable(
    'water in ground beef',
    product(season(beef(), line('water', 0.03))),
    ['/product/seasoning/0/materialId'],
    'water',
    'No water is added',
  ),
  unusable(
    'cure in ground beef',
    product(season(beef(), line('curing-salt-6.25', 0.0024))),
    ['/product/seasoning/0/materialId'],
    'curing-salt-6.25',
    'Take the line out',
  ),
  {
    ...unusable(
      'a label for targets that contradict the law',
      undefined,
      [],
      'at least 35 %',
      'Change this target',
    ),
    kind: 'no-blend',
    sent: {
      path: '/v1/labels',
      body: product({
        ...without(beef(), 'label'),
        label: { storage: 'keep frozen' },
        targets: [{ measure: 'fat', min: 0.35 }],
      }),
    },
  },
  {
    ...unusable('a sheet for more than is on hand', undefined, [], 'at most', '9000.00 lb', 'smaller batch'),
    kind: 'no-blend',
    sent: { path: '/v1/batch-sheets', body: total(9000) },
  },
];

const LOTS: Exhibit[] = [
  form('null for lots', { ...GOOD, lots: null }, ['/lots'], 'null', '"inventory"'),
  form('another word for lots', { ...GOOD, lots: 'all' }, ['/lots'], '"all"', '"inventory"'),
  form('an object for lots', { ...GOOD, lots: {} }, ['/lots'], '{}', '"inventory"'),
  form(
    'the id of a lot for a lot',
    lots('B50-1118'),
    ['/lots/0'],
    '"B50-1118"',
    'id, materialId, onHand and cost',
  ),
  form(
    'an empty lot',
    lots({}),
    ['/lots/0/id', '/lots/0/materialId', '/lots/0/onHand', '/lots/0/cost'],
    'is missing',
  ),
  form(
    'a measured fat without its method',
    lots({ ...LOT, measuredFat: { fatFraction: 0.2 } }),
    ['/lots/0/measuredFat/method'],
    'is missing',
  ),
  form(
    'a bare number for a measured fat',
    lots({ ...LOT, measuredFat: 0.2 }),
    ['/lots/0/measuredFat'],
    '0.2',
    'fatFraction',
  ),
  form(
    'a negative stock',
    lots({ ...LOT, onHand: lb(-9) }),
    ['/lots/0/onHand/value'],
    '-9: it must not be negative',
  ),
  form(
    'more lots than can be handled',
    lots(...Array.from({ length: 501 }, (_, index) => ({ ...LOT, id: `L-${index}` }))),
    ['/lots'],
    '501',
    '500',
  ),
  unusable('no lots at all', lots(), ['/lots'], 'No lot on hand', 'Receive a lot'),
  unusable(
    'a lot of an unknown material',
    lots({ ...LOT, materialId: 'unicorn' }),
    ['/lots/0/materialId'],
    '"unicorn"',
    'correct the id',
  ),
  form('the same lot twice', lots(LOT, LOT), ['/lots/1/id'], '"L-1" stands twice', 'its own id'),
  unusable(
    'a lot past its use-by day',
    lots({ ...LOT, useByDate: '2026-11-20' }),
    ['/lots/0/useByDate'],
    '2026-11-20',
    '2026-11-25',
    'leave this lot out',
  ),
  unusable('a lot with nothing left', lots({ ...LOT, onHand: lb(0) }), ['/lots'], 'nothing on hand'),
  unusable(
    'a lot received after the batch',
    lots({ ...LOT, receivedDate: '2026-12-20' }),
    ['/lots/0/receivedDate'],
    '2026-12-20',
  ),
  unusable(
    'a lot to leave out that is not there',
    { ...GOOD, excludeLots: ['X-1'] },
    ['/excludeLots/0'],
    '"X-1"',
  ),
  form(
    'one lot to leave out without a list',
    { ...GOOD, excludeLots: 'X-1' },
    ['/excludeLots'],
    '"X-1"',
    'list',
  ),
  unusable(
    'a use of a lot that is not there',
    { ...GOOD, use: [{ lotId: 'X-1', min: lb(5) }] },
    ['/use/0/lotId'],
    '"X-1"',
  ),
  unusable(
    'a lot used and left out at once',
    { ...GOOD, excludeLots: ['B50-1118'], use: [{ lotId: 'B50-1118', min: lb(5) }] },
    ['/use/0/lotId'],
    '"B50-1118"',
    'excludeLots',
  ),
  unusable(
    'a least use above the most',
    { ...GOOD, use: [{ lotId: 'B50-1118', min: lb(50), max: lb(5) }] },
    ['/use/0/min'],
    '50',
    '5',
    'lower min or raise max',
  ),
  unusable(
    'a least use above what the lot holds',
    { ...GOOD, use: [{ lotId: 'B50-1118', min: lb(5000) }] },
    ['/use/0/min'],
    '960.00 lb',
    'lower it',
  ),
  unusable(
    'a least use of a lot past its use-by day',
    { product: 'bratwurst', batchSize: { pieces: 400 }, use: [{ lotId: 'P72-1110', min: lb(5) }] },
    ['/use'],
    'P72-1110',
    '2026-11-22',
    'Take the demand out',
  ),
  unusable(
    'a stored product whose cure is left out',
    { product: 'smoked-sausage', batchSize: { total: lb(500) }, excludeLots: ['CURE-0812'] },
    ['/product'],
    'curing-salt-6.25',
    'Receive a lot',
  ),
];

const MATERIALS: Exhibit[] = [
  form(
    'an empty material',
    materials({}),
    ['/materials/0/id', '/materials/0/kind', '/materials/0/composition'],
    'is missing',
  ),
  form(
    'a kind that no material has',
    materials({ ...MATERIAL, kind: 'meat' }),
    ['/materials/0/kind'],
    '"meat"',
    'skeletal meat',
  ),
  form(
    'an unknown allergen',
    materials({ ...MATERIAL, allergens: ['dust'] }),
    ['/materials/0/allergens/0'],
    '"dust"',
    'milk',
  ),
  form(
    'no composition',
    materials(without(MATERIAL, 'composition')),
    ['/materials/0/composition'],
    'is missing',
    'waterFraction',
  ),
  form(
    'a name of ten thousand letters',
    materials({ ...MATERIAL, name: 'x'.repeat(10_000) }),
    ['/materials/0/name'],
    'at most 120 characters',
  ),
  unusable(
    'meat without a species',
    materials(without(MATERIAL, 'species')),
    ['/materials/0/species'],
    'is missing',
    'species',
  ),
  form(
    'the same material twice',
    materials(MATERIAL, MATERIAL),
    ['/materials/1/id'],
    '"own-beef" stands twice',
  ),
  unusable(
    'a price of an unknown material',
    { ...GOOD, prices: [{ materialId: 'unicorn', cost: { amount: 1, per: 'lb' } }] },
    ['/prices/0/materialId'],
    '"unicorn"',
    'correct the id',
  ),
  form(
    'two prices of one material',
    {
      ...GOOD,
      prices: [
        { materialId: 'salt', cost: { amount: 1, per: 'lb' } },
        { materialId: 'salt', cost: { amount: 2, per: 'lb' } },
      ],
    },
    ['/prices/1/materialId'],
    '"salt" stands twice',
  ),
];

const BODIES: Exhibit[] = [
  form('an array', [GOOD], [''], 'a list', 'an object with product and batchSize'),
  form('a number', 5, [''], '5: it must be', 'product and batchSize'),
  form('null', null, [''], 'null: it must be', 'product and batchSize'),
  text('nothing', '', 'There is no body', 'JSON'),
  unusable(
    'a cure that does not say what it carries',
    materials({ ...MATERIAL, kind: 'cure', substances: {}, species: undefined }),
    ['/materials/0/substances'],
    'how much it carries of sodium nitrite or potassium nitrite',
  ),
  unusable(
    'a material in the place of one of the tables',
    materials({ ...MATERIAL, id: 'salt' }),
    ['/materials/0/id'],
    '"salt" is in the tables already',
    'another id',
  ),
  unusable(
    'a raw process for a cooked class',
    product({ ...beef(), standard: { jurisdiction: 'us', productClass: 'cooked-sausage' } }),
    ['/product/process/cooking'],
    '"raw"',
    'sold cooked',
  ),
  unusable(
    'fat lost from a raw product',
    product({ ...beef(), process: { ...beef().process, yieldFraction: 0.5, fatLossFraction: 0.5 } }),
    ['/product/process/fatLossFraction', '/product/process/yieldFraction'],
    'loses no fat',
    'loses no weight',
  ),
  text('half a body', '{"product":', 'JSON', 'Give one JSON object'),
  text('a comma too many', '{"product":"ground-beef-80-20",}', 'JSON', 'position'),
  text('single quotes', "{'product':'ground-beef-80-20'}", 'JSON', 'position'),
  {
    name: 'another content type',
    sent: { raw: JSON.stringify(GOOD), headers: { 'content-type': 'text/plain' } },
    status: 415,
    kind: 'unsupported-media-type',
    words: ['text/plain', 'application/json'],
  },
  {
    name: 'a form',
    sent: { raw: 'product=ground-beef', headers: { 'content-type': 'application/x-www-form-urlencoded' } },
    status: 415,
    kind: 'unsupported-media-type',
    words: ['application/x-www-form-urlencoded', 'application/json'],
  },
  {
    name: 'no content type',
    sent: { raw: JSON.stringify(GOOD), headers: {} },
    status: 415,
    kind: 'unsupported-media-type',
    words: ['none', 'application/json'],
  },
  {
    name: 'an unknown character set',
    sent: { raw: JSON.stringify(GOOD), headers: { 'content-type': 'application/json; charset=klingon' } },
    status: 415,
    kind: 'unsupported-media-type',
    words: ['KLINGON', 'UTF-8'],
  },
  {
    name: 'an unknown compression',
    sent: { raw: JSON.stringify(GOOD), headers: { ...JSON_TYPE, 'content-encoding': 'squash' } },
    status: 415,
    kind: 'unsupported-media-type',
    words: ['squash', 'gzip'],
  },
  {
    name: 'a body that is said to be gzip and is not',
    sent: { raw: JSON.stringify(GOOD), headers: { ...JSON_TYPE, 'content-encoding': 'gzip' } },
    status: 400,
    kind: 'invalid-request',
    words: ['header'],
  },
  {
    name: 'too large a body',
    sent: { raw: `{"a":"${'x'.repeat(600 * 1024)}"}`, headers: JSON_TYPE },
    status: 413,
    kind: 'too-large',
    words: ['too large', 'fewer lots'],
  },
  {
    name: 'a small body that unpacks to fifty megabytes',
    sent: {
      raw: gzipSync(Buffer.alloc(50_000_000, 32)),
      headers: { ...JSON_TYPE, 'content-encoding': 'gzip' },
    },
    status: 413,
    kind: 'too-large',
    words: ['too large', 'fewer lots'],
  },
  {
    ...form('lists a hundred thousand deep', undefined, [''], 'levels deep'),
    sent: { raw: `${'['.repeat(100_000)}${']'.repeat(100_000)}`, headers: JSON_TYPE },
  },
  {
    ...form(
      'a unit that is lists a hundred thousand deep',
      undefined,
      ['/batchSize/total/unit'],
      'levels deep',
    ),
    sent: {
      raw: raw(`{"total":{"value":500,"unit":${'['.repeat(100_000)}${']'.repeat(100_000)}}}`),
      headers: JSON_TYPE,
    },
  },
  {
    ...form('a prototype for the request', undefined, ['/__proto__'], '__proto__'),
    sent: {
      raw: `{"__proto__":{"batchSize":{"total":{"value":500,"unit":"lb"}}},${JSON.stringify(GOOD).slice(1)}`,
      headers: JSON_TYPE,
    },
  },
  {
    ...form('a prototype for a lot', undefined, ['/lots/0/__proto__'], '__proto__'),
    sent: {
      raw: JSON.stringify(lots(LOT)).replace('"onHand"', '"__proto__":{"boxKg":1},"onHand"'),
      headers: JSON_TYPE,
    },
  },
  form(
    'a constructor',
    { ...GOOD, constructor: { prototype: { polluted: true } } },
    ['/constructor'],
    'constructor',
  ),
];

const QUERIES: Exhibit[] = [
  query('a negative limit', '/v1/materials?limit=-1', ['/limit'], '-1', 'whole number from 0 to 500'),
  query('too high a limit', '/v1/lots?limit=501', ['/limit'], '501', 'whole number from 0 to 500'),
  query('a limit given twice', '/v1/products?limit=1&limit=2', ['/limit'], 'whole number from 0 to 500'),
  query('an unknown parameter', '/v1/materials?colour=red', ['/colour'], 'colour', 'the fields here are'),
  query('a prototype as a parameter', '/v1/materials?__proto__=1', ['/__proto__'], '__proto__'),
  query('an unknown kind', '/v1/materials?kind=meat', ['/kind'], '"meat"', 'skeletal meat'),
  query('an unknown species', '/v1/materials?species=dog', ['/species'], '"dog"', 'beef, veal, pork'),
  query('too long a search', `/v1/materials?search=${'x'.repeat(61)}`, ['/search'], 'at most 60 characters'),
  query(
    'a day that is not in the calendar to list lots',
    '/v1/lots?usableOn=2026-02-30',
    ['/usableOn'],
    '"2026-02-30"',
  ),
  query('a bad day for the rules', '/v1/rules?date=tomorrow', ['/date'], '"tomorrow"', '2026-11-25'),
  {
    ...query('a broken escape in a path', '/v1/products/%E0%A4%A', [], '%E0%A4%A'),
  },
];

const PLACES: Exhibit[] = [
  nowhere('an unknown route', '/v1/sausages', '/v1/sausages', '/v1/openapi.json'),
  nowhere('a route in other letters', '/v1/Health', '/v1/Health'),
  nowhere('a slash too many', '/v1/health/', '/v1/health/'),
  nowhere('an unknown product to read', '/v1/products/meat-pie', '"meat-pie"', 'The products are bratwurst'),
  nowhere('a product that every object has', '/v1/products/__proto__', '"__proto__"'),
  nowhere('unknown rules', '/v1/rules?jurisdiction=moon', '"moon"', 'The jurisdictions are us'),
  nowhere(
    'rules of an unknown class',
    '/v1/rules?productClass=meat-pie',
    '"meat-pie"',
    'The classes are ground-beef',
  ),
  nowhere('an unknown problem', '/problems/toString', '"toString"'),
  nowhere('a way out of the documentation', '/docs/files/../../../package.json', '/v1/openapi.json'),
  nowhere(
    'an escaped way out of the documentation',
    '/docs/files/..%2f..%2f..%2fpackage.json',
    '/v1/openapi.json',
  ),
  nowhere('a way out by dots', '/docs/files/%2e%2e/%2e%2e/package.json', '/v1/openapi.json'),
  nowhere('a way to the plant by the service', '/../demo-data/lots.csv', 'demo-data/lots.csv'),
  {
    name: 'reading where one posts',
    sent: { method: 'GET', path: '/v1/blends' },
    status: 405,
    kind: 'method-not-allowed',
    words: ['/v1/blends answers POST, not GET'],
    allow: 'POST',
  },
  {
    name: 'deleting lots',
    sent: { method: 'DELETE', path: '/v1/lots' },
    status: 405,
    kind: 'method-not-allowed',
    words: ['GET', 'DELETE'],
    allow: 'GET, POST',
  },
  {
    name: 'patching a product',
    sent: { method: 'PATCH', path: '/v1/products/bratwurst', body: { id: 'bratwurst' } },
    status: 405,
    kind: 'method-not-allowed',
    words: ['GET', 'PATCH'],
    allow: 'GET, PUT, DELETE',
  },
  {
    name: 'putting a product that may have changed',
    sent: { method: 'PUT', path: '/v1/products/bratwurst', body: { id: 'bratwurst' } },
    status: 428,
    kind: 'version-needed',
    words: ['If-Match', 'ETag'],
  },
  {
    name: 'a sheet as an image',
    sent: { path: '/v1/batch-sheets', body: GOOD, headers: { ...JSON_TYPE, accept: 'image/png' } },
    status: 406,
    kind: 'not-acceptable',
    words: ['application/json', 'text/plain'],
  },
  {
    name: 'a label as a page',
    sent: { path: '/v1/labels', body: GOOD, headers: { ...JSON_TYPE, accept: 'text/html' } },
    status: 406,
    kind: 'not-acceptable',
    words: ['application/json', 'text/plain'],
  },
];

const MUSEUM: readonly Exhibit[] = [
  ...UNKNOWN_FIELDS,
  ...NUMBERS,
  ...UNITS_AND_DATES,
  ...BATCH_SIZES,
  ...PRODUCTS,
  ...LOTS,
  ...MATERIALS,
  ...BODIES,
  ...QUERIES,
  ...PLACES,
];

/** What every refusal has in common, whatever was wrong. */
function problemOf(received: Received): Json {
  expect(received.headers['content-type'], received.text.slice(0, 300)).toMatch(
    /^application\/problem\+json(;|$)/,
  );
  const problem = JSON.parse(received.text);
  expect(strictly(problemSchema).safeParse(problem).error?.issues ?? []).toEqual([]);
  expect(problem.status).toBe(received.status);
  expect(problem.type).toMatch(/^\/problems\/[a-z-]+$/);
  for (const said of [problem.title, problem.detail]) expect(said).not.toBe('');
  return problem;
}

/** Whether a JSON pointer names something in the request, or a field that could stand in it and does not. */
function leadsSomewhere(pointer: string, request: unknown): boolean {
  if (pointer === '') return true;
  const steps = pointer
    .slice(1)
    .split('/')
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
  const parent = steps.slice(0, -1).reduce<Json>((at, step) => at?.[step], request);
  return pointer.startsWith('/') && typeof parent === 'object' && parent !== null;
}

function requestOf({ path, body, raw: asSent }: Sent): unknown {
  if (asSent !== undefined) return asSent.length === 0 ? {} : JSON.parse(String(asSent));
  return body ?? Object.fromEntries(new URL(path ?? '/', 'http://plant').searchParams);
}

describe('a museum of bad requests', () => {
  test('has every exhibit once', () => {
    const names = MUSEUM.map(({ name }) => name);
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
  });

  test.each(MUSEUM.map((exhibit) => [exhibit.name, exhibit.status, exhibit] as const))(
    '%s is refused with %i and a way out',
    async (_name, _status, exhibit) => {
      const received = await send(service.address, exhibit.sent);
      expect(received.status, received.text.slice(0, 500)).toBe(exhibit.status);
      const problem = problemOf(received);
      expect(problem.type).toBe(`/problems/${exhibit.kind}`);
      const errors: Json[] = problem.errors ?? [];
      const pointers = errors.map(({ pointer }) => pointer);
      expect(pointers).toEqual(expect.arrayContaining([...(exhibit.pointers ?? [])]));
      const said = [problem.detail, ...errors.map(({ message }) => message)].join('\n');
      for (const words of exhibit.words) expect(said).toContain(words);
      if (errors.length > 0) {
        const request = requestOf(exhibit.sent);
        expect(pointers.filter((pointer) => !leadsSomewhere(pointer, request))).toEqual([]);
      }
      expect(received.headers.allow).toBe(exhibit.allow);

      const after = await send(service.address, { body: GOOD });
      expect(after.status).toBe(200);
      expect(JSON.parse(after.text).outcome).toBe('blend');
    },
  );

  test('has left no mark on the service', async () => {
    const fresher = await startDemo();
    try {
      const seasoned = await send(service.address, { body: GOOD });
      expect(JSON.parse(seasoned.text)).toEqual(
        JSON.parse((await send(fresher.address, { body: GOOD })).text),
      );
      expect(({} as Json).polluted).toBeUndefined();
    } finally {
      await fresher.stop();
    }
  });

  test('shows no more of a request than a person reads', async () => {
    const long = 'x'.repeat(300_000);
    for (const body of [
      { ...GOOD, date: long },
      { ...GOOD, [long]: 1 },
      { ...GOOD, ...Object.fromEntries(Array.from({ length: 20_000 }, (_, index) => [`k${index}`, 1])) },
    ]) {
      const { status, text: answer } = await send(service.address, { body });
      expect(status).toBe(400);
      expect(answer.length).toBeLessThan(25_000);
    }
  });
});

describe('odd requests that are good all the same', () => {
  test.each<{ name: string; sent: Sent }>([
    {
      name: 'a byte order mark before the JSON',
      sent: { raw: `\uFEFF${JSON.stringify(GOOD)}`, headers: JSON_TYPE },
    },
    {
      name: 'a gzip body',
      sent: { raw: gzipSync(JSON.stringify(GOOD)), headers: { ...JSON_TYPE, 'content-encoding': 'gzip' } },
    },
    {
      name: 'a content type with a character set',
      sent: { raw: JSON.stringify(GOOD), headers: { 'content-type': 'application/json; charset=utf-8' } },
    },
    {
      name: 'white space around the JSON',
      sent: { raw: `\n\t ${JSON.stringify(GOOD)} \n`, headers: JSON_TYPE },
    },
  ])('$name is answered like any other', async ({ sent }) => {
    const plain = await send(service.address, { body: GOOD });
    const odd = await send(service.address, sent);
    expect(odd.status).toBe(200);
    expect(JSON.parse(odd.text)).toEqual(JSON.parse(plain.text));
  });
});

/** A request that uses every field there is. */
const RICH: Json = {
  product: { ...italian(), id: 'own-sausage' },
  batchSize: { total: lb(200) },
  date: '2026-11-25',
  lots: [
    {
      ...LOT,
      materialId: 'pork-trim-72',
      measuredFat: { fatFraction: 0.29, method: 'NIR' },
      receivedDate: '2026-11-20',
      packedDate: '2026-11-19',
      useByDate: '2026-12-04',
      state: 'chilled',
      box: lb(60),
      supplierEstablishment: '00005',
      supplierLot: '77',
      location: 'Cooler 9',
    },
    { ...LOT, id: 'L-2', materialId: 'own-pork', onHand: lb(300) },
    { ...LOT, id: 'L-3', materialId: 'pork-backfat', onHand: lb(50) },
  ],
  use: [{ lotId: 'L-1', min: lb(5), max: lb(150) }],
  excludeLots: ['L-3'],
  materials: [
    { ...MATERIAL, id: 'own-pork', species: 'pork', declaredName: 'pork', allergens: [], source: 'own' },
  ],
  prices: [{ materialId: 'salt', cost: { amount: 0.3, per: 'lb' } }],
  units: 'lb',
};

type Path = readonly (string | number)[];

function pathsOf(value: unknown, at: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [at];
  return [at, ...Object.entries(value).flatMap(([key, inner]) => pathsOf(inner, [...at, key]))];
}

interface Mutation {
  readonly path: Path;
  readonly how: 'delete' | 'replace' | 'duplicate';
  readonly value: unknown;
}

/** The request with one place deleted, replaced, or standing twice (a list gets it twice, an object renamed). */
function mutated(request: unknown, { path, how, value }: Mutation): unknown {
  if (path.length === 0) return how === 'replace' ? value : request;
  const copy = structuredClone(request) as Json;
  const parent = path.slice(0, -1).reduce<Json>((at, step) => at?.[step], copy);
  const last = path.at(-1) as string;
  if (typeof parent !== 'object' || parent === null) return copy;
  if (how === 'replace') parent[last] = value;
  else if (how === 'duplicate') {
    if (Array.isArray(parent)) parent.push(structuredClone(parent[Number(last)]));
    else parent[`${last}2`] = parent[last];
  } else if (Array.isArray(parent)) parent.splice(Number(last), 1);
  else delete parent[last];
  return copy;
}

const anyValue = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.constantFrom(
    0,
    -1,
    1,
    0.5,
    1e-9,
    5e-324,
    1e308,
    -1e308,
    2 ** 53,
    1e6,
    '',
    'salt',
    '2026-11-31',
    null,
    [],
    {},
  ),
  fc.double({ min: 0, max: 1, noNaN: true }),
);
const mutations = fc.array(
  fc.record<Mutation>({
    path: fc.constantFrom(...pathsOf(RICH)),
    how: fc.constantFrom('delete', 'replace', 'duplicate'),
    value: anyValue,
  }),
  { minLength: 1, maxLength: 3 },
);
const SEEDED = { seed: 20_261_125, numRuns: 400 };
const ROUTES = ['/v1/blends', '/v1/batch-sheets', '/v1/labels'];

describe('a valid request changed at random', () => {
  test('is good before it is changed', async () => {
    const { status, text: answer } = await send(service.address, { body: RICH });
    expect(status, answer).toBe(200);
    expect(JSON.parse(answer).outcome, answer).toBe('blend');
  });

  test('is answered, or refused with a problem that points into it; the service never fails', async () => {
    await fc.assert(
      fc.asyncProperty(mutations, fc.constantFrom(...ROUTES), async (changes, path) => {
        const body = changes.reduce(mutated, RICH as unknown);
        const received = await send(service.address, { path, body });
        expect(received.status, received.text.slice(0, 500)).toBeLessThan(500);
        if (received.status === 200) return;
        const problem = problemOf(received);
        expect(['invalid-request', 'cannot-be-used', 'no-blend']).toContain(problem.type.split('/').at(-1));
        for (const { pointer } of problem.errors ?? []) {
          expect(leadsSomewhere(pointer, body), `${pointer} in ${JSON.stringify(body)}`).toBe(true);
        }
      }),
      SEEDED,
    );
  }, 300_000);

  test('is refused in words that say what to write', async () => {
    await fc.assert(
      fc.asyncProperty(mutations, async (changes) => {
        const received = await send(service.address, { body: changes.reduce(mutated, RICH as unknown) });
        if (received.status !== 400 && received.status !== 422) return;
        for (const { message } of problemOf(received).errors ?? []) {
          expect(message).not.toMatch(/^(Invalid|Too (big|small)|Unrecognized)\b/);
        }
      }),
      SEEDED,
    );
  }, 300_000);
});

describe('requests at the edge of what numbers can hold', () => {
  const patty = (pieceMass: Json) => ({
    ...demoProduct('hamburger-patties'),
    form: { shape: 'patty', pieceMass },
  });
  const smoked = (process: Json) => {
    const base = demoProduct('smoked-sausage');
    return { ...base, process: { ...base.process, ...process } };
  };
  test.each<{ name: string; body: unknown }>([
    { name: 'the smallest batch there is', body: total(5e-324, 'g') },
    { name: 'a batch of a millionth of a pound', body: total(1e-6) },
    {
      name: 'pieces that weigh nearly nothing',
      body: { product: patty(lb(1e-300)), batchSize: { pieces: 600 } },
    },
    { name: 'pieces beyond all weight', body: { product: patty(lb(1e308)), batchSize: { pieces: 1e6 } } },
    {
      name: 'a yield of nearly nothing',
      body: {
        product: smoked({ yieldFraction: 1e-9, fatLossFraction: 0 }),
        batchSize: { finished: lb(300) },
      },
    },
    {
      name: 'the smallest target there is',
      body: product({ ...beef(), targets: [{ measure: 'salt', min: 5e-324 }] }),
    },
    { name: 'the smallest price there is', body: lots({ ...LOT, cost: { amount: 5e-324, per: 'lb' } }) },
    { name: 'the smallest stock there is', body: lots({ ...LOT, onHand: lb(5e-324) }) },
  ])('$name: the service does not fail', async ({ body }) => {
    const received = await send(service.address, { body });
    expect(received.status, received.text.slice(0, 300)).toBeLessThan(500);
    if (received.status !== 200) problemOf(received);
  });

  test('counts of pieces and boxes stay whole numbers', async () => {
    for (const size of [lb(1e-300), { value: 5e-324, unit: 'g' }]) {
      for (const body of [
        { product: patty(size), batchSize: { total: lb(500) } },
        lots({ ...LOT, box: size }),
      ]) {
        const received = await send(service.address, { path: '/v1/batch-sheets', body });
        if (received.status !== 200) {
          problemOf(received);
          continue;
        }
        const sheet = JSON.parse(received.text);
        expect(sheet.batch.pieces ?? 0).toSatisfy(Number.isSafeInteger);
        expect(sheet.batch.pieces).not.toBeNull();
        for (const { boxes } of sheet.pick)
          if (boxes !== undefined) expect(boxes).toSatisfy(Number.isSafeInteger);
      }
    }
  });
});
