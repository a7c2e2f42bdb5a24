import { type Exact, exact, multiply, toNumber } from '../exact.ts';
import { KILOGRAMS_PER, type MassUnit } from '../units.ts';

/**
 * The ledger counts whole micrograms, so that sums are exact: what a scale shows is rounded once, when it is booked,
 * by half a microgram at most. Nine thousand tonnes fit into a safe integer.
 */

const MICROGRAMS_PER_KILOGRAM = 1_000_000_000;
const SCALE = 9;

/** A weight that differs from a balance by no more than this is the balance: no scale of a plant can tell them apart. */
export const INDISTINGUISHABLE_UG = 1_000;

/** A weight as it is written in a unit, '12.5' or 12.5, as whole micrograms; half a microgram goes up. */
export function micrograms(value: string | number, unit: MassUnit): number {
  return microgramsOf(multiply(exact(value), KILOGRAMS_PER[unit]));
}

/** Exact kilograms as whole micrograms. @throws RangeError beyond what can be counted. */
export function microgramsOf(massKg: Exact): number {
  const { digits, scale } = massKg;
  const shift = scale - SCALE;
  const whole = shift <= 0 ? digits * 10n ** BigInt(-shift) : roundedHalfUp(digits, 10n ** BigInt(shift));
  const count = Number(whole);
  if (Number.isSafeInteger(count)) return count;
  throw new RangeError(`${toNumber(massKg)} kg is more than the ledger can count; write a smaller weight`);
}

function roundedHalfUp(digits: bigint, divisor: bigint): bigint {
  const doubled = digits * 2n + divisor;
  const by = divisor * 2n;
  const quotient = doubled / by;
  return doubled < 0n && doubled % by !== 0n ? quotient - 1n : quotient;
}

/** Micrograms as kilograms, the nearest double: the same microgram again up to 2^23 kg, more than eight thousand tonnes. */
export function kilogramsOfMicrograms(massUg: number): number {
  return massUg / MICROGRAMS_PER_KILOGRAM;
}
