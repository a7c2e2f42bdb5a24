import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, type Exact, exact, toNumber, ZERO } from '../../src/exact.ts';
import {
  type ChanceRow,
  keepsMargin,
  missing,
  solveWithChance,
  tangentCut,
} from '../../src/solver/chance.ts';
import { activity, type ExactModel, type ExactRow, leastCostBound } from '../../src/solver/exact-model.ts';
import { normalProbability, normalQuantile } from '../../src/solver/normal.ts';
import type { PricedOutcome } from '../../src/solver/prices.ts';
import { ENGINES } from '../helpers/engines.ts';

const row = (
  name: string,
  coefficients: readonly (number | string)[],
  ends: { readonly lower?: number; readonly upper?: number },
): ExactRow => ({
  name,
  ...(ends.lower !== undefined && { lower: exact(ends.lower) }),
  ...(ends.upper !== undefined && { upper: exact(ends.upper) }),
  terms: coefficients.map((coefficient, column) => ({ column, coefficient: exact(coefficient) })),
});

/**
 * A cattle feed of barley, oats, sesame cake and groundnut meal that holds 21 % protein with 95 % probability.
 * Bracken and McCormick, Selected Applications of Nonlinear Programming (1968), pp. 94-100; Hock and Schittkowski,
 * Test Examples for Nonlinear Programming Codes (1981), problem 73 (data read in a model library copy "CHANCE",
 * optimum in the documentation of SciPy, optimize.shgo).
 */
const FEED: ExactModel = {
  columns: [24.55, 26.75, 39, 40.5].map((cost) => ({ cost: exact(cost), lower: ZERO, upper: exact(1) })),
  rows: [
    row('shares', [1, 1, 1, 1], { lower: 1, upper: 1 }),
    row('fat', [2.3, 5.6, 11.1, 1.3], { lower: 5 }),
    row('protein', [12, 11.9, 41.8, 52.1], { lower: 21 }),
  ],
};
const PROTEIN: ChanceRow = {
  row: 2,
  z: 1.645,
  sds: [0.28, 0.19, 20.5, 0.62].map((variance) => exact(Math.sqrt(variance))),
};
const FEED_OPTIMUM = 29.894378;
const FEED_SHARES = [0.6355216, 0, 0.3127019, 0.05177655];

const optimal = (outcome: PricedOutcome) => {
  if (outcome.status !== 'optimal') throw new Error(`the model is ${outcome.status}`);
  return outcome;
};
const exactly = (values: readonly number[]): Exact[] => values.map((value) => exact(value));

describe('the feed mix of Hock and Schittkowski, problem 73', () => {
  const { outcome, cuts, solves } = solveWithChance(FEED, [PROTEIN], ENGINES);
  const best = optimal(outcome);

  it('costs 29.894378 in the published shares', () => {
    console.log(`problem 73: ${solves} solves, ${cuts.length} planes, cost ${best.cost.toFixed(9)}`);
    expect(Number(best.cost.toFixed(6))).toBe(FEED_OPTIMUM);
    best.values.forEach((share, column) => {
      expect(Math.abs(share - (FEED_SHARES[column] as number))).toBeLessThan(1e-6);
    });
  });

  it('holds its margin, which the published row says again in plain arithmetic', () => {
    const [a = 0, b = 0, c = 0, d = 0] = best.values;
    const margin = 1.645 * Math.sqrt(0.28 * a ** 2 + 0.19 * b ** 2 + 20.5 * c ** 2 + 0.62 * d ** 2);
    expect(12 * a + 11.9 * b + 41.8 * c + 52.1 * d - margin).toBeGreaterThan(21 - 1e-6);
    expect(missing(FEED, PROTEIN, best.values)).toBeLessThan(1e-6);
  });

  it('is proven from below by its own planes and row prices, within a millionth', () => {
    const withCuts = { columns: FEED.columns, rows: [...FEED.rows, ...cuts.map((cut) => cut.row)] };
    const bound = toNumber(leastCostBound(withCuts, best.rowPrices));
    // The published optimum is printed to six decimals; one digit more is 29.8943782 (Hock and Schittkowski).
    expect(bound).toBeLessThanOrEqual(29.8943782);
    expect(FEED_OPTIMUM - bound).toBeLessThan(1e-6);
  });

  it('costs 28.942648 when every figure is certain (a constructed value, of the linear problem)', () => {
    const certain = solveWithChance(FEED, [], ENGINES);
    expect(certain.solves).toBe(1);
    expect(certain.cuts).toEqual([]);
    const { cost, values } = optimal(certain.outcome);
    expect(Number(cost.toFixed(6))).toBe(28.942648);
    // By hand: no groundnut meal, and shares, fat and protein tight in the other three.
    expect(values.map((share) => Number(share.toFixed(6)))).toEqual([0.685245, 0.012699, 0.302056, 0]);
    expect(missing(FEED, PROTEIN, values)).toBeGreaterThan(1);
  });

  it('starts from planes already known and then needs fewer solves', () => {
    const again = solveWithChance(FEED, [PROTEIN], ENGINES, cuts);
    expect(again.solves).toBeLessThan(solves);
    expect(Number(optimal(again.outcome).cost.toFixed(6))).toBe(FEED_OPTIMUM);
  });

  it('has no mix at all when the margin asks for more than any feed has', () => {
    const sure = { ...PROTEIN, z: 1000 };
    expect(solveWithChance(FEED, [sure], ENGINES).outcome.status).toBe('infeasible');
  });
});

