import type { Material } from '../../batch/material.ts';
import { add, compare, type Exact, exact, multiply, subtract, sum, ZERO } from '../../exact.ts';
import type { Market, StatementRules } from '../markets/market.ts';
import { type LabelBatch, type PutIn, putIn } from '../put-in.ts';
import type { DeclaredAllergen } from './allergen-words.ts';
import { sulfitesOf } from './sulfites.ts';

/** Names that differ in case alone are one name. */
const keyOf = (name: string) => name.trim().toLowerCase();
const distinct = (names: readonly string[]) =>
  [...new Map([...names].reverse().map((name) => [keyOf(name), name])).values()].reverse();

/** What an ingredient statement declares under one name. */
export interface Entry {
  readonly name: string;
  /** The weight that it is ordered by. */
  readonly massKg: Exact;
  /** The weight that was put in of it. */
  readonly putInKg: Exact;
  readonly materials: readonly Material[];
  readonly parts: readonly string[];
  /** Of the list of the market. */
  readonly allergens: readonly DeclaredAllergen[];
}

/** Meat of a name that its law counts by a definition, and what of it has to be declared under another name. */
export interface MeatShare {
  readonly counts: (material: Material) => boolean;
  readonly declaredOfUsed: number;
  /** Fat and connective tissue beyond the definition, in kilograms, with the names they are declared by. */
  readonly excess: readonly { readonly name: string; readonly massKg: number }[];
}

/**
 * What goes on the statement, the most first: equal names added up, rework by its own ingredients, spices and sugars
 * under the class names of the market, meat by what its law lets count as meat.
 */
export function entriesOf(market: Market, batch: LabelBatch, meats: readonly MeatShare[] = []): Entry[] {
  const rules = market.statement;
  const lines = putIn(batch.lines);
  const wholeKg = wholeOf(rules, batch, lines);
  const spices = spiceClasses(rules, lines, wholeKg);
  const isDeclared = sulfitesOf(batch, market.allergens.sulfites)?.isDeclared === true;
  const listed = new Set(market.allergens.groups.flatMap(({ of }) => of));
  const byName = new Map<string, Entry>();
  const put = (
    name: string,
    massKg: Exact,
    putInKg: Exact,
    material?: Material,
    parts: readonly string[] = [],
  ) => {
    const known = byName.get(keyOf(name));
    const allergens: DeclaredAllergen[] = material
      ? [
          ...material.allergens.filter((allergen) => listed.has(allergen)),
          ...(isDeclared && (material.substances['sulfur dioxide'] ?? 0) > 0 ? (['sulfites'] as const) : []),
        ]
      : [];
    byName.set(keyOf(name), {
      name: known?.name ?? name,
      massKg: add(known?.massKg ?? ZERO, massKg),
      putInKg: add(known?.putInKg ?? ZERO, putInKg),
      materials: [...(known?.materials ?? []), ...(material ? [material] : [])],
      parts: distinct([...(known?.parts ?? []), ...parts]),
      allergens: [...new Set([...(known?.allergens ?? []), ...allergens])],
    });
  };
  for (const { material, massKg } of byWeight(lines)) {
    const { name, parts } = declared(material, rules, spices, listed);
    const share = meats.find(({ counts }) => counts(material))?.declaredOfUsed ?? 1;
    put(name, share === 1 ? massKg : multiply(massKg, exact(share)), massKg, material, parts);
  }
  for (const { name, massKg } of meats.flatMap(({ excess }) => excess)) put(name, exact(massKg), ZERO);
  const entries = [...byName.values()];
  return (rules.waterAsLeft ? withWaterLeft(entries, batch, lines) : entries).sort(
    (a, b) => compare(b.massKg, a.massKg) || (a.name < b.name ? -1 : 1),
  );
}

/** Ingredients by what went in under their name, the most first: so stand the parts of a group. */
function byWeight(lines: readonly PutIn[]): PutIn[] {
  const ofName = new Map<string, Exact>();
  for (const { material, massKg } of lines) {
    const key = keyOf(material.declaredName);
    ofName.set(key, add(ofName.get(key) ?? ZERO, massKg));
  }
  const mass = ({ material }: PutIn) => ofName.get(keyOf(material.declaredName)) ?? ZERO;
  return [...lines].sort((a, b) => compare(mass(b), mass(a)) || compare(b.massKg, a.massKg));
}

