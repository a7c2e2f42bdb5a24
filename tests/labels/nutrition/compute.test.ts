import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { supplyOfLot } from '../../../src/batch/lot.ts';
import { reworkMaterial } from '../../../src/batch/rework.ts';
import { exact, multiply, sum } from '../../../src/exact.ts';
import type { Nutrient } from '../../../src/labels/nutrition/nutrient.ts';
import { factsOfBatch, nutritionOf } from '../../../src/labels/nutrition/of-batch.ts';
import { COOKED, RAW, standardOf, testProduct } from '../../helpers/materials.ts';
import { BEEF, BRAN, known, nutritionOfParts, type Part, SALT, SUGAR, UNKNOWN, WATER } from './batches.ts';

const amounts = (parts: readonly Part[], given: Parameters<typeof nutritionOfParts>[1] = {}) => {
  const { per100g } = nutritionOfParts(parts, given);
  return (nutrient: Nutrient) => per100g[nutrient]?.amount ?? Number.NaN;
};
const cooked = (yieldFraction: number, fatLossFraction = 0) => ({
  productClass: 'meat-loaf',
  process: { ...COOKED, yieldFraction, fatLossFraction },
});

describe('nutrition of 100 g', () => {
  it('is what was weighed in, by its share', () => {
    const of = amounts([
      [BEEF, '98'],
      [SALT, '2'],
    ]);
    expect(of('fat')).toBe(19.6);
    expect(of('saturated fat')).toBe(7.84);
    expect(of('cholesterol')).toBe(68.6);
    expect(of('sodium')).toBe(0.98 * 66 + 780);
    expect(of('salt')).toBeCloseTo((0.98 * 66 + 780) * 0.0025, 12);
    expect(of('vitamin D')).toBe(0.098);
  });

  it('names every ingredient with its source, the most first', () => {
    const { per100g } = nutritionOfParts([
      [BEEF, '98'],
      [SALT, '2'],
    ]);
    expect(per100g.sodium?.from).toEqual([
      { material: 'salt', amount: 780, source: 'invented for a test' },
      { material: 'ground beef', amount: 64.68, source: 'invented table of beef' },
    ]);
    expect(per100g.fat?.notKnown).toEqual([]);
  });

  it('is by the fat of the lot, and says which lot', () => {
    const supply = supplyOfLot(
      {
        id: 'lot-7',
        materialId: BEEF.id,
        onHandKg: 100,
        costPerKg: 1,
        measuredFat: { fatFraction: 0.1, method: 'laboratory' },
        receivedDate: '2026-11-20',
        state: 'chilled',
      },
      BEEF,
    );
    const batch = { lines: [{ supply, exactMassKg: exact(1) }], finishedKg: 1 };
    const [product, standard] = [testProduct('ground-beef'), standardOf('ground-beef')];
    const facts = factsOfBatch(product, standard, batch);
    const nutrition = facts && nutritionOf(product, standard, facts);
    expect(nutrition?.per100g.fat?.from).toEqual([
      { material: 'ground beef', amount: 10, source: 'invented table of beef; at the fat of lot lot-7' },
    ]);
    expect(nutrition?.per100g['saturated fat']?.amount).toBeCloseTo(4, 12);
  });

  // 80 kg of 100: 15 kg of water and 5 of the 20 kg of fat are gone, a quarter of all that goes with fat.
  it('of cooked product is less the water and the fat that the process takes', () => {
    const of = amounts([[BEEF, '100']], cooked(0.8, 0.05));
    expect(of('fat')).toBe(18.75);
    expect(of('saturated fat')).toBe(7.5);
    expect(of('trans fat')).toBe(0.9375);
    expect(of('vitamin D')).toBe(0.09375);
    expect(of('protein')).toBe(21.25);
    expect(of('cholesterol')).toBe(87.5);
    expect(of('potassium')).toBe(337.5);
  });

  it('names what the process took below nothing', () => {
    const { per100g, basis } = nutritionOfParts([[BEEF, '100']], cooked(0.8, 0.05));
    expect(per100g.fat?.from).toEqual([
      { material: 'ground beef', amount: 25, source: 'invented table of beef' },
      { material: 'what the process took', amount: -6.25, source: 'mass balance of the process' },
    ]);
    expect(basis).toContain('less water of 15.0 % and fat of 5.0 % of the raw weight');
  });

  it('goes by the weight that was found, where it is not the declared one', () => {
    // Half of the declared loss: fat has the same share of it.
    const of = amounts([[BEEF, '100']], { ...cooked(0.8, 0.05), finishedKg: 90 });
    expect(of('fat')).toBeCloseTo(17.5 / 0.9, 12);
    expect(of('protein')).toBeCloseTo(17 / 0.9, 12);
    const gained = nutritionOfParts([[BEEF, '100']], { ...cooked(0.8, 0.05), finishedKg: 110 });
    expect(gained.per100g.fat?.amount).toBeCloseTo(20 / 1.1, 12);
    expect(gained.basis).toContain('water taken up to 110.0 %');
  });

  it('is nothing where nothing went in, and has no panel where more is gone than water', () => {
    const { panel, cautions } = nutritionOfParts([[BEEF, '100']], { ...cooked(0.8), finishedKg: 30 });
    expect(panel).toBeUndefined();
    expect(cautions.join()).toMatch(/more weight is gone than there was water/);
  });

  it('counts rework as what was put in, less what its own process took', () => {
    const rework = reworkMaterial({
      id: 'rework',
      name: 'rework',
      productId: 'loaf',
      lines: [
        { material: BEEF, massKg: exact(98) },
        { material: SALT, massKg: exact(2) },
      ],
      finishedKg: exact(80),
      process: { yieldFraction: 0.8, fatLossFraction: 0.05 },
    });
    const of = amounts([[rework, '40']]);
    const direct = amounts(
      [
        [BEEF, '98'],
        [SALT, '2'],
      ],
      cooked(0.8, 0.05),
    );
    for (const nutrient of ['fat', 'trans fat', 'protein', 'sodium', 'vitamin D', 'iron'] as const) {
      expect(of(nutrient), nutrient).toBeCloseTo(direct(nutrient), 9);
    }
    const { per100g } = nutritionOfParts([[rework, '40']]);
    expect(per100g.sodium?.from.map(({ material }) => material)).toEqual(['salt', 'ground beef']);
    // Rework into a batch that loses fat again: 14.6 of 100 kg of fat are left of it, and a tenth of these goes.
    const twice = amounts([[rework, '100']], cooked(0.9, 0.01825));
    expect(twice('saturated fat') / twice('fat')).toBeCloseTo(0.4, 9);
    expect(twice('fat')).toBeCloseTo((18.25 - 1.825) / 0.9, 9);
  });
});

