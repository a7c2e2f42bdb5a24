import { compare, type Exact, exact, multiply, subtract, toNumber, toText, ZERO } from '../../exact.ts';
import { fixed, KILOGRAMS_PER } from '../../units.ts';
import { type DecimalMark, parseNumber, withMark } from '../figures/number.ts';

/** Rates of seasonings as shops write them. Each is a decimal multiple of a fraction, so nothing is rounded on the way. */

export const RATE_UNITS = ['%', 'oz/100 lb', 'g/kg'] as const;
export type RateUnit = (typeof RATE_UNITS)[number];

/** A fraction in one unit: an ounce is a sixteenth of a pound (NIST Handbook 44, Appendix C), so 1 oz/100 lb is 1/1600. */
const FRACTION_PER: Readonly<Record<RateUnit, Exact>> = {
  '%': exact('0.01'),
  'oz/100 lb': exact('0.000625'),
  'g/kg': exact('0.001'),
};
const PER_FRACTION: Readonly<Record<RateUnit, Exact>> = {
  '%': exact(100),
  'oz/100 lb': exact(1600),
  'g/kg': exact(1000),
};

/** '4' oz/100 lb is 0.0025, exactly as written. @param digits with a point. */
export const fractionOf = (digits: string, unit: RateUnit = '%'): number =>
  toNumber(multiply(exact(digits), FRACTION_PER[unit]));

/** 0.0025 in oz/100 lb is '4': every digit of the fraction, with a point. */
export const digitsOf = (fraction: number, unit: RateUnit = '%'): string =>
  toText(multiply(exact(fraction), PER_FRACTION[unit]));

/** What is typed, in another unit, exactly; as it stands where it is no number. */
export function inOtherUnit(typed: string, from: RateUnit, to: RateUnit, mark: DecimalMark): string {
  const parsed = parseNumber(typed, mark);
  if (parsed.kind !== 'number') return typed;
  return withMark(toText(multiply(multiply(exact(parsed.text), FRACTION_PER[from]), PER_FRACTION[to])), mark);
}

const DECIMALS: Readonly<Record<RateUnit, number>> = { '%': 4, 'oz/100 lb': 2, 'g/kg': 3 };

/** A most, cut off so that what is written never goes beyond it: 0.0024999 is '0.2499' %. */
export function mostDigits(fraction: number, unit: RateUnit): string {
  // Twelve digits carry everything but the noise of a division.
  const [whole = '0', part = ''] = fixed(Number(digitsOf(fraction, unit)), 12).split('.');
  const cut = part.slice(0, DECIMALS[unit]).replace(/0+$/, '');
  return cut === '' ? whole : `${whole}.${cut}`;
}

/** A price per pound as one per kilogram and back, as typed digits; the double is the nearest. */
export const perKilogramOf = (digits: string, per: 'lb' | 'kg'): number =>
  per === 'kg' ? toNumber(exact(digits)) : Number(digits) / toNumber(KILOGRAMS_PER.lb);

/** How far below the fat of the lean point ground meat is aimed, in points (common practice). */
const WINDOW_POINTS = exact(2);

/** The fat behind a lean point, and from where to aim: '80' is 18 to 20. Undefined where it is no percent. */
export function fatWindow(leanDigits: string): { readonly min: string; readonly max: string } | undefined {
  const fat = subtract(exact(100), exact(leanDigits));
  if (compare(fat, ZERO) < 0 || compare(fat, exact(99)) >= 0) return undefined;
  const least = subtract(fat, WINDOW_POINTS);
  return { min: compare(least, ZERO) < 0 ? '0' : toText(least), max: toText(fat) };
}
