import { fractionOfPercent } from '../units.ts';
import { type Form, formsOf, type WorstOf } from './form.ts';

/**
 * One limit of the law or of the house: numerator / basis compared with a bound. From this one row of data
 * follow the row of the linear problem, the value a person reads and the exact check of the printed weights.
 */
export interface Limit {
  readonly id: string;
  /** The rule in the trade's words, a whole sentence. */
  readonly says: string;
  readonly numerator: Form | WorstOf;
  readonly basis: Form;
  /** 'target' asks for the bound itself, 'present' for more than none of the numerator. */
  readonly sense: Sense;
  /** A fraction: 0.3 for 30 %, 0.000156 for 156 parts per million, 1.9 for 1.9 to 1; a price for a cost target. */
  readonly bound: number;
  /** For a target: how far from it, as a fraction of it, a weighed batch may be. */
  readonly within?: number;
  readonly unit: Unit;
  readonly authority: 'law' | 'house';
  readonly citation: string;
  /** How the figure was read: in the official text, in another text that quotes it, or not at all yet. */
  readonly read: Read;
  readonly inForce?: Span;
  readonly note?: string;
}

export const SENSES = ['max', 'min', 'target', 'present'] as const;
export type Sense = (typeof SENSES)[number];
export const UNITS = ['percent', 'ppm', 'to 1', 'price per kg'] as const;
export type Unit = (typeof UNITS)[number];
export const READS = ['official', 'secondary', 'from memory'] as const;
export type Read = (typeof READS)[number];

/** Days as YYYY-MM-DD: from the first to the day before the last; an open end is left out. */
export interface Span {
  readonly from?: string;
  readonly until?: string;
}

/** What is in force on a day (YYYY-MM-DD): from the first day of its span to the day before the end. */
export function inForceOn<Dated extends { readonly inForce?: Span }>(
  rules: readonly Dated[],
  date: string,
): Dated[] {
  return rules.filter(({ inForce }) => {
    const from = inForce?.from ?? '';
    const until = inForce?.until ?? '9999-12-31';
    return from <= date && date < until;
  });
}

/** Every form that a limit counts. */
export function formsOfLimit({ numerator, basis }: Limit): readonly Form[] {
  return [...formsOf(numerator), basis];
}

/** Where a rule stands, with the mark that it carries unless it was read in the official text. */
export function sourceOf({ citation, read }: { readonly citation: string; readonly read: string }): string {
  return read === 'official' ? citation : `${citation} [${read}]`;
}

/** The bound in the unit people read: 30 for 30 %, 156 for 156 ppm. */
export function shownBound({ bound, unit }: Pick<Limit, 'bound' | 'unit'>): number {
  return inShownUnit(bound, unit);
}

/** The other way round: 30 % as 0.3, exactly as it is written. */
export function fromShownUnit(shown: number, unit: Unit): number {
  if (unit === 'percent') return fractionOfPercent(shown);
  return unit === 'ppm' ? Number(`${shown}e-6`) : shown;
}

/** A fraction in the unit people read, without the noise of the multiplication. */
export function inShownUnit(value: number, unit: Unit): number {
  const times = { percent: 100, ppm: 1e6, 'to 1': 1, 'price per kg': 1 }[unit];
  return Number((value * times).toPrecision(15));
}