const decimal = (min: number, max: number, places: number) =>
  fc
    .integer({ min: min * 10 ** places, max: max * 10 ** places })
    .map((whole) => Number((whole / 10 ** places).toFixed(places)));

interface Margin {
  readonly model: ExactModel;
  readonly chance: ChanceRow;
  /** Where the plane is laid, and other weights. */
  readonly at: readonly number[];
  readonly other: readonly number[];
}

/** One row over a few columns, a margin on it, and two sets of weights. */
const margins: fc.Arbitrary<Margin> = fc
  .record({ columns: fc.integer({ min: 1, max: 6 }), isUpper: fc.boolean() })
  .chain(({ columns, isUpper }) => {
    const each = <T>(one: fc.Arbitrary<T>) => fc.array(one, { minLength: columns, maxLength: columns });
    return fc.record({
      perKg: each(decimal(-1, 1, 3)),
      sds: each(fc.oneof(fc.constant(0), decimal(0, 1, 4))),
      z: fc.constantFrom(0.5, 1.2815515655, 1.645, 2.326347874, 5),
      bound: fc.oneof(fc.constant(0), decimal(-50, 50, 2)),
      at: each(fc.oneof(fc.constant(0), decimal(0, 100, 6))),
      other: each(fc.oneof(fc.constant(0), decimal(0, 100, 6))),
      isUpper: fc.constant(isUpper),
    });
  })
  .map(({ perKg, sds, z, bound, at, other, isUpper }) => ({
    model: {
      columns: perKg.map(() => ({ cost: ZERO, lower: ZERO, upper: exact(100) })),
      rows: [row('limit', perKg, isUpper ? { upper: bound } : { lower: bound })],
    },
    chance: { row: 0, z, sds: exactly(sds) },
    at,
    other,
  }));

/** The last weights on the way from one point to another that still keep the margin, to 50 halvings. */
function lastKept({ model, chance }: Margin, from: readonly number[], to: readonly number[]) {
  const between = (share: number) =>
    from.map((value, column) => value + share * ((to[column] as number) - value));
  let [kept, missed] = [0, 1];
  for (let halving = 0; halving < 50; halving++) {
    const middle = (kept + missed) / 2;
    if (keepsMargin(model, chance, exactly(between(middle)))) kept = middle;
    else missed = middle;
  }
  return between(kept);
}

const isWithin = (cut: ExactRow, point: readonly number[]) => {
  const value = activity(cut, exactly(point));
  return (!cut.upper || compare(value, cut.upper) <= 0) && (!cut.lower || compare(value, cut.lower) >= 0);
};

