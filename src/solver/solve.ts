import { costOf, type Miss, misses } from './check.ts';
import { guard } from './guard.ts';
import type { Engine, LinearModel, Optimum, Outcome } from './model.ts';
import { rowScale, scaleRow } from './scale.ts';

/** An engine gave an answer that does not hold, and no other engine gave a better one. */
export class SolverFault extends Error {
  readonly model: LinearModel;

  constructor(message: string, model: LinearModel) {
    super(message);
    this.name = 'SolverFault';
    this.model = model;
  }
}

/**
 * The one door to the engines: the model is guarded and scaled, each engine is asked in turn (those that suit
 * the model before the others) until one gives a point that holds against the unscaled model, and the cost is
 * added up here, not believed. That there is no such point is believed only when no engine that suits the model finds
 * one; those that do not suit it are asked only when the others have failed. An engine
 * whose point does not hold is asked once more with rows and columns the other way round: its pivots go another
 * way, and with them its rounding.
 * @throws ModelFault when the model itself is broken, SolverFault when no engine's answer holds.
 */
export function solve(model: LinearModel, engines: readonly Engine[]): Outcome {
  guard(model);
  const factors = model.rows.map(rowScale);
  const scaled = {
    columns: model.columns,
    rows: model.rows.map((row, index) => scaleRow(row, factors[index] as number)),
  };
  const faults: string[] = [];
  const without: { outcome: Outcome; engine: Engine }[] = [];
  for (const engine of inOrder(model, engines)) {
    if (without.length > 0 && faults.length === 0 && !engine.suits(model)) break;
    for (const order of [straight, reversed]) {
      const { outcome, fault } = ask(polished(order(engine.solve)), scaled, model);
      if (fault !== undefined) {
        faults.push(`${engine.name}: ${fault}`);
        engine.doubted?.(fault);
        continue;
      }
      if (outcome.status !== 'optimal') {
        without.push({ outcome, engine });
        break;
      }
      for (const other of without)
        other.engine.doubted?.(`it says ${other.outcome.status} and a point was found`);
      return unscaled(outcome, factors);
    }
  }
  const [first] = without;
  if (first && faults.length === 0) return first.outcome;
  throw new SolverFault(
    `no engine's answer holds: ${faults.join('; ') || 'none of the engines there are takes such a model'}`,
    model,
  );
}

/** The engines that can be asked, those that suit the model first. */
export function inOrder(model: LinearModel, engines: readonly Engine[]): Engine[] {
  const able = engines.filter(({ takes }) => takes(model));
  return [...able.filter(({ suits }) => suits(model)), ...able.filter(({ suits }) => !suits(model))];
}

type Ask = Engine['solve'];
type Answer =
  | { readonly outcome: Outcome; readonly fault?: undefined }
  | { readonly outcome?: undefined; readonly fault: string };

/** One answer of one engine with its dust put away; or what is wrong with it. */
function ask(solveIt: Ask, scaled: LinearModel, model: LinearModel): Answer {
  let outcome: Outcome;
  try {
    outcome = solveIt(scaled);
  } catch (error) {
    return { fault: `it failed: ${(error as Error).message}` };
  }
  if (outcome.status !== 'optimal') return { outcome };
  return held(outcome, model);
}

/**
 * Engines call a count whole when it is near a whole number, which leaves grams of a box over: the counts are made
 * whole and the rest is solved again around them.
 */
const polished =
  (solveIt: Ask): Ask =>
  (model) => {
    const outcome = solveIt(model);
    if (outcome.status !== 'optimal' || !model.columns.some(({ whole }) => whole)) return outcome;
    const columns = model.columns.map((column, index) => {
      if (!column.whole) return column;
      const count = Math.round(outcome.values[index] ?? Number.NaN);
      return { cost: column.cost, lower: count, upper: count };
    });
    const rest = solveIt({ columns, rows: model.rows });
    if (rest.status !== 'optimal') throw new Error('its counts are not whole enough');
    return { ...outcome, values: rest.values };
  };

const straight = (solveIt: Ask): Ask => solveIt;

/** The same question with the last column and the last row first; the answer comes back in the old order. */
const reversed =
  (solveIt: Ask): Ask =>
  ({ columns, rows }) => {
    const last = columns.length - 1;
    const outcome = solveIt({
      columns: columns.toReversed(),
      rows: rows.toReversed().map((row) => ({
        ...row,
        terms: row.terms.map(({ column, coefficient }) => ({ column: last - column, coefficient })),
      })),
    });
    if (outcome.status !== 'optimal') return outcome;
    const { values, rowPrices } = outcome;
    return {
      ...outcome,
      values: values.toReversed(),
      ...(rowPrices && { rowPrices: rowPrices.toReversed() }),
    };
  };

function unscaled(optimum: Optimum, factors: readonly number[]): Optimum {
  const { rowPrices } = optimum;
  if (!rowPrices) return optimum;
  return { ...optimum, rowPrices: rowPrices.map((price, row) => price * (factors[row] ?? 1)) };
}

/** An optimum with its dust put away, if it holds against the model as it was asked. */
function held(optimum: Optimum, model: LinearModel): Answer {
  if (optimum.values.length !== model.columns.length) {
    return { fault: `${optimum.values.length} values for ${model.columns.length} columns` };
  }
  const values = optimum.values.map((value, index) => withinBounds(value, model, index));
  const found = misses(model, values);
  if (found.length > 0) return { fault: found.map(describe).join(', ') };
  return { outcome: { ...optimum, values, cost: costOf(model, values) } };
}

/** Dust of the arithmetic, such as -3e-17 kg, is put back on the bound it came from. */
function withinBounds(value: number, { columns }: LinearModel, index: number): number {
  const { lower, upper, whole } = columns[index] as LinearModel['columns'][number];
  if (whole) return Math.round(value);
  const dust = 1e-8 * Math.max(1, Math.abs(value));
  if (value < lower && value >= lower - dust) return lower;
  if (value > upper && value <= upper + dust) return upper;
  return value;
}

function describe({ what, by }: Miss): string {
  return `${what} is missed by ${by}`;
}
