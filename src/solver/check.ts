import type { LinearModel } from './model.ts';

/**
 * How far an engine's answer may miss a bound, relative to the size of the terms in the row. Engines round
 * their answers to about 1e-8; anything worse is a wrong answer. The weights that are printed are proven
 * elsewhere in exact arithmetic without any tolerance.
 */
export const TOLERANCE = 1e-7;

/** Smaller coefficients are no figures of anything: doubles themselves end near them. */
const LEAST_UNIT = 1e-200;

/** One bound that a point misses, and by how much (positive, in the unit of the row). */
export interface Miss {
  readonly what: string;
  readonly by: number;
}

/** Every bound of the model that the point misses beyond the tolerance; empty for a feasible point. */
export function misses(model: LinearModel, values: readonly number[]): Miss[] {
  const found: Miss[] = [];
  model.columns.forEach(({ lower, upper, whole }, index) => {
    const value = values[index] ?? Number.NaN;
    if (whole && !Number.isInteger(value)) {
      found.push({ what: `whole column ${index}`, by: Math.abs(value - Math.round(value)) });
    }
    note(found, `column ${index}`, value, lower, upper, Math.abs(value), 1);
  });
  for (const { name, lower, upper, terms } of model.rows) {
    let activity = 0;
    // Measured in the unit of the row, which its largest coefficient tells: a limit in parts per million is none of 1.
    let size = 0;
    let largest = 0;
    for (const { column, coefficient } of terms) {
      const part = coefficient * (values[column] ?? Number.NaN);
      activity += part;
      size += Math.abs(part);
      largest = Math.max(largest, Math.abs(coefficient));
    }
    note(found, `row ${name}`, activity, lower, upper, size, largest > LEAST_UNIT ? largest : 1);
  }
  return found;
}

/** Cost of a point, added up from the model. */
export function costOf(model: LinearModel, values: readonly number[]): number {
  return model.columns.reduce((total, { cost }, index) => total + cost * (values[index] ?? Number.NaN), 0);
}

function note(
  found: Miss[],
  what: string,
  value: number,
  lower: number,
  upper: number,
  size: number,
  unit: number,
): void {
  const slack = TOLERANCE * Math.max(unit, size);
  // Written so that NaN counts as a miss.
  if (!(value >= lower - slack)) found.push({ what, by: lower - value });
  else if (!(value <= upper + slack)) found.push({ what, by: value - upper });
}
