import { availableKg } from '../batch/lot.ts';
import type { Product } from '../batch/product.ts';
import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Form } from '../rules/form.ts';
import { massOf } from '../rules/forms/build.ts';
import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import { rowsOf } from '../rules/row.ts';
import type { Column, LinearModel, Row } from '../solver/model.ts';
import { BASIS_FORMS } from './house-limits.ts';
import type { BatchSize } from './request.ts';

/** The linear problem of a batch: one column per supply in kilograms, and where its rows came from. */
export interface BatchModel extends LinearModel {
  /** Row 0 fixes the size of the batch. */
  readonly limitOfRow: ReadonlyMap<number, Limit>;
}

/**
 * Size, fixed seasoning lines and limits as rows over kilograms of each supply.
 * @throws MissingFigure when a limit counts a constituent that a supply has no figure for.
 */
export function batchModel(
  coefficients: Coefficients,
  product: Product,
  limits: readonly Limit[],
  size: SizeRow,
): BatchModel {
  const columns: Column[] = coefficients.supplies.map((supply) => ({
    cost: supply.costPerKg,
    lower: supply.leastKg ?? 0,
    upper: availableKg(supply),
  }));
  const rows: Row[] = [sizeRow(size, coefficients), ...seasoningRows(product, coefficients)];
  const limitOfRow = new Map<number, Limit>();
  for (const limit of limits) {
    for (const row of rowsOf(limit, coefficients)) {
      if (row.terms.length > 0) limitOfRow.set(rows.push(row) - 1, limit);
    }
  }
  return { columns, rows, limitOfRow };
}

/** The form that the asked size fixes, and at how many kilograms. */
export interface SizeRow {
  readonly form: Form;
  readonly massKg: number;
  /** Pieces and finished weight are promised to someone: rounding may not fall short of them. */
  readonly isLeast: boolean;
}

/** Undefined when pieces are asked of a product that has no piece weight. */
export function sizeOf(size: BatchSize, product: Product): SizeRow | undefined {
  switch (size.by) {
    case 'total':
      return { form: FORMS.formula, massKg: size.massKg, isLeast: false };
    case 'meat':
      return { form: FORMS.greenWeight, massKg: size.massKg, isLeast: false };
    case 'finished':
      return { form: FORMS.finished, massKg: size.massKg, isLeast: true };
    case 'pieces':
      return product.form.pieceKg === undefined
        ? undefined
        : { form: FORMS.formula, massKg: size.pieces * product.form.pieceKg, isLeast: true };
  }
}

function sizeRow({ form, massKg }: SizeRow, coefficients: Coefficients): Row {
  return { name: 'size', lower: massKg, upper: massKg, terms: termsOf(form, coefficients) };
}

/** A line at a fixed rate is exactly that rate of its basis: Σ line − rate × basis = 0. */
function seasoningRows({ seasoning }: Product, coefficients: Coefficients): Row[] {
  return seasoning
    .filter(({ minFraction, maxFraction }) => minFraction === maxFraction)
    .map(({ materialId, basis, minFraction }) => {
      const line = termsOf(massOf(materialId, materialId, { materialIds: [materialId] }), coefficients);
      const share = termsOf(BASIS_FORMS[basis], coefficients).map(({ column, coefficient }) => ({
        column,
        coefficient: -minFraction * coefficient,
      }));
      return { name: `line ${materialId}`, lower: 0, upper: 0, terms: mergeTerms([...line, ...share]) };
    });
}

function termsOf(form: Form, coefficients: Coefficients): Row['terms'] {
  return coefficients
    .of(form)
    .map((perKg, column) => ({ column, coefficient: toNumber(perKg) }))
    .filter(({ coefficient }) => coefficient !== 0);
}

function mergeTerms(terms: Row['terms']): Row['terms'] {
  const byColumn = new Map<number, number>();
  for (const { column, coefficient } of terms) {
    byColumn.set(column, (byColumn.get(column) ?? 0) + coefficient);
  }
  return [...byColumn].map(([column, coefficient]) => ({ column, coefficient }));
}
