import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Product, SeasoningBasis, SeasoningLine } from '../../src/batch/product.ts';
import { SEASONING_BASES } from '../../src/batch/product.ts';
import { add, exact, multiply, ONE, subtract, sum, toText } from '../../src/exact.ts';
import { FORMS } from '../../src/rules/forms.ts';
import type { Limit } from '../../src/rules/limit.ts';
import { lineLimits } from '../../src/rules/line-limits.ts';
import { COOKED, checkOne, limitOf, TEST_MATERIALS, testProduct } from '../helpers/materials.ts';

const MATERIALS = new Map(TEST_MATERIALS.map((material) => [material.id, material]));
const NITRITE = limitOf('us-424.21c-nitrite-comminuted');

const line = (
  materialId: string,
  rate: number,
  basis: SeasoningBasis = 'green weight',
  most = rate,
): SeasoningLine => ({ materialId, basis, minFraction: rate, maxFraction: most });
const product = (seasoning: readonly SeasoningLine[], given: Partial<Product> = {}) =>
  testProduct('cooked-sausage', {
    seasoning,
    process: { ...COOKED, yieldFraction: 0.9, fatLossFraction: 0 },
    ...given,
  });
const found = (of: Product, limits: readonly Limit[]) => lineLimits(of, MATERIALS, limits);

const salt = (basis: Limit['basis'], bound: number): Limit => ({
  ...NITRITE,
  id: 'salt',
  numerator: FORMS.saltPutIn,
  basis,
  bound,
  unit: 'percent',
});

describe('what a limit leaves of a line', () => {
  // 9 CFR 424.21(c) as inspectors' figures have it: 156 ppm of the green weight; a cure of 6.25 % nitrite.
  it('is the rate at which the line alone comes to the bound', () => {
    const [[limit] = []] = found(product([line('cure-6.25', 0.0024)]), [NITRITE]);
    expect(limit).toMatchObject({ limit: NITRITE, holds: true, bringsMost: true });
    expect(limit?.valueFraction).toBeCloseTo(150e-6, 15);
    expect(limit?.atMostFraction).toBeCloseTo(0.002496, 15);
    const [[beyond] = []] = found(product([line('cure-6.25', 0.0028)]), [NITRITE]);
    expect(beyond).toMatchObject({ holds: false });
    const [[at] = []] = found(product([line('cure-6.25', 0.002496)]), [NITRITE]);
    expect(at).toMatchObject({ holds: true });
  });

  it('is nothing where the material may not go in', () => {
    const none = limitOf('us-no-sulfite');
    const forbidden: Limit = { ...none, numerator: FORMS.saltPutIn };
    const lines = found(product([line('salt', 0.01), line('sage', 0.01)]), [forbidden]);
    expect(lines).toMatchObject([[{ atMostFraction: 0, holds: false }], []]);
  });

  it('counts other lines at the end of their range that leaves the most, and says who brings most', () => {
    const lines = found(
      product([line('salt', 0.02), line('cure-6.25', 0.0024), line('ice', 0, 'green weight', 0.25)]),
      [salt(FORMS.formula, 0.02)],
    );
    // 0.02 × (1 + 0.02 + 0.0024 + 0.25) less the salt of the cure, over 1 - 0.02.
    expect(lines[0]?.[0]).toMatchObject({ holds: true, bringsMost: true });
    expect(lines[1]?.[0]?.bringsMost ?? false).toBe(false);
    expect(lines[2]).toEqual([]);
  });

  it('is not said where rework may thin the seasonings', () => {
    const rework = { productIds: ['tested'], maxFraction: 0.1 };
    expect(found(product([line('cure-6.25', 0.0028)], { rework }), [NITRITE])).toEqual([[]]);
  });

  const rate = fc.integer({ min: 0, max: 90_000 }).map((millionths) => Number(`${millionths}e-6`));
  const lineOf = (materialId: string) =>
    fc.record({ materialId: fc.constant(materialId), basis: fc.constantFrom(...SEASONING_BASES), rate });

  it('decides as the weights of a batch are decided, on every basis', () => {
    fc.assert(
      fc.property(
        fc.tuple(lineOf('salt'), lineOf('cure-6.25'), lineOf('sage'), lineOf('ice')),
        fc.constantFrom(FORMS.greenWeight, FORMS.formula, FORMS.finished),
        fc.integer({ min: 1, max: 200_000 }).map((millionths) => Number(`${millionths}e-6`)),
        (lines, basis, bound) => {
          const limit = salt(basis, bound);
          const of = product(lines.map(({ materialId, basis: on, rate: at }) => line(materialId, at, on)));
          const check = checkOne(limit, weighed(of), of.process);
          for (const [limitOfLine] of found(of, [limit])) {
            if (limitOfLine) expect(limitOfLine.holds).toBe(check.holds);
          }
          const [ofSalt] = found(of, [limit])[0] ?? [];
          expect(ofSalt?.holds ?? true).toBe(check.holds);
        },
      ),
    );
  });

  /** A batch with exactly these rates: meat and lines times the same number, so that all are decimals. */
  function weighed({ seasoning, process }: Product): [string, string][] {
    const of = (basis: SeasoningBasis) =>
      sum(seasoning.filter((each) => each.basis === basis).map(({ maxFraction }) => exact(maxFraction)));
    const yielded = exact(process.yieldFraction);
    const meat = subtract(subtract(ONE, of('batch')), multiply(yielded, of('finished weight')));
    const batch = add(ONE, of('green weight'));
    const on = { 'green weight': meat, batch, 'finished weight': multiply(yielded, batch) };
    return [
      ['pork', toText(meat)],
      ...seasoning.map(({ materialId, basis, maxFraction }): [string, string] => [
        materialId,
        toText(multiply(exact(maxFraction), on[basis])),
      ]),
    ];
  }
});
