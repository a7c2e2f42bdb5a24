import loadPackage from 'highs';
import type { Engine, LinearModel, OpenModel, Outcome, Row } from '../model.ts';

// The package types its default as a namespace, while at run time the import is the loader itself.
const load = loadPackage as unknown as typeof loadPackage.default;
type Highs = Awaited<ReturnType<typeof load>>;
type Native = ReturnType<Highs['createModel']>;
type Options = Parameters<Native['options']['set']>[0];

/** HiGHS with a way to tell that its memory is spoilt and a new one must be loaded. */
export interface HighsEngine extends Engine {
  readonly isBroken: () => boolean;
}

/** Seconds for a model with whole columns, after which the best point found so far is the answer. */
const WHOLE_SECONDS = 5;

// Coefficients up to 1e-9 are dropped by default: the smallest allowed value keeps them.
const USUAL = { output_flag: false, presolve: 'off', small_matrix_value: 1e-12 };
const TIGHT = { ...USUAL, primal_feasibility_tolerance: 1e-9, dual_feasibility_tolerance: 1e-9 };
/** A few models end as "unknown" one way; then another decides. */
const WAYS: readonly Options[] = [
  TIGHT,
  USUAL,
  { ...USUAL, presolve: 'on' },
  { ...USUAL, simplex_strategy: 4 },
  { ...USUAL, solver: 'ipm' },
];
/** "Infeasible" is believed only of the way without presolve, which has known faults there. */
const WHOLE_WAYS: readonly Options[] = [
  { ...TIGHT, presolve: 'on', mip_feasibility_tolerance: 1e-8, mip_rel_gap: 0, mip_abs_gap: 1e-9 },
  { ...TIGHT, mip_feasibility_tolerance: 1e-8, mip_rel_gap: 0, mip_abs_gap: 1e-9 },
  { ...USUAL, mip_rel_gap: 1e-9 },
];

/**
 * HiGHS (dual simplex, branch and cut) compiled to WebAssembly: takes every model, tells row prices, and keeps a
 * model open for questions that differ by little. Huangfu and Hall, Mathematical Programming Computation 10 (2018).
 */
export async function loadHighs(wholeSeconds = WHOLE_SECONDS): Promise<HighsEngine> {
  const highs = await load();
  let broken = false;
  /** A native fault spoils the memory of every later call. */
  const guarded = <Answer>(work: () => Answer): Answer => {
    try {
      return work();
    } catch (error) {
      if (String(error).includes('Aborted') || (error as Error).name === 'RuntimeError') broken = true;
      throw error;
    }
  };
  return {
    name: 'highs',
    takes: () => !broken,
    suits: () => true,
    isBroken: () => broken,
    solve: (model) => guarded(() => solveOnce(highs, model, wholeSeconds)),
    open: (model) => guarded(() => openModel(highs, model, guarded)),
  };
}

function solveOnce(highs: Highs, model: LinearModel, wholeSeconds: number): Outcome {
  // HiGHS calls every model without columns empty, whatever its rows say.
  if (model.columns.length === 0) {
    const holds = model.rows.every(({ lower, upper }) => lower <= 0 && upper >= 0);
    return holds
      ? { status: 'optimal', cost: 0, values: [], rowPrices: model.rows.map(() => 0) }
      : { status: 'infeasible' };
  }
  const isWhole = model.columns.some(({ whole }) => whole);
  let infeasible: Outcome | undefined;
  for (const way of isWhole ? WHOLE_WAYS : WAYS) {
    const native = highs.createModel();
    try {
      native.options.set(isWhole ? { ...way, time_limit: wholeSeconds } : way);
      pass(highs, native, model);
      native.run();
      const outcome = outcomeOf(highs, native, isWhole);
      if (!outcome) continue;
      if (!isWhole || outcome.status !== 'infeasible' || way.presolve === 'off') return outcome;
      infeasible = outcome;
    } finally {
      native.dispose();
    }
  }
  if (infeasible) return infeasible;
  throw new Error('no way of HiGHS comes to an answer');
}

function outcomeOf(highs: Highs, native: Native, isWhole: boolean): Outcome | undefined {
  const status = native.getModelStatus();
  const { optimal, infeasible, unbounded, timeLimit } = highs.constants.modelStatus;
  if (status === infeasible) return { status: 'infeasible' };
  if (status === unbounded) return { status: 'unbounded' };
  if (status !== optimal && !(isWhole && status === timeLimit && hasPoint(native))) return undefined;
  const { colValue, rowDual } = native.getSolution();
  return {
    status: 'optimal',
    cost: native.getObjectiveValue(),
    values: [...colValue],
    ...(isWhole ? { reportedBound: Number(native.info.get('mip_dual_bound')) } : { rowPrices: [...rowDual] }),
  };
}

function hasPoint(native: Native): boolean {
  return Number(native.info.get('primal_solution_status')) === 2;
}

/** Lines of one column are added up: HiGHS refuses a row that names a column twice. */
function entries(terms: Row['terms']): { indices: number[]; values: number[] } {
  const merged = new Map<number, number>();
  for (const { column, coefficient } of terms) merged.set(column, (merged.get(column) ?? 0) + coefficient);
  const kept = [...merged].filter(([, coefficient]) => coefficient !== 0);
  return { indices: kept.map(([column]) => column), values: kept.map(([, coefficient]) => coefficient) };
}

function pass(highs: Highs, native: Native, { columns, rows }: LinearModel): void {
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  for (const { terms } of rows) {
    const row = entries(terms);
    indices.push(...row.indices);
    values.push(...row.values);
    starts.push(indices.length);
  }
  const bound = boundFor(highs);
  const { continuous, integer } = highs.constants.variableType;
  native.passModel({
    numCols: columns.length,
    numRows: rows.length,
    colCost: columns.map(({ cost }) => cost),
    colLower: columns.map(({ lower }) => bound(lower)),
    colUpper: columns.map(({ upper }) => bound(upper)),
    rowLower: rows.map(({ lower }) => bound(lower)),
    rowUpper: rows.map(({ upper }) => bound(upper)),
    ...(columns.some(({ whole }) => whole) && {
      integrality: columns.map(({ whole }) => (whole ? integer : continuous)),
    }),
    matrix: { format: 'csr', numRows: rows.length, numCols: columns.length, starts, indices, values },
  });
}

const boundFor =
  ({ infinity }: Highs) =>
  (value: number): number =>
    Number.isFinite(value) ? value : Math.sign(value) * infinity;

function openModel(highs: Highs, model: LinearModel, guarded: <A>(work: () => A) => A): OpenModel {
  const native = highs.createModel();
  const bound = boundFor(highs);
  native.options.set(TIGHT);
  pass(highs, native, model);
  return {
    setCost: (column, cost) => guarded(() => void native.changeColCost(column, cost)),
    setColumn: (column, lower, upper) =>
      guarded(() => void native.changeColBounds(column, bound(lower), bound(upper))),
    setRow: (row, lower, upper) =>
      guarded(() => void native.changeRowBounds(row, bound(lower), bound(upper))),
    addRow: ({ lower, upper, terms }) =>
      guarded(() => void native.addRow(bound(lower), bound(upper), entries(terms))),
    solve: () =>
      guarded(() => {
        native.run();
        const outcome = outcomeOf(highs, native, false);
        if (outcome) return outcome;
        // A start that leads nowhere is thrown away.
        native.clearSolver();
        native.run();
        const again = outcomeOf(highs, native, false);
        if (again) return again;
        throw new Error('the open model comes to no answer');
      }),
    close: () => native.dispose(),
  };
}
