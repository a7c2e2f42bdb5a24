import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { javascriptLpSolver } from '../../src/solver/engines/javascript-lp-solver.ts';
import { ModelFault } from '../../src/solver/guard.ts';
import type { Column, Engine, LinearModel, Outcome, Row } from '../../src/solver/model.ts';
import { relax } from '../../src/solver/relax.ts';
import { SolverFault, solve } from '../../src/solver/solve.ts';
import { solveWithHighs } from '../helpers/highs.ts';

const FREE = Number.POSITIVE_INFINITY;
const ENGINES = [javascriptLpSolver];

const column = (cost: number, upper = FREE, lower = 0): Column => ({ cost, lower, upper });
const row = (coefficients: readonly number[], lower: number, upper: number, name = 'row'): Row => ({
  name,
  lower,
  upper,
  terms: coefficients.map((coefficient, index) => ({ column: index, coefficient })),
});
const atLeast = (coefficients: readonly number[], bound: number) => row(coefficients, bound, FREE);
const atMost = (coefficients: readonly number[], bound: number) => row(coefficients, -FREE, bound);

function optimum(model: LinearModel): { readonly values: readonly number[]; readonly cost: number } {
  const outcome = solve(model, ENGINES);
  if (outcome.status !== 'optimal') throw new Error(`the model is ${outcome.status}`);
  return outcome;
}

describe('the engine behind the port', () => {
  it('finds the least cost of a small blend', () => {
    const { values, cost } = optimum({
      columns: [column(3), column(2)],
      rows: [row([1, 1], 10, 10), atLeast([0.3, 0.1], 2)],
    });
    expect(values[0]).toBeCloseTo(5, 8);
    expect(values[1]).toBeCloseTo(5, 8);
    expect(cost).toBeCloseTo(25, 8);
  });

  it('says that limits which cannot hold together are infeasible', () => {
    const model = { columns: [column(1, 4)], rows: [atLeast([1], 5)] };
    expect(solve(model, ENGINES)).toEqual({ status: 'infeasible' });
  });

  it('says that a cost which falls for ever is unbounded', () => {
    const model = { columns: [column(-1)], rows: [atLeast([1], 1)] };
    expect(solve(model, ENGINES)).toEqual({ status: 'unbounded' });
  });

  it('starts each column at its lower bound, negative ones included', () => {
    const { values, cost } = optimum({
      columns: [column(1, 9, 2), column(1, 9, -3)],
      rows: [atLeast([1, 1], -5)],
    });
    expect(values).toEqual([2, -3]);
    expect(cost).toBe(-1);
  });

  // Published source of the fault: tracker of the npm package javascript-lp-solver; with its own presolve on
  // it answers 3 here, the cost of the fixed column lost.
  it('keeps the cost of a column that rows fix at one value', () => {
    const { values, cost } = optimum({
      columns: [column(3), column(1)],
      rows: [atLeast([1, 0], 2), atMost([1, 0], 2), atLeast([1, 1], 5)],
    });
    expect(values).toEqual([2, 3]);
    expect(cost).toBe(9);
  });

  it('keeps the cost of a column whose own bounds are one value', () => {
    const { values, cost } = optimum({ columns: [column(7, 2, 2), column(1)], rows: [atLeast([1, 1], 5)] });
    expect(values).toEqual([2, 3]);
    expect(cost).toBe(17);
  });

  it.each(['result', 'feasible', 'bounded', 'cost', 'v0', 'r0', 'u0', '__proto__', 'isIntegral'])(
    'is not confused by a row called %s',
    (name) => {
      const { values, cost } = optimum({
        columns: [column(5), column(9)],
        rows: [row([1, 1], 2, FREE, name)],
      });
      expect(values).toEqual([2, 0]);
      expect(cost).toBe(10);
    },
  );

  it('is not confused by rows that share a name', () => {
    const { values } = optimum({
      columns: [column(1), column(1)],
      rows: [row([1, 0], 2, FREE, 'fat'), row([0, 1], 3, FREE, 'fat')],
    });
    expect(values).toEqual([2, 3]);
  });

  it('answers a model in which nothing costs anything with a point that holds', () => {
    const { values, cost } = optimum({
      columns: [column(0, 6), column(0, 6)],
      rows: [row([1, 1], 10, 10), atMost([1, -1], 0)],
    });
    expect(cost).toBe(0);
    expect((values[0] ?? 0) + (values[1] ?? 0)).toBeCloseTo(10, 8);
    expect(values[0] ?? 9).toBeLessThanOrEqual((values[1] ?? 0) + 1e-8);
  });

  it('lets a row without terms hold when nothing is allowed', () => {
    const model = { columns: [column(1)], rows: [row([], -1, 0, 'empty'), atLeast([1], 2)] };
    expect(optimum(model).cost).toBe(2);
  });

  it('says infeasible of a row without terms that asks for something', () => {
    const model = { columns: [column(1)], rows: [row([], 1, 2, 'empty')] };
    expect(solve(model, ENGINES)).toEqual({ status: 'infeasible' });
  });

  it('adds up terms of one row that name the same column twice', () => {
    const terms = [
      { column: 0, coefficient: 1 },
      { column: 0, coefficient: 1 },
    ];
    const { values } = optimum({
      columns: [column(1)],
      rows: [{ name: 'twice', lower: 6, upper: FREE, terms }],
    });
    expect(values).toEqual([3]);
  });

  it('finds a row between two bounds on either side', () => {
    const rows = [row([1], 2, 5)];
    expect(optimum({ columns: [column(1)], rows }).values).toEqual([2]);
    expect(optimum({ columns: [column(-1)], rows }).values).toEqual([5]);
  });
});

