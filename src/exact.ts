/**
 * Exact decimal numbers. Every figure of this trade is a finite decimal (a kilogram of a printed weight, a
 * percent of a table, a limit of a rule), and sums and products of decimals are decimals again, so limits can
 * be compared without any rounding. A double is read as its shortest decimal: 0.3 means three tenths.
 */
export interface Exact {
  /** The digits as one whole number. */
  readonly digits: bigint;
  /** The value is digits × 10^-scale. Never negative. */
  readonly scale: number;
}

export const ZERO: Exact = { digits: 0n, scale: 0 };
export const ONE: Exact = { digits: 1n, scale: 0 };

const DECIMAL = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]?\d+))?$/i;

/**
 * Reads a number or decimal text exactly.
 * @throws RangeError when the text is no finite decimal (NaN, Infinity, '1/3').
 */
export function exact(value: number | string): Exact {
  if (value === 0) return ZERO;
  if (Number.isSafeInteger(value)) return { digits: BigInt(value), scale: 0 };
  const match = DECIMAL.exec(String(value));
  if (!match) throw new RangeError(`${value} is not a finite decimal number`);
  const [, sign = '', whole = '', fraction = '', exponent = '0'] = match;
  const digits = BigInt(`${sign}${whole}${fraction}`);
  const scale = fraction.length - Number(exponent);
  return scale >= 0 ? { digits, scale } : { digits: digits * powerOfTen(-scale), scale: 0 };
}

/** a + b, exactly. */
export function add(a: Exact, b: Exact): Exact {
  if (a.scale === b.scale) return { digits: a.digits + b.digits, scale: a.scale };
  if (a.scale > b.scale) return { digits: a.digits + lift(b, a.scale), scale: a.scale };
  return { digits: lift(a, b.scale) + b.digits, scale: b.scale };
}

/** a − b, exactly. */
export function subtract(a: Exact, b: Exact): Exact {
  return add(a, { digits: -b.digits, scale: b.scale });
}

/** a × b, exactly. */
export function multiply(a: Exact, b: Exact): Exact {
  if (a === ONE) return b;
  if (b === ONE) return a;
  return { digits: a.digits * b.digits, scale: a.scale + b.scale };
}

/** The exact sum; zero of nothing. */
export function sum(values: Iterable<Exact>): Exact {
  let total = ZERO;
  for (const value of values) if (value !== ZERO) total = add(total, value);
  return total;
}

/** Negative when a < b, zero when equal, positive when a > b. */
export function compare(a: Exact, b: Exact): number {
  const { digits } = subtract(a, b);
  return digits < 0n ? -1 : digits > 0n ? 1 : 0;
}

/** Whether the value is nothing at all. */
export function isZero(a: Exact): boolean {
  return a.digits === 0n;
}

const MAX_SAFE = BigInt(Number.MAX_SAFE_INTEGER);

/** The nearest double, correctly rounded. */
export function toNumber({ digits, scale }: Exact): number {
  // Up to 10^22 powers of ten are exact doubles, and a quotient of two exact doubles is correctly rounded.
  if (digits >= -MAX_SAFE && digits <= MAX_SAFE && scale <= 22) return Number(digits) / 10 ** scale;
  return Number(`${digits}e-${scale}`);
}

/** numerator / denominator as a double, for people to read; never for a decision. */
export function ratio(numerator: Exact, denominator: Exact): number {
  if (denominator.digits === 0n) return Number.NaN;
  // 20 more digits than either scale keep the quotient good to double precision.
  const scale = 20 + Math.max(0, denominator.scale - numerator.scale) + decimalLength(denominator.digits);
  const quotient = (numerator.digits * powerOfTen(scale)) / denominator.digits;
  return Number(`${quotient}e${denominator.scale - numerator.scale - scale}`);
}

/** The value as plain decimal text, without trailing zeros: '0.0045359237'. */
export function toText(a: Exact): string {
  const negative = a.digits < 0n;
  const text = (negative ? -a.digits : a.digits).toString().padStart(a.scale + 1, '0');
  const whole = text.slice(0, text.length - a.scale);
  const fraction = text.slice(text.length - a.scale).replace(/0+$/, '');
  return `${negative ? '-' : ''}${whole}${fraction ? `.${fraction}` : ''}`;
}

function lift(a: Exact, scale: number): bigint {
  return a.digits * powerOfTen(scale - a.scale);
}

function decimalLength(digits: bigint): number {
  return (digits < 0n ? -digits : digits).toString().length;
}

const POWERS: bigint[] = Array.from({ length: 64 }, (_, exponent) => 10n ** BigInt(exponent));

function powerOfTen(exponent: number): bigint {
  return POWERS[exponent] ?? 10n ** BigInt(exponent);
}
