import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, compare, type Exact, exact, multiply, subtract, toNumber, ZERO } from '../../src/exact.ts';
import { misses } from '../../src/solver/check.ts';
import { loadHighs } from '../../src/solver/engines/highs.ts';
import { javascriptLpSolver } from '../../src/solver/engines/javascript-lp-solver.ts';
import {
  activity,
  type ExactModel,
  leastCostBound,
  provesEmpty,
  toLinear,
} from '../../src/solver/exact-model.ts';
import type { Engine, LinearModel, Outcome } from '../../src/solver/model.ts';
import { solvePriced } from '../../src/solver/prices.ts';
import { relax } from '../../src/solver/relax.ts';
import { SolverFault, solve } from '../../src/solver/solve.ts';
import { type GlpsolAnswer, glpsolIsHere, HOW_TO_INSTALL, solveWithGlpsol } from '../helpers/glpsol.ts';
import {
  badlyScaledBlends,
  boxBlends,
  degenerateBlends,
  infeasibleBlends,
  type Problem,
  plainBlends,
  targetBlends,
} from './arbitrary-models.ts';

/**
 * Ten thousand random problems, each answered by both engines of the product, alone and together, and by glpsol. The
 * judge between them is exact arithmetic, which needs none of them: a point that holds and costs no more than what
 * nothing goes below is a least-cost point, and row prices that make a contradiction leave no point at all. So a
 * difference is always decided, and where glpsol is the one that is wrong it is counted and printed.
 */

const SEED = 8231;
/** Costs agree when they differ by less than this share. */
const AGREE = 1e-6;
/** Problems that glpsol works on while the engines of the product do the same ones. */
const BATCH = 500;
const MINUTES = 60_000;

// A model with whole columns is given as long as it takes: the answer must not hang on how busy the machine is.
const highs = await loadHighs(120);
const BOTH: readonly Engine[] = [javascriptLpSolver, highs];
const hasOpponent = glpsolIsHere();
if (!hasOpponent) console.log(`NOT RUN: glpsol against the random models. ${HOW_TO_INSTALL}`);

/** What happened, and how often. */
type Counts = Record<string, number>;

function count(counts: Counts, what: string): void {
  counts[what] = (counts[what] ?? 0) + 1;
}

function agree(a: number, b: number): boolean {
  return Math.abs(a - b) <= AGREE * Math.max(1, Math.abs(a), Math.abs(b));
}

/** What one engine says by itself; no answer of it may hold, to which it must own up. */
function alone(engine: Engine, model: LinearModel): Outcome | { readonly status: 'failed' } {
  try {
    return solve(model, [engine]);
  } catch (error) {
    if (!(error instanceof SolverFault)) throw error;
    return { status: 'failed' };
  }
}

/** Whether an answer is the proven one; counted where it is not. */
function isRight(
  name: string,
  answer: Outcome | GlpsolAnswer | { readonly status: 'failed' },
  proven: Outcome,
  counts: Counts,
): boolean {
  const { status } = answer;
  if (status !== proven.status) count(counts, `${name} wrong: ${status}`);
  else if (status === 'optimal' && proven.status === 'optimal' && !agree(answer.cost, proven.cost)) {
    count(counts, `${name} wrong: cost`);
  } else return true;
  return false;
}

/** Both engines together, held against exact arithmetic; then each of them alone against what is proven. */
function judgeContinuous({ exact: model, linear }: Problem, counts: Counts): Outcome {
  const outcome = solvePriced(linear, BOTH);
  if (outcome.status === 'optimal') {
    expect(misses(linear, outcome.values)).toEqual([]);
    expectAgreed(outcome.cost, toNumber(leastCostBound(model, outcome.rowPrices)));
  } else {
    expect(outcome.status).toBe('infeasible');
    expect(isProvenEmpty(model, linear)).toBe(true);
  }
  count(counts, `${outcome.status}, proven`);
  for (const engine of BOTH) isRight(`${engine.name} alone`, alone(engine, linear), outcome, counts);
  return outcome;
}