describe('the guard before the engines', () => {
  const good: LinearModel = { columns: [column(1, 5)], rows: [atLeast([1], 1)] };
  const withColumn = (changed: Partial<Column>): LinearModel => ({
    ...good,
    columns: [{ ...(good.columns[0] as Column), ...changed }],
  });
  const withRow = (changed: Partial<Row>): LinearModel => ({
    ...good,
    rows: [{ ...(good.rows[0] as Row), ...changed }],
  });
  const term = (coefficient: number, index = 0) => ({ terms: [{ column: index, coefficient }] });

  it.each<[string, LinearModel]>([
    ['a cost that is no number', withColumn({ cost: Number.NaN })],
    ['an infinite cost', withColumn({ cost: FREE })],
    ['a lower bound of minus infinity', withColumn({ lower: -FREE })],
    ['a lower bound that is no number', withColumn({ lower: Number.NaN })],
    ['an upper bound that is no number', withColumn({ upper: Number.NaN })],
    ['column bounds that cross', withColumn({ lower: 3, upper: 2 })],
    ['row bounds that cross', withRow({ lower: 3, upper: 2 })],
    ['a row bound that is no number', withRow({ lower: Number.NaN })],
    ['a row that asks for infinity', withRow({ lower: FREE })],
    ['a row that allows minus infinity', withRow({ lower: -FREE, upper: -FREE })],
    ['a coefficient that is no number', withRow(term(Number.NaN))],
    ['an infinite coefficient', withRow(term(FREE))],
    ['a term of a column that is not there', withRow(term(1, 1))],
    ['a term of a negative column', withRow(term(1, -1))],
  ])('refuses %s', (_, model) => {
    expect(() => solve(model, ENGINES)).toThrow(ModelFault);
  });

  it('lets the good model pass that the others were made from', () => {
    expect(optimum(good).cost).toBe(1);
  });
});

