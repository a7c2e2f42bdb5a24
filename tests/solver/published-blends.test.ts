import { describe, expect, it } from 'vitest';
import { javascriptLpSolver } from '../../src/solver/engines/javascript-lp-solver.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';
import { solve } from '../../src/solver/solve.ts';
import { solveWithHighs } from '../helpers/highs.ts';

/** Blending problems whose optimum is in print; prices and figures are those of the source. */

const FREE = Number.POSITIVE_INFINITY;

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
}

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
  },
  {
    name: 'the meat loaf of the later edition, at least 180 lb',
    source:
      'vaia.com, algebra and trigonometry 11th ed., chapter 12 problem 25 (data); optimum confirmed with glpsol 5.0',
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
  },
  {
    name: 'canned meat of two ingredients',
    source: 'documentation of the modelling library PuLP, case study "A Blending Problem", first version',
    prices: [0.013, 0.008],
    rows: CANNED.map(([coefficients, lower, upper]) => [coefficients.slice(0, 2), lower, upper]),
    cost: 0.97,
    costDecimals: 2,
    amounts: [33.3, 66.7],
    amountDecimals: 1,
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
    source: 'tutorsglobe.com, "sausage in 1000 pound batches" (data); optimum confirmed with glpsol 5.0',
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

/** Rounded to the decimals in print. */
const printed = (value: number, decimals: number) => Number(value.toFixed(decimals));

describe('blends in print', () => {
  it.each(PUBLISHED)('come out as printed: $name ($source)', (problem) => {
    const model = modelOf(problem);
    const outcome = solve(model, [javascriptLpSolver]);
    if (outcome.status !== 'optimal') throw new Error(`the model is ${outcome.status}`);
    expect(printed(outcome.cost, problem.costDecimals)).toBe(problem.cost);
    expect(outcome.values.map((value) => printed(value, problem.amountDecimals ?? 0))).toEqual(
      problem.amounts,
    );
    const theirs = solveWithHighs(model);
    if (theirs.status !== 'optimal') throw new Error(`HiGHS calls the model ${theirs.status}`);
    expect(Math.abs(theirs.cost / outcome.cost - 1)).toBeLessThan(1e-6);
  });
});
