import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Composition } from '../../src/batch/composition.ts';
import { type Lot, type Origin, supplyOfLot } from '../../src/batch/lot.ts';
import type { Plant } from '../../src/batch/plant.ts';
import { CLAIMS, type Claim, type Product } from '../../src/batch/product.ts';
import { type Exact, exact, multiply } from '../../src/exact.ts';
import type { BlendLine } from '../../src/formulate/blend.ts';
import { claimsToPrint, testedClaims } from '../../src/labels/claims.ts';
import { declare } from '../../src/labels/declaration.ts';
import { MARKETS, marketOf } from '../../src/labels/markets/all.ts';
import type { Nutrient } from '../../src/labels/nutrition/nutrient.ts';
import type { NutrientFigure, Nutrition } from '../../src/labels/nutrition/nutrition.ts';
import type { NutritionPanel } from '../../src/labels/nutrition/panel.ts';
import { notOfUnitedStates, originLines } from '../../src/labels/origin.ts';
import { blendLine, blendOf, material, standardOf, testMaterial, testProduct } from '../helpers/materials.ts';

const PANEL: NutritionPanel = {
  format: 'us vertical',
  title: 'Nutrition Facts',
  columns: [],
  energy: { label: 'Calories', text: '100' },
  rows: [],
  footnotes: [],
  citation: 'a test',
};

const figure = (amount: number, unit: 'g' | 'mg', isKnown = true): NutrientFigure => ({
  amount,
  unit,
  from: [],
  notKnown: isKnown ? [] : [{ material: 'spice', fraction: 0.001 }],
});

const nutrition = (fat: number, saturated: number, cholesterol: number, isKnown = true): Nutrition => ({
  basis: 'a test',
  energyKcalPer100g: 100,
  energyKjPer100g: 418,
  per100g: {
    fat: figure(fat, 'g'),
    'saturated fat': figure(saturated, 'g', isKnown),
    cholesterol: figure(cholesterol, 'mg'),
  },
  panel: PANEL,
  cautions: [],
});

/** The figures of 100 g in so many grams. */
const amountsOf = (of: Nutrition | undefined) => (nutrient: Nutrient, grams: Exact) =>
  multiply(multiply(exact(of?.per100g[nutrient]?.amount ?? 0), grams), exact('0.01'));

const amount = (grams: number) => ({ grams, says: 'a test', citation: 'a test', read: 'official' }) as const;

function holds(claim: Claim, of: Nutrition | undefined, referenceG: number | undefined = 85, market = 'us') {
  const [tested] = testedClaims(marketOf(market), [claim], {
    nutrition: of,
    amountIn: amountsOf(of),
    reference: referenceG === undefined ? undefined : amount(referenceG),
    notOfUnitedStates: [],
  });
  return tested?.holds;
}

// 9 CFR 317.362(b)(2), (e)(1), (e)(2), as read in the edition of 2015.
describe('a nutrition claim', () => {
  it.each([
    ['lean', 9.999, 4.5, 94.9, true],
    ['lean', 10, 4.5, 94.9, false],
    ['lean', 9.999, 4.500001, 94.9, false],
    ['lean', 9.999, 4.5, 95, false],
    ['extra lean', 4.999, 1.999, 94.9, true],
    ['extra lean', 5, 1.999, 94.9, false],
    ['extra lean', 4.999, 2, 94.9, false],
    ['extra lean', 4.999, 1.999, 95, false],
  ] as const)(
    '%s with %d g fat, %d g saturated, %d mg cholesterol: %s',
    (claim, fat, saturated, cholesterol, is) => {
      expect(holds(claim, nutrition(fat, saturated, cholesterol))).toBe(is);
    },
  );

  it('is on the reference amount as well where that is more than 100 g', () => {
    expect(holds('lean', nutrition(9, 3, 60), 100)).toBe(true);
    expect(holds('lean', nutrition(9, 3, 60), 114)).toBe(false);
  });

  it('of low fat is on the reference amount, and on 50 g where that is small', () => {
    // 3.5 g in 100 g: 2.975 g in 85 g; 6 g in 100 g: 1.8 g in 30 g, but 3 g in 50 g.
    expect(holds('low fat', nutrition(3.5, 1, 50), 85)).toBe(true);
    expect(holds('low fat', nutrition(3.53, 1, 50), 85)).toBe(false);
    expect(holds('low fat', nutrition(6, 1, 50), 30)).toBe(true);
    expect(holds('low fat', nutrition(6.001, 1, 50), 30)).toBe(false);
    expect(holds('low fat', nutrition(6.001, 1, 50), 31)).toBe(true);
  });

  it('never holds on what is not known, or without a panel or an amount that it is on', () => {
    const { panel: _, ...withoutPanel } = nutrition(1, 1, 10);
    expect(holds('lean', nutrition(1, 1, 10, false))).toBe(false);
    expect(holds('lean', withoutPanel)).toBe(false);
    expect(holds('lean', undefined)).toBe(false);
    const [tested] = testedClaims(marketOf('us'), ['lean'], {
      nutrition: nutrition(1, 1, 10),
      amountIn: amountsOf(nutrition(1, 1, 10)),
      reference: undefined,
      notOfUnitedStates: [],
    });
    expect(tested).toMatchObject({ holds: false, because: expect.stringContaining('no reference amount') });
  });

  it('has no rule where none is known', () => {
    expect(holds('lean', nutrition(1, 1, 10), 85, 'eu')).toBe(false);
    expect(holds('low fat', nutrition(3, 1, 10), 85, 'eu')).toBe(true);
    expect(holds('low fat', nutrition(3.001, 1, 10), 85, 'eu')).toBe(false);
    expect(holds('low fat', nutrition(1, 1, 10), 85, 'ca')).toBe(false);
  });
});

