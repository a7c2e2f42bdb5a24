import { add, compare, type Exact, exact, multiply, subtract, toNumber, ZERO } from '../exact.ts';
import type { LinearModel, Row } from './model.ts';

/** A linear problem in exact decimals: what engines are asked follows from it, and what is proven is about it. */
export interface ExactModel {
  readonly columns: readonly ExactColumn[];
  readonly rows: readonly ExactRow[];
}

export interface ExactColumn {
  readonly cost: Exact;
  readonly lower: Exact;
  /** Always there: without an end to every column no cost can be proven least. */
  readonly upper: Exact;
}

export interface ExactRow {
  readonly name: string;
  /** Absent when there is no such bound. */
  readonly lower?: Exact;
  readonly upper?: Exact;
  readonly terms: readonly { readonly column: number; readonly coefficient: Exact }[];
  /** Whether it is one of the planes that touch a margin. */
  readonly plane?: boolean;
}

/** The model in doubles, for engines. */
export function toLinear({ columns, rows }: ExactModel): LinearModel {
  return {
    columns: columns.map(({ cost, lower, upper }) => ({
      cost: toNumber(cost),
      lower: toNumber(lower),
      upper: toNumber(upper),
    })),
    rows: rows.map(toRow),
  };
}

/** One row in doubles. */
export function toRow({ name, lower, upper, terms, plane }: ExactRow): Row {
  return {
    name,
    lower: lower ? toNumber(lower) : Number.NEGATIVE_INFINITY,
    upper: upper ? toNumber(upper) : Number.POSITIVE_INFINITY,
    terms: terms.map(({ column, coefficient }) => ({ column, coefficient: toNumber(coefficient) })),
    ...(plane && { plane }),
  };
}

/** Exact value of a row at a point. */
export function activity({ terms }: ExactRow, values: readonly Exact[]): Exact {
  return terms.reduce(
    (total, { column, coefficient }) => add(total, multiply(coefficient, values[column] ?? ZERO)),
    ZERO,
  );
}

/** Digits of a row price that are kept: any price proves a bound, and short ones are quick. */
const PRICE_DIGITS = 15;

/**
 * A cost that no point of the model goes below, exactly, from any row prices whatever (weak duality):
 * Σ rows (price × the bound it presses on) + Σ columns (what is left of the cost × the end it falls to). The better
 * the prices, the nearer the bound to the least cost; a wrong price gives a poorer bound, never a false one.
 * Formula: Neumaier and Shcherbina, "Safe bounds in linear and mixed-integer linear programming",
 * Mathematical Programming 99 (2004).
 */
export function leastCostBound({ columns, rows }: ExactModel, rowPrices: readonly number[]): Exact {
  let bound = ZERO;
  const left: Exact[] = columns.map(({ cost }) => cost);
  rows.forEach(({ lower, upper, terms }, index) => {
    const price = priceOf(rowPrices[index] ?? 0);
    const end = compare(price, ZERO) > 0 ? lower : upper;
    // A price on a side that the row does not have proves nothing and is left out.
    if (price === ZERO || !end) return;
    bound = add(bound, multiply(price, end));
    for (const { column, coefficient } of terms) {
      left[column] = subtract(left[column] ?? ZERO, multiply(price, coefficient));
    }
  });
  columns.forEach(({ lower, upper }, column) => {
    const rest = left[column] ?? ZERO;
    bound = add(bound, multiply(rest, compare(rest, ZERO) > 0 ? lower : upper));
  });
  return bound;
}

/**
 * Whether the row prices prove that the model has no point at all: with every cost nothing, a least cost above
 * nothing is a contradiction (Farkas).
 */
export function provesEmpty({ columns, rows }: ExactModel, rowPrices: readonly number[]): boolean {
  const free = { columns: columns.map((column) => ({ ...column, cost: ZERO })), rows };
  return compare(leastCostBound(free, rowPrices), ZERO) > 0;
}

function priceOf(price: number): Exact {
  const short = Number(price.toPrecision(PRICE_DIGITS));
  return Number.isFinite(short) && short !== 0 ? exact(short) : ZERO;
}
