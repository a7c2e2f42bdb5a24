import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  compare,
  type Exact,
  exact,
  isZero,
  multiply,
  ONE,
  ratio,
  subtract,
  sum,
  toNumber,
  toText,
  ZERO,
} from '../src/exact.ts';

/** A fraction of two whole numbers, worked out without the module under test. */
interface Rational {
  readonly over: bigint;
  /** Above zero. */
  readonly under: bigint;
}

/** The shortest decimal of a double, read from its exponential notation. */
function decimalOf(value: number): Rational {
  const [mantissa = '', exponent = ''] = value.toExponential().split('e');
  const [whole = '', fraction = ''] = mantissa.split('.');
  return scaled(BigInt(whole + fraction), Number(exponent) - fraction.length);
}

function scaled(digits: bigint, exponent: number): Rational {
  return exponent >= 0
    ? { over: digits * 10n ** BigInt(exponent), under: 1n }
    : { over: digits, under: 10n ** BigInt(-exponent) };
}

/** The binary value of a double, digit for digit. */
function binaryOf(value: number): Rational {
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, value);
  const high = bits.getUint32(0);
  const exponent = (high >>> 20) & 0x7ff;
  const tail = (BigInt(high & 0xfffff) << 32n) | BigInt(bits.getUint32(4));
  const mantissa = exponent === 0 ? tail : tail | (1n << 52n);
  const signed = high >>> 31 ? -mantissa : mantissa;
  const power = Math.max(exponent, 1) - 1075;
  return power >= 0
    ? { over: signed << BigInt(power), under: 1n }
    : { over: signed, under: 1n << BigInt(-power) };
}

function rationalOf({ digits, scale }: Exact): Rational {
  return { over: digits, under: 10n ** BigInt(scale) };
}

function same(a: Rational, b: Rational): boolean {
  return a.over * b.under === b.over * a.under;
}

const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
/** Doubles that a product or quotient of two cannot bring out of the range of normal doubles. */
const moderate = fc
  .tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -60, max: 60 }), fc.boolean())
  .map(([size, exponent, negative]) => (negative ? -1 : 1) * Number(`${size}e${exponent}`));
const decimal = fc
  .tuple(fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }), fc.integer({ min: 0, max: 40 }))
  .map(([digits, scale]): Exact => ({ digits, scale }));

describe('reading a decimal', () => {
  it('reads every finite double as its shortest decimal', () => {
    fc.assert(fc.property(finite, (value) => same(rationalOf(exact(value)), decimalOf(value))));
  });

  it('gives every finite double back', () => {
    fc.assert(fc.property(finite, (value) => toNumber(exact(value)) === value));
  });

  it('reads text and number alike', () => {
    fc.assert(fc.property(finite, (value) => compare(exact(value), exact(String(value))) === 0));
  });

  it.each([
    ['0.1', 1n, 1],
    ['-12.50', -1250n, 2],
    ['007', 7n, 0],
    ['1e-7', 1n, 7],
    ['2.5E+3', 2500n, 0],
    ['1.25e1', 125n, 1],
  ] as const)('reads %s digit for digit', (text, digits, scale) => {
    expect(exact(text)).toEqual({ digits, scale });
  });

  it.each([1e21, 1.5e300, 5e-324, 1e-7, Number.MAX_SAFE_INTEGER, Number.MAX_VALUE])(
    'reads %s although the language prints it with an exponent or at its limits',
    (value) => {
      expect(same(rationalOf(exact(value)), decimalOf(value))).toBe(true);
      expect(toNumber(exact(value))).toBe(value);
    },
  );

  it('reads negative zero as zero', () => {
    expect(isZero(exact(-0))).toBe(true);
    expect(isZero(exact('-0.00'))).toBe(true);
    expect(toText(exact('-0.00'))).toBe('0');
  });

  it.each(['', ' ', '1/3', '.5', '5.', '1,5', '+1', '0x10', '1e', 'NaN', 'Infinity', '1 ', '١'])(
    'refuses "%s", which is no decimal',
    (text) => {
      expect(() => exact(text)).toThrow(RangeError);
    },
  );

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('refuses %s', (value) => {
    expect(() => exact(value)).toThrow('is not a finite decimal number');
  });
});

