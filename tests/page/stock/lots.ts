import type { LotAnswer, MaterialAnswer } from '../../../src/page/stock/stock-types.ts';

/** Lots and materials as the service answers them, as far as a test says otherwise. */

export function lotOf(
  given: Partial<LotAnswer> & { readonly id: string; readonly onHandKg?: number },
): LotAnswer {
  const { onHandKg = 100, ...lot } = given;
  const mass = { kg: onHandKg, lb: onHandKg / 0.45359237 };
  return {
    kind: 'material',
    materialId: 'beef-trim-73',
    onHand: mass,
    reserved: { kg: 0, lb: 0 },
    free: mass,
    costPerKg: 5,
    costPerLb: 2.268,
    receivedDate: '2026-11-20',
    state: 'chilled',
    version: 1,
    ...lot,
  };
}

export function materialOf(given: Partial<MaterialAnswer> & { readonly id: string }): MaterialAnswer {
  return {
    name: given.id,
    declaredName: 'beef',
    kind: 'skeletal meat',
    species: 'beef',
    composition: {
      waterFraction: 0.56,
      fatFraction: 0.27,
      proteinFraction: 0.16,
      carbohydrateFraction: 0,
      ashFraction: 0.01,
      saltFraction: 0,
    },
    substances: {},
    allergens: [],
    subIngredients: [],
    source: 'a test',
    own: false,
    ...given,
  };
}
