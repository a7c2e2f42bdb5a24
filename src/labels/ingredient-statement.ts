import { add, compare, type Exact, exact, multiply, ratio, ZERO } from '../exact.ts';
import { type LabelLine, putIn } from './put-in.ts';

/** One entry of an ingredient statement. */
export interface DeclaredIngredient {
  readonly name: string;
  /** Share of everything put in, water included. */
  readonly fraction: number;
  /** Parts of a multi-part ingredient, as declared in brackets. */
  readonly parts: readonly string[];
  /** Whether it stands in the group of 2 % or less. */
  readonly inSmallGroup: boolean;
}

export interface IngredientStatement {
  readonly ingredients: readonly DeclaredIngredient[];
  readonly text: string;
}

/** Ingredients of 2 % or less may stand last under a quantifying statement (9 CFR 317.2(f)(1)(v)). */
const SMALL_GROUP = exact('0.02');
const SMALL_GROUP_TEXT = 'contains 2% or less of';

/**
 * The ingredient statement: common names in descending order of weight as put in (9 CFR 317.2(f)(1)), equal
 * names added up, rework by its own ingredients, spices under one group name, parts of multi-part ingredients in brackets, and what is 2 %
 * or less of the whole in one group at the end.
 * @param smallGroup false where the law has no such group: then the order runs to the end.
 */
export function ingredientStatement(lines: readonly LabelLine[], smallGroup = true): IngredientStatement {
  const entries = mergeByName(lines);
  const total = entries.reduce((sum, { mass }) => add(sum, mass), ZERO);
  const ingredients = entries
    .sort((a, b) => compare(b.mass, a.mass) || (a.name < b.name ? -1 : 1))
    .map(({ name, mass, parts }) => ({
      name,
      parts,
      fraction: ratio(mass, total),
      inSmallGroup: smallGroup && compare(mass, multiply(SMALL_GROUP, total)) <= 0,
    }));
  return { ingredients, text: statementText(ingredients) };
}

interface Entry {
  name: string;
  mass: Exact;
  parts: readonly string[];
}

function mergeByName(lines: readonly LabelLine[]): Entry[] {
  const byName = new Map<string, Entry>();
  for (const { material, massKg } of putIn(lines)) {
    // A spice that is a mix is named with its parts; only single spices share the group name.
    const isPlainSpice = material.kind === 'spice' && material.subIngredients.length === 0;
    const name = isPlainSpice ? 'spices' : material.declaredName;
    const known = byName.get(name);
    byName.set(name, {
      name,
      mass: add(known?.mass ?? ZERO, massKg),
      parts: [...new Set([...(known?.parts ?? []), ...material.subIngredients])],
    });
  }
  return [...byName.values()];
}

function statementText(ingredients: readonly DeclaredIngredient[]): string {
  const words = ({ name, parts }: DeclaredIngredient) =>
    parts.length > 0 ? `${name} (${parts.join(', ')})` : name;
  const large = ingredients.filter(({ inSmallGroup }) => !inSmallGroup).map(words);
  const small = ingredients.filter(({ inSmallGroup }) => inSmallGroup).map(words);
  const group = small.length > 0 ? [`${SMALL_GROUP_TEXT}: ${small.join(', ')}`] : [];
  const text = [...large, ...group].join(', ');
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