const US: Origin = { bornIn: 'US', raisedIn: 'US', slaughteredIn: 'US' };
const PLANT: Plant = {
  name: 'Demo Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'America/Chicago',
  mixerCapacityKg: 100,
  scales: [],
  address: ['1 Demo Street', 'Demo City'],
};

function lotLine(id: string, origin: Origin | undefined, materialId = 'beef', massKg = '1'): BlendLine {
  const of = testMaterial(materialId);
  const lot: Lot = {
    id,
    materialId,
    onHandKg: 1,
    costPerKg: 1,
    receivedDate: '2026-11-20',
    state: 'chilled',
    ...(origin && { origin }),
  };
  return { ...blendLine(of, massKg), supply: supplyOfLot(lot, of) };
}

// 9 CFR 412.3 (89 FR 19470, compliance from 1 January 2026); which ingredients count is from memory, verify.
describe('product of the United States', () => {
  const salt = (madeIn?: string) => blendLine(material('salt', 'salt', { ...(madeIn && { madeIn }) }), '1');
  const faults = (...lines: BlendLine[]) => notOfUnitedStates(blendOf(lines), PLANT);

  it('is meat of animals that never lived elsewhere, with ingredients made there', () => {
    expect(faults(lotLine('a', US), salt('US'), blendLine(testMaterial('water'), '1'))).toEqual([]);
    expect(faults(lotLine('a', US), blendLine(testMaterial('sage'), '1'))).toEqual([]);
    expect(faults(lotLine('a', US), lotLine('b', { ...US, bornIn: 'CA' }))).toEqual([
      'the animals of b were born in Canada, raised in United States and slaughtered in United States',
    ]);
    expect(faults(lotLine('a', undefined))).toEqual(['the origin of a is not known']);
    expect(faults(lotLine('a', US), salt())).toEqual(['where salt was made is not known']);
    expect(faults(lotLine('a', US), salt('MX'))).toEqual(['salt was made in Mexico']);
    expect(faults(salt('US'))).toEqual(['no meat goes in']);
    expect(faults(blendLine(testMaterial('beef'), '1'))).toHaveLength(1);
  });

  it('counts the casing and the place of the plant', () => {
    const casing = material('casing', 'casing');
    const batch = blendOf([lotLine('a', US)]);
    expect(notOfUnitedStates(batch, PLANT, casing)).toHaveLength(1);
    expect(notOfUnitedStates(batch, PLANT, { ...casing, madeIn: 'US' })).toEqual([]);
    expect(notOfUnitedStates(batch, { ...PLANT, jurisdiction: 'ca' })).toHaveLength(1);
  });
});

// Regulation (EC) No 1760/2000 and Implementing Regulation (EU) No 1337/2013, from memory, verify.
describe('the origin of minced meat in the European Union', () => {
  const lines = (productClass: string, ...of: BlendLine[]) => {
    const product = testProduct(productClass, { standard: { jurisdiction: 'eu', productClass } });
    return originLines(marketOf('eu'), product, standardOf(productClass, 'eu'), blendOf(of));
  };
  const irish: Origin = { bornIn: 'IE', raisedIn: 'IE', slaughteredIn: 'FR' };

  it('is told by species, of beef with where it was born', () => {
    const { lines: found } = lines('minced-meat-with-pigmeat', lotLine('a', irish), lotLine('b', US, 'pork'));
    expect(found.map(({ text }) => text)).toEqual([
      'Beef: born in Ireland, reared in Ireland, slaughtered in France',
      'Pork: reared in United States, slaughtered in United States',
    ]);
  });

  it('is asked for where a lot does not tell, and not of other products', () => {
    const asked = lines('minced-pure-beef', lotLine('a', irish), lotLine('b', undefined));
    expect(asked.lines).toEqual([]);
    expect(asked.cautions[0]).toContain('the origin of b is not known');
    expect(lines('fresh-sausage', lotLine('b', undefined))).toEqual({ lines: [], cautions: [] });
  });
});

