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
 * such point is believed only when no engine finds one.
 * @throws ModelFault when the model itself is broken, SolverFault when no engine's answer holds.
 */
export function solve(model: LinearModel, engines: readonly Engine[]): Outcome {
  guard(model);
  const scaled = scaleRows(model);
  const faults: string[] = [];
  let without: Outcome | undefined;
  for (const engine of engines) {
    const outcome = engine.solve(scaled);
    if (outcome.status !== 'optimal') {
      without ??= outcome;
      continue;
    }
    if (outcome.values.length !== model.columns.length) {
      faults.push(`${engine.name}: ${outcome.values.length} values for ${model.columns.length} columns`);
      continue;
    }
    const values = outcome.values.map((value, index) => withinBounds(value, model, index));
    const found = misses(model, values);
    if (found.length === 0) return { status: 'optimal', values, cost: costOf(model, values) };
    faults.push(`${engine.name}: ${found.map(describe).join(', ')}`);
  }
  if (without && faults.length === 0) return without;
  throw new SolverFault(`no engine's answer holds: ${faults.join('; ')}`, model);
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