describe('an engine that lies', () => {
  const model: LinearModel = { columns: [column(2, 8), column(3, 8)], rows: [row([1, 1], 10, 10)] };
  const liar = (name: string, outcome: Outcome): Engine => ({
    name,
    takes: () => true,
    suits: () => true,
    solve: () => outcome,
  });
  const claims = (values: readonly number[], cost = 0) => liar('liar', { status: 'optimal', values, cost });

  it.each<[string, readonly number[]]>([
    ['misses a row', [8, 1]],
    ['passes an upper bound', [9, 1]],
    ['passes a lower bound', [11, -1]],
    ['holds a value that is no number', [Number.NaN, 10]],
    ['has too few values', [8]],
    ['has no values at all', []],
  ])('is caught when its answer %s', (_, values) => {
    expect(() => solve(model, [claims(values)])).toThrow(SolverFault);
  });

  it('is caught when its answer has more values than the model has columns', () => {
    expect(() => solve(model, [claims([8, 2, 5])])).toThrow(SolverFault);
  });

  it('is not believed about the cost: it is added up from the values', () => {
    const outcome = solve(model, [claims([8, 2], -1000)]);
    expect(outcome).toEqual({ status: 'optimal', values: [8, 2], cost: 22 });
  });

  it('gives way to the next engine', () => {
    const outcome = solve(model, [claims([1, 1]), javascriptLpSolver]);
    expect(outcome.status === 'optimal' && outcome.cost).toBeCloseTo(22, 8);
  });

  it('is named in the fault, with the model it failed on', () => {
    let fault: unknown;
    try {
      solve(model, [claims([1, 1]), { ...claims([0, 0]), name: 'second liar' }]);
    } catch (error) {
      fault = error;
    }
    if (!(fault instanceof SolverFault)) throw new Error('no fault was thrown');
    expect(fault.message).toContain('liar: row row is missed by 8');
    expect(fault.message).toContain('second liar: row row is missed by 10');
    expect(fault.model).toBe(model);
  });

  it('may be off by the dust of its arithmetic, which is taken away', () => {
    const outcome = solve(model, [claims([8 + 1e-9, 2 - 1e-9])]);
    expect(outcome.status === 'optimal' && outcome.values[0]).toBe(8);
  });
});

describe('relaxing limits that cannot hold together', () => {
  it('finds the least misses and the rows that give', () => {
    // 10 kg at least and 4 kg at most of one material: the smaller change is the shorter row.
    const model: LinearModel = {
      columns: [column(5), column(1)],
      rows: [row([1, 1], 10, 10, 'size'), row([1, 0], 7, FREE, 'lean'), row([0, 1], 6, FREE, 'fat')],
    };
    const found = relax(
      model,
      [
        { rowIndex: 1, weight: 1 },
        { rowIndex: 2, weight: 1 },
      ],
      ENGINES,
    );
    expect(found?.gives.reduce((sum, { by }) => sum + Math.abs(by), 0)).toBeCloseTo(3, 7);
    expect(found?.gives.every(({ by }) => by < 0)).toBe(true);
    expect((found?.values[0] ?? 0) + (found?.values[1] ?? 0)).toBeCloseTo(10, 7);
  });

  it('says above a maximum as a positive miss', () => {
    const model: LinearModel = {
      columns: [column(0)],
      rows: [row([1], 5, 5, 'size'), row([1], -FREE, 3, 'most')],
    };
    expect(relax(model, [{ rowIndex: 1, weight: 1 }], ENGINES)?.gives).toEqual([{ rowIndex: 1, by: 2 }]);
  });

  it('lets the row of lower weight give when two fight', () => {
    const model: LinearModel = {
      columns: [column(1)],
      rows: [row([1], 3, Number.POSITIVE_INFINITY), row([1], Number.NEGATIVE_INFINITY, 1)],
    };
    const gives = (first: number, second: number) =>
      relax(
        model,
        [
          { rowIndex: 0, weight: first },
          { rowIndex: 1, weight: second },
        ],
        ENGINES,
      )?.gives;
    expect(gives(1, 1000)).toEqual([{ rowIndex: 0, by: -2 }]);
    expect(gives(1000, 1)).toEqual([{ rowIndex: 1, by: 2 }]);
  });

  it('gives nothing when everything holds', () => {
    const model: LinearModel = { columns: [column(1)], rows: [row([1], 5, 5), atMost([1], 6)] };
    expect(relax(model, [{ rowIndex: 1, weight: 1 }], ENGINES)?.gives).toEqual([]);
  });

  it('has no answer when the rows that stay hard cannot hold', () => {
    const model: LinearModel = { columns: [column(1, 2)], rows: [row([1], 5, 5), atMost([1], 6)] };
    expect(relax(model, [{ rowIndex: 1, weight: 1 }], ENGINES)).toBeUndefined();
  });
});