describe('exact arithmetic', () => {
  it('adds without rounding', () => {
    fc.assert(
      fc.property(finite, finite, (a, b) => {
        const [left, right] = [decimalOf(a), decimalOf(b)];
        const expected = {
          over: left.over * right.under + right.over * left.under,
          under: left.under * right.under,
        };
        return same(rationalOf(add(exact(a), exact(b))), expected);
      }),
    );
  });

  it('subtracts without rounding', () => {
    fc.assert(
      fc.property(finite, finite, (a, b) => {
        const [left, right] = [decimalOf(a), decimalOf(b)];
        const expected = {
          over: left.over * right.under - right.over * left.under,
          under: left.under * right.under,
        };
        return same(rationalOf(subtract(exact(a), exact(b))), expected);
      }),
    );
  });

  it('multiplies without rounding', () => {
    fc.assert(
      fc.property(finite, finite, (a, b) => {
        const [left, right] = [decimalOf(a), decimalOf(b)];
        return same(rationalOf(multiply(exact(a), exact(b))), {
          over: left.over * right.over,
          under: left.under * right.under,
        });
      }),
    );
  });

  it('compares as the fractions compare', () => {
    fc.assert(
      fc.property(decimal, decimal, (a, b) => {
        const [left, right] = [rationalOf(a), rationalOf(b)];
        const difference = left.over * right.under - right.over * left.under;
        return compare(a, b) === (difference < 0n ? -1 : difference > 0n ? 1 : 0);
      }),
    );
  });

  it('calls decimals of one value equal whatever their scale', () => {
    fc.assert(
      fc.property(decimal, fc.integer({ min: 0, max: 70 }), ({ digits, scale }, more) => {
        const padded = { digits: digits * 10n ** BigInt(more), scale: scale + more };
        return compare({ digits, scale }, padded) === 0 && toText({ digits, scale }) === toText(padded);
      }),
    );
  });

  it('sums a list to the last digit', () => {
    fc.assert(
      fc.property(fc.array(finite), (values) => {
        const expected = values.map(decimalOf).reduce(
          (total, value) => ({
            over: total.over * value.under + value.over * total.under,
            under: total.under * value.under,
          }),
          { over: 0n, under: 1n },
        );
        return same(rationalOf(sum(values.map((value) => exact(value)))), expected);
      }),
      { numRuns: 50 },
    );
  });

  it('knows that a tenth and two tenths are three tenths', () => {
    expect(compare(add(exact(0.1), exact(0.2)), exact(0.3))).toBe(0);
  });

  it('has zero and one as its neutral elements', () => {
    fc.assert(
      fc.property(
        decimal,
        (a) => compare(add(a, ZERO), a) === 0 && compare(multiply(a, ONE), a) === 0 && isZero(subtract(a, a)),
      ),
    );
  });

  it('sums nothing to zero', () => {
    expect(isZero(sum([]))).toBe(true);
  });
});

describe('leaving exact arithmetic', () => {
  it('gives a ratio that is good to the last place of a double', () => {
    fc.assert(
      fc.property(moderate, moderate, (a, b) => {
        const [over, under] = [decimalOf(a), decimalOf(b)];
        const found = binaryOf(ratio(exact(a), exact(b)));
        // |found − over/under| ≤ 2^-52 |over/under|, cleared of every division.
        const numerator = over.over * under.under;
        const denominator = over.under * under.over;
        const error = found.over * denominator - numerator * found.under;
        const size = numerator * found.under;
        return magnitude(error) << 52n <= magnitude(size);
      }),
      { numRuns: 500 },
    );
  });

  it('gives a ratio whatever the sizes of the digits on either side', () => {
    expect(ratio(exact('0'), exact('7'))).toBe(0);
    expect(ratio(exact('1'), exact(`1${'0'.repeat(60)}`))).toBe(1e-60);
    expect(ratio(exact(`1${'0'.repeat(60)}`), exact('0.001'))).toBe(1e63);
    expect(ratio(exact('-1'), exact('3'))).toBe(-1 / 3);
    expect(ratio(exact('2'), exact('-3'))).toBe(-2 / 3);
  });

  it('has no number for a ratio to zero', () => {
    expect(ratio(ONE, ZERO)).toBeNaN();
    expect(ratio(ZERO, exact('0.000'))).toBeNaN();
  });

  it('rounds to the nearest double', () => {
    fc.assert(
      fc.property(decimal, (a) => {
        // The language parses decimal text correctly rounded; this text is put together by hand.
        const digits = magnitude(a.digits)
          .toString()
          .padStart(a.scale + 1, '0');
        const cut = digits.length - a.scale;
        const value = Number(`${digits.slice(0, cut)}.${digits.slice(cut)}0`);
        return toNumber(a) === (a.digits < 0n ? 0 - value : value);
      }),
    );
  });

  it('writes text that reads back as the same value', () => {
    fc.assert(fc.property(decimal, (a) => compare(exact(toText(a)), a) === 0));
  });

  it('writes plain decimals without exponent or idle zeros', () => {
    fc.assert(
      fc.property(fc.oneof(decimal, finite.map(exact)), (a) =>
        /^-?(0|[1-9]\d*)(\.\d*[1-9])?$/.test(toText(a)),
      ),
    );
  });

  it.each([
    [exact('0.0045359237'), '0.0045359237'],
    [exact('100'), '100'],
    [exact('1.500'), '1.5'],
    [exact('-0.05'), '-0.05'],
    [exact(1e-7), '0.0000001'],
    [exact(1e21), '1000000000000000000000'],
  ])('writes %o as %s', (value, text) => {
    expect(toText(value)).toBe(text);
  });
});

function magnitude(value: bigint): bigint {
  return value < 0n ? -value : value;
}
