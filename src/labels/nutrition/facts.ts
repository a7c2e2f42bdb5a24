import { compare, type Exact, exact, multiply, sum, toNumber, ZERO } from '../../exact.ts';
import type { Makeup } from './brought.ts';
import { amountIn, figureOf, saltTotal, type Total, totalOf, withoutFiber } from './count.ts';
import { NUTRIENTS, type Nutrient } from './nutrient.ts';
import type { Nutrition } from './nutrition.ts';
import { HUNDRED } from './quotient.ts';
import { type Counted, isPartOfFat } from './reading.ts';

/** How a market counts energy and carbohydrate. */
export interface Counting {
  /** Whether carbohydrate has the fiber in it. */
  readonly fiberIsCarbohydrate: boolean;
  readonly kcal: readonly Factor[];
  readonly kj: readonly Factor[];
}
type Factor = readonly [nutrient: Counted, perGram: Exact];

/** Protein, carbohydrate and fat with 4, 4 and 9 kcal (9 CFR 317.309(c)(1)(i)(B)); a kilocalorie is 4.184 kJ. */
const GENERAL: readonly Factor[] = [
  ['protein', exact(4)],
  ['carbohydrate', exact(4)],
  ['fat', exact(9)],
];
export const NORTH_AMERICA: Counting = {
  fiberIsCarbohydrate: true,
  kcal: GENERAL,
  kj: GENERAL.map(([nutrient, perGram]) => [nutrient, multiply(perGram, exact('4.184'))]),
};

/** Regulation (EU) 1169/2011, Annex XIV: each unit by factors of its own, never one worked out from the other. */
export const EUROPE: Counting = {
  fiberIsCarbohydrate: false,
  kcal: [...GENERAL, ['fiber', exact(2)]],
  kj: [
    ['protein', exact(17)],
    ['carbohydrate', exact(17)],
    ['fat', exact(37)],
    ['fiber', exact(8)],
  ],
};

/** Every nutrient of a finished batch, unrounded. */
export interface Facts {
  readonly makeup: Makeup;
  readonly totals: Readonly<Record<Nutrient, Total>>;
  readonly kcal: Exact;
  readonly kj: Exact;
}

/**
 * Carbohydrate is the sum of what the tables give for each ingredient, which they found by difference. The difference
 * of the whole (9 CFR 317.309(c)(6)) is the same sum but for the errors of the trim lines, which would show as up to a
 * gram of carbohydrate in meat that has none.
 */
export function factsOf(makeup: Makeup, counting: Counting): Facts {
  const counted = NUTRIENTS.filter((nutrient): nutrient is Counted => nutrient !== 'salt');
  const asCounted = Object.fromEntries(
    counted.map((nutrient) => [nutrient, totalOf(nutrient, makeup)]),
  ) as Record<Counted, Total>;
  const totals: Record<Nutrient, Total> = {
    ...asCounted,
    salt: saltTotal(asCounted.sodium),
    ...(!counting.fiberIsCarbohydrate && {
      carbohydrate: withoutFiber(asCounted.carbohydrate, asCounted.fiber),
    }),
  };
  const energy = (factors: readonly Factor[]) =>
    sum(factors.map(([nutrient, perGram]) => multiply(totals[nutrient].amount, perGram)));
  return { makeup, totals, kcal: energy(counting.kcal), kj: energy(counting.kj) };
}

/** The nutrient in so many grams of finished product, in its unit; never below nothing. */
export function inGrams({ totals, makeup }: Facts, nutrient: Nutrient, grams: Exact): Exact {
  const amount = amountIn(totals[nutrient].amount, grams, makeup);
  return amount.digits < 0n ? ZERO : amount;
}

/** Kilocalories or kilojoules in so many grams of finished product. */
export function energyIn(facts: Facts, unit: 'kcal' | 'kj', grams: Exact): Exact {
  return amountIn(facts[unit], grams, facts.makeup);
}

/** The figures of 100 g, for people and for stored labels. */
export function figures(facts: Facts): Pick<Nutrition, 'energyKcalPer100g' | 'energyKjPer100g' | 'per100g'> {
  const { totals, makeup } = facts;
  return {
    energyKcalPer100g: toNumber(energyIn(facts, 'kcal', HUNDRED)),
    energyKjPer100g: toNumber(energyIn(facts, 'kj', HUNDRED)),
    per100g: Object.fromEntries(NUTRIENTS.map((nutrient) => [nutrient, figureOf(totals[nutrient], makeup)])),
  };
}

/**
 * A panel is printed as long as no more than this much of the batch, by weight, lacks a figure that it shows. That is no
 * rule for parts of the fat: a fiftieth of the batch, were it fat, would hide two grams of them in 100 g.
 */
export const MOST_NOT_KNOWN: Exact = exact('0.02');
/**
 * Vitamin D is told by few rows of fat and organs. What is not counted of it makes the label promise less than there is,
 * and the amount may vary over the labeled one (9 CFR 317.309(h)(6), read in the edition of 2015), which it must not do
 * under it. So half of the batch may lack its figure; own judgement.
 */
const MOST_WITHOUT_VITAMIN_D: Exact = exact('0.5');
/**
 * Or as long as what lacks it can hold no more than this: trans fat no more than the fat that is there. A quarter of a
 * gram in 100 g is half of what shows as nothing.
 */
export const MOST_MISSED: Exact = exact('0.0025');

/** Nutrients of which more than that is not known, each with the materials whose tables need a figure. */
export function notKnown(
  { totals, makeup: { rawKg } }: Facts,
  mustShow: readonly Nutrient[],
): { readonly nutrient: Nutrient; readonly materials: readonly string[] }[] {
  return mustShow.flatMap((nutrient) => {
    const lacking = totals[nutrient].notKnown;
    const most = nutrient === 'vitamin D' ? MOST_WITHOUT_VITAMIN_D : MOST_NOT_KNOWN;
    const isLittle =
      (!isPartOfFat(nutrient) && isAtMost(lacking, ({ massKg }) => massKg, multiply(rawKg, most))) ||
      isAtMost(lacking, ({ mostKg }) => mostKg, multiply(rawKg, MOST_MISSED));
    return isLittle ? [] : [{ nutrient, materials: [...new Set(lacking.map(({ material }) => material))] }];
  });
}

function isAtMost(lacking: Total['notKnown'], of: (lack: Total['notKnown'][number]) => Exact, most: Exact) {
  return compare(sum(lacking.map(of)), most) <= 0;
}
