import { describe, expect, it } from 'vitest';
import { labelChanges } from '../../src/api/batches/label.ts';
import type { Plant } from '../../src/batch/plant.ts';
import { labelText } from '../../src/documents/label-text.ts';
import { type Declaration, declare } from '../../src/labels/declaration.ts';
import { blendLine, blendOf, material, standardOf, testMaterial, testProduct } from '../helpers/materials.ts';

const PLANT: Plant = {
  name: 'Demo Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'America/Chicago',
  mixerCapacityKg: 100,
  scales: [],
};
const rusk = material('rusk', 'binder', { allergens: ['wheat'], subIngredients: ['wheat flour', 'salt'] });

function label(jurisdiction: string, productClass: string, lines: readonly (readonly [string, string])[]) {
  return declare(
    testProduct(productClass, { standard: { jurisdiction, productClass } }),
    standardOf(productClass, jurisdiction),
    blendOf(lines.map(([id, massKg]) => blendLine(id === 'rusk' ? rusk : testMaterial(id), massKg))),
    PLANT,
  );
}

const us = (pork: string, beef: string, salt = '1') =>
  label('us', 'uncooked-sausage', [
    ['pork', pork],
    ['beef', beef],
    ['salt', salt],
  ]);

describe('what a label printed from the plan would say wrongly', () => {
  it('is not that two meats joined by "and" changed places', () => {
    expect(labelChanges(us('51', '48'), us('48', '51'))).toEqual([]);
    expect(labelChanges(us('51', '48'), us('75', '24'))).toHaveLength(1);
  });

  it('is what left or entered the last group', () => {
    expect(labelChanges(us('51', '48', '1'), us('51', '46.9', '2.1'))).toHaveLength(1);
    expect(labelChanges(us('51', '48', '1'), us('51', '47.1', '1.9'))).toEqual([]);
  });

  it('is a whole percent of meat and an allergen where both stand in the statement', () => {
    const eu = (pork: string, id = 'potato') =>
      label('eu', 'fresh-sausage', [
        ['pork', pork],
        [id, String(100 - Number(pork))],
      ]);
    expect(labelChanges(eu('80'), eu('80.3'))).toEqual([]);
    expect(labelChanges(eu('80'), eu('81')).join('\n')).toContain('Pork 81%');
    expect(labelChanges(eu('80'), eu('80', 'rusk')).join('\n')).toContain(
      'allergens: "wheat" in place of "no allergens"',
    );
  });

  it('is the lean and fat that a batch does not keep', () => {
    const pair = { text: '80% lean / 20% fat', citation: 'a test' };
    const { leanPair: _, ...bare } = us('51', '48');
    expect(labelChanges({ ...bare, leanPair: pair }, { ...bare, leanPair: pair })).toEqual([]);
    expect(labelChanges({ ...bare, leanPair: pair }, bare)).toEqual([
      'lean and fat: "" in place of "80% lean / 20% fat"',
    ]);
  });

  it('is a claim that was lost', () => {
    const claimed = (holds: boolean): Declaration => ({
      ...us('51', '48'),
      claims: [{ claim: 'lean', says: 'Lean', holds, because: 'a test', citation: 'a test' }],
    });
    expect(labelChanges(claimed(true), claimed(false))).toEqual(['claims: "" in place of "Lean"']);
  });

  it('reads a label that was kept before there were runs, claims and dates', () => {
    const { claims: _, date: __, maker: ___, nutrition: ____, ...kept } = us('75', '24');
    const { runs: _____, citation: ______, ...ingredients } = kept.ingredients;
    const old: Declaration = { ...kept, ingredients, allergens: { allergens: [] } };
    expect(labelChanges(old, us('75', '24'))).toEqual([]);
    const joined = us('51', '48');
    const kept51 = joined.ingredients.ingredients.map(({ mayChangePlaces: ______, ...entry }) => entry);
    expect(
      labelChanges({ ...joined, ingredients: { ...joined.ingredients, ingredients: kept51 } }, joined),
    ).toEqual([]);
    expect(labelText(old)).toContain('Ingredients: Pork, beef, contains 2% or less of: salt.');
  });
});

describe('the label as text', () => {
  it('has allergens in capitals where they stand out on the label', () => {
    const text = labelText(
      label('eu', 'fresh-sausage', [
        ['pork', '90'],
        ['rusk', '10'],
      ]),
    );
    expect(text).toContain('Ingredients: Pork 90%, rusk (WHEAT flour, salt).');
    expect(text).toContain('Allergens, which stand out in the ingredients: wheat.');
    expect(text).toContain('Use by  [');
  });
});
