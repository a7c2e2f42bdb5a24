import type { Supply } from '../batch/lot.ts';
import type { Process } from '../batch/product.ts';
import { compare, ZERO } from '../exact.ts';
import { coefficient, formsOf, MissingFigure, mayLack, partsOfSupply } from './form.ts';
import { formsOfLimit, type Limit } from './limit.ts';

/**
 * The first limit that leaves no room for any of this supply: a maximum of nothing of what it holds. Rework may go in
 * where all of its ingredients may: what one takes away from a form does not make up for another.
 */
export function forbiddenBy(limits: readonly Limit[], supply: Supply, process: Process): Limit | undefined {
  const ingredients = ingredientsIn(supply);
  return limits.find(
    ({ sense, bound, numerator }) =>
      sense === 'max' &&
      bound === 0 &&
      formsOf(numerator).some((form) =>
        ingredients.some((ingredient) => compare(coefficient(form, ingredient, process), ZERO) > 0),
      ),
  );
}

function ingredientsIn(supply: Supply): readonly Supply[] {
  const parts = partsOfSupply(supply).filter(({ part }) => part.material.kind !== 'process loss');
  return parts.length === 0 ? [supply] : parts.flatMap(({ part }) => ingredientsIn(part));
}

/** Every figure that these limits need and that a supply does not have, each once. */
export function missingFigures(
  limits: readonly Limit[],
  supplies: readonly Supply[],
  process: Process,
): { readonly missing: MissingFigure; readonly limit: Limit }[] {
  const found = new Map<string, { readonly missing: MissingFigure; readonly limit: Limit }>();
  for (const limit of limits) {
    for (const form of formsOfLimit(limit).filter(mayLack)) {
      for (const supply of supplies) {
        try {
          coefficient(form, supply, process);
        } catch (missing) {
          if (!(missing instanceof MissingFigure)) throw missing;
          const key = `${missing.materialId} ${missing.constituent}`;
          if (!found.has(key)) found.set(key, { missing, limit });
        }
      }
    }
  }
  return [...found.values()];
}