describe('energy', () => {
  const parts: readonly Part[] = [
    [BEEF, '90'],
    [BRAN, '10'],
  ];

  // 9 CFR 317.309(c)(1)(i)(B): 18 g of fat, 15.3 g of protein, 7 g of carbohydrate with its fiber.
  it('is by 4-4-9 in the United States and Canada', () => {
    expect(nutritionOfParts(parts).energyKcalPer100g).toBeCloseTo(4 * 15.3 + 4 * 7 + 9 * 18, 9);
    expect(
      nutritionOfParts(parts, { jurisdiction: 'ca', productClass: 'beef-patty' }).energyKcalPer100g,
    ).toBe(nutritionOfParts(parts).energyKcalPer100g);
  });

  // Regulation (EU) 1169/2011, Annex XIV: 2 g of carbohydrate and 5 g of fiber.
  it('is by factors of each unit in Europe, fiber apart', () => {
    const europe = nutritionOfParts(parts, { jurisdiction: 'eu', productClass: 'fresh-sausage' });
    expect(europe.energyKcalPer100g).toBeCloseTo(4 * 15.3 + 4 * 2 + 9 * 18 + 2 * 5, 9);
    expect(europe.energyKjPer100g).toBeCloseTo(17 * 15.3 + 17 * 2 + 37 * 18 + 8 * 5, 9);
    expect(europe.per100g.carbohydrate?.amount).toBeCloseTo(2, 12);
  });
});

