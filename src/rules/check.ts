import { compare, type Exact, exact, multiply, ratio, toNumber, ZERO } from '../exact.ts';
import type { Coefficients } from './coefficients.ts';
import { type Limit, shownBound } from './limit.ts';

/** What one limit says of one batch. */
export interface Check {
  readonly limit: Limit;
  /** Decided in exact arithmetic on the weights as printed, with no tolerance. */
  readonly holds: boolean;
  readonly numeratorKg: number;
  readonly basisKg: number;
  /** numerator / basis as a fraction; NaN when the basis is empty. */
  readonly value: number;
  /** How far the value is from the bound, in the same unit: negative when it does not hold. */
  readonly room: number;
}

/** Checks weights against limits exactly. @param massesKg one exact weight per supply. */
export function checkLimits(
  limits: readonly Limit[],
  coefficients: Coefficients,
  massesKg: readonly Exact[],
): Check[] {
  return limits.map((limit) => checkLimit(limit, coefficients, massesKg));
}

function checkLimit(limit: Limit, coefficients: Coefficients, massesKg: readonly Exact[]): Check {
  const numerator = coefficients.total(limit.numerator, massesKg);
  const basis = coefficients.total(limit.basis, massesKg);
  const value = ratio(numerator, basis);
  return {
    limit,
    holds: holds(limit, numerator, basis),
    numeratorKg: toNumber(numerator),
    basisKg: toNumber(basis),
    value,
    room: limit.sense === 'max' ? limit.bound - value : value - limit.bound,
  };
}

function holds({ sense, bound }: Limit, numerator: Exact, basis: Exact): boolean {
  if (sense === 'present') return compare(numerator, ZERO) > 0;
  const allowed = multiply(exact(bound), basis);
  return sense === 'max' ? compare(numerator, allowed) <= 0 : compare(numerator, allowed) >= 0;
}

/** 'fat 19.998 % of finished product, at most 30 %' for logs and messages. */
export function describeCheck({ limit, value }: Check): string {
  if (limit.sense === 'present') return `${limit.numerator.says} must be there`;
  const shown = shownBound({ bound: value, unit: limit.unit });
  const sense = limit.sense === 'max' ? 'at most' : 'at least';
  return `${limit.numerator.says} ${Number(shown.toPrecision(8))} ${limit.unit} of ${limit.basis.says}, ${sense} ${shownBound(limit)}`;
}
