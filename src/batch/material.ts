import type { Composition, TrimLine } from './composition.ts';

export const SPECIES = [
  'beef',
  'veal',
  'pork',
  'lamb',
  'goat',
  'rabbit',
  'chicken',
  'turkey',
  'duck',
  'goose',
] as const;
export type Species = (typeof SPECIES)[number];
export const POULTRY: readonly Species[] = ['chicken', 'turkey', 'duck', 'goose'];

/** Kinds that come from the carcass: together they are the green weight (the meat block). */
export const MEAT_KINDS = [
  'skeletal meat',
  'cheek meat',
  'head meat',
  'heart meat',
  'tongue meat',
  'liver',
  'other byproduct',
  'mechanically separated',
  'partially defatted tissue',
  'fat',
  'skin',
] as const;

export const OTHER_KINDS = [
  'salt',
  'sweetener',
  'spice',
  'flavoring',
  'vegetable',
  'dairy',
  'binder',
  'cure',
  'cure accelerator',
  'phosphate',
  'antimicrobial',
  'antioxidant',
  'preservative',
  'casing',
  'water',
] as const;

/** Kinds that a table may give. */
export const MATERIAL_KINDS = [...MEAT_KINDS, ...OTHER_KINDS] as const;

/**
 * Kinds that only come about in the plant: rework, which is what it is made of, and what a process took out of it
 * (less than nothing of it stands among the parts of rework). Neither is an ingredient of its own.
 */
export const MADE_KINDS = ['rework', 'process loss'] as const;
export type MaterialKind = (typeof MATERIAL_KINDS)[number] | (typeof MADE_KINDS)[number];

/**
 * Substances that some rule counts, carried by a material as a fraction of its mass, each in the form that went in:
 * how a rule counts it (as the ion, as another salt, without its water) is a matter of the forms. 'free water' is the water of a liquid such as wine,
 * vinegar or a solution, which counts as water put in; the water inside a fresh vegetable, a powder or a syrup is
 * not free.
 */
export const SUBSTANCES = [
  'sodium nitrite',
  'potassium nitrite',
  'sodium nitrate',
  'potassium nitrate',
  'ascorbic acid',
  'erythorbic acid',
  'sodium ascorbate',
  'sodium erythorbate',
  'sodium erythorbate monohydrate',
  'citric acid',
  'fumaric acid',
  'glucono delta lactone',
  'phosphate',
  'P2O5',
  'sodium acid pyrophosphate',
  'sulfur dioxide',
  'BHA',
  'BHT',
  'propyl gallate',
  'TBHQ',
  'tocopherols',
  'isolated soy protein',
  'sodium caseinate',
  'soy protein concentrate',
  'modified food starch',
  'carrageenan',
  'methyl cellulose',
  'transglutaminase',
  'pork collagen',
  'gelatin',
  'corn syrup solids',
  'sorbitol',
  'lactate',
  'diacetate',
  'salt',
  'pepper',
  'fennel or anise',
  'red or green pepper',
  'smoke flavor',
  'free water',
] as const;
export type Substance = (typeof SUBSTANCES)[number];

/**
 * What a material may bring that the law of some market asks to be named as an allergen. The first nine are those of
 * US law (21 U.S.C. 321(qq); sesame since 1 January 2023); the rest are asked for elsewhere. Sulfites are no word of
 * this list: they are counted as the substance sulfur dioxide, for they are declared from an amount on.
 */
export const ALLERGENS = [
  'milk',
  'eggs',
  'fish',
  'crustacean shellfish',
  'tree nuts',
  'wheat',
  'peanuts',
  'soy',
  'sesame',
  'rye',
  'barley',
  'oats',
  'celery',
  'mustard',
  'lupin',
  'molluscs',
] as const;
export type Allergen = (typeof ALLERGENS)[number];

/** Anything that can go into a batch. */
export interface Material {
  readonly id: string;
  /** What the floor calls it. */
  readonly name: string;
  /** Its common or usual name on an ingredient statement; materials of one name are declared together. */
  readonly declaredName: string;
  readonly kind: MaterialKind;
  /** Every kind of the carcass has a species; seasonings have none. */
  readonly species?: Species;
  readonly composition: Composition;
  /** Present for trims: a lot with another fat is recomputed along this line. */
  readonly trimLine?: TrimLine;
  readonly substances: Readonly<Partial<Record<Substance, number>>>;
  readonly allergens: readonly Allergen[];
  /** Parts of a multi-part ingredient as they must be declared, in descending order; empty when single. */
  readonly subIngredients: readonly string[];
  /** Country in which it was made (ISO 3166-1, two letters), for what is no meat; an origin claim needs it. */
  readonly madeIn?: string;
  /** Where the figures come from. */
  readonly source: string;
  /** What rework is made of; every rule counts these in its place. Plain data, so it can be stored as JSON. */
  readonly madeOf?: readonly MadeOf[];
  /** The product that left it over, for rework. */
  readonly reworkOf?: string;
  /** What rework may have been stuffed into: no one weighs it, but it is in there, with its allergens. */
  readonly casings?: readonly Material[];
}

/** One part of a material that is made of others. */
export interface MadeOf {
  /** With the composition that it actually had. */
  readonly material: Material;
  /**
   * Kilograms that went in for a kilogram of the whole, as decimal text: a double has too few digits to keep what
   * stood exactly at a limit there. All parts add up to 1; what a process took stands among them, below 0.
   */
  readonly fraction: string;
  /** Standard deviation of its fat, as a fraction of it, where it is known better than by its class. */
  readonly fatSdFraction?: number;
}

/** Whether it is weighed into the meat block: meat, poultry, their byproducts, and rework made of them. */
export function isMeat(material: Material): boolean {
  return isRework(material) || (MEAT_KINDS as readonly string[]).includes(material.kind);
}

/** Whether it was a batch before and goes into another one. */
export function isRework({ kind }: Pick<Material, 'kind'>): boolean {
  return kind === 'rework';
}
