import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Check } from '../../src/rules/check.ts';
import { checkOne, limitOf, RAW, type Weighed } from '../helpers/materials.ts';

/**
 * Added water by the formula of 9 CFR 318.22(b), AW = TW − (TP − (P − 1.0))4, read in a public copy of the 2015
 * annual edition. The product takes the worse of two linear forms; here the formula itself is worked out in whole
 * tenths of a milligram and must decide every batch as the limit does.
 */

/** Water, protein of meat, other protein and fat in hundredths of the weight, as in the table of test materials. */
const HUNDREDTHS: Readonly<
  Record<string, readonly [water: number, meat: number, other: number, fat: number]>
> = {
  pork: [60, 15, 0, 20],
  chicken: [74, 20, 0, 5],
  'pork-liver': [70, 20, 0, 4],
  'pork-fat-70': [22, 6, 0, 70],
  water: [100, 0, 0, 0],
  'soy-flour': [0, 0, 50, 0],
  'isolated-soy-protein': [0, 0, 90, 0],
  salt: [0, 0, 0, 0],
};
const IDS = Object.keys(HUNDREDTHS);

interface Batch {
  /** Whole grams of each material, in the order above. */
  readonly grams: readonly number[];
  /** Finished weight and fat lost, in whole percent of the raw weight. */
  readonly yieldPercent: number;
  readonly fatLossPercent: number;
}

const grams = (most: number) => fc.integer({ min: 0, max: most });
const batches: fc.Arbitrary<Batch> = fc.record({
  grams: fc
    .tuple(
      grams(60_000),
      grams(10_000),
      grams(10_000),
      grams(20_000),
      grams(30_000),
      grams(4_000),
      grams(3_000),
      grams(2_000),
    )
    .filter((all) => all.some((one) => one > 0)),
  yieldPercent: fc.integer({ min: 80, max: 100 }),
  fatLossPercent: fc.constantFrom(0, 0, 1, 2),
});

/** All in ten-thousandths of a gram: the finished weight, its added water by the formula, its fat. */
function byTheFormula({ grams, yieldPercent, fatLossPercent }: Batch) {
  const rawGrams = grams.reduce((sum, one) => sum + one, 0);
  const [water, meat, other, fat] = [0, 1, 2, 3].map((part) =>
    IDS.reduce((sum, id, at) => sum + 100 * (grams[at] ?? 0) * (HUNDREDTHS[id]?.[part] ?? 0), 0),
  ) as [number, number, number, number];
  const lostWater = 100 * rawGrams * (100 - yieldPercent - Math.min(fatLossPercent, 100 - yieldPercent));
  const finished = 100 * rawGrams * yieldPercent;
  const allowance = finished / 100;
  // P − 1.0 as written; where P is below the allowance nothing is taken away and nothing is given.
  const beyond = Math.max(0, other - allowance);
  const addedWater = water - lostWater - 4 * (meat + other - beyond);
  const lostFat = 100 * rawGrams * Math.min(fatLossPercent, 100 - yieldPercent);
  return { finished, addedWater, fat: fat - lostFat, other, allowance };
}

function check(batch: Batch, limitId: string): Check {
  const lines: Weighed[] = IDS.map((id, at) => [id, String(batch.grams[at] ?? 0), 'g']);
  const process = {
    ...RAW,
    yieldFraction: batch.yieldPercent / 100,
    fatLossFraction: Math.min(batch.fatLossPercent, 100 - batch.yieldPercent) / 100,
  };
  return checkOne(limitOf(limitId), lines, process);
}

describe('the limit that stands for the formula of added water', () => {
  it.each([
    ['10 % of added water', 'us-319.140-added-water', 10, false],
    ['40 % of fat and added water', 'us-319.180a-fat-and-added-water', 40, true],
  ] as const)('decides and shows what the formula does: %s', (_, limitId, percent, withFat) => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(batches, (batch) => {
        const { finished, addedWater, fat, other, allowance } = byTheFormula(batch);
        const have = addedWater + (withFat ? fat : 0);
        const lawful = 100 * have <= percent * finished;
        const { holds, value } = check(batch, limitId);
        expect(holds).toBe(lawful);
        expect(value).toBeCloseTo(have / finished, 12);
        seen.add(`${other <= allowance ? 'up to' : 'beyond'} the allowance, ${lawful}`);
      }),
      { numRuns: 2000, seed: 31822 },
    );
    expect(seen.size).toBe(4);
  });
});
