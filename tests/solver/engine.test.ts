import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, type Exact, exact, multiply, sum, toNumber } from '../../src/exact.ts';
import { misses } from '../../src/solver/check.ts';
import { loadHighs } from '../../src/solver/engines/highs.ts';
import { javascriptLpSolver } from '../../src/solver/engines/javascript-lp-solver.ts';
import { type ExactModel, leastCostBound, provesEmpty } from '../../src/solver/exact-model.ts';
import { ModelFault } from '../../src/solver/guard.ts';
import { keepOpen } from '../../src/solver/keep-open.ts';
import type { Column, Engine, LinearModel, OpenModel, Outcome, Row } from '../../src/solver/model.ts';
import { rowPricesByDual, solvePriced } from '../../src/solver/prices.ts';
import { relax } from '../../src/solver/relax.ts';
import { inOrder, SolverFault, solve } from '../../src/solver/solve.ts';
import { arbitraryBlend, plainBlends } from './arbitrary-models.ts';

const FREE = Number.POSITIVE_INFINITY;
const SEED = 8231;
const ENGINES = [javascriptLpSolver];
const highs = await loadHighs();

interface Told extends Engine {
  /** Why its answers were not believed. */
  readonly doubts: readonly string[];
  /** How often it was asked. */
  readonly asked: number;
}

/** An engine that takes and suits all unless it says otherwise, and notes what happens to it. */
function told(engine: Pick<Engine, 'solve'> & Partial<Engine>): Told {
  const doubts: string[] = [];
  let asked = 0;
  return {
    name: 'told',
    takes: () => true,
    suits: () => true,
    ...engine,
    doubts,
    get asked() {
      return asked;
    },
    solve: (model) => {
      asked++;
      return engine.solve(model);
    },
    doubted: (why) => doubts.push(why),
  };
}

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

describe('whole columns', () => {
  const boxes = (cost: number, most: number): Column => ({ ...column(cost, most), whole: true });

  it('sells a box only as a whole', () => {
    // 25 kg from boxes of 10 kg at 30 and loose meat at 5 per kg: two boxes and 5 kg, not two and a half.
    const outcome = solve({ columns: [boxes(30, 9), column(5, 5)], rows: [row([10, 1], 25, 25)] }, [
      javascriptLpSolver,
      highs,
    ]);
    expect(outcome).toMatchObject({ status: 'optimal', values: [2, 5], cost: 85 });
  });

  it('opens another box rather than part of one', () => {
    const outcome = solve({ columns: [boxes(30, 9)], rows: [atLeast([10], 21)] }, [highs]);
    expect(outcome).toMatchObject({ status: 'optimal', values: [3], cost: 90 });
    expect(outcome.status === 'optimal' && outcome.reportedBound).toBeCloseTo(90, 6);
  });

  it('says infeasible where fractions of a box would do', () => {
    const model = { columns: [boxes(30, 9)], rows: [row([10], 21, 29)] };
    expect(solve(model, [highs])).toEqual({ status: 'infeasible' });
  });

  it('makes counts that are nearly whole whole, and solves the rest again around them', () => {
    const nearly = 3 - 4e-7;
    const engine = told({
      solve: (model) =>
        model.columns.some(({ whole }) => whole)
          ? { status: 'optimal', values: [nearly, 25 - 8 * nearly], cost: 0, reportedBound: 92 }
          : javascriptLpSolver.solve(model),
    });
    const model = { columns: [boxes(30, 9), column(2, 9)], rows: [row([8, 1], 25, 25)] };
    expect(solve(model, [engine])).toMatchObject({ status: 'optimal', values: [3, 1], cost: 92 });
    expect(engine.doubts).toEqual([]);
  });

  it('doubts an engine whose counts have no point around them', () => {
    const engine = told({
      solve: (model) =>
        model.columns.some(({ whole }) => whole)
          ? { status: 'optimal', values: [2.1], cost: 0 }
          : javascriptLpSolver.solve(model),
    });
    const model = { columns: [boxes(30, 9)], rows: [row([10], 21, 31)] };
    expect(solve(model, [engine, highs])).toMatchObject({ status: 'optimal', values: [3] });
    expect(engine.doubts).toHaveLength(2);
    expect(engine.doubts[0]).toContain('not whole enough');
  });

  it('is never asked of an engine that does not take them', () => {
    const model = { columns: [boxes(30, 9)], rows: [atLeast([10], 21)] };
    const engine = told({ ...javascriptLpSolver });
    expect(solve(model, [engine, highs])).toMatchObject({ status: 'optimal', values: [3] });
    expect(() => solve(model, [engine])).toThrow(SolverFault);
    expect(engine.asked).toBe(0);
    expect(engine.doubts).toEqual([]);
  });
});

