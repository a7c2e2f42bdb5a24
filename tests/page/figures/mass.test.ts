import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { massText, parseMass, poundsAndOunces } from '../../../src/page/figures/mass.ts';
import { kilograms } from '../../../src/units.ts';

describe('a weight as it is typed', () => {
  it.each([
    ['120.5', { text: '120.5', value: 120.5, unit: 'lb' }],
    ['120,5 kg', { text: '120.5', value: 120.5, unit: 'kg' }],
    ['3 lb 4 oz', { text: '3.25', value: 3.25, unit: 'lb' }],
    ['3lb 8.0oz', { text: '3.5', value: 3.5, unit: 'lb' }],
    ['12 oz', { text: '12', value: 12, unit: 'oz' }],
    ['450 g', { text: '450', value: 450, unit: 'g' }],
    ['2 lbs', { text: '2', value: 2, unit: 'lb' }],
  ])('%s', (typed, mass) => {
    expect(parseMass(typed, 'lb', '.')).toEqual({ kind: 'mass', ...mass });
  });

  it.each(['3 lb 16 oz', 'heavy', '3 lb x oz', '5 st', '-'])('%s is no weight', (typed) => {
    expect(parseMass(typed, 'lb', '.').kind).toBe('wrong');
  });

  it('keeps every digit that the scale shows', () => {
    expect(parseMass('120.50', 'lb', '.')).toMatchObject({ text: '120.50' });
  });
});

describe('a weight as it is shown', () => {
  it('is the weight to half a hundredth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5000, noNaN: true }),
        fc.constantFrom('lb', 'kg'),
        (massKg, units) => {
          const shown = Number(massText(massKg, units, '.').split(' ')[0]);
          expect(Math.abs(kilograms({ value: shown, unit: units }) - massKg)).toBeLessThanOrEqual(0.0050001);
        },
      ),
    );
  });

  it('never has sixteen ounces beside its pounds', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 500, noNaN: true }), (massKg) => {
        const [, pounds = '', ounces = ''] =
          /^(\d+) lb ([\d.]+) oz$/.exec(poundsAndOunces(massKg, '.')) ?? [];
        expect(Number(ounces)).toBeLessThan(16);
        const shownKg = kilograms({ value: Number(pounds) * 16 + Number(ounces), unit: 'oz' });
        expect(Math.abs(shownKg - massKg)).toBeLessThan(0.00142);
      }),
    );
  });
});
