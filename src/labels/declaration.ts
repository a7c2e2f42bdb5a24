import type { Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import type { Standard } from '../rules/standard.ts';
import { fatPercentOf } from '../units.ts';
import { type AllergenDeclaration, allergenDeclaration } from './allergens.ts';
import { type IngredientStatement, ingredientStatement } from './ingredient-statement.ts';
import { type DeclaredMeatContent, meatContent } from './meat-content.ts';
import { type Duty, type ProductName, productName } from './product-name.ts';
import type { LabelBatch } from './put-in.ts';

/** What the label of one batch must say. Layout, type size and nutrition facts are not part of it. */
export interface Declaration extends ProductName {
  readonly ingredients: IngredientStatement;
  readonly allergens: AllergenDeclaration;
  /** Lean and fat together, for ground product only. */
  readonly leanPair?: Duty;
  /** Meat as the label must count it, where the law adjusts it. */
  readonly meatContent?: DeclaredMeatContent;
  readonly storage?: Duty;
  readonly safeHandling?: Duty;
  readonly inspection?: Duty;
  readonly cautions: readonly string[];
}

/** The label declaration that follows from what goes into a batch, as planned or as weighed. */
export function declare(
  product: Product,
  standard: Standard,
  batch: LabelBatch,
  plant: Plant,
  casing?: Material,
): Declaration {
  const pair = leanPair(product, standard);
  const meat = meatContent(product, standard, batch);
  const named = productName(product, standard, batch.lines, casing);
  return {
    ...named,
    // The lines with the name are those of the United States.
    qualifiers: isUnitedStates(product) ? named.qualifiers : [],
    ingredients: ingredientStatement(batch.lines, isUnitedStates(product)),
    allergens: allergenDeclaration(batch.lines),
    ...(pair && { leanPair: pair }),
    ...(meat && { meatContent: meat }),
    ...(isUnitedStates(product) ? federalDuties(product, plant) : {}),
    cautions: [
      ...(isUnitedStates(product) ? [] : [UNITED_STATES_ONLY]),
      "Allergens are those that the tables list for what was weighed in: check each supplier's label, above all of mixes and cereals, and manage what other products leave on the line.",
      'Nutrition facts are not part of this declaration; ground product and sausage need them unless an exemption applies.',
    ],
  };
}

/** What is not worked out for other places is said, not left for the reader to find missing. */
const UNITED_STATES_ONLY =
  'Of the market of this product the limits and the meat content are worked out, its label rules are not: the ingredients stand in the order of their weight, and allergens are the nine of the United States. Check the rules of the market, allergens above all: its list may be longer.';

function isUnitedStates({ standard }: Product): boolean {
  return standard.jurisdiction === 'us';
}

function federalDuties(
  product: Product,
  plant: Plant,
): Pick<Declaration, 'storage' | 'safeHandling' | 'inspection'> {
  return {
    storage: storage(product),
    ...(product.process.cooking === 'raw' && { safeHandling: SAFE_HANDLING }),
    inspection: {
      text: `Inspection legend with establishment number ${plant.establishment} goes here`,
      citation: '9 CFR 317.2(i)',
    },
  };
}

/** Heading and four statements with their pictures, for raw and not ready-to-eat product. */
const SAFE_HANDLING: Duty = {
  text: 'Safe handling instructions with rationale, four statements and their pictures',
  citation: '9 CFR 317.2(l)',
};

function storage({ label }: Product): Duty {
  const text = label.storage === 'keep frozen' ? 'Keep Frozen' : 'Keep Refrigerated';
  return { text, citation: '9 CFR 317.2(k)' };
}

function leanPair({ label }: Product, { naming }: Standard): Duty | undefined {
  if (label.leanPercent === undefined || !naming.leanPair) return undefined;
  return {
    text: `${label.leanPercent}% lean / ${fatPercentOf(label.leanPercent)}% fat`,
    citation: '9 CFR 317.362(f)',
  };
}
