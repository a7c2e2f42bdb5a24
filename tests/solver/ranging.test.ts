import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact, toNumber } from '../../src/exact.ts';
import { leastCostBound } from '../../src/solver/exact-model.ts';
import { type KeptModel, keepOpen } from '../../src/solver/keep-open.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';
import { reducedCosts, solvePriced } from '../../src/solver/prices.ts';
import { type CostRange, costRange, costRanges, entryCost, type Optimal } from '../../src/solver/ranging.ts';
import { ENGINES } from '../helpers/engines.ts';
import { solveWithHighs } from '../helpers/highs.ts';

const FREE = Number.POSITIVE_INFINITY;

const row = (name: string, coefficients: readonly number[], lower: number, upper: number): Row => ({
  name,
  lower,
  upper,
  terms: coefficients.map((coefficient, column) => ({ column, coefficient })),
});

function optimumOf(model: LinearModel) {
  const outcome = solvePriced(model, ENGINES);
  if (outcome.status !== 'optimal') throw new Error(`the model is ${outcome.status}`);
  return outcome;
}

/** One answer of ranging about a model, and the model must come out of it as it went in. */
function about<Answer>(model: LinearModel, ask: (kept: Parameters<typeof entryCost>[0]) => Answer): Answer {
  return keepOpen(model, ENGINES, (kept) => {
    const answer = ask(kept);
    expect(kept.model()).toEqual(model);
    return answer;
  });
}
const entry = (model: LinearModel, column: number, optimal: Optimal = optimumOf(model)) =>
  about(model, (kept) => entryCost(kept, column, optimal));
const range = (model: LinearModel, column: number, optimal: Optimal = optimumOf(model)) =>
  about(model, (kept) => costRange(kept, column, optimal));

/** Least cost by another code, with one column at another cost or with more of it. */
function leastWith(model: LinearModel, column: number, change: { cost?: number; upper?: number }): number {
  const columns = model.columns.map((each, index) => (index === column ? { ...each, ...change } : each));
  const answer = solveWithHighs({ columns, rows: model.rows });
  if (answer.status !== 'optimal') throw new Error(`the model is ${answer.status}`);
  return answer.cost;
}

describe('canned meat of six ingredients', () => {
  // Data: documentation of the modelling library PuLP, case study "A Blending Problem". The rest by hand: 60 g of beef
  // and 40 g of gel hold just the 6 g of fat, so a gram of fat costs (0.008 − 0.001) / 0.1 = 0.07 and a gram of
  // anything else is worth 0.001 + 0.07 × its fat. Reduced costs 0.0064, 0.0013, 0.0003 and 0.0033.
  const prices = [0.013, 0.008, 0.01, 0.002, 0.005, 0.001];
  const model: LinearModel = {
    columns: prices.map((cost) => ({ cost, lower: 0, upper: 100 })),
    rows: [
      row('size', [1, 1, 1, 1, 1, 1], 100, 100),
      row('protein', [0.1, 0.2, 0.15, 0, 0.04, 0], 8, FREE),
      row('fat', [0.08, 0.1, 0.11, 0.01, 0.01, 0], 6, FREE),
      row('fibre', [0.001, 0.005, 0.003, 0.1, 0.15, 0], -FREE, 2),
      row('salt', [0.002, 0.005, 0.007, 0.002, 0.008, 0], -FREE, 0.4),
    ],
  };
  const optimum = optimumOf(model);

  it('has the reduced costs worked out by hand', () => {
    const rest = reducedCosts(model, optimum.rowPrices);
    [0.0064, 0, 0.0013, 0.0003, 0.0033, 0].forEach((byHand, column) => {
      expect(rest[column]).toBeCloseTo(byHand, 9);
    });
  });

  it.each([
    ['chicken', 0, 0.013 - 0.0064],
    ['mutton', 2, 0.01 - 0.0013],
    ['rice', 3, 0.002 - 0.0003],
    ['wheat bran', 4, 0.005 - 0.0033],
  ])('would take %s below its price less its reduced cost', (_, column, below) => {
    expect(entry(model, column)).toBeCloseTo(below, 9);
  });

  it('keeps its beef up to the price at which mutton is as good, and down to that of the gel', () => {
    // Fat by mutton: 0.009 / 0.11 a gram, so beef at 0.001 + 0.1 × 0.009 / 0.11.
    const { from, to } = range(model, 1);
    expect(to).toBeCloseTo(0.001 + (0.1 * 0.009) / 0.11, 9);
    // Below the price of gel, beef pushes the gel out.
    expect(from).toBeCloseTo(0.001, 9);
  });
});

