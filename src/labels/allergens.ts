import { ALLERGENS, type Allergen } from '../batch/material.ts';
import { type LabelLine, putIn } from './put-in.ts';

export interface AllergenDeclaration {
  readonly allergens: readonly Allergen[];
  /** 'Contains: Milk, Tree nuts (pistachio).' or undefined when no material of the batch lists one. */
  readonly text?: string;
}

/** Groups that are declared by the kind of nut, fish or shellfish (21 U.S.C. 343(w)(2); from memory, verify). */
const NAMED_BY_KIND: readonly Allergen[] = ['tree nuts', 'fish', 'crustacean shellfish'];

/** Every allergen that any material of the batch lists, within rework too, in the order of the law. */
export function allergenDeclaration(lines: readonly LabelLine[]): AllergenDeclaration {
  const ingredients = putIn(lines);
  const carriers = (allergen: Allergen) =>
    ingredients.filter(({ material }) => material.allergens.includes(allergen));
  const allergens = ALLERGENS.filter((allergen) => carriers(allergen).length > 0);
  if (allergens.length === 0) return { allergens };
  const words = allergens.map((allergen) => {
    const name = allergen.charAt(0).toUpperCase() + allergen.slice(1);
    if (!NAMED_BY_KIND.includes(allergen)) return name;
    const kinds = [...new Set(carriers(allergen).map(({ material }) => material.declaredName))];
    return `${name} (${kinds.join(', ')})`;
  });
  return { allergens, text: `Contains: ${words.join(', ')}.` };
}
