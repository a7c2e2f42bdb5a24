import { describe, expect, it } from 'vitest';
import type { Material } from '../../src/batch/material.ts';
import { reworkMaterial } from '../../src/batch/rework.ts';
import { exact } from '../../src/exact.ts';
import { allergenDeclaration } from '../../src/labels/ingredients/allergens.ts';
import { ingredientStatement } from '../../src/labels/ingredients/ingredient-statement.ts';
import { meatContent } from '../../src/labels/ingredients/meat-content.ts';
import { US_MARKET } from '../../src/labels/markets/us.ts';
import { productName } from '../../src/labels/names/product-name.ts';
import { PORK_DEFINITION } from '../../src/rules/forms/europe.ts';
import {
  blendLine,
  blendOf,
  COOKED,
  material,
  standardOf,
  testMaterial,
  testProduct,
} from '../helpers/materials.ts';

const nuts = material('pistachio', 'vegetable', { declaredName: 'pistachio', allergens: ['tree nuts'] });

const rework = (lines: readonly (readonly [Material, string])[], finishedKg?: string): Material =>
  reworkMaterial({
    id: 'rework',
    name: 'Rework of links',
    productId: 'links',
    lines: lines.map(([of, massKg]) => ({ material: of, massKg: exact(massKg) })),
    process: { yieldFraction: 0.8, fatLossFraction: 0 },
    ...(finishedKg !== undefined && { finishedKg: exact(finishedKg) }),
  });

const LINKS = rework(
  [
    [testMaterial('pork'), '80'],
    [testMaterial('water'), '10'],
    [testMaterial('nonfat-dry-milk'), '5'],
    [testMaterial('cure-6.25'), '0.2'],
    [nuts, '4.8'],
  ],
  '80',
);

const EUROPEAN = {
  citation: 'Regulation (EU) 1169/2011, Annex VII part B 17',
  read: 'secondary',
  meats: [PORK_DEFINITION],
} as const;

describe('the casing that rework was stuffed into', () => {
  const casing = material('milk-casing', 'casing', {
    declaredName: 'milk protein casing',
    allergens: ['milk'],
  });
  const stuffed = (of: Material, own?: Material) =>
    reworkMaterial({
      id: 'rework',
      name: 'Rework of links',
      productId: 'links',
      lines: [{ material: of, massKg: exact('10') }],
      process: COOKED,
      ...(own && { casing: own }),
    });

  it('brings its allergens into the batch that takes it, through rework in rework too', () => {
    const once = stuffed(testMaterial('pork'), casing);
    for (const rework of [once, stuffed(once)]) {
      expect(rework.allergens).toEqual(['milk']);
      const batch = blendOf([blendLine(testMaterial('beef'), '90'), blendLine(rework, '10')]);
      expect(allergenDeclaration(US_MARKET, batch).allergens).toEqual(['milk']);
      const without = blendOf([blendLine(testMaterial('beef'), '90'), blendLine(rework, '0')]);
      expect(allergenDeclaration(US_MARKET, without).allergens).toEqual([]);
    }
  });
});

describe('the label of a batch with rework', () => {
  const lines = [
    blendLine(testMaterial('beef'), '70'),
    blendLine(testMaterial('water'), '12'),
    blendLine(testMaterial('salt'), '2'),
    blendLine(LINKS, '16'),
  ];

  it('declares its ingredients in the order of their weight, as they were put in', () => {
    // 16 of 80 kg: a fifth of what was put in. Pork 16, water 12 + 2, milk 1, pistachio 0.96, cure 0.04 of 104 kg.
    const { ingredients, text } = ingredientStatement(US_MARKET, blendOf(lines));
    expect(text).toBe(
      'Beef, pork, water, contains 2% or less of: salt, nonfat dry milk, pistachio, cure 6.25.',
    );
    expect(ingredients.map(({ fraction }) => Number((fraction * 104).toFixed(9)))).toEqual([
      70, 16, 14, 2, 1, 0.96, 0.04,
    ]);
  });

  it('declares every allergen within, the nut by its own name', () => {
    expect(allergenDeclaration(US_MARKET, blendOf(lines)).text).toBe(
      'Contains: Milk, Tree nuts (pistachio).',
    );
  });

  it('names binders, antioxidants and cure that only the rework brings', () => {
    const product = testProduct('cooked-sausage', { form: { shape: 'link' }, process: COOKED });
    const named = (of: Material) =>
      productName(US_MARKET, {
        product,
        standard: standardOf('cooked-sausage'),
        batch: blendOf([blendLine(testMaterial('beef'), '90'), blendLine(of, '10')]),
      }).qualifiers.map(({ text }) => text);
    expect(named(LINKS)).toContain('Nonfat dry milk added');
    const kept = rework([
      [testMaterial('pork'), '99'],
      [testMaterial('BHA'), '0.01'],
    ]);
    expect(named(kept)).toContain('BHA added to help protect flavor');
  });

  it('leads with a species only where the rework holds no other', () => {
    const lead = {
      ...standardOf('cooked-sausage'),
      naming: { name: 'Sausage', species: 'lead', leanPair: false },
    } as const;
    const nameWith = (id: string) =>
      productName(US_MARKET, {
        product: testProduct('cooked-sausage'),
        standard: lead,
        batch: blendOf([
          blendLine(testMaterial('beef'), '90'),
          blendLine(rework([[testMaterial(id), '5']]), '10'),
        ]),
      }).name;
    expect(nameWith('beef')).toBe('Beef Sausage');
    expect(nameWith('pork')).toBe('Sausage');
  });

  it('counts its meat as if it had been put in by itself', () => {
    const standard = { ...standardOf('cooked-sausage'), meatContent: EUROPEAN };
    const raw = rework([
      [testMaterial('pork'), '9'],
      [testMaterial('salt'), '1'],
    ]);
    const content = (of: ReturnType<typeof blendLine>[]) =>
      meatContent(testProduct('cooked-sausage'), standard, blendOf(of))?.meats;
    expect(content([blendLine(testMaterial('pork'), '50'), blendLine(raw, '10')])).toEqual(
      content([blendLine(testMaterial('pork'), '59'), blendLine(testMaterial('salt'), '1')]),
    );
  });
});
