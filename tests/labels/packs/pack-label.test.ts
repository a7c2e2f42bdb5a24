import { describe, expect, test } from 'vitest';
import type { PackFormat, Product } from '../../../src/batch/product.ts';
import type { Declaration } from '../../../src/labels/declaration.ts';
import { LabelRefused } from '../../../src/labels/packs/label-refused.ts';
import type { PackOf } from '../../../src/labels/packs/pack-label.ts';
import { safeHandling } from '../../../src/labels/packs/safe-handling.ts';
import type { Standard } from '../../../src/rules/standard.ts';
import {
  BRICK,
  declarationOf,
  labelOf,
  metricSausage,
  PLANT,
  productOf,
  TRAY,
  US_PANEL,
} from '../../documents/pdf/pack-labels.ts';

const { address: _, ...HOMELESS } = PLANT;
const { printing: __, ...WITHOUT_PRICE_CODE } = PLANT;
const { price: ___, ...UNPRICED } = TRAY;
const weighed = { value: '1.238', unit: 'lb' } as const;

describe('what a label needs and lacks is said', () => {
  test.each<[string, Partial<PackOf>, RegExp]>([
    ['no address', { plant: HOMELESS }, /give the lines of its place of business/],
    ['no weight', { format: TRAY }, /give its net weight as net and unit/],
    ['no price for its number', { format: UNPRICED, net: weighed }, /give its price/],
    ['no way to code a price', { format: TRAY, net: weighed, plant: WITHOUT_PRICE_CODE }, /give "priceCode"/],
    ['another weight than declared', { net: weighed }, /declares 1 lb, not 1\.238 lb/],
    ['kept until before it was packed', { useByDate: '2026-11-24' }, /before the day of packing, 2026-11-25/],
    [
      'a weight that prints as nothing',
      { format: TRAY, net: { value: '0.001', unit: 'lb' } },
      /smallest weight/,
    ],
  ])('%s', (_name, part, words) => {
    expect(() => labelOf(part)).toThrow(words);
    expect(() => labelOf(part)).toThrow(LabelRefused);
  });

  test('all at once', () => {
    expect(() => labelOf({ plant: HOMELESS, format: TRAY, useByDate: '2026-11-24' })).toThrow(
      /address.*what the pack weighs.*before the day of packing/,
    );
  });
});

test('a weight in another unit that is the same is the same', () => {
  expect(labelOf({ net: { value: '16', unit: 'oz' } }).netWeight.text).toBe('NET WT 1 LB (453g)');
});

test('dates are in the words and the order of the market', () => {
  expect(labelOf().dates.map(({ says, text }) => `${says} ${text}`)).toEqual([
    'Packed NOV 25 2026',
    'Use by DEC 09 2026',
  ]);
  expect(metricSausage().dates.map(({ text }) => text)).toEqual(['25 NOV 2026', '09 DEC 2026']);
  const date = { text: 'Best before', citation: 'B.01.007' };
  const canadian = labelOf({
    declaration: { ...declarationOf('links', 'ca', false), date } as Declaration,
    product: productOf('links', 'ca'),
  });
  expect(canadian.dates.map(({ says, text }) => `${says} ${text}`)).toEqual([
    'Packed 2026 NO 25',
    'Best before 2026 DE 09',
  ]);
  // Best before is 15, use by would be 17.
  expect(canadian.codes.at(-1)?.data).toContain('(13)261125(15)261209(10)');
});

test('only claims that hold are printed, and what a label must say is there', () => {
  const label = labelOf({
    declaration: {
      ...declarationOf('links'),
      claims: [
        { claim: 'low fat', says: 'Low Fat', holds: false, because: 'fat', citation: 'x' },
        { claim: 'product of usa', says: 'Product of USA', holds: true, because: 'all', citation: 'x' },
      ],
      origin: [{ text: 'Reared in: US', citation: 'x' }],
      ingredients: {
        text: 'Pork, milk.',
        ingredients: [],
        runs: [
          { text: 'Pork, ', emphasized: false },
          { text: 'milk', emphasized: true },
          { text: '.', emphasized: false },
        ],
      },
    },
  });
  expect(label).toMatchObject({ claims: ['Product of USA'], origin: ['Reared in: US'] });
  expect(label.ingredients.map(({ text }) => text).join('')).toBe('Ingredients: Pork, milk.');
  expect(label.ingredients.filter(({ emphasized }) => emphasized)).toEqual([
    { text: 'milk', emphasized: true },
  ]);
});