/** A casing that is eaten, as an entry of its own: it is not weighed into the batch, so it has no weight here. */
export function casingEntry({ allergens: { groups } }: Market, casing: Material): Entry {
  const listed = groups.flatMap(({ of }) => of);
  return {
    name: casing.declaredName,
    massKg: ZERO,
    putInKg: ZERO,
    materials: [casing],
    parts: casing.subIngredients,
    allergens: casing.allergens.filter((allergen) => listed.includes(allergen)),
  };
}

/** What shares on the statement are of: everything put in or, where water counts as left, the finished product. */
export function wholeOf(
  { waterAsLeft }: StatementRules,
  { lines, finishedKg }: LabelBatch,
  ingredients: readonly PutIn[] = putIn(lines),
): Exact {
  return waterAsLeft ? exact(finishedKg) : sum(ingredients.map(({ massKg }) => massKg));
}

/**
 * Water by what the finished product weighs beyond everything else that went in; none when it weighs less. Ice and water
 * are one entry, under the name of which there is more: what is left is left of both. What brings an allergen or has
 * parts stands in any case.
 */
function withWaterLeft(
  entries: readonly Entry[],
  { finishedKg }: LabelBatch,
  lines: readonly PutIn[],
): Entry[] {
  const waters = entries
    .filter(
      ({ materials, parts, allergens }) =>
        materials.length > 0 &&
        materials.every(({ kind }) => kind === 'water') &&
        parts.length + allergens.length === 0,
    )
    .sort((a, b) => compare(b.massKg, a.massKg));
  const [main] = waters;
  const others = sum(lines.filter(({ material }) => material.kind !== 'water').map(({ massKg }) => massKg));
  const massKg = subtract(exact(finishedKg), others);
  const rest = entries.filter((entry) => !waters.includes(entry));
  if (!main || compare(massKg, ZERO) <= 0) return rest;
  const putInKg = sum(waters.map((water) => water.putInKg));
  return [...rest, { ...main, massKg, putInKg, materials: waters.flatMap(({ materials }) => materials) }];
}

interface SpiceClasses {
  /** The class that a spice goes under; undefined where it is declared by its own name. */
  readonly classOf: (material: Material) => string | undefined;
}

/** Single spices share the name of their class as long as it stands for no more than the market lets it. */
function spiceClasses(
  { spices: { word, named, herbs, most } }: StatementRules,
  lines: readonly PutIn[],
  wholeKg: Exact,
): SpiceClasses {
  const candidate = ({ kind, declaredName, subIngredients }: Material): string | undefined => {
    // A spice that is a mix is named with its parts.
    if (kind !== 'spice' || subIngredients.length > 0 || named.test(declaredName)) return undefined;
    return herbs?.which.test(declaredName) ? herbs.word : word;
  };
  const tooMuch = (name: string) =>
    most !== undefined &&
    compare(
      sum(lines.filter(({ material }) => candidate(material) === name).map(({ massKg }) => massKg)),
      multiply(exact(most), wholeKg),
    ) > 0;
  const single = new Set([word, ...(herbs ? [herbs.word] : [])].filter(tooMuch));
  return {
    classOf: (material) => {
      const name = candidate(material);
      return name !== undefined && single.has(name) ? undefined : name;
    },
  };
}

/** The name that a material is declared by, and its parts. */
function declared(
  material: Material,
  { sugars }: StatementRules,
  { classOf }: SpiceClasses,
  listed: ReadonlySet<string>,
): { readonly name: string; readonly parts: readonly string[] } {
  const spice = classOf(material);
  if (spice !== undefined) {
    // A spice that is an allergen is named within its class.
    const isListed = material.allergens.some((allergen) => listed.has(allergen));
    return { name: spice, parts: isListed ? [material.declaredName] : [] };
  }
  if (sugars && material.kind === 'sweetener' && !sugars.except.test(material.declaredName)) {
    return { name: sugars.word, parts: [withParts(material)] };
  }
  return { name: withSpecies(material), parts: material.subIngredients };
}

function withParts({ declaredName, subIngredients }: Material): string {
  return subIngredients.length > 0 ? `${declaredName} (${subIngredients.join(', ')})` : declaredName;
}

/** What tastes of an animal is named with it (9 CFR 317.8(b)(7)(ii); elsewhere common practice). */
function withSpecies({ kind, species, declaredName }: Material): string {
  if (kind !== 'flavoring' || !species || declaredName.toLowerCase().includes(species)) return declaredName;
  return `${species} ${declaredName}`;
}
