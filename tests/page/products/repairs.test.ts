import { describe, expect, it } from 'vitest';
import { draftOf, type ProductDraft } from '../../../src/page/products/draft.ts';
import { repaired } from '../../../src/page/products/repairs.ts';
import { productOf } from '../../../src/page/products/to-product.ts';

const DRAFT: ProductDraft = draftOf(
  {
    id: 'tried',
    name: 'Tried',
    standard: { jurisdiction: 'us', productClass: 'cooked-sausage' },
    meatBlock: [
      { name: 'pork', species: ['pork'], minFraction: 0.6 },
      { name: 'beef', species: ['beef'], maxFraction: 0.3 },
    ],
    seasoning: [
      { materialId: 'salt', basis: 'green weight', fraction: 0.018 },
      { materialId: 'ice', basis: 'batch', minFraction: 0.05, maxFraction: 0.1 },
    ],
    rework: { productIds: ['tried'], maxFraction: 0.1 },
    targets: [{ measure: 'fat', min: 0.25, max: 0.28 }],
    process: {
      cooking: 'cooked',
      smoked: false,
      yieldFraction: 0.9,
      fatLossFraction: 0,
      grindPlates: [],
      mixing: [],
    },
    form: { shape: 'bulk' },
    label: { storage: 'keep frozen', leanPercent: 72 },
  },
  '.',
  'lb',
);
const bound = (limitId: string, to: number) => ({ limitId, from: 1, to, unit: 'percent' });
const repairedBy = (...changes: Parameters<typeof repaired>[1]['changes']) => {
  const change = repaired(DRAFT, { changes }, '.');
  return change && productOf({ ...DRAFT, ...change }, '.').product;
};

describe('a way out', () => {
  it('writes bounds and rates where they stand in the form', () => {
    expect(repairedBy(bound('house-fat-max', 31.5))?.targets).toEqual([
      { measure: 'fat', min: 0.25, max: 0.315 },
    ]);
    expect(repairedBy(bound('house-share-2-max', 45))?.meatBlock[1]).toMatchObject({ maxFraction: 0.45 });
    expect(repairedBy(bound('house-line-ice-min', 2))?.seasoning[1]).toMatchObject({ minFraction: 0.02 });
    expect(repairedBy(bound('house-label-lean-max', 30))?.label.leanPercent).toBe(70);
    expect(repairedBy(bound('house-rework-max', 5))?.rework?.maxFraction).toBe(0.05);
    expect(repairedBy({ materialId: 'salt', rateFrom: 0.018, rateTo: 0.0123 })?.seasoning[0]).toMatchObject({
      fraction: 0.0123,
    });
    expect(repairedBy(bound('house-fat-max', 30), bound('house-fat-min', 20))?.targets).toEqual([
      { measure: 'fat', min: 0.2, max: 0.3 },
    ]);
  });

  it('is no matter of the form where it buys, resizes, or changes a rule of the house', () => {
    expect(repairedBy({ buyMaterialId: 'pork-fat', massKg: 3 })).toBeUndefined();
    expect(repairedBy({ sizeFromKg: 40, sizeToKg: 30 })).toBeUndefined();
    expect(repairedBy(bound('house-own-salt', 3))).toBeUndefined();
    expect(repairedBy(bound('house-fat-max', 30), { buyMaterialId: 'pork-fat', massKg: 3 })).toBeUndefined();
  });
});