describe('a degenerate optimum', () => {
  // Fat at most 20 % of 100 kg from 10 % at 8 and 50 % at 3: 75 kg and 25 kg, 675. Of the lean just 75 kg are there.
  const model: LinearModel = {
    columns: [
      { cost: 8, lower: 0, upper: 75 },
      { cost: 3, lower: 0, upper: 100 },
      { cost: 10, lower: 0, upper: 100 },
    ],
    rows: [row('size', [1, 1, 1], 100, 100), row('fat', [0.1, 0.5, 0.2], -FREE, 20)],
  };
  const exactModel = {
    columns: model.columns.map(({ cost, lower, upper }) => ({
      cost: exact(cost),
      lower: exact(lower),
      upper: exact(upper),
    })),
    rows: [
      {
        name: 'size',
        lower: exact(100),
        upper: exact(100),
        terms: [0, 1, 2].map((column) => ({ column, coefficient: exact(1) })),
      },
      {
        name: 'fat',
        upper: exact(20),
        terms: [0.1, 0.5, 0.2].map((coefficient, column) => ({ column, coefficient: exact(coefficient) })),
      },
    ],
  };

  it('has row prices that prove it and yet tell a wrong price of entry', () => {
    // 13 a kilogram, 20 a kilogram of fat, 3 a kilogram of the lean that is used up.
    const prices = [13, -20];
    expect(toNumber(leastCostBound(exactModel, prices))).toBe(675);
    expect(10 - (reducedCosts(model, prices)[2] as number)).toBeCloseTo(9, 9);
    expect(leastWith(model, 2, { cost: 8.9 })).toBeCloseTo(675, 9);
  });

  it('takes the 20 % lot only below three quarters of the lean and a quarter of the fat', () => {
    expect(entry(model, 2)).toBeCloseTo(0.75 * 8 + 0.25 * 3, 9);
    expect(leastWith(model, 2, { cost: 6.74 })).toBeLessThan(675);
  });

  it('stays best over the whole range of each of its prices', () => {
    // The lean may rise until the 20 % lot at 10 does the same: 0.75 c + 0.75 = 10.
    const { from, to } = range(model, 0);
    expect(to).toBeCloseTo((10 - 0.75) / 0.75, 9);
    // All the lean there is goes in already: at a lower price it is still just that.
    expect(from).toBe(0);
  });
});

const decimal = (min: number, max: number, places: number) =>
  fc
    .integer({ min: Math.round(min * 10 ** places), max: Math.round(max * 10 ** places) })
    .map((whole) => Number((whole / 10 ** places).toFixed(places)));

/** Blends of a few lots with few different figures, so that ties and lots that just do are common. */
const blends: fc.Arbitrary<LinearModel> = fc
  .record({
    lots: fc.array(
      fc.record({
        cost: fc.oneof(fc.constantFrom(2, 3, 4, 5), decimal(1, 9, 2)),
        fat: fc.constantFrom(0.05, 0.1, 0.2, 0.3, 0.4, 0.5),
        protein: fc.constantFrom(0.12, 0.15, 0.18, 0.2),
        upper: fc.constantFrom(25, 50, 75, 100, 100),
      }),
      { minLength: 3, maxLength: 7 },
    ),
    mostFat: fc.constantFrom(0.2, 0.25, 0.3, 0.35),
    leastFat: fc.constantFrom(0, 0.1, 0.2),
    leastProtein: fc.constantFrom(0, 0.14, 0.16),
  })
  .map(({ lots, mostFat, leastFat, leastProtein }) => ({
    columns: lots.map(({ cost, upper }) => ({ cost, lower: 0, upper })),
    rows: [
      row(
        'size',
        lots.map(() => 1),
        100,
        100,
      ),
      row(
        'fat',
        lots.map(({ fat }) => fat),
        leastFat * 100,
        mostFat * 100,
      ),
      row(
        'protein',
        lots.map(({ protein }) => protein),
        leastProtein * 100,
        FREE,
      ),
    ],
  }));

const solvable = fc
  .sample(blends, { seed: 20310514, numRuns: 500 })
  .flatMap((model) =>
    solveWithHighs(model).status === 'optimal' ? [{ model, optimum: optimumOf(model) }] : [],
  );
const NONE = 1e-7;
const HAIR = 1e-3;
const SAME = 1e-7;

/** A lot on its bound or a row on one: more of them tight than lots are between their ends. */
function isDegenerate({ columns, rows }: LinearModel, values: readonly number[]): boolean {
  const inside = columns.filter(({ lower, upper }, column) => {
    const value = values[column] as number;
    return value > lower + NONE && value < upper - NONE;
  }).length;
  const tight = rows.filter(({ lower, upper, terms }) => {
    const value = terms.reduce((sum, term) => sum + term.coefficient * (values[term.column] as number), 0);
    return value < lower + 1e-6 || value > upper - 1e-6;
  }).length;
  return inside < tight;
}

