import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, type Exact, exact, multiply, subtract, toNumber, toText } from '../../../src/exact.ts';
import { CA_CALORIES, CA_PERCENT, CA_ROUNDING } from '../../../src/labels/nutrition/canada-rules.ts';
import { EU_ROUNDING, euText } from '../../../src/labels/nutrition/eu-panel.ts';
import { type Band, nearest, rounded, roundedText } from '../../../src/labels/nutrition/rounding.ts';
import {
  US_CALORIES,
  US_PERCENT,
  US_PERCENT_OF_MINERALS,
  US_ROUNDING,
} from '../../../src/labels/nutrition/us-rules.ts';

const named = (market: string, rules: Readonly<Record<string, readonly Band[]>>) =>
  Object.entries(rules).map(([nutrient, rule]) => [`${market} ${nutrient}`, rule] as const);
const RULES: readonly (readonly [string, readonly Band[]])[] = [
  ...named('us', {
    ...US_ROUNDING,
    calories: US_CALORIES,
    percent: US_PERCENT,
    minerals: US_PERCENT_OF_MINERALS,
  }),
  ...named('eu', EU_ROUNDING),
  ...named('ca', { ...CA_ROUNDING, calories: CA_CALORIES, percent: CA_PERCENT }),
];

const shown = (rule: readonly Band[], value: string) => roundedText(rounded(exact(value), rule));

/** Decimals of up to four places up to 1000, ties and ends of bands among them. */
const amount = fc
  .oneof(
    fc.integer({ min: 0, max: 10_000_000 }),
    fc.integer({ min: 0, max: 4000 }).map((quarters) => quarters * 2500),
  )
  .map((digits): Exact => ({ digits: BigInt(digits), scale: 4 }));

describe('rounding for a panel', () => {
  it.each(RULES)('never turns more into less: %s', (_, rule) => {
    fc.assert(
      fc.property(amount, amount, (a, b) => {
        const [less, more] = compare(a, b) <= 0 ? [a, b] : [b, a];
        expect(compare(rounded(less, rule).value, rounded(more, rule).value)).toBeLessThanOrEqual(0);
      }),
    );
  });

  it.each(RULES)('stays within half a step, and goes up at it: %s', (_, rule) => {
    fc.assert(
      fc.property(amount, (value) => {
        const band = rule.find(({ below, upTo }) =>
          below ? compare(value, below) < 0 : !upTo || compare(value, upTo) <= 0,
        );
        if (!band || !('step' in band)) return;
        const { value: found } = rounded(value, rule);
        const half = multiply(band.step, exact('0.5'));
        expect(compare(subtract(found, value), half)).toBeLessThanOrEqual(0);
        expect(compare(subtract(value, found), half)).toBeLessThan(0);
      }),
    );
  });

  // 94 mg are 2 percent of 4700 mg and must be declared; the nearest step below them, 90, no longer need be.
  it.each(RULES)('leaves alone what it has rounded: %s', (name, rule) => {
    fc.assert(
      fc.property(amount, (value) => {
        const once = rounded(value, rule);
        if (once.words || (name === 'us potassium' && toNumber(once.value) === 90)) return;
        const again = rounded(once.value, rule);
        expect(compare(again.value, once.value)).toBe(0);
      }),
    );
  });

  it('finds the tie that a double hides, and only that', () => {
    const fat = US_ROUNDING.fat;
    expect(shown(fat, '2.25')).toBe('2.5');
    expect(shown(fat, '2.2499999999999999999999')).toBe('2');
    // In doubles three times 1.15 lies below 3.45; as decimals it is the tie itself.
    expect(1.15 * 3).toBeLessThan(3.45);
    expect(toText(nearest(multiply(exact(1.15), exact(3)), exact('0.1')))).toBe('3.5');
    expect(shown(fat, '4.75')).toBe('5');
    expect(shown(fat, '5.5')).toBe('6');
    expect(shown(US_ROUNDING.sodium, '52.5')).toBe('55');
    expect(shown(US_ROUNDING.sodium, '52.4999999999')).toBe('50');
    expect(shown(US_CALORIES, '105')).toBe('110');
    expect(toText(nearest(exact('0.05'), exact('0.1')))).toBe('0.1');
  });

  // 9 CFR 317.309(c)(3), (6), (7), edition of 2015.
  it('says less than where a figure would promise too much', () => {
    expect(['1.99', '2', '4.9', '5', '5.1', '7.5'].map((mg) => shown(US_ROUNDING.cholesterol, mg))).toEqual([
      '0',
      'less than 5',
      'less than 5',
      'less than 5',
      '5',
      '10',
    ]);
    expect(['0.49', '0.5', '0.99', '1', '1.5'].map((g) => shown(US_ROUNDING.protein, g))).toEqual([
      '0',
      'less than 1',
      'less than 1',
      '1',
      '2',
    ]);
  });

  // 9 CFR 317.309(c)(8)(iii); below 2 percent zero may be declared.
  it('takes the steps of vitamins and minerals', () => {
    const percents = ['1.9', '2', '2.9', '3', '10', '10.1', '12.4', '12.5', '50', '50.1', '55', '64.9'];
    expect(percents.map((percent) => shown(US_PERCENT_OF_MINERALS, percent))).toEqual([
      '0',
      '2',
      '2',
      '4',
      '10',
      '10',
      '10',
      '15',
      '50',
      '50',
      '60',
      '60',
    ]);
  });

  // Guidance of the Commission, December 2012.
  it('prints the decimals of the band that the figure comes to lie in', () => {
    const text = (nutrient: keyof typeof EU_ROUNDING, value: string) =>
      euText(rounded(exact(value), EU_ROUNDING[nutrient]), EU_ROUNDING[nutrient]);
    expect(['0', '0.5', '0.51', '8', '9.94', '9.95', '10.4', '10.5'].map((g) => text('fat', g))).toEqual([
      '0',
      '< 0.5',
      '0.5',
      '8.0',
      '9.9',
      '10',
      '10',
      '11',
    ]);
    expect(['0', '0.0125', '0.0126', '0.994', '0.995', '1.25'].map((g) => text('salt', g))).toEqual([
      '0',
      '< 0.01',
      '0.01',
      '0.99',
      '1.0',
      '1.3',
    ]);
    expect(['0.1', '0.11', '3.45'].map((g) => text('saturated fat', g))).toEqual(['< 0.1', '0.1', '3.5']);
  });
});