/** By the prices of the least that the rows together must give for there to be a point. */
function isProvenEmpty(model: ExactModel, linear: LinearModel): boolean {
  const everyRow = linear.rows.map((_, rowIndex) => ({ rowIndex, weight: 1 }));
  const relaxed = relax(linear, everyRow, [highs]);
  return relaxed !== undefined && provesEmpty(model, relaxed.rowPrices);
}

/** Whole boxes: the point to the last digit, and between the proven cost in fractions of a box and itself nothing. */
function judgeBoxes({ exact: model, linear }: Problem, counts: Counts): Outcome {
  const outcome = solve(linear, BOTH);
  const inFractions = toLinear(model);
  const relaxation = solvePriced(inFractions, BOTH);
  if (relaxation.status !== 'optimal') {
    expect(outcome.status).toBe('infeasible');
    expect(isProvenEmpty(model, inFractions)).toBe(true);
    count(counts, 'infeasible, proven');
    return outcome;
  }
  expectAgreed(relaxation.cost, toNumber(leastCostBound(model, relaxation.rowPrices)));
  if (outcome.status !== 'optimal') {
    expect(outcome.status).toBe('infeasible');
    count(counts, 'infeasible in whole boxes only');
    return outcome;
  }
  expect(exactMisses(model, linear, outcome.values)).toEqual([]);
  const dust = AGREE * Math.max(1, Math.abs(outcome.cost));
  expect(relaxation.cost).toBeLessThanOrEqual(outcome.cost + dust);
  expectAgreed(outcome.reportedBound, outcome.cost);
  count(
    counts,
    `optimal${relaxation.cost < outcome.cost - dust ? ', dearer than in fractions of a box' : ''}`,
  );
  return outcome;
}

/**
 * Rows and ends that a point does not keep in exact arithmetic: to the last digit where all columns are whole, and
 * where some are not, to what a double can hold of them.
 */
function exactMisses(model: ExactModel, linear: LinearModel, values: readonly number[]): string[] {
  const point = values.map(exact);
  const share = linear.columns.every(({ whole }) => whole) ? ZERO : exact('1e-9');
  const isKept = (value: Exact, size: Exact, lower?: Exact, upper?: Exact) => {
    const dust = multiply(share, size);
    return !(
      (lower && compare(add(value, dust), lower) < 0) ||
      (upper && compare(subtract(value, dust), upper) > 0)
    );
  };
  const columns = model.columns.filter(({ lower, upper }, index) => {
    const value = point[index] as Exact;
    return !isKept(value, value, lower, upper) || (linear.columns[index]?.whole && value.scale > 0);
  });
  const rows = model.rows.filter((row) => {
    const terms = row.terms.map(({ column, coefficient }) => ({ column, coefficient: sizeOf(coefficient) }));
    return !isKept(activity(row, point), activity({ name: '', terms }, point), row.lower, row.upper);
  });
  return [
    ...columns.map((column) => `column ${model.columns.indexOf(column)}`),
    ...rows.map(({ name }) => name),
  ];
}

const sizeOf = (value: Exact): Exact => (compare(value, ZERO) < 0 ? subtract(ZERO, value) : value);

/** Where glpsol differs it is wrong, for what it is held against is proven; only whole counts must be looked at. */
function judgeGlpsol({ linear }: Problem, ours: Outcome, theirs: GlpsolAnswer, counts: Counts): void {
  if (isRight('glpsol', theirs, ours, counts)) {
    if (theirs.status === 'optimal' && misses(rounded(linear), theirs.values).length > 0) {
      count(counts, 'glpsol wrong: point');
    } else count(counts, 'glpsol agrees');
    return;
  }
  if (theirs.status !== 'optimal' || !linear.columns.some(({ whole }) => whole)) return;
  const around = solve(fixedAt(linear, theirs.values), BOTH);
  if (ours.status === 'infeasible') expect(around.status).toBe('infeasible');
  else if (around.status === 'optimal' && ours.status === 'optimal' && !agree(around.cost, ours.cost)) {
    expect(around.cost).toBeGreaterThan(ours.cost);
  }
}

/** Its counts made whole, and the rest to be solved around them. */
function fixedAt({ columns, rows }: LinearModel, values: readonly number[]): LinearModel {
  return {
    rows,
    columns: columns.map(({ cost, lower, upper, whole }, index) => {
      const counted = Math.round(values[index] ?? Number.NaN);
      return whole ? { cost, lower: counted, upper: counted } : { cost, lower, upper };
    }),
  };
}

