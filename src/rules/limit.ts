import type { Form } from './form.ts';

/**
 * One limit of the law or of the house: numerator / basis compared with a bound. From this one row of data
 * follow the row of the linear problem, the value a person reads and the exact check of the printed weights.
 */
export interface Limit {
  readonly id: string;
  /** The rule in the trade's words, a whole sentence. */
  readonly says: string;
  readonly numerator: Form;
  readonly basis: Form;
  /** 'present' asks for more than none of the numerator. */
  readonly sense: 'max' | 'min' | 'present';
  /** A fraction: 0.3 for 30 %, 0.000156 for 156 parts per million. A price per kilogram for a cost target. */
  readonly bound: number;
  readonly unit: 'percent' | 'ppm' | 'price per kg';
  readonly authority: 'law' | 'house';
  readonly citation: string;
  /** How the figure was read: in the official text, in another text that quotes it, or not at all yet. */
  readonly read: 'official' | 'secondary' | 'from memory';
  readonly inForce?: { readonly from?: string; readonly until?: string };
  readonly note?: string;
}

/** Limits in force on a day (YYYY-MM-DD): from the first day of the span to the day before its end. */
export function inForceOn(limits: readonly Limit[], date: string): Limit[] {
  return limits.filter(({ inForce }) => {
    const from = inForce?.from ?? '';
    const until = inForce?.until ?? '9999-12-31';
    return from <= date && date < until;
  });
}

/** The bound in the unit people read: 30 for 30 %, 156 for 156 ppm. */
export function shownBound({ bound, unit }: Pick<Limit, 'bound' | 'unit'>): number {
  return inShownUnit(bound, unit);
}

/** A fraction in the unit people read, without the noise of the multiplication. */
export function inShownUnit(value: number, unit: Limit['unit']): number {
  const times = { percent: 100, ppm: 1e6, 'price per kg': 1 }[unit];
  return Number((value * times).toPrecision(15));
}