describe('the claims of a label', () => {
  const figures = {
    saturatedFatFraction: 0.02,
    transFatFraction: 0,
    cholesterolMgPerKg: 600,
    sodiumMgPerKg: 600,
    fiberFraction: 0,
    sugarsFraction: 0,
    addedSugarsFraction: 0,
    vitaminDMcgPerKg: 0,
    calciumMgPerKg: 100,
    ironMgPerKg: 20,
    potassiumMgPerKg: 3000,
  };
  const beef = (fatFraction: number) =>
    blendLine(
      material('trim', 'skeletal meat', {
        species: 'beef',
        composition: { ...figures, fatFraction, waterFraction: 0.7, proteinFraction: 0.2 },
      }),
      '1',
    );
  const ground = (fatFraction: number, label: Partial<Product['label']>) =>
    declare(
      testProduct('ground-beef', { label: { storage: 'keep refrigerated', claims: CLAIMS, ...label } }),
      standardOf('ground-beef'),
      blendOf([beef(fatFraction)]),
      PLANT,
    );

  // A lean percent is no "lean" claim: derived from 317.362(e) and (f).
  it('stand only where they hold; a lean percent of 90 is not lean', () => {
    expect(claimsToPrint(ground(0.07, {}))).toEqual(['Lean']);
    const ninety = ground(0.1, { leanPercent: 90 });
    expect(ninety.leanPair?.text).toBe('90% lean / 10% fat');
    expect(claimsToPrint(ninety)).toEqual([]);
    expect(ninety.cautions.some((caution) => caution.startsWith('"Lean" must not be printed'))).toBe(true);
    expect(claimsToPrint(ground(0.07, { nutritionExemption: 'small plant' }))).toEqual([]);
    expect(claimsToPrint({})).toEqual([]);
  });

  it('are never printed where their test fails, on any market', () => {
    const anyAmount = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...MARKETS),
        fc.uniqueArray(fc.constantFrom(...CLAIMS)),
        fc.tuple(anyAmount, anyAmount, fc.double({ min: 0, max: 120, noNaN: true })),
        fc.constantFrom(15, 30, 55, 85, 114),
        fc.boolean(),
        (market, wanted, [fat, saturated, cholesterol], grams, isKnown) => {
          const claims = testedClaims(market, wanted, {
            nutrition: nutrition(fat, saturated, cholesterol, isKnown),
            amountIn: amountsOf(nutrition(fat, saturated, cholesterol, isKnown)),
            reference: amount(grams),
            notOfUnitedStates: ['a fault'],
          });
          const printed = claimsToPrint({ claims });
          const most = Math.max(100, grams) / 100;
          expect(printed).not.toContain('Product of USA');
          if (
            fat * most >= 10.000001 ||
            saturated * most > 4.500001 ||
            cholesterol * most >= 95.000001 ||
            !isKnown
          ) {
            expect(printed).not.toContain('Lean');
          }
          if (fat * most >= 5.000001 || saturated * most >= 2.000001 || !isKnown)
            expect(printed).not.toContain('Extra Lean');
          if ((fat * Math.min(grams, 100)) / 100 > 3.000001) expect(printed).not.toContain('Low Fat');
          for (const says of printed) expect(claims.find((claim) => claim.says === says)?.holds).toBe(true);
          if (market.jurisdiction !== 'us') expect(printed).not.toContain('Lean');
        },
      ),
    );
  });

  // 9 CFR 317.362(f): the fat of the batch, unrounded.
  // 9 CFR 317.362(e): in 100 g and in the 114 g of raw ground meat, of which no gram is a decimal of 100 g.
  it('are decided by the sums, where a bound is met to the gram', () => {
    const holding = (fatG: number, saturatedG: number, cholesterolMg: number) => {
      const part = (composition: Partial<Composition>, massKg: number) =>
        blendLine(
          material('part', 'skeletal meat', {
            species: 'beef',
            composition: { ...figures, saturatedFatFraction: 0, cholesterolMgPerKg: 0, ...composition },
          }),
          massKg.toFixed(6),
        );
      // 114 kg, so that kilograms of it are grams of the reference amount.
      const { claims = [] } = declare(
        testProduct('ground-beef', {
          label: { storage: 'keep refrigerated', claims: ['lean', 'extra lean'] },
        }),
        standardOf('ground-beef'),
        blendOf([
          part({ fatFraction: 1 }, fatG - saturatedG),
          part({ fatFraction: 1, saturatedFatFraction: 1 }, saturatedG),
          part({ fatFraction: 0, waterFraction: 1 }, 113 - fatG),
          part({ fatFraction: 0, cholesterolMgPerKg: cholesterolMg * 1000 }, 1),
        ]),
        PLANT,
      );
      return claims.filter(({ holds: is }) => is).map(({ claim }) => claim);
    };
    expect(holding(9.999999, 4.5, 94.99)).toEqual(['lean']);
    expect(holding(10, 4.5, 94.99)).toEqual([]);
    expect(holding(9.999999, 4.500001, 94.99)).toEqual([]);
    expect(holding(9.999999, 4.5, 95)).toEqual([]);
    expect(holding(4.999999, 1.999999, 94.99)).toEqual(['lean', 'extra lean']);
    expect(holding(5, 1.999999, 94.99)).toEqual(['lean']);
    expect(holding(4.999999, 2, 94.99)).toEqual(['lean']);
  });

  it('keep the lean and fat pair for a gram, and leave it out beyond what weighing explains', () => {
    const about = (fat: number) => {
      const { leanPair, cautions } = ground(fat, { leanPercent: 80 });
      return [leanPair?.text, cautions.filter((text) => text.includes('lean / '))];
    };
    const pair = '80% lean / 20% fat';
    expect(about(0.2)).toEqual([pair, []]);
    const explained = 'as much as weighing and testing explain.';
    expect(about(0.202)).toEqual([
      pair,
      [`"${pair}" stands, though the batch holds 20.2000 % fat: ${explained}`],
    ]);
    expect(about(0.202001)).toEqual([
      undefined,
      [`"${pair}" must not be shown: the batch holds 20.2001 % fat (9 CFR 317.362(f)).`],
    ]);
  });
});

