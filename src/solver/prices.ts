import type { Column, Engine, LinearModel, Optimum, Outcome, Row } from './model.ts';
import { rowScale } from './scale.ts';
import { inOrder, SolverFault, solve } from './solve.ts';

/** An optimum together with what its rows are worth. */
export interface Priced extends Optimum {
  readonly rowPrices: readonly number[];
}

export type PricedOutcome = Priced | Exclude<Outcome, Optimum>;

/** Engines agree when their costs differ by less than this share. */
const AGREE = 1e-6;

/**
 * The least-cost point and its row prices. Where the engine that found the point tells no prices another is asked,
 * or the dual problem is solved in its place; and as two ways to one optimum must meet, a cost that differs is
 * doubted and the cheaper point, which holds as well, is taken.
 * @throws ModelFault, SolverFault as solve does.
 */
export function solvePriced(model: LinearModel, engines: readonly Engine[]): PricedOutcome {
  const first = solve(model, engines);
  if (first.status !== 'optimal') return first;
  if (first.rowPrices) return { ...first, rowPrices: first.rowPrices };
  const [asked, ...others] = inOrder(model, engines);
  for (const engine of others) {
    const second = tryOne(model, engine);
    if (!second?.rowPrices) continue;
    const { rowPrices } = second;
    const dearer = AGREE * Math.max(1, Math.abs(first.cost));
    if (Math.abs(first.cost - second.cost) <= dearer) return { ...first, rowPrices };
    const [better, worse] = first.cost < second.cost ? [first, engine] : [second, asked];
    worse?.doubted?.(`costs differ: ${first.cost} and ${second.cost}`);
    return { ...better, rowPrices };
  }
  return { ...first, rowPrices: dualOrNone(model, engines) };
}

/** Prices that could not be had are nothing: they prove a poor bound and never a false one. */
function dualOrNone(model: LinearModel, engines: readonly Engine[]): readonly number[] {
  const none = model.rows.map(() => 0);
  try {
    return rowPricesByDual(model, engines) ?? none;
  } catch (error) {
    if (!(error instanceof SolverFault)) throw error;
    return none;
  }
}

function tryOne(model: LinearModel, engine: Engine): Optimum | undefined {
  try {
    const outcome = solve(model, [engine]);
    if (outcome.status === 'optimal') return outcome;
    engine.doubted?.(`it says ${outcome.status} and another engine found a point`);
  } catch (error) {
    if (!(error instanceof SolverFault)) throw error;
  }
  return undefined;
}

/**
 * Row prices from the dual problem, solved as a linear problem of its own: for engines that tell none. Undefined
 * when it has no optimum.
 */
export function rowPricesByDual(
  model: LinearModel,
  engines: readonly Engine[],
): readonly number[] | undefined {
  const columns: Column[] = [];
  const terms: { column: number; coefficient: number }[][] = model.columns.map(() => []);
  const parts: { row: number; sign: 1 | -1; column: number; factor: number }[] = [];
  const add = (gain: number) => columns.push({ cost: -gain, lower: 0, upper: Number.POSITIVE_INFINITY }) - 1;
  model.rows.forEach((row, index) => {
    const factor = rowScale(row);
    for (const [bound, sign] of [
      [row.lower, 1],
      [row.upper, -1],
    ] as const) {
      if (!Number.isFinite(bound)) continue;
      const column = add(sign * bound * factor);
      parts.push({ row: index, sign, column, factor });
      for (const term of row.terms) {
        terms[term.column]?.push({ column, coefficient: sign * term.coefficient * factor });
      }
    }
  });
  model.columns.forEach(({ lower, upper }, index) => {
    terms[index]?.push({ column: add(lower), coefficient: 1 });
    if (Number.isFinite(upper)) terms[index]?.push({ column: add(-upper), coefficient: -1 });
  });
  const rows: Row[] = model.columns.map(({ cost }, index) => ({
    name: `cost of column ${index}`,
    lower: cost,
    upper: cost,
    terms: terms[index] ?? [],
  }));
  const outcome = solve({ columns, rows }, engines);
  if (outcome.status !== 'optimal') return undefined;
  const prices = model.rows.map(() => 0);
  for (const { row, sign, column, factor } of parts) {
    prices[row] = (prices[row] ?? 0) + sign * (outcome.values[column] ?? 0) * factor;
  }
  return prices;
}

/** What is left of each column's cost once the rows have taken their share: its reduced cost. */
export function reducedCosts({ columns, rows }: LinearModel, rowPrices: readonly number[]): number[] {
  const left = columns.map(({ cost }) => cost);
  rows.forEach(({ terms }, index) => {
    const price = rowPrices[index] ?? 0;
    if (price === 0) return;
    for (const { column, coefficient } of terms) left[column] = (left[column] ?? 0) - price * coefficient;
  });
  return left;
}
