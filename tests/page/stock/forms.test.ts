import { describe, expect, test } from 'vitest';
import { amountOf } from '../../../src/page/stock/amount.ts';
import { lotChange, typedLot } from '../../../src/page/stock/lot-change.ts';
import { EMPTY_MATERIAL, materialOf, typedMaterial } from '../../../src/page/stock/material-input.ts';
import { lotOf, materialOf as materialAnswer } from './lots.ts';

describe('how much of a lot', () => {
  const amount = { how: 'mass', mass: { text: '3 lb 4 oz', unit: 'kg' }, packs: '12' } as const;

  test('is a weight, a number of packs, or all', () => {
    expect(amountOf(amount, '.')).toEqual({ mass: { value: 3.25, unit: 'lb' } });
    expect(amountOf({ ...amount, how: 'packs' }, '.')).toEqual({ packs: 12 });
    expect(amountOf({ ...amount, how: 'all' }, '.')).toEqual({ mass: 'all' });
  });

  test('is nothing while it cannot be read', () => {
    expect(amountOf({ ...amount, mass: { text: 'much', unit: 'lb' } }, '.')).toBeUndefined();
    expect(amountOf({ ...amount, how: 'packs', packs: '' }, '.')).toBeUndefined();
  });
});

describe('what changes of a lot', () => {
  const now = typedLot(lotOf({ id: 'A', location: 'Cooler 1', useByDate: '2026-12-01' }), {
    text: '2.38',
    unit: 'lb',
  });

  test('is what differs from the books; what was emptied is taken away', () => {
    expect(lotChange({ ...now, location: 'Freezer ', useByDate: '' }, now, '.')).toEqual({
      location: 'Freezer',
      useByDate: null,
    });
    expect(lotChange(now, now, '.')).toBeUndefined();
  });

  test('a state goes with its reason, a price with its unit', () => {
    const typed = {
      ...now,
      state: 'frozen',
      note: 'blast freezer',
      price: { text: '2,4', unit: 'lb' },
    } as const;
    expect(lotChange(typed, now, ',')).toEqual({
      state: 'frozen',
      note: 'blast freezer',
      cost: { amount: 2.4, per: 'lb' },
    });
  });

  test('is nothing while a price cannot be read', () => {
    const price = { text: 'dear', unit: 'lb' } as const;
    expect(lotChange({ ...now, location: 'x', price }, now, '.')).toBeUndefined();
  });

  test('the origin goes as a whole', () => {
    expect(lotChange({ ...now, born: 'mx', raised: 'us', slaughtered: 'us' }, now, '.')).toEqual({
      origin: { bornIn: 'MX', raisedIn: 'US', slaughteredIn: 'US' },
    });
  });
});

describe("a material of the plant's own", () => {
  const cure = materialAnswer({
    id: 'house-cure',
    kind: 'cure',
    composition: {
      waterFraction: 0.001,
      fatFraction: 0,
      proteinFraction: 0,
      carbohydrateFraction: 0,
      ashFraction: 0.99,
      saltFraction: 0.9375,
      sodiumMgPerKg: 390000,
    },
    substances: { 'sodium nitrite': 0.0625, salt: 0.9375 },
    allergens: ['milk'],
    subIngredients: ['salt', 'sodium nitrite'],
    own: true,
    version: 3,
  });

  test('comes out of the form as it went in, also what the form does not show', () => {
    const { own: _, version: __, ...input } = cure;
    expect(materialOf(typedMaterial(cure, ',', false), cure, ',')).toEqual({ body: input });
  });

  test('a like one is added under a name of its own', () => {
    expect(typedMaterial(cure, '.', true)).toMatchObject({ id: '', name: '', kind: 'cure', source: '' });
  });

  test('is called on labels what it is called on the floor, where nothing else is written', () => {
    const typed = { ...EMPTY_MATERIAL, id: 'sage', name: 'Sage', parts: { waterFraction: '8' } };
    expect(materialOf(typed, undefined, '.')).toMatchObject({
      body: { declaredName: 'Sage', composition: { waterFraction: 0.08 } },
    });
    expect(materialOf({ ...typed, parts: { waterFraction: 'dry' } }, undefined, '.')).toEqual({
      wrong: ['waterFraction'],
    });
  });
});
