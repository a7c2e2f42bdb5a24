import type { LinearModel, Row } from './model.ts';

/** Below this share of the largest coefficient of its row a coefficient is noise of the arithmetic. */
const NOISE = 1e-13;

/**
 * The same model with every row brought to a largest coefficient near 1, by a power of two so that no digit
 * changes. Engines measure their tolerances in absolute terms, so a row in parts per million must not stand
 * beside one in kilograms.
 */
export function scaleRows(model: LinearModel): LinearModel {
  return { columns: model.columns, rows: model.rows.map(scaleRow) };
}

function scaleRow(row: Row): Row {
  const largest = row.terms.reduce((max, { coefficient }) => Math.max(max, Math.abs(coefficient)), 0);
  if (largest === 0) return row;
  const factor = 2 ** -Math.round(Math.log2(largest));
  return {
    name: row.name,
    lower: row.lower * factor,
    upper: row.upper * factor,
    terms: row.terms
      .filter(({ coefficient }) => Math.abs(coefficient) > NOISE * largest)
      .map(({ column, coefficient }) => ({ column, coefficient: coefficient * factor })),
  };
}
