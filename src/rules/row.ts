import { exact, multiply, subtract, toNumber } from '../exact.ts';
import type { Row } from '../solver/model.ts';
import type { Coefficients } from './coefficients.ts';
import type { Limit } from './limit.ts';

/**
 * The row of a limit over the supplies: Σ (numerator − bound × basis) x, at most or at least 0. Undefined when
 * the limit puts no demand on a weight ('present' is settled by the seasoning lines).
 */
export function rowOf(limit: Limit, coefficients: Coefficients): Row | undefined {
  if (limit.sense === 'present') return undefined;
  const bound = exact(limit.bound);
  const basis = coefficients.of(limit.basis);
  const terms = coefficients.of(limit.numerator).map((perKg, column) => ({
    column,
    coefficient: toNumber(subtract(perKg, multiply(bound, basis[column] ?? perKg))),
  }));
  return {
    name: limit.id,
    lower: limit.sense === 'min' ? 0 : Number.NEGATIVE_INFINITY,
    upper: limit.sense === 'max' ? 0 : Number.POSITIVE_INFINITY,
    terms: terms.filter(({ coefficient }) => coefficient !== 0),
  };
}
