import { type Exact, exact, isZero, ZERO } from '../../exact.ts';

/** Digits behind the point that a quotient keeps, far below any rounding. */
const DECIMALS = 30;
/** A share is kept longer, so that what it is taken of still comes out in all the digits of a quotient. */
const SHARE_DECIMALS = 60;

/**
 * a / b cut off toward zero to 30 decimals; b above 0. A quotient that ends sooner is exact, so one that lies at a tie
 * is found there, and cutting off never lifts one that lies below it.
 */
export function quotient(a: Exact, b: Exact): Exact {
  return cut(a, b, DECIMALS);
}

/** part / whole as a factor; nothing of nothing is nothing. */
export function shareOf(part: Exact, whole: Exact): Exact {
  return isZero(whole) ? ZERO : cut(part, whole, SHARE_DECIMALS);
}

function cut(a: Exact, b: Exact, decimals: number): Exact {
  const dividend = a.digits * 10n ** BigInt(b.scale + decimals);
  return { digits: dividend / (b.digits * 10n ** BigInt(a.scale)), scale: decimals };
}

/** The lesser of two. */
export function least(a: Exact, b: Exact): Exact {
  return a.digits * 10n ** BigInt(b.scale) < b.digits * 10n ** BigInt(a.scale) ? a : b;
}

export const HUNDRED: Exact = exact(100);
