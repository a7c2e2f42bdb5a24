import { describe, expect, it } from 'vitest';
import { exact, toNumber } from '../../src/exact.ts';
import { misses } from '../../src/solver/check.ts';
import { loadHighs } from '../../src/solver/engines/highs.ts';
import { javascriptLpSolver } from '../../src/solver/engines/javascript-lp-solver.ts';
import { type ExactModel, leastCostBound } from '../../src/solver/exact-model.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';
import { reducedCosts, solvePriced } from '../../src/solver/prices.ts';
import { solve } from '../../src/solver/solve.ts';
import { glpsolIsHere, HOW_TO_INSTALL, solveWithGlpsol } from '../helpers/glpsol.ts';

/**
 * Blending problems whose optimum is in print; prices and figures are those of the source. What is marked as
 * constructed is not in print: it is worked out from the data of the source, as said beside it.
 */

const FREE = Number.POSITIVE_INFINITY;
/** More than any of these blends weighs: an end for every column, which the exact bound needs. */
const FAR = 10_000;
const highs = await loadHighs();
const ENGINES = [javascriptLpSolver, highs];
const hasOpponent = glpsolIsHere();
if (!hasOpponent) console.log(`NOT RUN: glpsol on the blends in print. ${HOW_TO_INSTALL}`);

interface Published {
  readonly name: string;
  readonly source: string;
  readonly prices: readonly number[];
  readonly upper?: readonly number[];
  readonly rows: readonly (readonly [coefficients: readonly number[], lower: number, upper: number])[];
  /** As printed, with the decimals that are printed. */
  readonly cost: number;
  readonly costDecimals: number;
  readonly amounts?: readonly number[];
  readonly amountDecimals?: number;
  /** What the rows and the unused columns are worth. */
  readonly worth?: {
    /** All are constructed: the sources give the data and the optimum. */
    readonly source: string;
    readonly rowPrices: readonly number[];
    readonly reducedCosts: readonly number[];
  };
}

/** No source prints them; they are the one solution of: what is used costs what its binding rows are worth. */
const byHand = (equations: string) => `constructed, by hand from the data of the source: ${equations}`;

const meatLoaf = (beef: number, pork: number, total: number) => ({
  prices: [beef, pork],
  upper: [200, FREE],
  // At least 70 % lean from meats of 75 % and 60 %: 0.05 x - 0.10 y is not negative.
  rows: [
    [[0.05, -0.1], 0, FREE],
    [[0, 1], 50, FREE],
    [[1, 1], total, FREE],
  ] as Published['rows'],
});

const CANNED: Published['rows'] = [
  [[1, 1, 1, 1, 1, 1], 100, 100],
  [[0.1, 0.2, 0.15, 0, 0.04, 0], 8, FREE],
  [[0.08, 0.1, 0.11, 0.01, 0.01, 0], 6, FREE],
  [[0.001, 0.005, 0.003, 0.1, 0.15, 0], -FREE, 2],
  [[0.002, 0.005, 0.007, 0.002, 0.008, 0], -FREE, 0.4],
];

