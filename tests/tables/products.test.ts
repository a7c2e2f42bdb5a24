import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Material, MaterialKind } from '../../src/batch/material.ts';
import { parseProduct, readProduct } from '../../src/tables/products.ts';

const KINDS: Record<string, MaterialKind> = {
  'pork-trim-72': 'skeletal meat',
  salt: 'salt',
  water: 'water',
  'hog-casing': 'casing',
};
const materials = new Map(Object.entries(KINDS).map(([id, kind]) => [id, { id, kind } as Material]));

const PRODUCT = {
  id: 'test-sausage',
  name: 'Test sausage',
  standard: { jurisdiction: 'us', productClass: 'fresh-pork-sausage' },
  meatBlock: [{ name: 'pork', kinds: ['skeletal meat'], species: ['pork'], minFraction: 0.9 }],
  seasoning: [
    { materialId: 'salt', basis: 'green weight', fraction: 0.0175 },
    { materialId: 'water', basis: 'batch', minFraction: 0, maxFraction: 0.03 },
  ],
  targets: [
    { measure: 'fat', max: 0.38 },
    { measure: 'cost per kg', max: 4.5 },
  ],
  process: {
    cooking: 'raw',
    smoked: false,
    yieldFraction: 1,
    fatLossFraction: 0,
    grindPlates: ['3/8 in'],
    mixing: ['Mix 2 minutes'],
  },
  form: { shape: 'link', pieceMass: { value: 100, unit: 'g' }, casingMaterialId: 'hog-casing' },
  label: { storage: 'keep refrigerated' },
};

test('a product is read with fixed rates as equal ends and the piece in kilograms', () => {
  const parsed = parseProduct(PRODUCT, materials);
  expect(parsed).toStrictEqual({
    ok: true,
    product: {
      ...PRODUCT,
      seasoning: [
        { materialId: 'salt', basis: 'green weight', minFraction: 0.0175, maxFraction: 0.0175 },
        { materialId: 'water', basis: 'batch', minFraction: 0, maxFraction: 0.03 },
      ],
      form: { shape: 'link', pieceKg: 0.1, casingMaterialId: 'hog-casing' },
    },
  });
});

test('a file is read like the value', () => {
  const product = readProduct('test-sausage.json', JSON.stringify(PRODUCT), materials);
  expect(parseProduct(PRODUCT)).toEqual({ ok: true, product });
});

test('the issues lead to their fields and come all at once', () => {
  const parsed = parseProduct({
    ...PRODUCT,
    colour: 'red',
    name: undefined,
    seasoning: [{ materialId: 'salt', basis: 'green weight', fraction: 1.75 }],
  });
  expect(parsed).toEqual({
    ok: false,
    issues: expect.arrayContaining([
      { path: ['colour'], message: expect.stringContaining('unknown field') },
      { path: ['name'], message: expect.stringContaining('is missing') },
      { path: ['seasoning', 0, 'fraction'], message: expect.stringContaining('1.75 is above 1') },
    ]),
  });
});

test.each([undefined, null, 3, 'sausage', []])('%j is no product', (value) => {
  expect(parseProduct(value)).toEqual({
    ok: false,
    issues: [
      { path: [], message: expect.stringContaining('it must be an object that describes the product') },
    ],
  });
});

test.each([Number.NaN, Number.POSITIVE_INFINITY, '0.02', null])('%s is no rate', (fraction) => {
  const seasoning = [{ materialId: 'salt', basis: 'green weight', fraction }];
  const parsed = parseProduct({ ...PRODUCT, seasoning });
  expect(parsed).toMatchObject({ ok: false, issues: [{ path: ['seasoning', 0, 'fraction'] }] });
});

test('shares that add up to exactly 1 are no fault, however they are written', () => {
  const shares = [0.7, 0.2, 0.1];
  const meatBlock = shares.map((share, index) => ({
    name: `part ${index}`,
    species: ['pork'],
    minFraction: share,
    maxFraction: share,
  }));
  expect(parseProduct({ ...PRODUCT, meatBlock }).ok).toBe(true);
});