describe('the order of the engines', () => {
  const wide = (width: number): LinearModel => ({
    columns: Array.from({ length: width }, () => column(1, 5)),
    rows: [atLeast(Array<number>(width).fill(1), 7)],
  });

  it.each([
    [60, ['javascript-lp-solver', 'highs']],
    [61, ['highs', 'javascript-lp-solver']],
  ])('of a model with %d columns is by what suits it', (width, names) => {
    const fast = told({ ...javascriptLpSolver });
    const slow = told({ ...highs });
    const model = wide(width);
    expect(inOrder(model, [fast, slow]).map(({ name }) => name)).toEqual(names);
    expect(solve(model, [fast, slow])).toMatchObject({ status: 'optimal', cost: 7 });
    expect([fast, slow].filter(({ asked }) => asked > 0).map(({ name }) => name)).toEqual(names.slice(0, 1));
  });

  it('keeps an engine that does not suit for when the others fail', () => {
    const broken = told({ ...highs, solve: () => ({ status: 'optimal', values: [], cost: 0 }) });
    expect(solve(wide(61), [javascriptLpSolver, broken])).toMatchObject({ status: 'optimal', cost: 7 });
    expect(broken.doubts).toHaveLength(2);
  });
});

describe('doubt', () => {
  const model: LinearModel = { columns: [column(2, 8), column(3, 8)], rows: [row([1, 1], 10, 10)] };
  const right: Outcome = { status: 'optimal', values: [8, 2], cost: 22 };
  const infeasible: Outcome = { status: 'infeasible' };

  it('comes of an engine that throws, and the next one answers', () => {
    const thrower = told({
      solve: () => {
        throw new Error('out of memory');
      },
    });
    const honest = told({ solve: () => right });
    expect(solve(model, [thrower, honest])).toEqual(right);
    expect(thrower.doubts).toEqual(['it failed: out of memory', 'it failed: out of memory']);
    expect(honest.doubts).toEqual([]);
  });

  it('ends in a fault when every engine throws', () => {
    const thrower = told({
      solve: () => {
        throw new Error('out of memory');
      },
    });
    expect(() => solve(model, [thrower])).toThrow('it failed: out of memory');
  });

  it('comes of an engine that finds nothing where another finds a point, and only then', () => {
    const blind = told({ solve: () => infeasible });
    const honest = told({ solve: () => right });
    expect(solve(model, [blind, honest])).toEqual(right);
    expect(blind.doubts).toEqual(['it says infeasible and a point was found']);
    expect(honest.doubts).toEqual([]);

    const agreed = [told({ solve: () => infeasible }), told({ solve: () => infeasible })];
    expect(solve(model, agreed)).toEqual(infeasible);
    expect(agreed.map(({ doubts }) => doubts)).toEqual([[], []]);
    expect(agreed.map(({ asked }) => asked)).toEqual([1, 1]);
  });

  it('does not let a single engine call a model infeasible when another gave a false point', () => {
    const blind = told({ solve: () => infeasible });
    const liar = told({ solve: () => ({ status: 'optimal', values: [8, 1], cost: 0 }) });
    expect(() => solve(model, [blind, liar])).toThrow(SolverFault);
  });

  it('is told once of an engine that is right when asked the other way round', () => {
    const turned = told({
      solve: ({ columns }) => ({
        status: 'optimal',
        // The other way round the dearer column comes first.
        values: columns[0]?.cost === 3 ? [2, 8] : [8, 1],
        cost: 0,
        rowPrices: [3],
      }),
    });
    expect(solve(model, [turned])).toMatchObject({ status: 'optimal', values: [8, 2], cost: 22 });
    expect(turned.doubts).toEqual(['row row is missed by 1']);
  });

  it('does not come of an engine that was not asked', () => {
    const second = told({ solve: () => infeasible });
    expect(solve(model, [told({ solve: () => right }), second])).toEqual(right);
    expect(second.asked).toBe(0);
    expect(second.doubts).toEqual([]);
  });
});

const ACTIONS = fc.array(
  fc.record({
    what: fc.constantFrom('cost', 'column', 'row', 'added row'),
    at: fc.nat(100),
    low: fc.integer({ min: 0, max: 500 }),
    room: fc.integer({ min: 0, max: 500 }),
  }),
  { minLength: 1, maxLength: 8 },
);

