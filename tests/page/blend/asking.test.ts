import { describe, expect, it } from 'vitest';
import {
  type Asking,
  askingAtFirst,
  bodyOf,
  isTrial,
  planOf,
  type Repair,
  sizeOf,
  withRepair,
} from '../../../src/page/blend/asking.ts';
import { type ProductSeen, targetEnds, withBound } from '../../../src/page/blend/product-seen.ts';

const ASKING: Asking = { ...askingAtFirst('lb'), productId: 'ground-beef-80-20' };

describe('what a person asks of a blend', () => {
  it('becomes nothing while the size cannot be read', () => {
    expect(bodyOf({ ...ASKING, sizeText: '' }, '.', 'lb', [])).toBeUndefined();
    expect(bodyOf({ ...ASKING, sizeText: '0' }, '.', 'lb', [])).toBeUndefined();
    expect(bodyOf({ ...ASKING, sizeText: '1,234' }, '.', 'lb', [])).toBeUndefined();
    expect(sizeOf({ ...ASKING, sizeBy: 'pieces', sizeText: '12.5' }, '.')).toBeUndefined();
  });

  it('carries what is tried into the blend and never into a plan', () => {
    const asking: Asking = {
      ...ASKING,
      bounds: { 'house-fat-max': 18 },
      prices: { 'B85-1119': { amount: 3, per: 'lb' } },
      excluded: ['B50-1118'],
      sure: '0.95',
      older: '0.01',
    };
    const body = bodyOf(asking, '.', 'lb', ['house-fat-max']);
    expect(isTrial(asking)).toBe(true);
    expect(body?.trial).toEqual({
      bounds: [{ limitId: 'house-fat-max', bound: 18 }],
      prices: [{ lotId: 'B85-1119', cost: { amount: 3, per: 'lb' } }],
    });
    expect(body && planOf(body, 'abc')).toEqual({
      product: 'ground-beef-80-20',
      batchSize: { total: { value: 400, unit: 'lb' } },
      fingerprint: 'abc',
      excludeLots: ['B50-1118'],
      certainty: [{ limitId: 'house-fat-max', confidence: 0.95 }],
      floor: { olderFirstWithin: 0.01 },
    });
  });

  it('takes a way out where this page can, and leaves buying and recipes to their places', () => {
    const way = (changes: Repair['changes']): Repair => ({ kind: 'target', says: '', changes });
    const text = (massKg: number) => (massKg / 0.45359237).toFixed(2);
    const taken = (changes: Repair['changes']) => withRepair(ASKING, way(changes), 'lb', text);
    expect(taken([{ limitId: 'house-fat-max', from: 20, to: 22, unit: 'percent' }])).toEqual({
      bounds: { 'house-fat-max': 22 },
    });
    expect(taken([{ sizeFromKg: 200, sizeToKg: 90.718474 }])).toEqual({ sizeText: '200.00', sizeUnit: 'lb' });
    expect(taken([{ limitId: 'x', confidenceFrom: 0.99, confidenceTo: 0.9 }])).toEqual({ sure: '0.9' });
    expect(taken([{ withoutWish: 'olderFirstWithin' }])).toEqual({ older: 'none' });
    expect(taken([{ buyMaterialId: 'beef-trim-95', massKg: 10 }])).toBeUndefined();
    expect(taken([{ materialId: 'salt', rateFrom: 0.02, rateTo: 0.019 }])).toBeUndefined();
  });
});

describe('a target that is moved', () => {
  const product: ProductSeen = {
    id: 'patties',
    name: 'Patties',
    targets: [{ measure: 'fat', min: 0.22, max: 0.25 }],
    label: { leanPercent: 75 },
    form: { shape: 'patty' },
  };
  const [min, max] = targetEnds(product);
  if (!min || !max) throw new Error('two ends');

  it('is named as its limit is', () => {
    expect([min.limitId, min.own, max.limitId, max.own]).toEqual(['house-fat-min', 22, 'house-fat-max', 25]);
  });

  it('takes the other end along where they would meet', () => {
    expect(withBound(product, {}, max, 22)).toEqual({ 'house-fat-max': 22, 'house-fat-min': 19 });
    expect(withBound(product, {}, min, 26)).toMatchObject({ 'house-fat-min': 26, 'house-fat-max': 29 });
  });

  it('takes the lean of the label along where it goes beyond it, and lets it go again', () => {
    const beyond = withBound(product, {}, max, 27);
    expect(beyond).toEqual({ 'house-fat-max': 27, 'house-label-lean-max': 27 });
    expect(withBound(product, beyond, max, 25)).toEqual({});
  });
});
