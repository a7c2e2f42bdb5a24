import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelChanges } from '../../../src/api/batches/label.ts';
import type { Material } from '../../../src/batch/material.ts';
import { exact } from '../../../src/exact.ts';
import type { Declaration } from '../../../src/labels/declaration.ts';
import type { Nutrient } from '../../../src/labels/nutrition/nutrient.ts';
import type { Nutrition } from '../../../src/labels/nutrition/nutrition.ts';
import { beyondTolerance, isNear } from '../../../src/labels/nutrition/tolerance.ts';
import { BEEF, known, nutritionOfParts, SALT, UNKNOWN } from './batches.ts';

const PLANNED = nutritionOfParts([[BEEF, '1']]);

/** The batch as weighed, with another amount of one nutrient in 100 g. */
const withAmount = (planned: Nutrition, nutrient: Nutrient, amount: number): Nutrition => {
  const figure = planned.per100g[nutrient];
  if (!figure) throw new RangeError(`no figure of ${nutrient}`);
  return { ...planned, per100g: { ...planned.per100g, [nutrient]: { ...figure, amount } } };
};
/** In a serving of 112 g. */
const inServing = (amount: number) => amount / 1.12;

describe('a panel of the United States against the batch as weighed', () => {
  it.each(['us', 'ca', 'eu'])('is right of the batch that it was printed for: %s', (jurisdiction) => {
    const classes = { us: 'ground-beef', ca: 'beef-patty', eu: 'fresh-sausage' } as const;
    const productClass = classes[jurisdiction as keyof typeof classes];
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 30 }), (fat, salt) => {
        const meat: Material = known('meat', 'skeletal meat', {
          fatFraction: fat / 1000,
          saturatedFatFraction: fat / 2500,
          transFatFraction: fat / 20_000,
          proteinFraction: 0.17,
          waterFraction: 0.5,
          cholesterolMgPerKg: fat * 2,
          ironMgPerKg: fat / 10,
          potassiumMgPerKg: fat * 9,
        });
        const parts = [[meat, '1'] as const, ...(salt > 0 ? [[SALT, String(salt / 1000)] as const] : [])];
        const nutrition = nutritionOfParts(parts, { jurisdiction, productClass });
        expect(beyondTolerance(nutrition, nutrition)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  // 9 CFR 317.309(h)(5), edition of 2015: fat 22 g is declared, so 26.4 g may be found.
  it('allows a fifth more of what must not be more', () => {
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'fat', inServing(26.4)))).toEqual([]);
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'fat', inServing(26.41)))).toEqual([
      'Total Fat 22g is printed, the batch has 26.41 g in a serving of 112 g',
    ]);
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'fat', 0))).toEqual([]);
  });

  // 9 CFR 317.309(h)(4)(ii): protein 19 g is declared, so 15.2 g must be found.
  it('allows a fifth less of what must not be less', () => {
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'protein', inServing(15.2) + 1e-9))).toEqual([]);
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'protein', inServing(15.19))).join()).toMatch(
      /^Protein 19g is printed/,
    );
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'protein', 90))).toEqual([]);
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'iron', 0)).join()).toMatch(/^Iron 2\.1mg/);
  });

  it('is right as long as the same would be printed, and counts energy', () => {
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'sugars', 0.4))).toEqual([]);
    expect(beyondTolerance(PLANNED, withAmount(PLANNED, 'sugars', 0.6)).join()).toMatch(/^Total Sugars 0g/);
    const more = { ...PLANNED, energyKcalPer100g: (280 * 1.2) / 1.12 + 0.1 };
    expect(beyondTolerance(PLANNED, more).join()).toMatch(/^Calories 280 is printed, the batch has 336\.1/);
  });

  it('is wrong where the batch has none, and nothing where the plan had none', () => {
    const without = nutritionOfParts([
      [BEEF, '9'],
      [UNKNOWN, '1'],
    ]);
    expect(beyondTolerance(PLANNED, without).join()).toMatch(/no panel/);
    expect(beyondTolerance(without, PLANNED)).toEqual([]);
  });
});

describe('the tolerances of the European Union', () => {
  // Guidance of the Commission, December 2012, from memory, verify: EU-56 to EU-60 of the reference notes.
  it.each([
    ['fat', 8, 1.5],
    ['fat', 20, 4],
    ['fat', 41, 8],
    ['protein', 9.9, 2],
    ['protein', 18, 3.6],
    ['sugars', 50, 8],
    ['saturated fat', 3.9, 0.8],
    ['saturated fat', 8, 1.6],
    ['salt', 1.2, 0.375],
    ['salt', 2, 0.4],
  ] as const)('of %s declared as %d g are %d g either way', (nutrient, declared, tolerance) => {
    const at = (off: string) =>
      isNear(nutrient, exact(declared), exact(Number((declared + Number(off)).toFixed(6))));
    expect([at(String(tolerance)), at(String(-tolerance))]).toEqual([true, true]);
    expect([at(String(tolerance + 0.001)), at(String(-tolerance - 0.001))]).toEqual([false, false]);
  });

  it('decide whether a label printed from the plan is wrong', () => {
    const planned = nutritionOfParts(
      [
        [BEEF, '98'],
        [SALT, '2'],
      ],
      { jurisdiction: 'eu', productClass: 'fresh-sausage' },
    );
    const now = nutritionOfParts(
      [
        [BEEF, '97.3'],
        [SALT, '2.7'],
      ],
      { jurisdiction: 'eu', productClass: 'fresh-sausage' },
    );
    expect(beyondTolerance(planned, now)).toEqual(['Salt 2.1 g is printed, the batch has 2.79 g in 100 g']);
  });
});

describe('what changes on a label', () => {
  const label = (nutrition?: Nutrition): Declaration => ({
    name: 'Ground Beef',
    qualifiers: [],
    ingredients: { text: 'Beef.', ingredients: [] },
    allergens: { allergens: [] },
    cautions: [],
    ...(nutrition && { nutrition }),
  });

  it('is nutrition beyond its tolerance, in words, and not a gram more or less', () => {
    expect(labelChanges(label(PLANNED), label(withAmount(PLANNED, 'fat', 21)))).toEqual([]);
    expect(labelChanges(label(PLANNED), label(withAmount(PLANNED, 'fat', 30)))).toEqual([
      'nutrition: Total Fat 22g is printed, the batch has 33.60 g in a serving of 112 g',
    ]);
  });

  it('is nothing where the label of an earlier version has no nutrition', () => {
    expect(labelChanges(label(), label(PLANNED))).toEqual([]);
  });
});
