import type { Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { ZERO } from '../exact.ts';
import { isPoultryProduct, type Standard } from '../rules/standard.ts';
import { fixed } from '../units.ts';
import { type DeclaredClaim, testedClaims } from './claims.ts';
import { type AllergenDeclaration, allergenDeclaration, unlistedAllergens } from './ingredients/allergens.ts';
import { type IngredientStatement, ingredientStatement } from './ingredients/ingredient-statement.ts';
import { type DeclaredMeatContent, meatContent, meatContentCaution } from './ingredients/meat-content.ts';
import { sulfitesOf } from './ingredients/sulfites.ts';
import { type Keeping, keeping } from './keeping.ts';
import { leanPair } from './lean-pair.ts';
import { marketOf } from './markets/all.ts';
import type { Market } from './markets/market.ts';
import { title } from './names/named.ts';
import { type Duty, type ProductName, productName } from './names/product-name.ts';
import { inGrams } from './nutrition/facts.ts';
import type { Nutrition } from './nutrition/nutrition.ts';
import { factsOfBatch, nutritionOf } from './nutrition/of-batch.ts';
import { notOfUnitedStates, originLines } from './origin.ts';
import type { LabelBatch } from './put-in.ts';

/**
 * What the label of one batch must say. Layout and type size are not part of it. Labels that were kept by an earlier
 * version lack what is optional here.
 */
export interface Declaration extends ProductName, Partial<Keeping> {
  readonly ingredients: IngredientStatement;
  readonly allergens: AllergenDeclaration;
  /** Lean and fat together, for ground product whose fat allows it. */
  readonly leanPair?: Duty;
  /** Meat as the label must count it, where the law adjusts it. */
  readonly meatContent?: DeclaredMeatContent;
  /** What the plant wants to claim, each tested; `claimsToPrint` names those that hold. */
  readonly claims?: readonly DeclaredClaim[];
  /** Where the animals lived, where that must be told. */
  readonly origin?: readonly Duty[];
  /** Absent where nothing went in. */
  readonly nutrition?: Nutrition;
  readonly cautions: readonly string[];
}

/**
 * The label declaration that follows from what goes into a batch, as planned or as weighed, by the rules of the market
 * of its standard.
 * @throws RangeError when the market has no label rules.
 */
export function declare(
  product: Product,
  standard: Standard,
  batch: LabelBatch,
  plant: Plant,
  casing?: Material,
): Declaration {
  const market = marketOf(product.standard.jurisdiction);
  const { name, qualifiers, cautions } = productName(market, { product, standard, batch, casing });
  const content = meatContent(product, standard, batch);
  const allergens = allergenDeclaration(market, batch, casing);
  const { pair, caution } = leanPair(product, standard, batch);
  const facts = factsOfBatch(product, standard, batch);
  const nutrition = facts && nutritionOf(product, standard, facts);
  const origin = originLines(market, product, standard, batch);
  const wanted = product.label.claims ?? [];
  const isPoultry = isPoultryProduct(standard);
  const claims = testedClaims(market, wanted, {
    nutrition,
    amountIn: (nutrient, grams) => (facts ? inGrams(facts, nutrient, grams) : ZERO),
    isPoultry,
    reference: standard.referenceAmounts?.[product.process.cooking],
    notOfUnitedStates: wanted.includes('product of usa') ? notOfUnitedStates(batch, plant, casing) : [],
  });
  return {
    name,
    qualifiers,
    ingredients: ingredientStatement(market, batch, { product, standard, name, content, casing }),
    allergens,
    ...(pair && { leanPair: pair }),
    ...(content && { meatContent: content }),
    ...(claims.length > 0 && { claims }),
    ...(origin.lines.length > 0 && { origin: origin.lines }),
    ...keeping(market, product, plant, isPoultry),
    ...(nutrition && { nutrition }),
    cautions: [
      ...(market.caution ? [market.caution] : []),
      ...cautions,
      ...(caution ? [caution] : []),
      ...meatContentCaution(product, standard, batch),
      ...claims.filter(({ holds }) => !holds).map(unheldClaim),
      ...origin.cautions,
      ...sulfiteCaution(market, batch),
      ...unlistedAllergens(market, batch, casing).map(
        (hint) => `${title(hint)}: check it before the label is printed.`,
      ),
      "Allergens are those that the tables list for what was weighed in: check each supplier's label, above all of mixes and cereals, and manage what other products leave on the line.",
    ],
  };
}

function unheldClaim({ says, because, citation }: DeclaredClaim): string {
  return `"${says}" must not be printed: ${because}${citation ? ` (${citation})` : ''}.`;
}

/** Where sulfites are no allergen of the list, each stands by its name in the ingredients from the figure on. */
function sulfiteCaution({ allergens: { sulfites } }: Market, batch: LabelBatch): string[] {
  const found = sulfitesOf(batch, sulfites);
  if (sulfites.isAllergen || !found?.isDeclared) return [];
  return [
    `Sulfites come to ${fixed(found.mgPerKg, 1)} ppm as sulfur dioxide of the finished product: from ${sulfites.mgPerKg} ppm on each sulfiting agent must stand by its name in the ingredients, those within mixes too (${sulfites.citation}).`,
  ];
}
