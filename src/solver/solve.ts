import { costOf, type Miss, misses } from './check.ts';
import { guard } from './guard.ts';
import type { Engine, LinearModel, Outcome } from './model.ts';
import { scaleRows } from './scale.ts';

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
 * The one door to the engines: the model is guarded and scaled, each engine is asked in turn until one gives
 * a point that holds against the unscaled model, and the cost is added up here, not believed. That there is no
 * such point is believed only when no engine finds one. An engine whose point does not hold is asked once more with
 * rows and columns the other way round: its pivots go another way, and with them its rounding.
 * @throws ModelFault when the model itself is broken, SolverFault when no engine's answer holds.
 */
export function solve(model: LinearModel, engines: readonly Engine[]): Outcome {
  guard(model);
  const scaled = scaleRows(model);
  const faults: string[] = [];
  let without: Outcome | undefined;
  for (const { name, solve: ask } of engines) {
    for (const order of [straight, reversed]) {
      const outcome = order(ask)(scaled);
      if (outcome.status !== 'optimal') {
        without ??= outcome;
        break;
      }
      const answer = heldAnswer(outcome.values, model);
      if (answer.status === 'holds') {
        return { status: 'optimal', values: answer.values, cost: costOf(model, answer.values) };
      }
      faults.push(`${name}: ${answer.fault}`);
    }
  }
  if (without && faults.length === 0) return without;
  throw new SolverFault(`no engine's answer holds: ${faults.join('; ')}`, model);
}

type Ask = Engine['solve'];
const straight = (ask: Ask): Ask => ask;

/** The same question with the last column and the last row first; the answer comes back in the old order. */
const reversed =
  (ask: Ask): Ask =>
  ({ columns, rows }) => {
    const last = columns.length - 1;
    const outcome = ask({
      columns: columns.toReversed(),
      rows: rows.toReversed().map((row) => ({
        ...row,
        terms: row.terms.map(({ column, coefficient }) => ({ column: last - column, coefficient })),
      })),
    });
    return outcome.status === 'optimal' ? { ...outcome, values: outcome.values.toReversed() } : outcome;
  };

type Answer =
  | { readonly status: 'holds'; readonly values: readonly number[] }
  | { readonly status: 'fails'; readonly fault: string };

/** A point with its dust put away, if it holds against the model as it was asked. */
function heldAnswer(point: readonly number[], model: LinearModel): Answer {
  if (point.length !== model.columns.length) {
    return { status: 'fails', fault: `${point.length} values for ${model.columns.length} columns` };
  }
  const values = point.map((value, index) => withinBounds(value, model, index));
  const found = misses(model, values);
  if (found.length === 0) return { status: 'holds', values };
  return { status: 'fails', fault: found.map(describe).join(', ') };
}

/** Dust of the arithmetic, such as -3e-17 kg, is put back on the bound it came from. */
function withinBounds(value: number, { columns }: LinearModel, index: number): number {
  const { lower, upper } = columns[index] as LinearModel['columns'][number];
  const dust = 1e-8 * Math.max(1, Math.abs(value));
  if (value < lower && value >= lower - dust) return lower;
  if (value > upper && value <= upper + dust) return upper;
  return value;
}

function describe({ what, by }: Miss): string {
  return `${what} is missed by ${by}`;
}
