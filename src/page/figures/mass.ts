import { fixed, inUnit, kilograms, MASS_UNITS, type MassUnit } from '../../units.ts';
import { type DecimalMark, type Parsed, parseNumber, withMark } from './number.ts';

/** Weights as people write and read them. */

export type ParsedMass =
  | Exclude<Parsed, { kind: 'number' }>
  /** @property text the digits as written, of the unit. */
  | { readonly kind: 'mass'; readonly text: string; readonly value: number; readonly unit: MassUnit };

const OUNCES_IN_POUND = 16;

/**
 * Reads '120.5', '120,5 kg', '3 lb 4 oz'; a number alone is of the unit given. Pounds with ounces become pounds: 3 lb
 * 4 oz is 3.25 lb exactly, because an ounce is a sixteenth of a pound (NIST Handbook 44, Appendix C).
 */
export function parseMass(typed: string, unit: MassUnit, mark: DecimalMark): ParsedMass {
  const both = /^\s*(\d+)\s*lbs?\.?\s*([\d.,]+)\s*oz\.?\s*$/i.exec(typed);
  if (both) {
    const ounces = parseNumber(both[2] ?? '', mark);
    if (ounces.kind !== 'number' || ounces.value >= OUNCES_IN_POUND) return { kind: 'wrong' };
    const value = Number(both[1]) + ounces.value / OUNCES_IN_POUND;
    return { kind: 'mass', text: String(value), value, unit: 'lb' };
  }
  const named = /^(.*?[\d.,])\s*(kg|g|lb|oz)s?\.?\s*$/i.exec(typed);
  const itsUnit = named ? MASS_UNITS.find((each) => each === named[2]?.toLowerCase()) : undefined;
  const parsed = parseNumber(named?.[1] ?? typed, mark);
  return parsed.kind === 'number'
    ? { kind: 'mass', text: parsed.text, value: parsed.value, unit: itsUnit ?? unit }
    : parsed;
}

/** Kilograms as a weight with its unit, to hundredths; small ones in ounces or grams. */
export function massText(massKg: number, units: 'lb' | 'kg', mark: DecimalMark, decimals = 2): string {
  return `${withMark(fixed(inUnit(massKg, units), decimals), mark)} ${units}`;
}

/** Pounds and ounces: '3 lb 4.0 oz'. */
export function poundsAndOunces(massKg: number, mark: DecimalMark): string {
  const ounces = inUnit(massKg, 'oz');
  let pounds = Math.floor(ounces / OUNCES_IN_POUND);
  let rest = fixed(ounces - pounds * OUNCES_IN_POUND, 1);
  if (Number(rest) >= OUNCES_IN_POUND) {
    pounds += 1;
    rest = '0.0';
  }
  return `${pounds} lb ${withMark(rest, mark)} oz`;
}

export const massKgOf = (value: number, unit: MassUnit): number => kilograms({ value, unit });