const PUBLISHED: readonly Published[] = [
  {
    name: 'a meat loaf of beef and pork',
    source: 'algebra textbook problem and answer, studyquestionhub.com, question 25',
    ...meatLoaf(0.75, 0.45, 0),
    cost: 97.5,
    costDecimals: 2,
    amounts: [100, 50],
    amountDecimals: 0,
    worth: {
      source: byHand('lean 0.75 / 0.05 = 15, pork 0.45 + 0.1 x 15 = 1.95'),
      rowPrices: [15, 1.95, 0],
      reducedCosts: [0, 0],
    },
  },
  {
    name: 'the meat loaf of the later edition, at least 180 lb',
    source:
      'vaia.com, algebra and trigonometry 11th ed., chapter 12 problem 25 (data); optimum constructed: 2 : 1 is the leanest that does, at 1.95 per lb',
    ...meatLoaf(2.25, 1.35, 180),
    cost: 351,
    costDecimals: 2,
    amounts: [120, 60],
    amountDecimals: 0,
  },
  {
    name: "a butcher's 50 kg of beef, pork and fat",
    source: 'algebra.com, question 1148051',
    prices: [6, 4, 2],
    rows: [
      [[1, 1, 1], 50, 50],
      [[-0.25, 1, 0], -FREE, 0],
      [[0, 0, 1], -FREE, 10],
    ],
    cost: 244,
    costDecimals: 0,
    amounts: [32, 8, 10],
    amountDecimals: 0,
    worth: {
      source: byHand('beef 6 = t - r/4, pork 4 = t + r, fat 2 = t + f, so t = 5.6, r = -1.6, f = -3.6'),
      rowPrices: [5.6, -1.6, -3.6],
      reducedCosts: [0, 0, 0],
    },
  },
  {
    name: 'canned meat of six ingredients',
    source:
      'documentation of the modelling library PuLP, case study "A Blending Problem"; optimum in its tests',
    prices: [0.013, 0.008, 0.01, 0.002, 0.005, 0.001],
    rows: CANNED,
    cost: 0.52,
    costDecimals: 2,
    amounts: [0, 60, 0, 0, 0, 40],
    amountDecimals: 2,
    worth: {
      source: byHand('gel t = 0.001, beef 0.008 = t + 0.1 f, so f = 0.07; mutton 0.01 - t - 0.11 f = 0.0013'),
      rowPrices: [0.001, 0, 0.07, 0, 0],
      reducedCosts: [0.0064, 0, 0.0013, 0.0003, 0.0033, 0],
    },
  },
  {
    name: 'canned meat of two ingredients',
    source:
      'documentation of the modelling library PuLP, case study "A Blending Problem", first version; optimum from memory, verify',
    prices: [0.013, 0.008],
    rows: CANNED.map(([coefficients, lower, upper]) => [coefficients.slice(0, 2), lower, upper]),
    cost: 0.97,
    costDecimals: 2,
    amounts: [33.3, 66.7],
    amountDecimals: 1,
    worth: {
      source: byHand('chicken 0.013 = t + 0.002 s, beef 0.008 = t + 0.005 s, so s = -5/3 and t = 0.049/3'),
      rowPrices: [0.049 / 3, 0, 0, 0, -5 / 3],
      reducedCosts: [0, 0],
    },
  },
  {
    name: 'a feed mix with four floors and a free filler',
    source: 'documentation of the R package limSolve, data set "Blending" (rdrr.io)',
    prices: [40, 60, 0],
    rows: [
      [[1, 1, 1], 1, 1],
      [[100, 200, 0], 80, FREE],
      [[50, 150, 0], 50, FREE],
      [[40, 10, 0], 25, FREE],
      [[10, 0, 0], 5, FREE],
    ],
    cost: 31.8182,
    costDecimals: 4,
    amounts: [0.5909, 0.1364, 0.2727],
    amountDecimals: 4,
  },
  {
    name: 'corn, limestone and soybean meal',
    source: 'optimization algorithms §2.1.4, livebook.manning.com: 65 / 3 / 32 % at 49.16 cents per kg',
    prices: [30.5, 10, 90],
    rows: [
      [[1, 1, 1], 1, 1],
      [[0.001, 0.38, 0.002], 0.008, 0.012],
      [[0.09, 0, 0.5], 0.22, FREE],
      [[0.02, 0, 0.08], -FREE, 0.05],
    ],
    cost: 49.16,
    costDecimals: 2,
    amounts: [0.65, 0.03, 0.32],
    amountDecimals: 2,
  },
  {
    name: 'a daily feed of 800 lb',
    source: 'H. A. Taha, Operations Research: An Introduction, example 2.2-2',
    prices: [0.3, 0.9],
    rows: [
      [[1, 1], 800, FREE],
      [[0.09 - 0.3, 0.6 - 0.3], 0, FREE],
      [[0.02 - 0.05, 0.06 - 0.05], -FREE, 0],
    ],
    cost: 437.65,
    costDecimals: 2,
    amounts: [470.6, 329.4],
    amountDecimals: 1,
  },
  {
    name: '1,000 lb of sausage from beef, filler and preservatives',
    source:
      'tutorsglobe.com, "sausage in 1000 pound batches" (data); optimum constructed: most filler, then most preservatives, the rest beef',
    prices: [2.5, 1.2, 1.8],
    rows: [
      [[1, 1, 1], 1000, 1000],
      [[1, 0, 0], 600, FREE],
      [[0, 1, 0], -FREE, 200],
      [[0, 0, 1], 10, 50],
    ],
    cost: 2205,
    costDecimals: 2,
    amounts: [750, 200, 50],
    amountDecimals: 2,
  },
];

