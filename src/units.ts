import { type Exact, exact, multiply, ratio, subtract, toNumber, toText } from './exact.ts';

/**
 * Units of mass and the only conversions of the product. Inside, every mass is in kilograms and every share a
 * fraction of 1; other units exist at the edges alone.
 */
export const MASS_UNITS = ['kg', 'g', 'lb', 'oz'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

/** A mass as people write it: the unit is never implied. */
export interface Mass {
  readonly value: number;
  readonly unit: MassUnit;
}

/**
 * Kilograms in one unit, exact by definition: the international avoirdupois pound is 0.45359237 kg and the
 * ounce one sixteenth of it (NIST Handbook 44, Appendix C).
 */
export const KILOGRAMS_PER: Readonly<Record<MassUnit, Exact>> = {
  kg: exact('1'),
  g: exact('0.001'),
  lb: exact('0.45359237'),
  oz: exact('0.028349523125'),
};

/** A mass in kilograms, correctly rounded from the exact definition of its unit. */
export function kilograms(mass: Mass): number {
  return toNumber(multiply(exact(mass.value), KILOGRAMS_PER[mass.unit]));
}

/** Kilograms in another unit, correctly rounded. */
export function inUnit(massKg: number, unit: MassUnit): number {
  return ratio(exact(massKg), KILOGRAMS_PER[unit]);
}

/** A price per unit of mass in the same currency per kilogram. */
export function perKilogram(amount: number, unit: MassUnit): number {
  return ratio(exact(amount), KILOGRAMS_PER[unit]);
}

/** A price per kilogram in the same currency per unit of mass. */
export function pricePerUnit(amountPerKg: number, unit: MassUnit): number {
  return toNumber(multiply(exact(amountPerKg), KILOGRAMS_PER[unit]));
}

/** 27.13 (percent) becomes 0.2713 exactly as written, without the noise of a division. */
export function fractionOfPercent(percent: number | string): number {
  return toNumber(multiply(exact(percent), { digits: 1n, scale: 2 }));
}

/** 0.2713 becomes 27.13. */
export function percentOfFraction(fraction: number): number {
  return toNumber(multiply(exact(fraction), exact(100)));
}

/** Chemical lean and fat make 100: 92.7 percent lean is 7.3 percent fat. */
export function fatPercentOf(leanPercent: number): number {
  return toNumber(subtract(exact(100), exact(leanPercent)));
}

/** A number at a fixed count of decimals, half away from zero on its decimal digits (1.005 gives 1.01). */
export function fixed(value: number, decimals: number): string {
  const { digits, scale } = exact(value);
  const negative = digits < 0n;
  const magnitude = negative ? -digits : digits;
  const shift = scale - decimals;
  const step = 10n ** BigInt(Math.max(shift, 0));
  const rounded = shift > 0 ? (magnitude + step / 2n) / step : magnitude * 10n ** BigInt(-shift);
  const text = toText({ digits: rounded, scale: decimals });
  const [whole = '0', fraction = ''] = text.split('.');
  const body = decimals > 0 ? `${whole}.${fraction.padEnd(decimals, '0')}` : whole;
  return negative && rounded !== 0n ? `-${body}` : body;
}

/** A mass for people to read, to a hundredth of the unit: '312.40 lb'. */
export function massText(massKg: number, unit: MassUnit): string {
  return `${fixed(inUnit(massKg, unit), 2)} ${unit}`;
}
