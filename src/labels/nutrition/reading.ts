import type { Composition } from '../../batch/composition.ts';
import { type Exact, exact, multiply, ONE, ZERO } from '../../exact.ts';
import type { Nutrient, NutrientUnit } from './nutrient.ts';

/** Salt is sodium × 2.5 (Regulation (EU) 1169/2011, Annex I point 11). */
const SALT_OF_SODIUM = exact('2.5');
const GRAMS_PER_KG = exact(1000);
const GRAMS_PER_MG = exact('0.001');

/** What is counted through a batch: salt follows from sodium, and water only says whether the loss can be true. */
export type Counted = Exclude<Nutrient, 'salt'>;

const UNITS: Readonly<Record<Nutrient, NutrientUnit>> = {
  fat: 'g',
  'saturated fat': 'g',
  'trans fat': 'g',
  'monounsaturated fat': 'g',
  'polyunsaturated fat': 'g',
  cholesterol: 'mg',
  sodium: 'mg',
  salt: 'g',
  carbohydrate: 'g',
  fiber: 'g',
  sugars: 'g',
  'added sugars': 'g',
  protein: 'g',
  'vitamin D': 'mcg',
  calcium: 'mg',
  iron: 'mg',
  potassium: 'mg',
};

const FIELDS = {
  fat: 'fatFraction',
  'saturated fat': 'saturatedFatFraction',
  'trans fat': 'transFatFraction',
  'monounsaturated fat': 'monounsaturatedFatFraction',
  'polyunsaturated fat': 'polyunsaturatedFatFraction',
  cholesterol: 'cholesterolMgPerKg',
  sodium: 'sodiumMgPerKg',
  carbohydrate: 'carbohydrateFraction',
  fiber: 'fiberFraction',
  sugars: 'sugarsFraction',
  'added sugars': 'addedSugarsFraction',
  protein: 'proteinFraction',
  'vitamin D': 'vitaminDMcgPerKg',
  calcium: 'calciumMgPerKg',
  iron: 'ironMgPerKg',
  potassium: 'potassiumMgPerKg',
} as const satisfies Record<Counted, keyof Composition>;

/** A part of another nutrient: where there is none of the whole, there is none of the part. */
const PART_OF: Readonly<Partial<Record<Counted, Counted>>> = {
  'saturated fat': 'fat',
  'trans fat': 'fat',
  'monounsaturated fat': 'fat',
  'polyunsaturated fat': 'fat',
  fiber: 'carbohydrate',
  sugars: 'carbohydrate',
  'added sugars': 'sugars',
};

export function unitOf(nutrient: Nutrient): NutrientUnit {
  return UNITS[nutrient];
}

/** Whether it leaves with the fat that a process takes: the parts of the fat, and the vitamin dissolved in it. */
export function goesWithFat(nutrient: Counted): boolean {
  return nutrient === 'fat' || nutrient === 'vitamin D' || isPartOfFat(nutrient);
}

/** Saturated, trans, mono- and polyunsaturated fat. */
export function isPartOfFat(nutrient: Nutrient): boolean {
  return nutrient !== 'salt' && PART_OF[nutrient] === 'fat';
}

/** The nutrient in a kilogram of a material, in its unit; undefined where no table says it and it need not be nothing. */
export function perKg(nutrient: Counted, composition: Composition): Exact | undefined {
  const field = FIELDS[nutrient];
  const value = composition[field];
  if (value !== undefined) return inUnit(field, value);
  const whole = PART_OF[nutrient];
  const ofWhole = whole && perKg(whole, composition);
  return ofWhole && ofWhole.digits === 0n ? ZERO : undefined;
}

/** The most that a material can hold of a nutrient that no table gives, as a fraction of it. */
export function mostFraction(nutrient: Counted, composition: Composition): Exact {
  const whole = PART_OF[nutrient];
  const ofWhole = whole && perKg(whole, composition);
  return ofWhole ? multiply(ofWhole, exact('0.001')) : whole ? mostFraction(whole, composition) : ONE;
}

function inUnit(field: keyof Composition, value: number): Exact {
  return field.endsWith('Fraction') ? multiply(exact(value), GRAMS_PER_KG) : exact(value);
}

/** Grams of salt of milligrams of sodium. */
export function saltOf(sodiumMg: Exact): Exact {
  return multiply(multiply(sodiumMg, SALT_OF_SODIUM), GRAMS_PER_MG);
}