function modelOf({ prices, upper, rows }: Published): LinearModel {
  return {
    columns: prices.map((cost, index) => ({ cost, lower: 0, upper: upper?.[index] ?? FREE })),
    rows: rows.map(
      ([coefficients, lower, high], index): Row => ({
        name: `row ${index}`,
        lower,
        upper: high,
        terms: coefficients.map((coefficient, column) => ({ column, coefficient })),
      }),
    ),
  };
}

/** The digits as they are written, with an end to every column. */
function exactOf({ columns, rows }: LinearModel): ExactModel {
  return {
    columns: columns.map(({ cost, lower, upper }) => ({
      cost: exact(cost),
      lower: exact(lower),
      upper: exact(Math.min(upper, FAR)),
    })),
    rows: rows.map(({ name, lower, upper, terms }) => ({
      name,
      ...(lower > -FREE && { lower: exact(lower) }),
      ...(upper < FREE && { upper: exact(upper) }),
      terms: terms.map(({ column, coefficient }) => ({ column, coefficient: exact(coefficient) })),
    })),
  };
}

/** Rounded to the decimals in print. */
const printed = (value: number, decimals: number) => Number(value.toFixed(decimals));

function expectAsPrinted(problem: Published, cost: number, amounts: readonly number[]): void {
  expect(printed(cost, problem.costDecimals)).toBe(problem.cost);
  expect(amounts.map((value) => printed(value, problem.amountDecimals ?? 0))).toEqual(problem.amounts);
}

function expectNear(found: readonly number[], wanted: readonly number[]): void {
  expect(found).toEqual(wanted.map((value) => expect.closeTo(value, 5)));
}

describe('blends in print', () => {
  it.each(PUBLISHED)('come out as printed by either engine: $name ($source)', (problem) => {
    const model = modelOf(problem);
    for (const engine of ENGINES) {
      const outcome = solve(model, [engine]);
      if (outcome.status !== 'optimal') throw new Error(`${engine.name} calls the model ${outcome.status}`);
      expectAsPrinted(problem, outcome.cost, outcome.values);
    }
  });

  it.each(PUBLISHED)('are proven in exact arithmetic to cost no less: $name', (problem) => {
    const model = modelOf(problem);
    for (const engines of [ENGINES, [javascriptLpSolver], [highs]]) {
      const outcome = solvePriced(model, engines);
      if (outcome.status !== 'optimal') throw new Error(`the model is ${outcome.status}`);
      expect(misses(model, outcome.values)).toEqual([]);
      const bound = toNumber(leastCostBound(exactOf(model), outcome.rowPrices));
      // The fast engine tells no prices: those from the dual problem are good to 1e-8, for as far as columns go.
      expect(Math.abs(outcome.cost - bound)).toBeLessThanOrEqual(1e-6 * outcome.cost + 1e-8 * FAR);
    }
  });

  const worthy = PUBLISHED.flatMap((problem) =>
    problem.worth ? [{ ...problem, worth: problem.worth }] : [],
  );
  it.each(worthy)('have the worth of rows and columns of $name ($worth.source)', (problem) => {
    const model = modelOf(problem);
    for (const engines of [ENGINES, [javascriptLpSolver], [highs]]) {
      const outcome = solvePriced(model, engines);
      if (outcome.status !== 'optimal') throw new Error(`the model is ${outcome.status}`);
      const { rowPrices } = outcome;
      const { worth } = problem;
      // Prices from the dual problem are good to 1e-8 of a row that is scaled, which is up to 1e-6 of these.
      expectNear(rowPrices, worth.rowPrices);
      expectNear(reducedCosts(model, rowPrices), worth.reducedCosts);
    }
  });

  it.skipIf(!hasOpponent)('come out as printed by glpsol, all of them', async () => {
    const answers = await solveWithGlpsol(PUBLISHED.map(modelOf));
    PUBLISHED.forEach((problem, index) => {
      const answer = answers[index];
      if (answer?.status !== 'optimal') throw new Error(`glpsol calls ${problem.name} ${answer?.status}`);
      expectAsPrinted(problem, answer.cost, answer.values);
    });
  });
});
