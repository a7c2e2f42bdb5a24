import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { formsOf } from '../rules/form.ts';
import type { Limit } from '../rules/limit.ts';
import type { Column, Engine, LinearModel, Row } from '../solver/model.ts';
import { solve } from '../solver/solve.ts';
import type { BatchModel } from './batch-model.ts';

/** Rounds of bringing a ratio to its least; each at least halves what is missing, a few are usual. */
const MOST_ROUNDS = 40;
const SAME = 1e-12;

/** Two forms whose ratio is to come as near to a bound as the rest of a model lets it. */
export type RatioBound = Pick<Limit, 'numerator' | 'basis' | 'sense' | 'bound'>;

/** The nearest that one limit can be kept when all others hold. */
export function nearestRatio(
  model: BatchModel,
  limit: Limit,
  coefficients: Coefficients,
  engines: readonly Engine[],
): number | undefined {
  const rows = model.rows.filter((_, row) => model.limitOfRow.get(row)?.id !== limit.id);
  return nearestIn({ columns: model.columns, rows }, limit, coefficients, engines);
}

/**
 * The least ratio that a model allows under a maximum, the greatest under a minimum. A ratio of two linear forms is
 * brought there by a chain of linear problems (Dinkelbach, Management Science 13 (1967)). Undefined when the model
 * has no point.
 * @param others the model without the rows of the bound itself.
 */
export function nearestIn(
  others: LinearModel,
  limit: RatioBound,
  coefficients: Coefficients,
  engines: readonly Engine[],
): number | undefined {
  const side = limit.sense === 'min' ? -1 : 1;
  const forms = formsOf(limit.numerator).map((form) => coefficients.of(form).map(toNumber));
  const basis = coefficients.of(limit.basis).map(toNumber);
  const over: Column = { cost: 1, lower: -1e9, upper: 1e9 };
  const columns = [...others.columns.map((column) => ({ ...column, cost: 0 })), over];
  let ratio = limit.bound;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const rows = forms.map(
      (perKg): Row => ({
        name: 'nearest ratio',
        lower: Number.NEGATIVE_INFINITY,
        upper: 0,
        terms: [
          ...perKg.map((each, column) => ({
            column,
            coefficient: side * (each - ratio * (basis[column] ?? 0)),
          })),
          { column: columns.length - 1, coefficient: -1 },
        ],
      }),
    );
    const outcome = solve({ columns, rows: [...others.rows, ...rows] }, engines);
    if (outcome.status !== 'optimal') return undefined;
    const sum = (perKg: readonly number[]) =>
      perKg.reduce((total, each, column) => total + each * (outcome.values[column] ?? 0), 0);
    const basisKg = sum(basis);
    if (basisKg <= 0) return undefined;
    const reached = forms.map((perKg) => side * sum(perKg)).reduce((a, b) => Math.max(a, b));
    const next = (side * reached) / basisKg;
    if (Math.abs(next - ratio) <= SAME * Math.max(1, Math.abs(ratio))) return next;
    ratio = next;
  }
  return ratio;
}
