import { type Exact, exact } from '../../exact.ts';
import type { Nutrient } from './nutrient.ts';
import { type Band, bands } from './rounding.ts';

/**
 * Rounding of the United States: 9 CFR 317.309(c), edition of 2015, and 21 CFR 101.9(c) as amended in 2016, in a complete
 * copy of title 21 of after 2021, have the same words. Vitamins and minerals are declared in "the levels of significance"
 * of the table of (c)(8)(iv): tenths below a Daily Value of 25, by the preamble of the final rule of 27 May 2016
 * (secondary), and tens from 250 on, by guidance of 2019 (from memory, verify).
 */
const FAT = [bands.zeroBelow('0.5'), bands.below('5', '0.5'), bands.above('1')];
const CARBOHYDRATE = [bands.zeroBelow('0.5'), bands.lessThan('1'), bands.above('1')];

export const US_CALORIES: readonly Band[] = [bands.zeroBelow('5'), bands.upTo('50', '5'), bands.above('10')];

export const US_ROUNDING = {
  fat: FAT,
  'saturated fat': FAT,
  'trans fat': FAT,
  cholesterol: [bands.zeroBelow('2'), bands.upToLessThan('5'), bands.above('5')],
  sodium: [bands.zeroBelow('5'), bands.upTo('140', '5'), bands.above('10')],
  carbohydrate: CARBOHYDRATE,
  fiber: CARBOHYDRATE,
  sugars: CARBOHYDRATE,
  'added sugars': CARBOHYDRATE,
  protein: CARBOHYDRATE,
  // Below 2 percent of the Daily Value zero may be declared, (c)(8)(iii): what is a trace in the tables is promised to
  // nobody, for an analysis must find 80 percent of what is declared.
  'vitamin D': [bands.zeroBelow('0.4'), bands.above('0.1')],
  calcium: [bands.zeroBelow('26'), bands.above('10')],
  iron: [bands.zeroBelow('0.36'), bands.above('0.1')],
  potassium: [bands.zeroBelow('94'), bands.above('10')],
} as const satisfies Partial<Record<Nutrient, readonly Band[]>>;
export type UsNutrient = keyof typeof US_ROUNDING;

/** Percent of the Daily Value: whole percents, and for vitamins and minerals steps that grow, (c)(8)(iii). */
export const US_PERCENT: readonly Band[] = [bands.above('1')];
export const US_PERCENT_OF_MINERALS: readonly Band[] = [
  bands.zeroBelow('2'),
  bands.upTo('10', '2'),
  bands.upTo('50', '5'),
  bands.above('10'),
];

/**
 * Daily Values for four years of age and older, 21 CFR 101.9(c)(8)(iv) and (c)(9): the tables were read on a public page
 * that names the Federal Register of May 2016 (secondary). The example of (d)(8), official, fits those of vitamin D,
 * calcium, iron and potassium.
 */
export const US_DAILY_VALUES: Readonly<Partial<Record<UsNutrient, Exact>>> = {
  fat: exact(78),
  'saturated fat': exact(20),
  cholesterol: exact(300),
  sodium: exact(2300),
  carbohydrate: exact(275),
  fiber: exact(28),
  'added sugars': exact(50),
  'vitamin D': exact(20),
  calcium: exact(1300),
  iron: exact(18),
  potassium: exact(4700),
};