const batch = fc
  .array(
    fc.tuple(
      fc.constantFrom(BEEF, SALT, SUGAR, BRAN, WATER, UNKNOWN),
      fc.integer({ min: 1, max: 99_999 }).map((grams) => String(grams / 1000)),
    ),
    { minLength: 1, maxLength: 6 },
  )
  .map((parts): Part[] => [[BEEF, '50'], ...parts]);
const process = fc.record({
  yieldFraction: fc.integer({ min: 80, max: 100 }).map((percent) => percent / 100),
  fatLossFraction: fc.integer({ min: 0, max: 20 }).map((percent) => percent / 1000),
});

describe('whatever goes in', () => {
  it('the parts of a figure add up to it, and no part of a nutrient is more than the whole', () => {
    fc.assert(
      fc.property(batch, process, (parts, how) => {
        const { per100g } = nutritionOfParts(parts, cooked(how.yieldFraction, how.fatLossFraction));
        for (const [nutrient, { amount, from }] of Object.entries(per100g)) {
          const total = from.reduce((sum, part) => sum + part.amount, 0);
          expect(Math.abs(total - amount), nutrient).toBeLessThanOrEqual(1e-9 * Math.max(1, amount));
          expect(amount, nutrient).toBeGreaterThanOrEqual(0);
        }
        expect(per100g['saturated fat']?.amount).toBeLessThanOrEqual((per100g.fat?.amount ?? 0) + 1e-12);
      }),
      { numRuns: 60 },
    );
  });

  it('energy is of amounts before rounding', () => {
    fc.assert(
      fc.property(batch, (parts) => {
        const { energyKcalPer100g, per100g } = nutritionOfParts(parts);
        const of = (nutrient: Nutrient) => per100g[nutrient]?.amount ?? 0;
        const kcal = 4 * of('protein') + 4 * of('carbohydrate') + 9 * of('fat');
        expect(Math.abs(energyKcalPer100g - kcal)).toBeLessThanOrEqual(1e-9 * Math.max(1, kcal));
      }),
      { numRuns: 60 },
    );
  });

  it('there is no panel where more than two percent of the batch lacks a figure of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (permille) => {
        const parts: Part[] = [
          [BEEF, String(1000 - permille)],
          [UNKNOWN, String(permille)],
        ];
        const { panel, cautions } = nutritionOfParts(parts);
        expect(panel === undefined).toBe(permille > 20);
        const told = cautions.join('\n');
        if (panel) expect(told).toMatch(/Not counted.*trans fat of house spice/);
        else expect(told).toMatch(/No nutrition panel.*sodium of house spice.*Add them to the tables/);
      }),
      { numRuns: 60 },
    );
  });
});

const PANELS = [
  ['us', 'meat-loaf'],
  ['eu', 'fresh-sausage'],
  ['ca', 'beef-patty'],
] as const;

