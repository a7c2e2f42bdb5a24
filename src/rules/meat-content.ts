import { compare, type Exact, subtract, sum, toNumber, ZERO } from '../exact.ts';
import type { Coefficients } from './coefficients.ts';
import { excessForms, type MeatDefinition } from './forms/meat-content.ts';

/** How much of a meat that went in may be declared as meat, in kilograms. */
export interface DeclaredMeat {
  readonly says: string;
  readonly usedKg: number;
  readonly declaredKg: number;
  /** To be declared as fat and as connective tissue of the species. */
  readonly excessFatKg: number;
  readonly excessConnectiveTissueKg: number;
}

/**
 * Meat used, less what of its fat and connective tissue the definition does not allow.
 * @param massesKg one exact weight per supply of the coefficients.
 * @throws MissingFigure when a meat has no figure for its collagen.
 */
export function declaredMeat(
  definition: MeatDefinition,
  coefficients: Coefficients,
  massesKg: readonly Exact[],
): DeclaredMeat {
  const { used, tissue, fat, fatOfTissue } = excessForms(definition);
  const usedKg = coefficients.total(used, massesKg);
  const tissueSum = coefficients.total(tissue, massesKg);
  const hasTissue = compare(tissueSum, ZERO) > 0;
  const tissueKg = hasTissue ? tissueSum : ZERO;
  const fatSum = sum([
    coefficients.total(fat, massesKg),
    hasTissue ? coefficients.total(fatOfTissue, massesKg) : ZERO,
  ]);
  const fatKg = compare(fatSum, ZERO) > 0 ? fatSum : ZERO;
  return {
    says: definition.says,
    usedKg: toNumber(usedKg),
    declaredKg: toNumber(subtract(subtract(usedKg, tissueKg), fatKg)),
    excessFatKg: toNumber(fatKg),
    excessConnectiveTissueKg: toNumber(tissueKg),
  };
}
