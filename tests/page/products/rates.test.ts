import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, exact } from '../../../src/exact.ts';
import {
  digitsOf,
  fatWindow,
  fractionOf,
  inOtherUnit,
  mostDigits,
  perKilogramOf,
  RATE_UNITS,
} from '../../../src/page/products/rates.ts';

const decimal = fc
  .tuple(fc.integer({ min: 0, max: 99 }), fc.integer({ min: 0, max: 9999 }))
  .map(([whole, part]) => `${whole}.${String(part).padStart(4, '0')}`);
const unit = fc.constantFrom(...RATE_UNITS);

describe('rates of seasonings', () => {
  // An ounce is a sixteenth of a pound: NIST Handbook 44, Appendix C. 9 CFR 424.21(c) writes 1/4 oz to 100 lb for 156.25 ppm
  // and 8 oz to 100 lb for half a percent.
  it.each([
    ['0.25', '%', 0.0025],
    ['4', 'oz/100 lb', 0.0025],
    ['2.5', 'g/kg', 0.0025],
    ['0.25', 'oz/100 lb', 0.00015625],
    ['8', 'oz/100 lb', 0.005],
  ] as const)('reads %s %s', (digits, of, fraction) => {
    expect(fractionOf(digits, of)).toBe(fraction);
    expect(digitsOf(fraction, of)).toBe(digits);
  });

  it('keeps every fraction, written in any unit and read again', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), unit, (fraction, of) => {
        expect(fractionOf(digitsOf(fraction, of), of)).toBe(fraction);
      }),
    );
  });

  it('changes the unit of what is typed without changing what it means', () => {
    fc.assert(
      fc.property(decimal, unit, unit, (digits, from, to) => {
        const other = inOtherUnit(digits, from, to, '.');
        expect(fractionOf(other, to)).toBe(fractionOf(digits, from));
        expect(compare(exact(inOtherUnit(other, to, from, '.')), exact(digits))).toBe(0);
      }),
    );
    expect(inOtherUnit('0,24', '%', 'oz/100 lb', ',')).toBe('3,84');
    expect(inOtherUnit('1.8x', '%', 'g/kg', '.')).toBe('1.8x');
    expect(inOtherUnit('', '%', 'g/kg', '.')).toBe('');
  });

  it('never writes a most that goes beyond it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), unit, (fraction, of) => {
        expect(fractionOf(mostDigits(fraction, of), of)).toBeLessThanOrEqual(fraction + 1e-14);
      }),
    );
    expect(mostDigits(0.002496, '%')).toBe('0.2496');
    expect(mostDigits(0.002496, 'oz/100 lb')).toBe('3.99');
    expect(mostDigits(0.0025, 'oz/100 lb')).toBe('4');
    // The noise of a division does not take a digit away.
    expect(mostDigits(0.0024999999999999996, '%')).toBe('0.25');
  });

  it('knows the fat behind a lean point', () => {
    expect(fatWindow('80')).toEqual({ min: '18', max: '20' });
    expect(fatWindow('92.7')).toEqual({ min: '5.3', max: '7.3' });
    expect(fatWindow('99')).toEqual({ min: '0', max: '1' });
    expect(fatWindow('120')).toBeUndefined();
  });

  it('reads a price per pound as one per kilogram', () => {
    expect(perKilogramOf('1', 'lb')).toBeCloseTo(2.2046226218, 9);
    expect(perKilogramOf('2.345', 'kg')).toBe(2.345);
  });
});