/** glpsol writes whole counts with the dust of its arithmetic. */
function rounded({ columns, rows }: LinearModel): LinearModel {
  return { rows, columns: columns.map(({ cost, lower, upper }) => ({ cost, lower, upper })) };
}

function expectAgreed(cost: number | undefined, proven: number): void {
  if (cost === undefined || !agree(cost, proven))
    throw new Error(`${cost} is not the proven cost of ${proven}`);
}

interface Kind {
  readonly kind: string;
  readonly runs: number;
  readonly problems: fc.Arbitrary<Problem>;
  readonly judge: (problem: Problem, counts: Counts) => Outcome;
  /** What the counts of the outcomes of the product must add up to. */
  readonly outcomes: Counts;
  /** Units lie so far apart that a single engine, or glpsol, may be wrong, which is counted. */
  readonly isHard?: boolean;
}

const KINDS: readonly Kind[] = [
  {
    kind: 'plain blends',
    runs: 3500,
    problems: plainBlends,
    judge: judgeContinuous,
    outcomes: { 'optimal, proven': 3500 },
  },
  {
    kind: 'infeasible blends',
    runs: 1500,
    problems: infeasibleBlends,
    judge: judgeContinuous,
    outcomes: { 'infeasible, proven': 1500 },
  },
  {
    kind: 'degenerate blends',
    runs: 1500,
    problems: degenerateBlends,
    judge: judgeContinuous,
    outcomes: { 'optimal, proven': 1500 },
  },
  {
    kind: 'badly scaled blends',
    runs: 1500,
    problems: badlyScaledBlends,
    isHard: true,
    judge: judgeContinuous,
    outcomes: { 'optimal, proven': 1500 },
  },
  {
    kind: 'target blends',
    runs: 500,
    problems: targetBlends,
    judge: judgeContinuous,
    outcomes: { 'optimal, proven': 500 },
  },
  {
    kind: 'blends in whole boxes',
    runs: 1500,
    problems: boxBlends,
    judge: judgeBoxes,
    outcomes: {
      optimal: 41,
      'optimal, dearer than in fractions of a box': 1008,
      'infeasible in whole boxes only': 72,
      'infeasible, proven': 379,
    },
  },
];

describe('random models', () => {
  it.each(KINDS)(
    'of $kind get the answer that exact arithmetic proves',
    async ({ kind, runs, problems, judge, outcomes, isHard }) => {
      const counts: Counts = {};
      const drawn = fc.sample(problems, { seed: SEED, numRuns: runs });
      for (let from = 0; from < runs; from += BATCH) {
        const batch = drawn.slice(from, from + BATCH);
        const asked = hasOpponent ? solveWithGlpsol(batch.map(({ linear }) => linear)) : undefined;
        const ours: Outcome[] = [];
        let theirs: GlpsolAnswer[] | undefined;
        try {
          for (const problem of batch) ours.push(explained(problem, () => judge(problem, counts)));
        } finally {
          // Waited for after a failure too, so that its files are taken away.
          theirs = await asked;
        }
        theirs?.forEach((answer, index) => {
          const problem = batch[index] as Problem;
          explained(problem, () => judgeGlpsol(problem, ours[index] as Outcome, answer, counts));
        });
      }
      console.log(`${kind}, ${runs}, seed ${SEED}: ${JSON.stringify(counts)}`);
      expect(counts).toMatchObject(outcomes);
      const wrong = Object.entries(counts).filter(([what]) => what.includes('wrong'));
      if (!isHard) expect(wrong).toEqual([]);
      // An opponent that is often wrong is none.
      if (hasOpponent) expect(counts['glpsol agrees']).toBeGreaterThan(0.99 * runs);
    },
    10 * MINUTES,
  );
});

/** A failure names the problem it happened on. */
function explained<Answer>({ linear }: Problem, work: () => Answer): Answer {
  try {
    return work();
  } catch (error) {
    throw new Error(`${(error as Error).message}\n${JSON.stringify(linear)}`, { cause: error });
  }
}