describe('safe handling instructions', () => {
  // The words were read in 9 CFR 381.125(b), edition of 2015.
  test('have the heading, the rationale and four statements with their pictures', () => {
    const { heading, rationale, statements } = safeHandling(false);
    expect(heading).toBe('Safe Handling Instructions');
    expect(rationale).toMatch(
      /^This product was prepared from inspected and passed meat and\/or poultry\. Some food/,
    );
    expect(statements.map(({ pictogram }) => pictogram)).toEqual([
      'refrigerator',
      'hands under a faucet',
      'skillet',
      'thermometer',
    ]);
  });

  test('of poultry follow its own part of the rules', () => {
    expect(labelOf({ standard: { citation: '9 CFR 381.160' } as Standard }).safeHandling?.citation).toBe(
      '9 CFR 381.125(b)',
    );
    expect(labelOf().safeHandling?.citation).toBe('9 CFR 317.2(l)');
    expect(labelOf({ declaration: declarationOf('links', 'us', false) }).safeHandling).toBeUndefined();
  });
});

test('another market has a sentence in their place', () => {
  const declaration = {
    ...declarationOf('links', 'eu', false),
    cookingInstruction: { text: 'Cook thoroughly before eating', citation: 'Article 6' },
    date: { text: 'Best before; Frozen on', citation: 'Article 24' },
  } as Declaration;
  const label = labelOf({ declaration, product: productOf('links', 'eu') });
  expect(label.handling).toBe('Cook thoroughly before eating');
  expect(label.safeHandling).toBeUndefined();
  expect(label.cautions.join(' ')).toContain('The day of freezing must stand on the package');
});

describe('the nutrition panel of a batch on its packs', () => {
  const of = (usual: PackFormat, part: Partial<PackOf> = {}, serving = US_PANEL.serving) => {
    const nutrition = { panel: { ...US_PANEL, serving } };
    const product = productOf('beef');
    return labelOf({
      declaration: { ...declarationOf('beef'), nutrition } as unknown as Declaration,
      product: { ...product, label: { ...product.label, packs: [usual] } } as Product,
      ...part,
    }).nutrition?.serving?.count;
  };

  test('counts the servings of each', () => {
    expect(of(BRICK)).toBe('4 servings per container');
    // 5 lb are 2267.96 g, 20.25 servings of 112 g (9 CFR 317.309(b)(10): above 5 to the nearest whole).
    expect(of(BRICK, { format: { id: 'chub', netWeight: { value: '5', unit: 'lb' } } })).toBe(
      'About 20 servings per container',
    );
    expect(of(BRICK, { format: TRAY, net: weighed })).toBe('Varied servings per container');
  });

  test('is refused where the serving itself would be another', () => {
    const whole = { ...US_PANEL.serving, size: '1 package (170g)', grams: 170 } as typeof US_PANEL.serving;
    const chub: PackFormat = { id: 'chub', netWeight: { value: '5', unit: 'lb' } };
    const little: PackFormat = { id: 'little', netWeight: { value: '6', unit: 'oz' } };
    expect(() => of(little, { format: chub }, whole)).toThrow(/Make this pack the first/);
    expect(() => of(BRICK, { format: little })).toThrow(/Make this pack the first/);
  });

  test('is not there where the plant claims an exemption, and its absence is said where it claims none', () => {
    expect(labelOf().cautions.join(' ')).toContain('No nutrition panel is on this label');
    const exempt = {
      ...productOf('beef'),
      label: { storage: 'keep refrigerated', nutritionExemption: 'small' },
    } as Product;
    const label = labelOf({
      declaration: { ...declarationOf('beef'), nutrition: { panel: US_PANEL } } as unknown as Declaration,
      product: exempt,
    });
    expect(label.nutrition).toBeUndefined();
    expect(label.cautions.join(' ')).not.toContain('No nutrition panel');
  });
});
