import { availableKg } from '../batch/lot.ts';
import type { Product } from '../batch/product.ts';
import { add, type Exact, exact, isZero, multiply, ZERO } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Form } from '../rules/form.ts';
import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import { rowsOf } from '../rules/row.ts';
import { type ExactColumn, type ExactModel, type ExactRow, toLinear, toRow } from '../solver/exact-model.ts';
import type { LinearModel } from '../solver/model.ts';
import { basisForm, lineForm } from './house-limits.ts';
import type { BatchSize } from './request.ts';

/** A million kilograms: beyond it the size is a slip, and numbers lose their milligrams. */
export const MOST_BATCH_KG = 1e6;

/** The linear problem of a batch: one column per supply in kilograms, and where its rows came from. */
export interface BatchModel extends LinearModel {
  /** The same problem in exact decimals, for proofs. */
  readonly exact: ExactModel;
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
  const columns: ExactColumn[] = coefficients.supplies.map((supply) => ({
    cost: exact(supply.costPerKg),
    lower: exact(supply.leastKg ?? 0),
    upper: exact(Math.min(availableKg(supply), MOST_BATCH_KG)),
  }));
  const rows: ExactRow[] = [sizeRow(size, coefficients), ...seasoningRows(product, coefficients)];
  const limitOfRow = new Map<number, Limit>();
  for (const limit of limits) {
    for (const row of rowsOf(limit, coefficients)) {
      if (row.terms.length > 0) limitOfRow.set(rows.push(row) - 1, limit);
    }
  }
  const model: ExactModel = { columns, rows };
  return { ...toLinear(model), exact: model, limitOfRow };
}

/** The model with rows more; of those that belong to a limit it is said to which. */
export function withRows(
  model: BatchModel,
  added: readonly { readonly row: ExactRow; readonly limit?: Limit }[],
): BatchModel {
  if (added.length === 0) return model;
  const limitOfRow = new Map(model.limitOfRow);
  added.forEach(({ limit }, index) => {
    if (limit) limitOfRow.set(model.rows.length + index, limit);
  });
  return {
    columns: model.columns,
    rows: [...model.rows, ...added.map(({ row }) => toRow(row))],
    exact: { columns: model.exact.columns, rows: [...model.exact.rows, ...added.map(({ row }) => row)] },
    limitOfRow,
  };
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

function sizeRow({ form, massKg }: SizeRow, coefficients: Coefficients): ExactRow {
  const size = exact(massKg);
  return { name: 'size', lower: size, upper: size, terms: termsOf(form, coefficients) };
}

/** A line at a fixed rate is exactly that rate of its basis: Σ line − rate × basis = 0. */
export function seasoningRows(product: Product, coefficients: Coefficients): ExactRow[] {
  return product.seasoning
    .filter(({ minFraction, maxFraction }) => minFraction === maxFraction)
    .map(({ materialId, basis, minFraction }) => {
      const line = termsOf(lineForm(materialId), coefficients);
      const share = termsOf(basisForm(basis, product), coefficients).map(({ column, coefficient }) => ({
        column,
        coefficient: multiply(exact(-minFraction), coefficient),
      }));
      return { name: `line ${materialId}`, lower: ZERO, upper: ZERO, terms: mergeTerms([...line, ...share]) };
    });
}

function termsOf(form: Form, coefficients: Coefficients): ExactRow['terms'] {
  return coefficients
    .of(form)
    .map((coefficient, column) => ({ column, coefficient }))
    .filter(({ coefficient }) => !isZero(coefficient));
}

function mergeTerms(terms: ExactRow['terms']): ExactRow['terms'] {
  const byColumn = new Map<number, Exact>();
  for (const { column, coefficient } of terms) {
    byColumn.set(column, add(byColumn.get(column) ?? ZERO, coefficient));
  }
  return [...byColumn].map(([column, coefficient]) => ({ column, coefficient }));
}