type Kind = 'plain' | 'infeasible' | 'degenerate' | 'badly scaled';
const SEED = 8231;
const RUNS = 500;

/** Numbers of two places, so that ties and exact zeros happen. */
const coefficients = (count: number, least = -300) =>
  fc.array(
    fc.integer({ min: least, max: 300 }).map((value) => value / 100),
    { minLength: count, maxLength: count },
  );

/** A model around a known point, so that it is feasible; then made worse according to its kind. */
function arbitraryModel(kind: Kind): fc.Arbitrary<LinearModel> {
  const shape = fc.record({
    width: fc.integer({ min: 2, max: 14 }),
    height: fc.integer({ min: 1, max: 10 }),
  });
  return shape.chain(({ width, height }) =>
    fc
      .record({
        costs: coefficients(width, 0),
        point: coefficients(width, 0),
        matrix: fc.array(coefficients(width), { minLength: height, maxLength: height }),
        slack: coefficients(height, 0),
        scales: fc.array(fc.integer({ min: -5, max: 5 }), { minLength: height, maxLength: height }),
        equal: fc.array(fc.boolean(), { minLength: height, maxLength: height }),
      })
      .map(({ costs, point, matrix, slack, scales, equal }): LinearModel => {
        const columns = costs.map((cost, index) => column(cost, index % 3 === 0 ? 20 : FREE));
        const rows = matrix.map((line, index): Row => {
          const times = kind === 'badly scaled' ? 10 ** (scales[index] as number) : 1;
          const scaled = line.map((value) => value * times);
          const activity = scaled.reduce((sum, value, at) => sum + value * (point[at] as number), 0);
          const room = kind === 'degenerate' ? 0 : (slack[index] as number) * times;
          if (equal[index] && index % 4 === 0) return row(scaled, activity, activity);
          return index % 2 === 0 ? atMost(scaled, activity + room) : atLeast(scaled, activity - room);
        });
        if (kind !== 'infeasible') return { columns, rows };
        const ones = columns.map(() => 1);
        const most = point.reduce((sum, value) => sum + value, 0);
        return { columns, rows: [...rows, atMost(ones, most), atLeast(ones, most + 1)] };
      }),
  );
}

describe('random models', () => {
  it.each<Kind>(['plain', 'infeasible', 'degenerate', 'badly scaled'])(
    'that are %s get the status and the cost that HiGHS gives them',
    (kind) => {
      const counts: Record<string, number> = {};
      fc.assert(
        fc.property(arbitraryModel(kind), (model) => {
          const ours = solve(model, ENGINES);
          const theirs = solveWithHighs(model);
          counts[ours.status] = (counts[ours.status] ?? 0) + 1;
          expect(ours.status).toBe(theirs.status);
          if (ours.status !== 'optimal' || theirs.status !== 'optimal') return;
          expect(Math.abs(ours.cost - theirs.cost)).toBeLessThanOrEqual(
            1e-6 * Math.max(1, Math.abs(theirs.cost)),
          );
        }),
        { seed: SEED, numRuns: RUNS },
      );
      console.log(`${kind} models, seed ${SEED}: ${JSON.stringify(counts)}`);
      expect(counts[kind === 'infeasible' ? 'infeasible' : 'optimal']).toBe(RUNS);
    },
  );
});
