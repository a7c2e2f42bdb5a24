import { ALLERGENS, type Allergen } from '../batch/material.ts';
import type { BlendLine } from '../formulate/blend.ts';

export interface AllergenDeclaration {
  readonly allergens: readonly Allergen[];
  /** 'Contains: Milk, Wheat.' or undefined when none of the nine is in the batch. */
  readonly text?: string;
}

/** Every allergen that any ingredient of the batch carries, in the order of the law. */
export function allergenDeclaration(lines: readonly BlendLine[]): AllergenDeclaration {
  const carried = new Set(lines.flatMap(({ supply }) => supply.material.allergens));
  const allergens = ALLERGENS.filter((allergen) => carried.has(allergen));
  if (allergens.length === 0) return { allergens };
  const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);
  return { allergens, text: `Contains: ${allergens.map(capital).join(', ')}.` };
}
