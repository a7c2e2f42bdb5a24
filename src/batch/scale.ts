import { type Exact, exact, multiply, toNumber, toText } from '../exact.ts';
import { KILOGRAMS_PER } from '../units.ts';
import type { Scale } from './plant.ts';

/** A weight as a scale shows it. */
export interface PrintedWeight {
  readonly scale: Scale;
  /** Whole divisions of the scale. */
  readonly divisions: number;
  /** Decimal text in the scale's unit, with the decimals of its division. */
  readonly text: string;
}

/** Kilograms of one division, exact. */
export function divisionKg({ division, unit }: Scale): Exact {
  return multiply(exact(division), KILOGRAMS_PER[unit]);
}

/** Kilograms that a scale can carry. */
export function capacityKg({ capacity, unit }: Scale): number {
  return toNumber(multiply(exact(capacity), KILOGRAMS_PER[unit]));
}

/** A count of divisions as the scale shows it. */
export function printedWeight(scale: Scale, divisions: number): PrintedWeight {
  const decimals = scale.division.split('.')[1]?.length ?? 0;
  const [whole = '0', fraction = ''] = toText(multiply(exact(scale.division), exact(divisions))).split('.');
  return { scale, divisions, text: decimals > 0 ? `${whole}.${fraction.padEnd(decimals, '0')}` : whole };
}
