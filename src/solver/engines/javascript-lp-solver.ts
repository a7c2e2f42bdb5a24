import lp from 'javascript-lp-solver';
import type { Engine, LinearModel, Outcome } from '../model.ts';

type Api = typeof lp.default;
// The package types itself as a namespace with a default, while at run time the import is the solver itself.
const solver = ('default' in lp ? (lp as { default: Api }).default : lp) as unknown as Api;

/**
 * javascript-lp-solver, fenced in: names are generated (a column called "feasible" would overwrite the flag),
 * lower bounds are shifted away, its presolve is off (it loses the cost of fixed columns), and values are
 * read only from an answer that is feasible and bounded.
 */
export const javascriptLpSolver: Engine = {
  name: 'javascript-lp-solver',
  // At a time limit it passes fractions off as whole, and it knows no way to say so.
  takes: ({ columns }) => !columns.some(({ whole }) => whole),
  // It has been seen to go round in circles over planes that nearly coincide.
  suits: ({ columns, rows }) => columns.length <= MOST_COLUMNS && !rows.some(({ plane }) => plane),
  solve,
};

/** Above this size it has been seen to loop for ever, and it is slower than the others. */
const MOST_COLUMNS = 60;

interface Constraint {
  min?: number;
  max?: number;
  equal?: number;
}

const COST = 'cost';

function solve(model: LinearModel): Outcome {
  const constraints: Record<string, Constraint> = {};
  const variables: Record<string, Record<string, number>> = {};
  model.columns.forEach(({ cost, lower, upper }, index) => {
    const coefficients: Record<string, number> = { [COST]: cost };
    if (Number.isFinite(upper)) {
      constraints[`u${index}`] = { max: upper - lower };
      coefficients[`u${index}`] = 1;
    }
    variables[`v${index}`] = coefficients;
  });
  for (const [index, { terms, lower, upper }] of model.rows.entries()) {
    let atLowerBounds = 0;
    for (const { column, coefficient } of terms) {
      atLowerBounds += coefficient * (model.columns[column]?.lower ?? 0);
      const coefficients = variables[`v${column}`] as Record<string, number>;
      coefficients[`r${index}`] = (coefficients[`r${index}`] ?? 0) + coefficient;
    }
    constraints[`r${index}`] = constraintOf(lower - atLowerBounds, upper - atLowerBounds);
  }

  const answer = solver.Solve({
    optimize: COST,
    opType: 'min',
    constraints,
    variables,
    options: { presolve: false },
  } as Parameters<Api['Solve']>[0]) as Record<string, unknown>;

  if (answer.feasible !== true) return { status: 'infeasible' };
  if (answer.bounded === false) return { status: 'unbounded' };
  const values = model.columns.map(({ lower }, index) => lower + Number(answer[`v${index}`] ?? 0));
  return { status: 'optimal', values, cost: Number(answer.result) };
}

function constraintOf(lower: number, upper: number): Constraint {
  if (lower === upper) return { equal: lower };
  return {
    ...(Number.isFinite(lower) && { min: lower }),
    ...(Number.isFinite(upper) && { max: upper }),
  };
}