describe('the panel, whatever goes in and whatever the process takes', () => {
  const extreme = fc.record({
    yieldFraction: fc.constantFrom(0.55, 0.62, 0.8, 1, 1.12, 1.3),
    fatLossFraction: fc.constantFrom(0, 0.02, 0.05),
    cooking: fc.constantFrom('raw' as const, 'cooked' as const, 'dried' as const),
  });
  const number = (text = '') => Number(/[\d.]+/.exec(text)?.[0] ?? 0);

  it('never shows less than nothing, nor a part above its whole', () => {
    fc.assert(
      fc.property(batch, extreme, fc.boolean(), (parts, { cooking, ...how }, inRework) => {
        const process = {
          ...RAW,
          cooking: 'cooked' as const,
          ...how,
          yieldFraction: Math.min(1, how.yieldFraction),
        };
        const left = () =>
          reworkMaterial({
            id: 'rework',
            name: 'rework',
            productId: 'loaf',
            lines: parts.map(([material, massKg]) => ({ material, massKg: exact(massKg) })),
            finishedKg: multiply(sum(parts.map(([, massKg]) => exact(massKg))), exact('0.97')),
            process,
          });
        const all: Part[] = inRework ? [...parts, [left(), '7.5']] : parts;
        for (const [jurisdiction, productClass] of PANELS) {
          const { panel, per100g } = nutritionOfParts(all, {
            jurisdiction,
            productClass,
            process: { ...RAW, ...how, cooking },
          });
          for (const [nutrient, { amount }] of Object.entries(per100g)) {
            expect(amount, nutrient).toBeGreaterThanOrEqual(-1e-12);
          }
          if (!panel) continue;
          const shown = new Map(
            panel.rows.map(({ declares }) => [declares?.nutrient, declares?.amount ?? 0]),
          );
          for (const { amount } of panel.rows) expect(amount).not.toMatch(/-|NaN|Infinity/);
          const of = (nutrient: Nutrient) => shown.get(nutrient) ?? 0;
          expect(of('saturated fat')).toBeLessThanOrEqual(Math.max(0.5, of('fat')));
          expect(of('trans fat')).toBeLessThanOrEqual(Math.max(0.5, of('fat')));
          expect(of('added sugars')).toBeLessThanOrEqual(of('sugars'));
          // Energy is of amounts before rounding: half a gram of each at most, and half a step of its own.
          const steps = 0.5 * (4 + 4 + 9) + 5;
          const kcal = 4 * of('protein') + 4 * of('carbohydrate') + 9 * of('fat');
          const fiber = jurisdiction === 'eu' ? 2 * (per100g.fiber?.amount ?? 0) : 0;
          expect(Math.abs(number(String(panel.energy.kcal)) - kcal - fiber)).toBeLessThanOrEqual(steps + 2);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('a figure that no table has', () => {
  it('is none where there is none of what it is a part of', () => {
    const dust = known('dust', 'spice', { ashFraction: 1 });
    const { fiberFraction: _, sugarsFraction: __, transFatFraction: ___, ...composition } = dust.composition;
    const { per100g } = nutritionOfParts([[{ ...dust, composition }, '1']]);
    for (const nutrient of ['fiber', 'sugars', 'added sugars', 'trans fat'] as const) {
      expect(per100g[nutrient]?.notKnown, nutrient).toEqual([]);
    }
  });

  it('does not keep the panel where what there is of the whole is next to nothing', () => {
    const { transFatFraction: _, ...composition } = BEEF.composition;
    const like = (fatFraction: number) => ({ ...BEEF, composition: { ...composition, fatFraction } });
    const panelWith = (fatFraction: number) =>
      nutritionOfParts([
        [BEEF, '90'],
        [like(fatFraction), '10'],
      ]).panel;
    // A tenth of the batch lacks trans fat: 0.25 g of fat in 100 g is the most that it may hold.
    expect(panelWith(0.025)).toBeDefined();
    expect(panelWith(0.026)).toBeUndefined();
  });

  it('keeps the panel where it is a part of the fat and the little that lacks it is all fat', () => {
    const { saturatedFatFraction: _, ...composition } = BEEF.composition;
    const pure = { ...BEEF, name: 'rendered fat', composition: { ...composition, fatFraction: 1 } };
    const panelWith = (fatKg: string) =>
      nutritionOfParts([
        [BEEF, '98.1'],
        [pure, fatKg],
      ]);
    // 1.9 % of the batch: up to 1.9 g of saturated fat in 100 g that the panel would not show.
    expect(panelWith('1.9').panel).toBeUndefined();
    expect(panelWith('1.9').cautions.join()).toMatch(/saturated fat of rendered fat/);
    expect(panelWith('0.24').panel).toBeDefined();
  });

  it('is told with its share of the batch, lots of one material together', () => {
    const { per100g } = nutritionOfParts([
      [BEEF, '99'],
      [UNKNOWN, '0.4'],
      [UNKNOWN, '0.6'],
    ]);
    expect(per100g.sodium?.notKnown).toEqual([{ material: 'house spice', fraction: 0.01 }]);
  });
});