describe('how it is kept and who made it', () => {
  const keptIn = (jurisdiction: string, productClass: string, given: Partial<Product> = {}) =>
    declare(
      testProduct(productClass, { ...given, standard: { jurisdiction, productClass } }),
      standardOf(productClass, jurisdiction),
      blendOf([blendLine(testMaterial('pork'), '1')]),
      PLANT,
    );

  // Article 24 and Annex III 6 of Regulation (EU) No 1169/2011 (secondary); B.01.007 (official).
  it('has the words before the date that the market asks for', () => {
    const frozen = { label: { storage: 'keep frozen' } } as const;
    expect(keptIn('eu', 'fresh-sausage').date?.text).toBe('Use by');
    expect(keptIn('eu', 'fresh-sausage', frozen).date?.text).toBe('Best before; Frozen on');
    expect(
      keptIn('eu', 'dried-sausage', { process: { ...testProduct('x').process, cooking: 'dried' } }).date
        ?.text,
    ).toBe('Best before');
    expect(keptIn('ca', 'fresh-sausage').date?.text).toBe('Best before');
    expect(keptIn('us', 'breakfast-sausage').date).toBeUndefined();
  });

  // Safe handling instructions are those of 9 CFR 317.2(l); Article 6 of Regulation (EC) No 2073/2005 from memory, verify.
  it('has safe handling in the United States and asks for thorough cooking in Europe', () => {
    const eu = keptIn('eu', 'fresh-sausage');
    expect(eu.safeHandling).toBeUndefined();
    expect(eu.cookingInstruction?.text).toBe('Cook thoroughly before eating');
    const us = keptIn('us', 'breakfast-sausage');
    expect(us.safeHandling?.citation).toBe('9 CFR 317.2(l)');
    expect(us.cookingInstruction).toBeUndefined();
  });

  it('has the maker where the plant has an address, and its number everywhere', () => {
    for (const [jurisdiction, productClass] of [
      ['us', 'breakfast-sausage'],
      ['eu', 'fresh-sausage'],
      ['gb', 'sausage'],
      ['ca', 'fresh-sausage'],
      ['codex', 'comminuted-meat'],
      ['anz', 'fresh-sausage'],
    ] as const) {
      const { maker, inspection } = keptIn(jurisdiction, productClass);
      expect(maker?.text).toBe('Demo Plant, 1 Demo Street, Demo City');
      expect(inspection?.text).toContain('00000');
    }
  });
});
