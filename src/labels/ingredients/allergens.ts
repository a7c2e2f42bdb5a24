import type { Allergen, Material } from '../../batch/material.ts';
import { isZero } from '../../exact.ts';
import { type AllergenGroup, cite, type Market } from '../markets/market.ts';
import { title } from '../names/named.ts';
import { type LabelBatch, putIn } from '../put-in.ts';
import { type DeclaredAllergen, kindsOf, speaksOf } from './allergen-words.ts';
import { type Sulfites, sulfitesOf } from './sulfites.ts';

export interface AllergenDeclaration {
  /** Those of the list of the market, in the order of its law, sulfites last. */
  readonly allergens: readonly DeclaredAllergen[];
  /** 'Contains: Milk, Tree nuts (pistachio).'; absent where none is listed or the market has no such line. */
  readonly text?: string;
  /** Whether they stand out in the ingredient statement. */
  readonly emphasized?: boolean;
  /** Sulfur dioxide of the finished product in mg/kg, where any went in. */
  readonly sulfitesMgPerKg?: number;
  readonly citation?: string;
}

/** Every allergen of the market's list that any material of the batch, of its rework or its casing has. */
export function allergenDeclaration(
  { allergens: rules }: Market,
  batch: LabelBatch,
  casing?: Material,
): AllergenDeclaration {
  const materials = materialsOf(batch, casing);
  const sulfites = sulfitesOf(batch, rules.sulfites);
  const present = rules.groups.filter(({ of }) =>
    materials.some(({ allergens }) => of.some((allergen) => allergens.includes(allergen))),
  );
  const allergens: DeclaredAllergen[] = [
    ...new Set(present.flatMap(({ of }) => of).filter((allergen) => has(materials, allergen))),
    ...(isAllergen(sulfites, rules.sulfites.isAllergen) ? (['sulfites'] as const) : []),
  ];
  const words = [
    ...present.map((group) => groupText(group, materials)),
    ...(allergens.includes('sulfites') ? [title(rules.sulfites.word)] : []),
  ];
  return {
    allergens,
    ...(rules.containsLine && words.length > 0 && { text: `Contains: ${words.join(', ')}.` }),
    emphasized: rules.emphasized,
    ...(sulfites && { sulfitesMgPerKg: sulfites.mgPerKg }),
    citation: cite(rules),
  };
}

/**
 * Names that speak of an allergen of the market which the table of their material does not list: a hint that the table
 * is wrong, for whoever prints the label.
 */
export function unlistedAllergens(
  { allergens: { groups } }: Market,
  batch: LabelBatch,
  casing?: Material,
): string[] {
  const onList: readonly DeclaredAllergen[] = [...new Set(groups.flatMap(({ of }) => of)), 'sulfites'];
  return [...new Set(materialsOf(batch, casing))].flatMap((material) =>
    onList
      .filter((allergen) => !isInTable(material, allergen))
      .filter((allergen) =>
        [material.declaredName, ...material.subIngredients].some((text) => speaksOf(text, allergen)),
      )
      .map(
        (allergen) =>
          `${material.name} speaks of ${allergen} in its name or parts, but its table lists no ${allergen === 'sulfites' ? 'sulfur dioxide' : allergen}`,
      ),
  );
}

function isInTable({ allergens, substances }: Material, allergen: DeclaredAllergen): boolean {
  return allergen === 'sulfites' ? (substances['sulfur dioxide'] ?? 0) > 0 : allergens.includes(allergen);
}

function materialsOf({ lines }: LabelBatch, casing?: Material): Material[] {
  const casingsOfRework = lines.flatMap(({ supply, exactMassKg }) =>
    isZero(exactMassKg) ? [] : (supply.material.casings ?? []),
  );
  return [...putIn(lines).map(({ material }) => material), ...casingsOfRework, ...(casing ? [casing] : [])];
}

function has(materials: readonly Material[], allergen: Allergen): boolean {
  return materials.some(({ allergens }) => allergens.includes(allergen));
}

function isAllergen(sulfites: Sulfites | undefined, ofThisMarket: boolean): boolean {
  return ofThisMarket && sulfites?.isDeclared === true;
}

function groupText({ word, of, byKind }: AllergenGroup, materials: readonly Material[]): string {
  if (!byKind) return title(word);
  const kinds = materials.flatMap((material) =>
    of
      .filter((allergen) => material.allergens.includes(allergen))
      .flatMap((allergen) => kindsOf(material, allergen)),
  );
  return `${title(word)} (${[...new Set(kinds)].join(', ')})`;
}
