import { describe, expect, it } from 'vitest';
import type { Form, PackFormat, ProductLabel } from '../../../src/batch/product.ts';
import { exact } from '../../../src/exact.ts';
import { countText } from '../../../src/labels/nutrition/serving.ts';
import { CLASSES_WITH_AMOUNTS } from '../../../src/standards/us/reference-amounts.ts';
import { US } from '../../../src/standards/us/us.ts';
import { COOKED, standardOf } from '../../helpers/materials.ts';
import { BEEF, nutritionOfParts } from './batches.ts';

const storage = 'keep refrigerated' as const;
const packed = (...packs: readonly Omit<PackFormat, 'id'>[]): ProductLabel => ({
  storage,
  packs: packs.map((pack, index) => ({ id: `pack-${index}`, ...pack })),
});
const pounds = (value: string) => ({ netWeight: { value, unit: 'lb' } as const });
const GROUND = [[BEEF, '100']] as const;

describe('the serving', () => {
  const sausage = (
    label: ProductLabel,
    form: Form = { shape: 'bulk' },
    productClass = 'fresh-pork-sausage',
  ) => nutritionOfParts(GROUND, { productClass, label, form }).panel?.serving;

  // 9 CFR 317.309(b)(4), with the 75 g of uncooked sausage in 317.312(b), edition of 2015.
  it.each([
    [0.028, '3 links (84g)'],
    [0.03, '3 links (90g)'],
    [0.0375, '2 links (75g)'],
    [0.04, '2 links (80g)'],
    [0.05, '2 links (100g)'],
    [0.05025, '1 link (50g)'],
    [0.149, '1 link (149g)'],
    [0.15, '2.5 oz (70g)'],
  ])('of links of %d kg is %s', (pieceKg, size) => {
    expect(sausage({ storage }, { shape: 'link', pieceKg })?.size).toBe(size);
  });

  it('of a patty is one patty, as it is left by the process', () => {
    const form = { shape: 'patty', pieceKg: 0.12 } as const;
    expect(nutritionOfParts(GROUND, { form }).panel?.serving?.size).toBe('1 patty (120g)');
    const process = { ...COOKED, yieldFraction: 0.75 };
    const baked = nutritionOfParts(GROUND, { productClass: 'ham-patties', form, process });
    expect(baked.panel?.serving).toMatchObject({
      size: '1 patty (90g)',
      referenceAmount: expect.stringMatching(/^85 g/),
    });
  });

  // (b)(8): less than two reference amounts; of 100 g and more, one or two servings above one and a half.
  it.each([
    [
      'ground-beef',
      packed({ netWeight: { value: '150', unit: 'g' } }),
      '1 package (150g)',
      '1 serving per container',
    ],
    [
      'ground-beef',
      packed({ netWeight: { value: '228', unit: 'g' } }),
      '4 oz (112g)',
      'About 2 servings per container',
    ],
    [
      'fresh-pork-sausage',
      packed({ netWeight: { value: '149', unit: 'g' } }),
      '1 package (149g)',
      '1 serving per container',
    ],
    [
      'ground-beef',
      packed({ netWeight: { value: '1.12', unit: 'kg' } }),
      '4 oz (112g)',
      '10 servings per container',
    ],
    ['ground-beef', packed({}), '4 oz (112g)', 'Varied servings per container'],
  ])('of a pack of %s: %o is %s, %s', (productClass, label, size, count) => {
    expect(sausage(label, { shape: 'bulk' }, productClass)).toMatchObject({ size, count });
  });

  it('counts pieces where the pack has them, and is in ounces where packs differ', () => {
    const link = { shape: 'link', pieceKg: 0.1 } as const;
    expect(sausage(packed({ ...pounds('1'), pieces: 5 }), link)).toMatchObject({
      size: '1 link (91g)',
      count: '5 servings per container',
    });
    expect(sausage(packed({}), link)).toMatchObject({
      size: '2.5 oz (70g)',
      count: 'Varied servings per container',
    });
    const two = { netWeight: { value: '226', unit: 'g' }, pieces: 2 } as const;
    expect(sausage(packed(two), { shape: 'patty' }, 'hamburger')).toMatchObject({ size: '1 patty (113g)' });
  });

  it('without a pack leaves the count open and says so', () => {
    const { panel, cautions } = nutritionOfParts(GROUND);
    expect(panel?.serving?.count).toBeUndefined();
    expect(cautions.join()).toMatch(/name it in label\.packs/);
  });

  // 9 CFR 317.309(b)(10)(i).
  it.each([
    ['2', '2 servings per container'],
    ['2.2', 'About 2 servings per container'],
    ['2.25', 'About 2.5 servings per container'],
    ['4.75', 'About 5 servings per container'],
    ['5', '5 servings per container'],
    ['5.4', 'About 5 servings per container'],
    ['5.5', 'About 6 servings per container'],
  ])('count of %s reads %s', (servings, text) => {
    expect(countText(exact(servings))).toBe(text);
  });

  it('has an amount for every class but those that the table measures with a cup', () => {
    const without = US.standards.filter(({ referenceAmounts, cooking }) =>
      cooking.some((how) => !referenceAmounts?.[how]),
    );
    expect(without.map(({ productClass }) => productClass)).toEqual([
      'chili-con-carne',
      'chili-con-carne-with-beans',
    ]);
    const classes = US.standards.map(({ productClass }) => productClass);
    expect(
      CLASSES_WITH_AMOUNTS.filter((name) => !classes.some((productClass) => productClass.startsWith(name))),
    ).toEqual([]);
    const { panel, cautions } = nutritionOfParts(GROUND, {
      productClass: 'chili-con-carne',
      process: COOKED,
    });
    expect(panel).toBeUndefined();
    expect(cautions.join()).toMatch(/no reference amount/);
  });

  // Read in 9 CFR 317.312(b) and 381.412(b), edition of 2015.
  it.each([
    ['ground-beef', 'raw', 114],
    ['fresh-pork-sausage', 'raw', 75],
    ['frankfurter', 'cooked', 55],
    ['pepperoni', 'dried', 30],
    ['jerky', 'dried', 30],
    ['luncheon-meat', 'cooked', 55],
    ['ham-water-added', 'cooked', 85],
    ['bacon-pumped', 'raw', 54],
    ['poultry-sausage', 'raw', 69],
    ['ground-turkey', 'raw', 114],
  ] as const)('of %s, %s, starts from %d g', (productClass, cooking, grams) => {
    expect(standardOf(productClass).referenceAmounts?.[cooking]?.grams).toBe(grams);
  });
});
