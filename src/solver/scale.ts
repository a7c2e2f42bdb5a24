import type { LinearModel, Row } from './model.ts';

/** Below this share of the largest coefficient of its row a coefficient is noise of the arithmetic. */
const NOISE = 1e-13;

/** A scale beyond this is no double any more. */
const MOST_DOUBLINGS = 1000;

/**
 * The same model with every row brought to a largest coefficient near 1, by a power of two so that no digit
 * changes. Engines measure their tolerances in absolute terms, so a row in parts per million must not stand
 * beside one in kilograms.
 */
export function scaleRows(model: LinearModel): LinearModel {
  return { columns: model.columns, rows: model.rows.map((row) => scaleRow(row, rowScale(row))) };
}

/** What a row is multiplied by: its price in the scaled model, times this, is its price in the model itself. */
export function rowScale({ terms }: Row): number {
  const largest = terms.reduce((max, { coefficient }) => Math.max(max, Math.abs(coefficient)), 0);
  return largest === 0 ? 1 : 2 ** Math.min(MOST_DOUBLINGS, -Math.round(Math.log2(largest)));
}

/** One row brought to its scale. */
export function scaleRow(row: Row, factor: number): Row {
  return {
    ...row,
    lower: row.lower * factor,
    upper: row.upper * factor,
    terms: row.terms
      .map(({ column, coefficient }) => ({ column, coefficient: coefficient * factor }))
      .filter(({ coefficient }) => Math.abs(coefficient) > NOISE),
  };
}
