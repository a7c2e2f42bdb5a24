import type { Composition } from '../../../src/batch/composition.ts';
import type { Material, MaterialKind, Species } from '../../../src/batch/material.ts';
import type { Product } from '../../../src/batch/product.ts';
import type { Nutrition } from '../../../src/labels/nutrition/nutrition.ts';
import { factsOfBatch, nutritionOf } from '../../../src/labels/nutrition/of-batch.ts';
import { blendLine, material, standardOf, testProduct } from '../../helpers/materials.ts';

/** Invented materials with every nutrient, in round figures. */

const NONE: Composition = {
  waterFraction: 0,
  fatFraction: 0,
  proteinFraction: 0,
  carbohydrateFraction: 0,
  ashFraction: 0,
  saltFraction: 0,
  saturatedFatFraction: 0,
  transFatFraction: 0,
  monounsaturatedFatFraction: 0,
  polyunsaturatedFatFraction: 0,
  fiberFraction: 0,
  sugarsFraction: 0,
  addedSugarsFraction: 0,
  cholesterolMgPerKg: 0,
  sodiumMgPerKg: 0,
  potassiumMgPerKg: 0,
  calciumMgPerKg: 0,
  ironMgPerKg: 0,
  vitaminDMcgPerKg: 0,
};

export function known(
  id: string,
  kind: MaterialKind,
  composition: Partial<Composition>,
  given: { readonly species?: Species; readonly source?: string } = {},
): Material {
  return material(id, kind, { ...given, composition: { ...NONE, ...composition } });
}

export const BEEF = known(
  'ground beef',
  'skeletal meat',
  {
    waterFraction: 0.62,
    fatFraction: 0.2,
    proteinFraction: 0.17,
    ashFraction: 0.01,
    saturatedFatFraction: 0.08,
    transFatFraction: 0.01,
    monounsaturatedFatFraction: 0.09,
    polyunsaturatedFatFraction: 0.005,
    cholesterolMgPerKg: 700,
    sodiumMgPerKg: 660,
    potassiumMgPerKg: 2700,
    calciumMgPerKg: 180,
    ironMgPerKg: 19,
    vitaminDMcgPerKg: 1,
  },
  { species: 'beef', source: 'invented table of beef' },
);
export const SALT = known('salt', 'salt', { ashFraction: 1, saltFraction: 1, sodiumMgPerKg: 390_000 });
export const SUGAR = known('sugar', 'sweetener', {
  carbohydrateFraction: 1,
  sugarsFraction: 1,
  addedSugarsFraction: 1,
});
export const BRAN = known('bran', 'binder', { carbohydrateFraction: 0.7, fiberFraction: 0.5 });
export const WATER = known('water', 'water', { waterFraction: 1 });
/** Figures that a plant enters for itself: nothing but what must be there. */
export const UNKNOWN = material('house spice', 'spice', {
  composition: { carbohydrateFraction: 0.6, fatFraction: 0.1, waterFraction: 0.1 },
});

export type Part = readonly [material: Material, massKg: string];

/** Nutrition of such a batch; finished by its declared yield unless a weight is given. */
export function nutritionOfParts(
  parts: readonly Part[],
  {
    productClass = 'ground-beef',
    jurisdiction = 'us',
    finishedKg,
    ...given
  }: Partial<Product> & { productClass?: string; jurisdiction?: string; finishedKg?: number } = {},
): Nutrition {
  const product = testProduct(productClass, { standard: { jurisdiction, productClass }, ...given });
  const lines = parts.map(([supplied, massKg]) => blendLine(supplied, massKg));
  const rawKg = lines.reduce((total, { massKg }) => total + massKg, 0);
  const standard = standardOf(productClass, jurisdiction);
  const facts = factsOfBatch(product, standard, {
    lines,
    finishedKg: finishedKg ?? rawKg * product.process.yieldFraction,
  });
  if (!facts) throw new Error('nothing went in');
  return nutritionOf(product, standard, facts);
}

/** Amounts as the panel prints them, by label. */
export function printed({ panel }: Nutrition): Record<string, string> {
  return Object.fromEntries(
    (panel?.rows ?? []).map(({ label, amount, dailyValue }) => [
      label,
      [amount, dailyValue].filter(Boolean).join(' '),
    ]),
  );
}
