import { describe, expect, it } from 'vitest';
import type { Composition } from '../../src/batch/composition.ts';
import { supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import { exact } from '../../src/exact.ts';
import { blendCautions } from '../../src/formulate/cautions.ts';
import { declare } from '../../src/labels/declaration.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { forbiddenBy } from '../../src/rules/eligibility.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import {
  blendLine,
  blendOf,
  checkOne,
  DRIED,
  limitOf,
  material,
  RAW,
  standardOf,
  testMaterial,
  testProduct,
} from '../helpers/materials.ts';
import { BEEF, nutritionOfParts, printed } from '../labels/nutrition/batches.ts';

/**
 * Known traps of the trade that are no single figure; those that are stand among the published rows under their own
 * numbers (T- of the United States, and of the other markets with the market before it).
 */

const PLANT = {
  name: 'Test Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'kg',
  timeZone: 'UTC',
  mixerCapacityKg: 500,
  scales: [],
} as const;
const MAKEUP = { fatFraction: 0.2, waterFraction: 0.6, proteinFraction: 0.17, saltFraction: 0 };

describe('traps of the United States', () => {
  // 9 CFR 317.362(e), (f): under 10 g of fat is "lean"; the percentages are a pair
  it('T-19: the lean percent never stands without its fat percent, and no word of a lean claim is made', () => {
    const product = testProduct('ground-beef', { label: { leanPercent: 90, storage: 'keep refrigerated' } });
    const label = declare(
      product,
      standardOf('ground-beef'),
      blendOf([blendLine(testMaterial('beef-fat-06'), '100')]),
      PLANT,
    );
    expect(label.leanPair?.text).toBe('90% lean / 10% fat');
    expect(label.name).not.toMatch(/lean/i);
  });

  it('T-20: the fat of a class is told from a test of the lot', () => {
    const lot = {
      id: 'L1',
      materialId: 'beef',
      onHandKg: 100,
      costPerKg: 1,
      receivedDate: '2026-11-20',
      state: 'chilled',
    } as const;
    const cautions = (measuredFat?: { fatFraction: number; method: string }) =>
      blendCautions({
        product: testProduct('ground-beef'),
        lines: [
          {
            ...blendLine(testMaterial('beef'), '100'),
            supply: supplyOfLot({ ...lot, ...(measuredFat && { measuredFat }) }, testMaterial('beef')),
          },
        ],
        checks: [],
        switchedOff: [],
        greenWeightKg: 100,
        finished: MAKEUP,
        missing: { says: 'batch', askedKg: 100, missingKg: 0 },
      }).join();
    expect(cautions()).toMatch(/L1 is the figure of its class, not a test/);
    expect(cautions({ fatFraction: 0.21, method: 'NIR' })).not.toMatch(/figure of its class/);
  });

  // 9 CFR 317.309(c), (d)(7)(ii), (h)(9) and 317.400(a)(1)
  it('T-23 to T-27: panels are worked out before rounding, ties go up, and no table excuses ground product', () => {
    const panelOf = (composition: Partial<Composition>) =>
      nutritionOfParts([[{ ...BEEF, composition: { ...BEEF.composition, ...composition } }, '100']]);
    // Of 112 g 22.4 g are fat: 28.7 percent of 78 g, where the 22 g that are printed would be 28.2.
    const rows = printed(panelOf({ sodiumMgPerKg: 468.75, cholesterolMgPerKg: 40 }));
    expect(rows['Total Fat']).toBe('22g 29%');
    expect(rows.Sodium).toMatch(/^55mg/);
    expect(rows.Cholesterol).toMatch(/^less than 5mg/);
    expect(panelOf({}).energyKcalPer100g).toBeCloseTo(4 * 17 + 9 * 20, 9);
    const told = panelOf({}).cautions.join('\n');
    expect(told).toMatch(/100,000 lb a year of this product/);
    expect(told).toMatch(/no relief for figures of the USDA database/);
  });

  it('T-23, T-35: no figure that is not known and no tolerance of net weight is made up', () => {
    const label = declare(
      testProduct('hamburger'),
      standardOf('hamburger'),
      blendOf([blendLine(testMaterial('beef'), '100')]),
      PLANT,
    );
    expect(label.nutrition?.panel).toBeUndefined();
    expect(label.nutrition?.cautions.join()).toMatch(/No nutrition panel, .* sodium of beef/);
    expect(JSON.stringify(label)).not.toMatch(/net w/i);
  });

  // 9 CFR 317.2(f)(1)(vi)
  it('T-28: an ingredient of 2.3 % stands outside the group of 2 % or less', () => {
    const statement = (saltKg: string) =>
      declare(
        testProduct('fresh-pork-sausage'),
        standardOf('fresh-pork-sausage'),
        blendOf([
          blendLine(testMaterial('pork'), String(100 - Number(saltKg))),
          blendLine(testMaterial('salt'), saltKg),
        ]),
        PLANT,
      ).ingredients.text;
    expect(statement('2.3')).toBe('Pork, salt.');
    expect(statement('2')).toBe('Pork, contains 2% or less of: salt.');
  });

  // 9 CFR 317.2(f)(1)
  it('T-29: ingredients stand in the order of what was put in, whatever the process takes away', () => {
    const product = testProduct('cooked-sausage', {
      process: { ...RAW, cooking: 'cooked', yieldFraction: 0.8 },
    });
    const lines = [
      blendLine(testMaterial('pork'), '70'),
      blendLine(testMaterial('water'), '20'),
      blendLine(testMaterial('soy-flour'), '10'),
    ];
    const label = declare(product, standardOf('cooked-sausage'), blendOf(lines), PLANT);
    expect(label.ingredients.text).toBe('Pork, water, soy flour.');
  });
});

describe('traps of the other markets', () => {
  // Regulation (EC) No 1333/2008, Annex II: figures are for the additive; meat brings 4 to 5 g/kg of its own
  it('T-09: the phosphate of the meat itself does not count', () => {
    expect(checkOne(limitOf('eu-1333-phosphate'), [['pork', '100']]).numeratorKg).toBe(0);
  });

  it('T-14: a measured fat takes the place of the nominal lean', () => {
    const lot = {
      id: 'L1',
      materialId: 'beef',
      onHandKg: 100,
      costPerKg: 1,
      receivedDate: '2026-11-20',
      state: 'chilled',
    } as const;
    const tested = supplyOfLot(
      { ...lot, measuredFat: { fatFraction: 0.26, method: 'NIR' } },
      testMaterial('beef'),
    );
    const fat = limitOf('eu-1169-minced-pure-beef-fat');
    const holds = (supply: typeof tested) =>
      checkLimits([fat], new Coefficients([supply], RAW), [exact(1)])[0]?.holds;
    expect([holds(supplyOfLot(lot, testMaterial('beef'))), holds(tested)]).toEqual([true, false]);
  });

  // Regulation (EU) No 1169/2011, Annex VII part A 1: the let-off of 5 % is not for meat preparations
  it('T-18: water is listed however little of it there is', () => {
    const product = testProduct('fresh-sausage', {
      standard: { jurisdiction: 'eu', productClass: 'fresh-sausage' },
    });
    const lines = [blendLine(testMaterial('pork'), '97'), blendLine(testMaterial('water'), '3')];
    const label = declare(product, standardOf('fresh-sausage', 'eu'), blendOf(lines), PLANT);
    expect(label.ingredients.text).toBe('Pork 97%, water.');
  });

  it('T-19: nitrite counts whatever brings it, celery powder too', () => {
    const celery = material('celery-powder', 'flavoring', { substances: { 'sodium nitrite': 0.02 } });
    const [check] = checkLimits(
      [limitOf('eu-1333-08.3.2-nitrite')],
      new Coefficients([supplyOfMaterial(celery, 1), supplyOfMaterial(testMaterial('pork'), 1)], RAW),
      [exact('0.7'), exact('99.3')],
    );
    expect(check?.holds).toBe(false);
    const fresh = standardOf('fresh-sausage', 'eu').limits;
    expect(forbiddenBy(fresh, supplyOfMaterial(celery, 1), RAW)?.id).toMatch(/^eu-1333-.*nitrite/);
  });

  it('T-20: "lean" is 7 % of fat in European mince and 17 % in Canadian ground beef', () => {
    expect(limitOf('eu-1169-lean-minced-meat-fat').bound).toBe(0.07);
    expect(limitOf('ca-ground-lean-fat').bound).toBe(0.17);
  });

  it('T-23: the rules of Canada name the consolidation and that the figures left it', () => {
    const canada = RULE_SETS.find(({ jurisdiction }) => jurisdiction === 'ca');
    expect(canada?.edition).toMatch(/consolidation of 23 July 2026.*SOR\/2024-244/);
  });

  // Regulation (EU) No 1169/2011, Annex VIII 4(a); the words as the Finnish authority gives them for salami
  it('T-25: 112 kg of pork in 100 kg of dry sausage are grams for 100 g, not a percentage', () => {
    const product = testProduct('dried-sausage', {
      standard: { jurisdiction: 'eu', productClass: 'dried-sausage' },
      process: { ...DRIED, yieldFraction: 0.85 },
    });
    const lean = material('lean-pork', 'skeletal meat', {
      species: 'pork',
      composition: { fatFraction: 0.2, proteinFraction: 0.17, collagenFraction: 0.02 },
    });
    const blend = {
      ...blendOf([blendLine(lean, '112'), blendLine(testMaterial('salt'), '5')]),
      finishedKg: 100,
    };
    const label = declare(product, standardOf('dried-sausage', 'eu'), blend, PLANT);
    expect(label.meatContent?.text).toBe('declarable pork prepared with 112 g per 100 g of product');
  });
});