describe('a plane laid at a margin', () => {
  it('is kept, in whole digits, by every weights that keep the margin, also on its very edge', () => {
    let [kept, edges] = [0, 0];
    fc.assert(
      fc.property(margins, (margin) => {
        const { model, chance, at, other } = margin;
        const cut = tangentCut(model, chance, at);
        const points = [at, other].filter((point) => keepsMargin(model, chance, exactly(point)));
        kept += points.length;
        if (points.length === 1) {
          const [inside] = points as [readonly number[]];
          edges++;
          points.push(lastKept(margin, inside, inside === at ? other : at));
        }
        return points.every((point) => isWithin(cut, point));
      }),
      { numRuns: 1500, seed: 73 },
    );
    expect(kept).toBeGreaterThan(300);
    expect(edges).toBeGreaterThan(100);
  });

  it('cuts off the weights it was laid at, where they miss the margin', () => {
    let cutOff = 0;
    fc.assert(
      fc.property(margins, ({ model, chance, at }) => {
        if (missing(model, chance, at) < 1e-6) return true;
        cutOff++;
        return !isWithin(tangentCut(model, chance, at), at);
      }),
      { numRuns: 1000, seed: 74 },
    );
    expect(cutOff).toBeGreaterThan(200);
  });

  it('misses in doubles what the exact margin says is missed, away from the edge', () => {
    const counts = { kept: 0, missed: 0 };
    fc.assert(
      fc.property(margins, ({ model, chance, other }) => {
        const by = missing(model, chance, other);
        if (Math.abs(by) < 1e-9) return true;
        const isKept = keepsMargin(model, chance, exactly(other));
        counts[isKept ? 'kept' : 'missed']++;
        return isKept === by < 0;
      }),
      { numRuns: 2000, seed: 75 },
    );
    expect(Math.min(counts.kept, counts.missed)).toBeGreaterThan(300);
  });

  it('is exact about a margin that comes out even: 3 and 4 make 5', () => {
    const model: ExactModel = { columns: [], rows: [row('limit', [1, 1], { upper: 12 })] };
    const chance = { row: 0, z: 1, sds: [exact(3), exact(4)] };
    // At 1 and 1 there is room for 10, which is two times √(3² + 4²).
    expect(keepsMargin(model, { ...chance, z: 2 }, exactly([1, 1]))).toBe(true);
    expect(keepsMargin(model, { ...chance, z: 2.000000000001 }, exactly([1, 1]))).toBe(false);
    expect(missing(model, { ...chance, z: 2 }, [1, 1])).toBe(0);
  });
});

describe('a plane laid at dust', () => {
  it('is as steep as one laid at a kilogram: a single lot has but one direction', () => {
    const model: ExactModel = { columns: [], rows: [row('limit', [1], { upper: 12 })] };
    const steepness = (massKg: number) => {
      const cut = tangentCut(model, { row: 0, z: 1, sds: [exact(1)] }, [massKg]);
      return toNumber(cut.terms[0]?.coefficient ?? ZERO);
    };
    expect(steepness(1)).toBe(2);
    // Its square is less than two of the smallest doubles.
    expect(steepness(2.81e-162)).toBeCloseTo(2, 9);
  });
});

describe('the normal distribution', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 26.1, read in secondary copies that
  // print its figures to these digits.
  it.each([
    [0, 0.5],
    [0.1, 0.539827837277029],
    [0.5, 0.691462461274013],
    [1, 0.841344746068543],
    [1.4, 0.919243340766229],
    [1.6, 0.945200708300442],
    [2, 0.977249868051821],
    [2.5, 0.993790334674224],
    [3, 0.99865010196837],
    [3.5, 0.9997673709],
    [4, 0.9999683288],
    [5, 0.9999997133],
  ])('is at most %d with the probability in the tables, %d', (z, probability) => {
    const digits = z > 3 ? 10 : 14;
    expect(normalProbability(z)).toBeCloseTo(probability, digits);
    expect(normalProbability(-z)).toBeCloseTo(1 - probability, digits);
  });

  // From memory, verify: percentage points as in Abramowitz and Stegun, table 26.5, to six decimals.
  it.each([
    [0.9, 1.281552],
    [0.95, 1.644854],
    [0.975, 1.959964],
    [0.99, 2.326348],
    [0.995, 2.575829],
    [0.999, 3.090232],
  ])('stays with probability %d under %d', (probability, z) => {
    expect(Number(normalQuantile(probability).toFixed(6))).toBe(z);
    expect(Number(normalQuantile(1 - probability).toFixed(6))).toBe(-z);
  });

  it('goes from z to probability and back', () => {
    fc.assert(
      fc.property(fc.double({ min: -4.5, max: 4.5, noNaN: true }), (z) => {
        const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
        return Math.abs(normalQuantile(normalProbability(z)) - z) < 1e-12 + 1e-15 / density;
      }),
    );
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }),
        (probability) => Math.abs(normalProbability(normalQuantile(probability)) - probability) < 1e-14,
      ),
    );
  });

  it('never falls as z grows, is one beyond six deviations, and is no number of none', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -7, max: 7, noNaN: true }),
        fc.double({ min: 1e-6, max: 1, noNaN: true }),
        (z, more) => normalProbability(z) <= normalProbability(z + more) + 1e-15,
      ),
    );
    expect([normalProbability(-9), normalProbability(9)]).toEqual([0, 1]);
    expect(normalProbability(Number.NaN)).toBeNaN();
  });
});