describe('over random blends', () => {
  it('there are many, and many of them are degenerate', () => {
    const degenerate = solvable.filter(({ model, optimum }) => isDegenerate(model, optimum.values)).length;
    console.log(`ranging: ${solvable.length} blends, ${degenerate} of them degenerate`);
    expect(solvable.length).toBeGreaterThan(250);
    expect(degenerate).toBeGreaterThan(50);
  });

  it('a lot that is not used saves money below its price of entry, and none above', () => {
    const counts = { below: 0, never: 0 };
    for (const { model, optimum } of solvable) {
      model.columns.forEach(({ cost }, column) => {
        if ((optimum.values[column] as number) > NONE) return;
        const below = entry(model, column, optimum);
        if (below === undefined) {
          counts.never++;
          expect(leastWith(model, column, { cost: 0 })).toBeGreaterThan(optimum.cost - SAME);
          return;
        }
        counts.below++;
        expect(below).toBeLessThanOrEqual(cost);
        expect(leastWith(model, column, { cost: below - HAIR })).toBeLessThan(optimum.cost - 1e-6);
        const above = Math.min(cost, below + 1e-9);
        expect(leastWith(model, column, { cost: above })).toBeGreaterThan(optimum.cost - SAME);
      });
    }
    expect(counts.below).toBeGreaterThan(200);
    expect(counts.never).toBeGreaterThan(0);
  });

  it('a blend stays best between the ends of a price range, and is beaten beyond them', () => {
    const ends = { from: 0, to: 0, open: 0 };
    for (const { model, optimum } of solvable) {
      model.columns.forEach(({ cost }, column) => {
        const used = optimum.values[column] as number;
        if (used <= NONE) return;
        const { from, to } = range(model, column, optimum);
        expect(from).toBeLessThanOrEqual(cost + SAME);
        const spared = (price: number) =>
          optimum.cost + used * (price - cost) - leastWith(model, column, { cost: price });
        expect(spared(from + 1e-9)).toBeLessThan(SAME);
        if (from > HAIR) {
          ends.from++;
          expect(spared(from - HAIR)).toBeGreaterThan(1e-6);
        }
        if (to === undefined) {
          ends.open++;
          expect(spared(cost + 500)).toBeLessThan(1e-5);
          return;
        }
        ends.to++;
        expect(to).toBeGreaterThanOrEqual(cost - SAME);
        expect(spared(to - 1e-9)).toBeLessThan(SAME);
        expect(spared(to + HAIR)).toBeGreaterThan(1e-6);
      });
    }
    expect(Math.min(ends.from, ends.to)).toBeGreaterThan(200);
    expect(ends.open).toBeGreaterThan(10);
  });

  it('ranges of all lots at once are those walked lot by lot', () => {
    let compared = 0;
    for (const { model, optimum } of solvable) {
      const slow = about(model, (kept) => walked(kept, model, optimum));
      const fast = about(model, (kept) => costRanges(kept, optimum, ENGINES));
      compared += expectSame(fast, slow);
    }
    expect(compared).toBeGreaterThan(1000);
  });

  it('ranges are walked where row prices do not prove the optimum', () => {
    let compared = 0;
    for (const { model, optimum } of solvable.slice(0, 60)) {
      // A lot that is half used has nothing left of its cost under prices that prove it.
      const wrong = { ...optimum, rowPrices: optimum.rowPrices.map((price) => price + 0.01) };
      const slow = about(model, (kept) => walked(kept, model, optimum));
      const fast = about(model, (kept) => costRanges(kept, wrong, ENGINES));
      compared += expectSame(fast, slow);
    }
    expect(compared).toBeGreaterThan(100);
  });
});

/** The ranges as solving anew finds them, one column after the other. */
function walked(kept: KeptModel, { columns }: LinearModel, optimum: Optimal): CostRange[] {
  return columns.map((_, column) => {
    if ((optimum.values[column] as number) > 1e-6) return costRange(kept, column, optimum);
    const from = entryCost(kept, column, optimum);
    return from === undefined ? {} : { from };
  });
}

function expectSame(fast: readonly CostRange[], slow: readonly CostRange[]): number {
  const ends = (ranges: readonly CostRange[]) => ranges.flatMap(({ from, to }) => [from, to]);
  const told = ends(fast);
  ends(slow).forEach((end, index) => {
    if (end === undefined) expect(told[index]).toBeUndefined();
    else expect(told[index]).toBeCloseTo(end, 6);
  });
  return told.filter((end) => end !== undefined).length;
}
