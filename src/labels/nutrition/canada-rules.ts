import { type Exact, exact } from '../../exact.ts';
import type { Nutrient } from './nutrient.ts';
import { type Band, bands } from './rounding.ts';

/** Rounding of Canada: table to B.01.401 of the Food and Drug Regulations, official; iron from memory, verify. */
const FAT = [bands.below('0.5', '0.1'), bands.upTo('5', '0.5'), bands.above('1')];
const CARBOHYDRATE = [bands.zeroBelow('0.5'), bands.above('1')];
/** What is less than 5 mg goes to nothing: no step is given for it (from memory, verify). */
const MINERAL = [bands.zeroBelow('5'), bands.below('50', '10'), bands.below('250', '25'), bands.above('50')];

export const CA_CALORIES: readonly Band[] = [bands.below('5', '1'), bands.upTo('50', '5'), bands.above('10')];

export const CA_ROUNDING = {
  fat: FAT,
  'saturated fat': FAT,
  'trans fat': FAT,
  carbohydrate: CARBOHYDRATE,
  fiber: CARBOHYDRATE,
  sugars: CARBOHYDRATE,
  protein: [bands.below('0.5', '0.1'), bands.above('1')],
  cholesterol: [bands.above('5')],
  sodium: [bands.below('5', '1'), bands.upTo('140', '5'), bands.above('10')],
  potassium: MINERAL,
  calcium: MINERAL,
  iron: [bands.zeroBelow('0.05'), bands.below('0.5', '0.1'), bands.below('2.5', '0.25'), bands.above('0.5')],
} as const satisfies Partial<Record<Nutrient, readonly Band[]>>;
export type CanadaNutrient = keyof typeof CA_ROUNDING;

export const CA_PERCENT: readonly Band[] = [bands.above('1')];

/** Daily values of 2016 for four years of age and older, from memory, verify; saturated and trans fat share one. */
export const CA_DAILY_VALUES: Readonly<Partial<Record<CanadaNutrient, Exact>>> = {
  fat: exact(75),
  'saturated fat': exact(20),
  fiber: exact(28),
  sugars: exact(100),
  sodium: exact(2300),
  potassium: exact(3400),
  calcium: exact(1300),
  iron: exact(18),
};

/** B.01.350: the symbol stands from 15 percent of a daily value on, from 10 where the reference amount is 30 g or less. */
export const CA_SYMBOL = { percent: exact(15), percentOfSmall: exact(10), smallGrams: exact(30) } as const;