test('without the materials at hand, ids are taken as they are', () => {
  const seasoning = [{ materialId: 'unheard-of', basis: 'batch', fraction: 0.01 }];
  expect(parseProduct({ ...PRODUCT, seasoning }).ok).toBe(true);
  expect(parseProduct({ ...PRODUCT, seasoning }, materials).ok).toBe(false);
});

describe('a broken file says what to do', () => {
  test.each([
    [
      'percent-for-fraction',
      'seasoning[0].fraction, 1.75 is above 1; write a fraction such as 0.0175 for 1.75 %',
    ],
    ['target-percent', 'targets[0].max, 38 is above 1; write a fraction such as 0.38 for 38 %'],
    ['unknown-field', 'seasoning[0].rate, unknown field; the fields here are materialId, basis, fraction'],
    [
      'no-standard',
      'standard, is missing; it must name the standard of the product, such as {"jurisdiction"',
    ],
    ['min-above-max', 'seasoning[1].minFraction, 0.04 is above maxFraction 0.03; swap or correct the two'],
    ['target-min-above-max', 'targets[0].min, 0.4 is above max 0.38; swap or correct the two'],
    ['empty-meat-block', 'meatBlock, []: it must hold at least one part; say which meat goes in'],
    ['no-meat-block', 'meatBlock, is missing; it must be a list of the parts of the meat block'],
    ['part-without-choice', 'meatBlock[0], says not what may fill it; add materialIds, kinds or species'],
    ['shares-over-one', 'meatBlock, the minFraction of its parts add up to 1.1; lower them'],
    ['shares-under-one', 'meatBlock, the maxFraction of its parts add up to 0.9; raise them'],
    ['no-rate', 'seasoning[0].fraction, is missing; write a fixed rate, or both minFraction and maxFraction'],
    ['two-rates', 'seasoning[0].fraction, 0.0175 stands beside minFraction or maxFraction; keep'],
    ['negative-rate', 'seasoning[0].fraction, -0.01: it must not be negative'],
    ['repeated-seasoning', 'seasoning[1].materialId, "salt" stands twice; make it one line'],
    ['unknown-material', 'seasoning[0].materialId, "sallt": no such material; correct the id'],
    [
      'meat-as-seasoning',
      'seasoning[0].materialId, "pork-trim-72" is skeletal meat; meat goes into the meat block',
    ],
    ['salt-in-meat-block', 'meatBlock[0].materialIds[0], "salt" is salt; only meat and fat belong'],
    ['no-casing', 'form.casingMaterialId, "salt" is salt; name a casing'],
    ['unknown-kind', 'meatBlock[0].kinds[0], "muscle": it must be one of: skeletal meat, cheek meat'],
    ['unknown-basis', 'seasoning[0].basis, "meat": it must be one of: green weight, batch, finished weight'],
    ['mass-without-unit', 'form.pieceMass, 2: it must be a mass with its unit'],
    ['patty-without-mass', 'form.pieceMass, is missing; a patty has a weight'],
    [
      'loss-over-yield',
      'process.fatLossFraction, 0.1 is more than the whole loss that yieldFraction 1 leaves',
    ],
  ])('%s', (name, words) => {
    const file = `products-${name}.json`;
    const text = readFileSync(join(import.meta.dirname, 'broken', file), 'utf8');
    expect(() => readProduct(file, text, materials)).toThrow(`${file}, ${words}`);
  });

  test('not-json', () => {
    expect(() => readProduct('x.json', '{ "id": "test", }', materials)).toThrow('x.json, is not valid JSON');
  });
});

