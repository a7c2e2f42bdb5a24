import type { Claim } from '../batch/product.ts';
import { compare, type Exact, exact, toNumber } from '../exact.ts';
import type { ReferenceAmount } from '../rules/standard.ts';
import { fixed } from '../units.ts';
import { cite, type Market, type NutrientTest } from './markets/market.ts';
import type { Nutrient } from './nutrition/nutrient.ts';
import type { Nutrition } from './nutrition/nutrition.ts';

/** A claim that the plant wants to make, tested on the batch. */
export interface DeclaredClaim {
  readonly claim: Claim;
  /** The words that may be printed. */
  readonly says: string;
  readonly holds: boolean;
  /** The figures, or what is missing. */
  readonly because: string;
  readonly citation: string;
}

/** What the tests read. */
export interface ClaimFacts {
  readonly nutrition: Nutrition | undefined;
  /** The nutrient in so many grams as sold, unrounded, in its unit. */
  readonly amountIn: (nutrient: Nutrient, grams: Exact) => Exact;
  readonly reference: ReferenceAmount | undefined;
  /** Why the batch is no product of the United States, each fault in words. */
  readonly notOfUnitedStates: readonly string[];
  readonly isPoultry?: boolean;
}

const WORDS: Readonly<Record<Claim, string>> = {
  lean: 'Lean',
  'extra lean': 'Extra Lean',
  'low fat': 'Low Fat',
  'product of usa': 'Product of USA',
};
/** Reference amounts of no more than this are small: then a bound is on 50 g as well. */
const SMALL_AMOUNT_G = 30;
const MOST_FAULTS_TOLD = 3;

/** Every claim with whether it holds; what is not known never counts for it. */
export function testedClaims(market: Market, claims: readonly Claim[], facts: ClaimFacts): DeclaredClaim[] {
  return [...new Set(claims)].map((claim) => {
    const rule = market.claims[claim];
    const says = WORDS[claim];
    if (!rule) {
      return {
        claim,
        says,
        holds: false,
        because: `no rule for this claim is known in this market (${market.jurisdiction})`,
        citation: '',
      };
    }
    const faults = claim === 'product of usa' ? facts.notOfUnitedStates : nutrientFaults(rule.tests, facts);
    const told = faults.slice(0, MOST_FAULTS_TOLD).join('; ');
    const more = faults.length - MOST_FAULTS_TOLD;
    return {
      claim,
      says,
      holds: faults.length === 0,
      because:
        faults.length === 0 ? holding(claim, rule.tests) : `${told}${more > 0 ? `; and ${more} more` : ''}`,
      citation: cite(rule, facts.isPoultry),
    };
  });
}

/** The words of the claims that hold: no other may be printed. */
export function claimsToPrint({ claims = [] }: { readonly claims?: readonly DeclaredClaim[] }): string[] {
  return claims.filter(({ holds }) => holds).map(({ says }) => says);
}

function holding(claim: Claim, tests: readonly NutrientTest[]): string {
  return claim === 'product of usa'
    ? 'every lot of meat and every other ingredient that counts is of the United States'
    : `${tests.map(testText).join('; ')}`;
}

function testText({ nutrient, bound, unit, isOpen, per }: NutrientTest): string {
  return `${nutrient} ${isOpen ? 'below' : 'at most'} ${bound} ${unit} per ${per}`;
}

/** A nutrition claim goes with a nutrition panel (9 CFR 317.362(a)(3); elsewhere common practice). */
function nutrientFaults(tests: readonly NutrientTest[], facts: ClaimFacts): string[] {
  const { nutrition } = facts;
  if (!nutrition) return ['nothing is known of its nutrition'];
  return [
    ...(nutrition.panel ? [] : ['no nutrition panel is printed, and a claim needs one']),
    ...tests.flatMap((test) => fault(test, nutrition, facts)),
  ];
}

function fault(
  test: NutrientTest,
  { per100g }: Nutrition,
  { reference, amountIn }: Pick<ClaimFacts, 'reference' | 'amountIn'>,
): string[] {
  const { nutrient, bound, isOpen, per, unit } = test;
  const figure = per100g[nutrient];
  if (!figure || figure.unit !== unit) return [`${nutrient} is not known`];
  if (figure.notKnown.length > 0) {
    return [`${nutrient} of ${figure.notKnown.map(({ material }) => material).join(', ')} is not known`];
  }
  const grams = gramsOf(per, reference);
  if (grams === undefined) return ['no reference amount is known for this class'];
  if (grams === 0) return [];
  // Of the sums themselves: 10 g in 114 g are no decimal of 100 g, and its last digit must not decide.
  const found = amountIn(nutrient, exact(grams));
  const beyond = compare(found, exact(bound));
  if (isOpen ? beyond < 0 : beyond <= 0) return [];
  const amount = fixed(toNumber(found), 2);
  return [
    `${nutrient} is ${amount} ${unit} in ${grams} g, not ${isOpen ? 'below' : 'at most'} ${bound} ${unit}`,
  ];
}

/** Grams that a bound is on; 0 where it asks nothing of this product, undefined where that is not known. */
function gramsOf(per: NutrientTest['per'], reference: ReferenceAmount | undefined): number | undefined {
  if (per === '100 g') return 100;
  if (per === 'reference amount' || !reference) return reference?.grams;
  return reference.grams <= SMALL_AMOUNT_G ? 50 : 0;
}
