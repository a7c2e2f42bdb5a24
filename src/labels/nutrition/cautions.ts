import { isMeat } from '../../batch/material.ts';
import type { Claim, Product } from '../../batch/product.ts';
import { fixed, percentOfFraction } from '../../units.ts';
import { type Facts, figures } from './facts.ts';
import type { Nutrient } from './nutrient.ts';

/** What a reader of figures and panel must know, of the markets that have rules here. */

const UNITED_STATES = {
  meat: { rules: '9 CFR 317.309', exempt: '9 CFR 317.400', claims: '9 CFR 317.362(f)' },
  poultry: { rules: '9 CFR 381.409', exempt: '9 CFR 381.500', claims: '9 CFR 381.462(f)' },
} as const;
export type Species = keyof typeof UNITED_STATES;

export function usRules(species: Species): string {
  return UNITED_STATES[species].rules;
}

/** Beside a panel that is printed. */
export function usPanelCautions(species: Species): string[] {
  const { rules } = UNITED_STATES[species];
  return [
    `The panel is worked out from tables, not analyzed. An analysis of six packs may find at most 120 % of the calories, fat, saturated fat, cholesterol, sodium and sugars that it declares, and at least 80 % of the protein, carbohydrate, fiber, vitamins and minerals (${rules}(h)(4), (5)). Ground and chopped product has no relief for figures of the USDA database ((h)(9)); keep the records behind the figures for the inspector ((h)(8)).`,
    `Rows, Daily Values and amounts of vitamins and minerals are those of 21 CFR 101.9 as amended in 2016. The inspection service lets that format be used until it has one of its own (its Constituent Update of 10 November 2016); ${rules} itself still prints the older set, and the first label in the new one goes to the service as a sketch (trade press of 2016). Percent Daily Values are of amounts before rounding, and what lies half way between two steps goes up.`,
  ];
}

/** Who needs no panel. */
export function smallBusiness(species: Species): string {
  const { exempt, claims } = UNITED_STATES[species];
  return `A firm of at most 500 people that makes at most 100,000 lb a year of this product needs no panel as long as the label makes no nutrition claim; lean and fat percent together are allowed on ground product (${exempt}(a)(1), ${claims}).`;
}

export const EU_CAUTIONS: readonly string[] = [
  'The nutrition declaration is worked out from known average values of what went in (Regulation (EU) 1169/2011, Article 31(4)(b) and (c)), not analyzed. Unprocessed meat of a single ingredient, and small quantities sold by the maker to the consumer or to local shops, need none (Annex V; from memory, verify).',
];

export const CANADA_CAUTIONS: readonly string[] = [
  'The table is worked out from tables of composition, not analyzed; the label needs it in English and French.',
];

/** Where no panel is worked out, the figures for 100 g still stand. */
export const NO_RULES =
  'Nutrition of 100 g is worked out, with the energy factors of the European Union; the panel of this market is not. Make it by the rules of the market.';

/** Claims about nutrition; where the animals lived is none. */
const NUTRITION_CLAIMS: readonly Claim[] = ['lean', 'extra lean', 'low fat'];

/** Whose claim it is that no panel is needed, and what of the product speaks against it. */
export function exemptionCautions({ label }: Product): string[] {
  if (label.nutritionExemption === undefined) return [];
  const claims = (label.claims ?? []).filter((claim) => NUTRITION_CLAIMS.includes(claim));
  return [
    `No nutrition panel is printed, for the plant claims an exemption: "${label.nutritionExemption}". That it holds is for the plant to prove.`,
    ...(claims.length > 0
      ? [
          `The label is to claim ${claims.join(', ')}: a nutrition claim ends the exemption from nutrition labeling. Drop the claim or label.nutritionExemption.`,
        ]
      : []),
  ];
}

/** Figures that a panel needs and that too much of the batch lacks. */
export function missingCaution(
  missing: readonly { readonly nutrient: Nutrient; readonly materials: readonly string[] }[],
): string {
  const named = missing.map(({ nutrient, materials }) => `${nutrient} of ${materials.join(', ')}`);
  return `No nutrition panel, for figures that it must show are not known: ${named.join('; ')}. Add them to the tables of the materials.`;
}

/** What is left out of the figures of a panel for want of a table, where it is little. */
export function smallUnknowns(facts: Facts, shown: readonly Nutrient[]): string[] {
  const { per100g } = figures(facts);
  const named = shown.flatMap((nutrient) => {
    const lacking = per100g[nutrient]?.notKnown ?? [];
    if (lacking.length === 0) return [];
    const share = lacking.reduce((total, { fraction }) => total + fraction, 0);
    const materials = lacking.map(({ material }) => material).join(', ');
    return [`${nutrient} of ${materials} (${fixed(percentOfFraction(share), 2)} % of the batch)`];
  });
  return named.length > 0
    ? [`Not counted, for no table has it: ${named.join('; ')}. The panel shows what the rest brings.`]
    : [];
}

/** Said where it applies: a casing that is eaten is no line of the batch. */
export function casingCaution({ form }: Product): string[] {
  return form.casingMaterialId === undefined
    ? []
    : ['The casing is not counted: it is not weighed into the batch.'];
}

/** Meat of one species and nothing else. */
export function isOneIngredient({ makeup: { brought } }: Facts): boolean {
  const species = new Set(brought.map(({ material }) => material.species));
  return brought.every(({ material }) => isMeat(material)) && species.size === 1;
}
