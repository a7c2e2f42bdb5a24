import { add, type Exact, exact, isZero, multiply, ONE, subtract, ZERO } from '../exact.ts';
import type { ExactRow } from '../solver/exact-model.ts';
import type { Coefficients } from './coefficients.ts';
import { type Form, formsOf } from './form.ts';
import type { Limit } from './limit.ts';

/**
 * The rows of a limit over the supplies: Σ (numerator − bound × basis) x, at most or at least 0, one for each form
 * of the numerator and two for a target. None when the limit puts no demand on a weight ('present' is settled by
 * the seasoning lines).
 */
export function rowsOf(limit: Limit, coefficients: Coefficients): ExactRow[] {
  return ends(limit).flatMap(({ sense, bound }) =>
    formsOf(limit.numerator).map((form) => rowOf(limit, form, sense, bound, coefficients)),
  );
}

/** The one-sided bounds that a limit comes down to, exactly. */
export function ends({ sense, bound, within = 0 }: Limit): { sense: 'max' | 'min'; bound: Exact }[] {
  if (sense === 'present') return [];
  const figure = exact(bound);
  if (sense !== 'target') return [{ sense, bound: figure }];
  return [
    { sense: 'min', bound: multiply(figure, subtract(ONE, exact(within))) },
    { sense: 'max', bound: multiply(figure, add(ONE, exact(within))) },
  ];
}

function rowOf(
  { id, basis }: Limit,
  form: Form,
  sense: 'max' | 'min',
  bound: Exact,
  coefficients: Coefficients,
): ExactRow {
  const perKgBasis = coefficients.of(basis);
  const terms = coefficients.of(form).map((perKg, column) => ({
    column,
    coefficient: subtract(perKg, multiply(bound, perKgBasis[column] ?? perKg)),
  }));
  return {
    name: id,
    ...(sense === 'min' ? { lower: ZERO } : { upper: ZERO }),
    terms: terms.filter(({ coefficient }) => !isZero(coefficient)),
  };
}
