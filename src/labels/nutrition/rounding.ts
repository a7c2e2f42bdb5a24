import { compare, type Exact, exact, toText } from '../../exact.ts';

/**
 * A band of a rounding rule. The first whose end is not passed holds: `below` leaves its end to the next one, `upTo`
 * keeps it, and the last has neither. A value in it goes to the nearest step, or is shown as one figure.
 */
export type Band = End & ({ readonly step: Exact } | { readonly shown: Exact; readonly words?: string });
type End = { readonly below?: Exact; readonly upTo?: Exact };

export interface Rounded {
  readonly value: Exact;
  /** 'less than', where that is said of the value. */
  readonly words?: string;
}

/** A rule is written down as text, so that its figures are decimals. */
export const bands = {
  below: (end: string, step: string): Band => ({ below: exact(end), step: exact(step) }),
  upTo: (end: string, step: string): Band => ({ upTo: exact(end), step: exact(step) }),
  above: (step: string): Band => ({ step: exact(step) }),
  zeroBelow: (end: string): Band => ({ below: exact(end), shown: exact(0) }),
  lessThan: (end: string): Band => ({ below: exact(end), shown: exact(end), words: 'less than' }),
  upToLessThan: (end: string, words = 'less than'): Band => ({ upTo: exact(end), shown: exact(end), words }),
  /** Nothing at all is said as nothing. */
  nothing: (): Band => ({ upTo: exact(0), shown: exact(0) }),
};

/**
 * Rounds by a rule, decided exactly. What lies half way between two steps goes up: the rules say "nearest" and leave
 * the tie open, but send serving sizes up (9 CFR 317.309(b)(7)(viii)).
 * @param value not below 0.
 */
export function rounded(value: Exact, rule: readonly Band[]): Rounded {
  const band = rule.find((candidate) => isIn(value, candidate));
  if (!band) throw new RangeError('a rounding rule ends without a band for larger values; give it one');
  if ('step' in band) return { value: nearest(value, band.step) };
  return { value: band.shown, ...(band.words && { words: band.words }) };
}

/** The nearest multiple of a step, half a step up. */
export function nearest(value: Exact, step: Exact): Exact {
  // value / step + 1/2, cut off, in whole numbers of one scale.
  const scale = Math.max(value.scale, step.scale);
  const of = value.digits * 10n ** BigInt(scale - value.scale);
  const one = step.digits * 10n ** BigInt(scale - step.scale);
  const steps = (2n * of + one) / (2n * one);
  return { digits: steps * step.digits, scale: step.scale };
}

/** As it is printed: '22', '4.5', 'less than 5'; zeros behind the point are dropped. */
export function roundedText({ value, words }: Rounded): string {
  return words ? `${words} ${toText(value)}` : toText(value);
}

function isIn(value: Exact, { below, upTo }: End): boolean {
  if (below) return compare(value, below) < 0;
  return !upTo || compare(value, upTo) <= 0;
}