describe('a model that is kept open', () => {
  const start: LinearModel = { columns: [column(2, 8), column(3, 8)], rows: [row([1, 1], 10, 10)] };

  it('answers after any changes as the changed model does when it is solved anew', () => {
    const seen: Record<string, number> = {};
    fc.assert(
      fc.property(plainBlends, ACTIONS, ({ linear }, actions) => {
        keepOpen(linear, [javascriptLpSolver, highs], (kept) => {
          for (const { what, at, low, room } of actions) {
            const { columns, rows } = kept.model();
            const columnAt = at % columns.length;
            const { lower, upper, terms } = rows[at % rows.length] as Row;
            if (what === 'cost') kept.setCost(columnAt, low / 100);
            if (what === 'column') kept.setColumn(columnAt, low / 100, low / 100 + room / 10);
            if (what === 'row') {
              kept.setRow(at % rows.length, lower - low / 10, Math.max(upper, lower) + room / 10);
            }
            if (what === 'added row') {
              kept.addRow({ name: 'added', lower: -FREE, upper: 5 * low + room, terms });
            }
            const answer = kept.solve();
            const anew = solvePriced(kept.model(), [highs]);
            seen[answer.status] = (seen[answer.status] ?? 0) + 1;
            expect(answer.status).toBe(anew.status);
            if (answer.status !== 'optimal' || anew.status !== 'optimal') continue;
            expect(misses(kept.model(), answer.values)).toEqual([]);
            expectNear(answer.cost, anew.cost);
          }
        });
      }),
      { seed: SEED, numRuns: 400 },
    );
    console.log(`models kept open, seed ${SEED}: ${JSON.stringify(seen)}`);
    expect(seen.optimal).toBeGreaterThan(400);
    expect(seen.infeasible).toBeGreaterThan(50);
  });

  it('shows the model as it stands, and leaves the one it was given alone', () => {
    const given = structuredClone(start);
    keepOpen(given, [highs], (kept) => {
      kept.setCost(0, 9);
      kept.setColumn(1, 1, 4);
      kept.setRow(0, 2, 6);
      kept.addRow(atMost([1, 0], 5));
      expect(kept.model()).toEqual({
        columns: [column(9, 8), column(3, 4, 1)],
        rows: [row([1, 1], 2, 6), atMost([1, 0], 5)],
      });
    });
    expect(given).toEqual(start);
  });

  it('tells the row prices in the unit of the row, changed and added ones included', () => {
    keepOpen(
      { columns: [column(2, 80), column(3, 80)], rows: [row([1e6, 1e6], 1e7, 1e7)] },
      [highs],
      (kept) => {
        kept.addRow(atMost([1e-3, 0], 4e-3));
        const outcome = kept.solve();
        if (outcome.status !== 'optimal') throw new Error(outcome.status);
        expect(outcome.cost).toBeCloseTo(26, 8);
        expect(outcome.rowPrices[0]).toBeCloseTo(3e-6, 12);
        expect(outcome.rowPrices[1]).toBeCloseTo(-1000, 6);
      },
    );
  });

  /** HiGHS with one part of its open model changed; counts how often it was closed. */
  const opened = (changed: (open: OpenModel) => Partial<OpenModel>) => {
    const closed: string[] = [];
    const engine = told({
      ...highs,
      open: (model) => {
        const open = highs.open?.(model) as OpenModel;
        const close = () => {
          closed.push('closed');
          open.close();
        };
        return { ...open, close, ...changed(open) };
      },
    });
    return { engine, closed };
  };
  const fails = () => {
    throw new Error('out of memory');
  };

  it.each<[string, (open: OpenModel) => Partial<OpenModel>, string]>([
    [
      'gives a point that misses a row',
      () => ({ solve: () => ({ status: 'optimal', values: [8, 0], cost: 0, rowPrices: [0] }) }),
      'row row',
    ],
    [
      'gives a point without prices',
      (open) => ({
        solve: () => {
          const { rowPrices: _, ...rest } = open.solve() as Extract<Outcome, { status: 'optimal' }>;
          return rest;
        },
      }),
      'an open model misses',
    ],
    ['throws when it is solved', () => ({ solve: fails }), 'out of memory'],
    ['throws when a cost changes', () => ({ setCost: fails }), 'out of memory'],
    ['throws when a column changes', () => ({ setColumn: fails }), 'out of memory'],
    ['throws when a row changes', () => ({ setRow: fails }), 'out of memory'],
    ['throws when a row is added', () => ({ addRow: fails }), 'out of memory'],
  ])('is doubted once, closed once and replaced when it %s', (_, changed, why) => {
    const { engine, closed } = opened(changed);
    const costs = keepOpen(start, [engine, javascriptLpSolver], (kept) => {
      kept.setCost(0, 4);
      kept.setColumn(1, 0, 7);
      kept.setRow(0, 9, 9);
      kept.addRow(atMost([0, 1], 6));
      return [kept.solve(), kept.solve()].map((outcome) => outcome.status === 'optimal' && outcome.cost);
    });
    expect(costs).toEqual([30, 30]);
    expect(engine.doubts).toHaveLength(1);
    expect(engine.doubts[0]).toContain(why);
    expect(closed).toEqual(['closed']);
  });

  it('is done without when it does not open', () => {
    const engine = told({ ...highs, open: fails });
    const outcome = keepOpen(start, [engine], (kept) => kept.solve());
    expect(outcome).toMatchObject({ status: 'optimal', cost: 22 });
    expect(engine.doubts).toEqual(['it opens no model: out of memory']);
  });

  it('is closed when the work throws, and no doubt comes of that', () => {
    const { engine, closed } = opened(() => ({}));
    expect(() => keepOpen(start, [engine], fails)).toThrow('out of memory');
    expect(closed).toEqual(['closed']);
    expect(engine.doubts).toEqual([]);
  });

  it('is not needed: engines that keep none answer as well', () => {
    const outcome = keepOpen(start, ENGINES, (kept) => {
      kept.setCost(0, 4);
      return kept.solve();
    });
    expect(outcome).toMatchObject({ status: 'optimal', cost: 32 });
  });
});