test('rework is read as it stands, and refused without products, twice the same, or as the whole batch', () => {
  const rework = { productIds: ['test-sausage'], maxFraction: 0.1 };
  expect(parseProduct({ ...PRODUCT, rework })).toMatchObject({ ok: true, product: { rework } });
  const issuesOf = (given: object) => {
    const parsed = parseProduct({ ...PRODUCT, rework: { ...rework, ...given } });
    return parsed.ok ? [] : parsed.issues.map(({ path, message }) => `${path.join('.')} ${message}`);
  };
  expect(issuesOf({ productIds: [] })).toEqual([
    expect.stringMatching(/^rework\.productIds .*name the products/),
  ]);
  expect(issuesOf({ productIds: ['a', 'a'] })).toEqual([
    expect.stringMatching(/^rework\.productIds\.1 "a" stands twice/),
  ]);
  expect(issuesOf({ maxFraction: 1 })).toEqual([expect.stringMatching(/^rework\.maxFraction 1: .*below 1/)]);
  expect(issuesOf({ maxFraction: 0 })).toEqual([expect.stringMatching(/^rework\.maxFraction 0: .*above 0/)]);
});

describe('packs', () => {
  const packed = (...packs: unknown[]) => parseProduct({ ...PRODUCT, label: { ...PRODUCT.label, packs } });
  const brick = { id: 'brick', gtin: '400001000014', netWeight: { value: '1', unit: 'lb' } };
  const tray = {
    id: 'tray',
    gtin: '99521000000011',
    itemNumber: '01234',
    tare: { value: '0.03', unit: 'lb' },
    price: { amount: '5.49', per: 'lb' },
    labelStock: 'roll-102x76',
  };

  test('are read as they are written', () => {
    const label = {
      ...PRODUCT.label,
      packs: [brick, tray],
      claims: ['lean', 'product of usa'],
      nutritionExemption: 'at most 500 people, at most 100,000 lb a year',
    };
    const parsed = parseProduct({ ...PRODUCT, label });
    expect(parsed.ok && parsed.product.label).toStrictEqual(label);
  });

  test.each([
    ['a wrong check digit', { ...brick, gtin: '400001000015' }, 'gtin', 'its last digit must be 4'],
    ['a number of 11 digits', { ...brick, gtin: '40000100001' }, 'gtin', '8, 12, 13 or 14 digits'],
    ['an item number of four digits', { ...tray, itemNumber: '1234' }, 'itemNumber', 'must have five digits'],
    [
      'an item number beside a weight',
      { ...brick, itemNumber: '01234' },
      'itemNumber',
      'leave netWeight out',
    ],
    ['a number for packs that differ', { ...tray, gtin: brick.gtin }, 'gtin', 'start with 9'],
    ['a number for packs that do not', { ...brick, gtin: tray.gtin }, 'gtin', 'it starts with 9'],
    [
      'a weight as a number',
      { ...brick, netWeight: { value: 1, unit: 'lb' } },
      'netWeight.value',
      'must be a text',
    ],
    [
      'no weight',
      { ...brick, netWeight: { value: '0', unit: 'lb' } },
      'netWeight.value',
      'must be a number above 0',
    ],
    [
      'a weight of tons',
      { ...brick, netWeight: { value: '9999999', unit: 'kg' } },
      'netWeight.value',
      'from 1 mg',
    ],
    [
      'a price with a sign',
      { ...tray, price: { amount: '$5', per: 'lb' } },
      'price.amount',
      'must be an amount',
    ],
    [
      'a price per ounce',
      { ...tray, price: { amount: '5', per: 'oz' } },
      'price.per',
      'must be one of: lb, kg',
    ],
    ['half a piece', { ...brick, pieces: 0.5 }, 'pieces', 'must be a whole number'],
  ])('%s is refused', (_, pack, field, message) => {
    const parsed = packed(pack);
    const issues = parsed.ok ? [] : parsed.issues;
    expect(issues.map(({ path }) => path.join('.'))).toEqual([`label.packs.0.${field}`]);
    expect(issues[0]?.message).toContain(message);
  });

  test('have ids of their own, and a claim stands once', () => {
    const twice = packed(brick, { ...tray, id: 'brick' });
    expect(twice.ok ? [] : twice.issues.map(({ path }) => path.join('.'))).toEqual(['label.packs.1.id']);
    const claims = parseProduct({
      ...PRODUCT,
      label: { ...PRODUCT.label, claims: ['lean', 'lean', 'light'] },
    });
    expect(claims.ok ? [] : claims.issues.map(({ path }) => path.join('.'))).toContain('label.claims.2');
  });
});
