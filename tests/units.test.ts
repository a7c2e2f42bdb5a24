import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, compare, exact, multiply } from '../src/exact.ts';
import {
  fixed,
  fractionOfPercent,
  inUnit,
  KILOGRAMS_PER,
  kilograms,
  MASS_UNITS,
  massText,
  percentOfFraction,
  perKilogram,
  pricePerUnit,
} from '../src/units.ts';

const unit = fc.constantFrom(...MASS_UNITS);
/** Figures as people write them: up to seven digits before and four after the point. */
const written = fc
  .tuple(fc.integer({ min: 0, max: 9_999_999 }), fc.integer({ min: 0, max: 9999 }))
  .map(([whole, part]) => Number(`${whole}.${String(part).padStart(4, '0')}`));
const finite = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e22, max: 1e22 });

/** Rounds half away from zero on the shortest decimal of the number, without the module under test. */
function roundedOracle(value: number, decimals: number): string {
  const [mantissa = '', exponent = ''] = value.toExponential().split('e');
  const [whole = '', part = ''] = mantissa.replace('-', '').split('.');
  const places = part.length - Number(exponent);
  let digits = BigInt(whole + part);
  if (places > decimals) {
    const step = 10n ** BigInt(places - decimals);
    const rest = digits % step;
    digits = digits / step + (rest * 2n >= step ? 1n : 0n);
  } else {
    digits *= 10n ** BigInt(decimals - places);
  }
  const text = digits.toString().padStart(decimals + 1, '0');
  const cut = text.length - decimals;
  const body = decimals > 0 ? `${text.slice(0, cut)}.${text.slice(cut)}` : text;
  return value < 0 && digits > 0n ? `-${body}` : body;
}

describe('units of mass', () => {
  // NIST Handbook 44, Appendix C (as read in secondary texts): 1 lb = 0.45359237 kg, 1 oz = 1/16 lb, exactly.
  it('have the pound at 0.45359237 kg exactly', () => {
    expect(compare(KILOGRAMS_PER.lb, exact('0.45359237'))).toBe(0);
    expect(kilograms({ value: 1, unit: 'lb' })).toBe(0.45359237);
  });

  it('have sixteen ounces in a pound exactly', () => {
    expect(compare(multiply(KILOGRAMS_PER.oz, exact(16)), KILOGRAMS_PER.lb)).toBe(0);
  });

  it('have a thousand grams in a kilogram exactly', () => {
    expect(compare(multiply(KILOGRAMS_PER.g, exact(1000)), KILOGRAMS_PER.kg)).toBe(0);
  });

  it('convert 400 lb to 181.436948 kg', () => {
    expect(kilograms({ value: 400, unit: 'lb' })).toBe(181.436948);
  });

  it('leave kilograms as they are', () => {
    fc.assert(fc.property(written, (value) => kilograms({ value, unit: 'kg' }) === value));
  });

  it('come back from kilograms to the last places of a double', () => {
    fc.assert(
      fc.property(written, unit, (value, of) => {
        const back = inUnit(kilograms({ value, unit: of }), of);
        return Math.abs(back - value) <= 4 * Number.EPSILON * value;
      }),
    );
  });

  it('show a weight of two decimals in its own unit as it was written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000_000 }), unit, (hundredths, of) => {
        const text = `${Math.floor(hundredths / 100)}.${String(hundredths % 100).padStart(2, '0')}`;
        return massText(kilograms({ value: Number(text), unit: of }), of) === `${text} ${of}`;
      }),
      { numRuns: 1000 },
    );
  });

  it('show 312.4 lb with two decimals', () => {
    expect(massText(kilograms({ value: 312.4, unit: 'lb' }), 'lb')).toBe('312.40 lb');
  });
});

describe('prices', () => {
  it('come back from a price per kilogram', () => {
    fc.assert(
      fc.property(written, unit, (amount, of) => {
        const back = pricePerUnit(perKilogram(amount, of), of);
        return Math.abs(back - amount) <= 4 * Number.EPSILON * amount;
      }),
    );
  });

  it('cost the same by the pound as by the kilogram', () => {
    fc.assert(
      fc.property(written, written, unit, (amount, value, of) => {
        const byUnit = amount * value;
        const byKilogram = perKilogram(amount, of) * kilograms({ value, unit: of });
        return Math.abs(byKilogram - byUnit) <= 8 * Number.EPSILON * byUnit;
      }),
    );
  });

  it('make 2 a pound 4.409245 a kilogram', () => {
    expect(fixed(perKilogram(2, 'lb'), 6)).toBe('4.409245');
  });
});

describe('percents and fractions', () => {
  it('turn 27.13 percent into 0.2713 without noise', () => {
    expect(fractionOfPercent(27.13)).toBe(0.2713);
    expect(fractionOfPercent(6.25)).toBe(0.0625);
    expect(fractionOfPercent(0.07)).toBe(0.0007);
    expect(fractionOfPercent(1e-7)).toBe(1e-9);
  });

  it('turn 0.2713 into 27.13 percent without noise', () => {
    expect(percentOfFraction(0.2713)).toBe(27.13);
    expect(percentOfFraction(0.57)).toBe(57);
    expect(percentOfFraction(0.000156)).toBe(0.0156);
  });

  it('come back from either side as written', () => {
    fc.assert(
      fc.property(
        written,
        (value) =>
          percentOfFraction(fractionOfPercent(value)) === value &&
          fractionOfPercent(percentOfFraction(value)) === value,
      ),
    );
  });
});

describe('a number at fixed decimals', () => {
  it.each([
    [1.005, 2, '1.01'],
    [-1.005, 2, '-1.01'],
    [1.004999, 2, '1.00'],
    [0.5, 0, '1'],
    [-0.5, 0, '-1'],
    [1.5, 0, '2'],
    [2.5, 0, '3'],
    [0.125, 2, '0.13'],
    [999.995, 2, '1000.00'],
    [0, 2, '0.00'],
    [-0, 2, '0.00'],
    [-0.001, 2, '0.00'],
    [7, 3, '7.000'],
    [120, 0, '120'],
    [1e-7, 2, '0.00'],
    [1e-7, 7, '0.0000001'],
    [-1e-7, 8, '-0.00000010'],
    [1e21, 2, '1000000000000000000000.00'],
    [-1e21, 0, '-1000000000000000000000'],
    [1.5e22, 1, '15000000000000000000000.0'],
    [5e-324, 3, '0.000'],
    [8.345, 2, '8.35'],
    [10.235, 2, '10.24'],
  ] as const)('shows %d at %d decimals as %s', (value, decimals, text) => {
    expect(fixed(value, decimals)).toBe(text);
  });

  it('rounds half away from zero on the decimal digits', () => {
    fc.assert(
      fc.property(
        fc.oneof(finite, written),
        fc.integer({ min: 0, max: 12 }),
        (value, decimals) => fixed(value, decimals) === roundedOracle(value, decimals),
      ),
      { numRuns: 1000 },
    );
  });

  it('rounds every written tie away from zero', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99_999_999 }), fc.boolean(), (hundredths, negative) => {
        const cut = `${Math.floor(hundredths / 100)}.${String(hundredths % 100).padStart(2, '0')}`;
        const up = add(exact(cut), exact('0.01'));
        const shown = fixed(Number(`${negative ? '-' : ''}${cut}5`), 2);
        return compare(exact(shown.replace('-', '')), up) === 0 && shown.startsWith('-') === negative;
      }),
    );
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])('refuses %s', (value) => {
    expect(() => fixed(value, 2)).toThrow(RangeError);
  });
});