describe('row prices', () => {
  it('come from the dual problem where no engine tells them, and prove the cost', () => {
    fc.assert(
      fc.property(plainBlends, ({ exact: model, linear }) => {
        const outcome = solvePriced(linear, ENGINES);
        if (outcome.status !== 'optimal') throw new Error(`the model is ${outcome.status}`);
        expect(outcome.rowPrices).toEqual(rowPricesByDual(linear, ENGINES));
        const bound = toNumber(leastCostBound(model, outcome.rowPrices));
        // This engine rounds to 1e-8: so much is left of a column's cost, and counts for as far as the column goes.
        const ends = linear.columns.reduce((total, { upper }) => total + upper, 0);
        expect(Math.abs(outcome.cost - bound)).toBeLessThanOrEqual(1e-8 * ends + 1e-6 * outcome.cost);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('are taken from the engine that tells them, with the point of the first', () => {
    const model: LinearModel = { columns: [column(2, 8), column(3, 8)], rows: [row([1, 1], 10, 10)] };
    const fast = told({ ...javascriptLpSolver });
    const outcome = solvePriced(model, [fast, highs]);
    expect(outcome).toMatchObject({ status: 'optimal', values: [8, 2], rowPrices: [3] });
    expect(fast.asked).toBe(1);
    expect(fast.doubts).toEqual([]);
  });

  it('come with the cheaper point where two costs differ, and the dearer one is doubted', () => {
    const model: LinearModel = { columns: [column(2, 8), column(3, 8)], rows: [row([1, 1], 10, 10)] };
    const dear = told({ solve: () => ({ status: 'optimal', values: [2, 8], cost: 28 }) });
    const outcome = solvePriced(model, [dear, highs]);
    expect(outcome).toMatchObject({ status: 'optimal', values: [8, 2], cost: 22, rowPrices: [3] });
    expect(dear.doubts).toEqual(['costs differ: 28 and 22']);
  });

  /** Any numbers at all, and such as an engine might give. */
  const anyPrices = fc.array(
    fc.oneof(
      // Near the end of the doubles a price has no fifteen digits.
      fc.double({ min: -1e300, max: 1e300 }),
      fc.constantFrom(FREE, -FREE),
      fc.double({ min: -1000, max: 1000, noNaN: true }),
      fc.integer({ min: -50, max: 50 }),
    ),
    { maxLength: 60 },
  );

  it('never prove more than the cost of a point that holds, whatever they are', () => {
    fc.assert(
      fc.property(arbitraryBlend({ widest: 8 }), anyPrices, ({ model, point }, prices) => {
        const cost = sum(model.columns.map((each, index) => multiply(each.cost, point[index] as Exact)));
        expect(compare(leastCostBound(model, prices), cost)).toBeLessThanOrEqual(0);
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  it('never prove a model empty that has a point, whatever they are', () => {
    fc.assert(
      fc.property(arbitraryBlend({ widest: 8, tight: true }), anyPrices, ({ model }, prices) => {
        expect(provesEmpty(model, prices)).toBe(false);
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  it('prove a model empty that has none', () => {
    const model: ExactModel = {
      columns: [{ cost: exact(1), lower: exact(0), upper: exact(4) }],
      rows: [
        { name: 'more than there is', lower: exact('4.0001'), terms: [{ column: 0, coefficient: exact(1) }] },
      ],
    };
    expect(provesEmpty(model, [1])).toBe(true);
    expect(provesEmpty(model, [-1])).toBe(false);
    expect(provesEmpty(model, [Number.NaN])).toBe(false);
  });
});

function expectNear(cost: number, other: number): void {
  expect(Math.abs(cost - other)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(other)));
}
