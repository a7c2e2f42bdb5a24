import { compare, type Exact, isZero, multiply, ratio, toNumber, ZERO } from '../exact.ts';
import type { Coefficients } from './coefficients.ts';
import { type Form, formsOf } from './form.ts';
import { type Limit, shownBound } from './limit.ts';
import { ends } from './row.ts';

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

/** A check with who brings how much of it. */
export interface ExplainedCheck extends Check {
  /** The weightiest first: kilograms of the numerator, negative for what takes away from it. */
  readonly contributions: readonly Contribution[];
}

export interface Contribution {
  readonly supplyId: string;
  readonly massKg: number;
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
  const { total: numerator } = worst(limit, coefficients, massesKg);
  const basis = coefficients.total(limit.basis, massesKg);
  const value = ratio(numerator, basis);
  return {
    limit,
    holds: holds(limit, numerator, basis),
    numeratorKg: toNumber(numerator),
    basisKg: toNumber(basis),
    value,
    room: roomOf(limit, value),
  };
}

/** Who brings the numerator of a check, by the form that decided it. */
export function explain(
  check: Check,
  coefficients: Coefficients,
  massesKg: readonly Exact[],
): ExplainedCheck {
  const { form } = worst(check.limit, coefficients, massesKg);
  return { ...check, contributions: contributions(form, coefficients, massesKg) };
}

/** The form of the numerator that decides, with its kilograms: the greatest under a maximum, else the least. */
function worst({ numerator, sense }: Limit, coefficients: Coefficients, massesKg: readonly Exact[]) {
  const side = sense === 'max' ? 1 : -1;
  return formsOf(numerator)
    .map((form) => ({ form, total: coefficients.total(form, massesKg) }))
    .reduce((decides, other) => (side * compare(other.total, decides.total) > 0 ? other : decides));
}

function holds(limit: Limit, numerator: Exact, basis: Exact): boolean {
  if (limit.sense === 'present') return compare(numerator, ZERO) > 0;
  return ends(limit).every(({ sense, bound }) => {
    const side = compare(numerator, multiply(bound, basis));
    return sense === 'max' ? side <= 0 : side >= 0;
  });
}

function roomOf({ sense, bound, within = 0 }: Limit, value: number): number {
  if (sense === 'target') return bound * within - Math.abs(value - bound);
  return sense === 'max' ? bound - value : value - bound;
}

function contributions(form: Form, coefficients: Coefficients, massesKg: readonly Exact[]): Contribution[] {
  const perKg = coefficients.of(form);
  return coefficients.supplies
    .flatMap(({ id }, column) => {
      const brought = multiply(perKg[column] ?? ZERO, massesKg[column] ?? ZERO);
      return isZero(brought) ? [] : [{ supplyId: id, massKg: toNumber(brought) }];
    })
    .sort((a, b) => Math.abs(b.massKg) - Math.abs(a.massKg));
}

/** 'fat 19.998 % of finished product, at most 30 %' for logs and messages. */
export function describeCheck({ limit, value }: Check): string {
  if (limit.sense === 'present') return `${limit.numerator.says} must be there`;
  const shown = shownBound({ bound: value, unit: limit.unit });
  return `${limit.numerator.says} ${Number(shown.toPrecision(8))} ${limit.unit} of ${limit.basis.says}, ${senseText(limit)} ${shownBound(limit)}`;
}

/** 'at most', 'at least' or the like, before the figure of the bound. */
export function senseText({ sense }: Pick<Limit, 'sense'>): string {
  return { max: 'at most', min: 'at least', target: 'just', present: 'more than' }[sense];
}
