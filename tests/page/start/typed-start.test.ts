import { describe, expect, test } from 'vitest';
import { beginningSchema } from '../../../src/api/beginning/contract.ts';
import { receiveSchema } from '../../../src/api/contract/lots.ts';
import { type Material, pairToBegin, receiptBody, trimFor } from '../../../src/page/start/first-lots.ts';
import { stepOfFault } from '../../../src/page/start/step-of-fault.ts';
import {
  type Assumed,
  beginningBody,
  marketOfLanguage,
  NOTHING_TYPED,
  wholePlant,
} from '../../../src/page/start/typed-start.ts';
import { plantSchema } from '../../../src/tables/plant.ts';

const ASSUMED: Assumed = {
  tag: 'en-US',
  timeZone: 'America/Denver',
  language: 'en',
  mark: '.',
  scaleNames: { floor: 'Floor scale', bench: 'Bench scale', gram: 'Gram scale' },
};

describe('what is assumed of a plant', () => {
  test.each([
    ['en-US', 'us', 'USD', 'lb', 'letter'],
    ['es-MX', 'us', 'USD', 'lb', 'letter'],
    ['en', 'us', 'USD', 'lb', 'letter'],
    ['fr-CA', 'ca', 'CAD', 'kg', 'letter'],
    ['en-GB', 'gb', 'GBP', 'kg', 'a4'],
    ['de-DE', 'eu', 'EUR', 'kg', 'a4'],
    ['zh-Hans-NZ', 'anz', 'AUD', 'kg', 'a4'],
    ['pt-BR', 'codex', 'USD', 'kg', 'a4'],
  ])('follows the browser in %s', (tag, market, currency, units, paper) => {
    expect(marketOfLanguage(tag)).toBe(market);
    expect(wholePlant({}, { ...ASSUMED, tag })).toMatchObject({
      jurisdiction: market,
      currency,
      units,
      paper,
    });
  });

  test('gives way to what was typed, and follows the market where nothing was', () => {
    const plant = wholePlant({ jurisdiction: 'eu', currency: 'SEK' }, ASSUMED);
    expect(plant).toMatchObject({ currency: 'SEK', units: 'kg', mixer: { text: '100', unit: 'kg' } });
    expect(plant.scales.map(({ unit }) => unit)).toEqual(['kg', 'kg', 'g']);
  });

  test.each([
    ['en-US', '.'],
    ['de-DE', ','],
  ] as const)('with a name and a number is a plant that the service takes (%s)', (tag, mark) => {
    const plant = wholePlant({ name: 'Own Plant', establishment: '00000' }, { ...ASSUMED, tag, mark });
    const typed = { ...NOTHING_TYPED, person: 'Ana', classes: { bratwurst: 'fresh-sausage' } };
    const body = beginningBody(typed, plant, ['bratwurst', 'hamburger-patties'], 'a few words', mark);
    const parsed = beginningSchema.parse(JSON.parse(JSON.stringify(body)));
    expect(parsed.plant.scales.map(({ id }) => id)).toEqual(['floor-scale', 'bench-scale', 'gram-scale']);
    expect(parsed.keeps).toEqual({
      products: [{ id: 'bratwurst', productClass: 'fresh-sausage' }, { id: 'hamburger-patties' }],
    });
    expect(beginningBody({ ...typed, keeps: 'all' }, plant, [], undefined, mark)).toEqual({
      plant: body.plant,
      keeps: 'all',
    });
  });
});

test('a fault leads to the first step that has its field', () => {
  const steps = (...pointers: string[]) => stepOfFault(pointers.map((pointer) => ({ pointer })));
  expect(steps('/admin/password', '/plant/scales/1/division')).toBe('scales');
  expect(steps('/admin/password')).toBe('people');
  expect(steps('/plant/name', '/plant/mixerCapacity')).toBe('plant');
  expect(steps('/keeps/products/0/productClass')).toBe('with');
  expect(steps('/keeps')).toBeUndefined();
});

test('steps name every field of a plant that they show', () => {
  const { issues = [] } = plantSchema.safeParse({ address: [], units: 'lb' }).error ?? {};
  const missing = issues
    .map(({ path }) => `/plant/${path.join('/')}`)
    .filter((at) => at !== '/plant/address');
  for (const pointer of missing) expect([pointer, stepOfFault([{ pointer }])]).not.toContain(undefined);
});

describe('the first lots', () => {
  const material = (id: string, species: string, fatFraction: number, kind = 'skeletal meat') =>
    ({ id, name: id, species, kind, composition: { fatFraction } }) as unknown as Material;
  const materials = [
    material('pork-trim-72', 'pork', 0.28),
    material('beef-trim-50', 'beef', 0.5),
    material('beef-trim-90', 'beef', 0.1),
    material('beef-trim-97', 'beef', 0.03),
    material('beef-heart', 'beef', 0.1, 'heart'),
    material('veal-trim-80', 'veal', 0.2),
  ];
  const recipe = (species: string) => ({
    id: 'x',
    name: 'X',
    standard: { jurisdiction: 'us', productClass: 'x' },
    process: { cooking: 'raw' },
    meatBlock: [{ species: [species] }],
  });

  test('are of trim that the recipes take: a fat one and a lean one', () => {
    const recipes = [recipe('beef'), recipe('pork')];
    const trim = trimFor(materials, recipes);
    expect(trim.map(({ id }) => id)).toEqual([
      'beef-trim-97',
      'beef-trim-90',
      'beef-trim-50',
      'pork-trim-72',
    ]);
    expect(pairToBegin(trim, recipes)).toEqual(['beef-trim-50', 'beef-trim-90']);
    expect(trimFor(materials, []).length).toBe(5);
    expect(pairToBegin([], [])).toEqual([]);
  });

  test('become receipts, with lean as fat', () => {
    const lot = {
      mass: { text: '300', unit: 'lb' },
      price: { text: '1,30', unit: 'lb' },
      lean: '72,6',
    } as const;
    const body = JSON.parse(JSON.stringify(receiptBody(lot, 'pork-trim-72', '.')));
    expect(body).toEqual({
      materialId: 'pork-trim-72',
      mass: { value: 300, unit: 'lb' },
      cost: { amount: 1.3, per: 'lb' },
      measuredFat: { fatFraction: 0.274, method: 'supplier' },
    });
    expect(receiveSchema.safeParse(body).success).toBe(true);
  });

  test('whose fields are empty or no numbers are named by the service', () => {
    const lot = { mass: { text: '', unit: 'lb' }, price: { text: 'x', unit: 'lb' }, lean: 'fat' } as const;
    const body = JSON.parse(JSON.stringify(receiptBody(lot, 'pork-trim-72', '.')));
    const issues = receiveSchema.safeParse(body).error?.issues ?? [];
    expect(issues.map(({ path }) => path.join('/'))).toEqual([
      'mass/value',
      'cost/amount',
      'measuredFat/fatFraction',
    ]);
  });
});
