import { availableKg, type Supply } from '../batch/lot.ts';
import type { Column, LinearModel, Row, Term } from '../solver/model.ts';
import type { OpenCandidate } from './open-candidate.ts';

/** All products at once: each has its own columns and rows, and they meet in one row for each lot. */
export interface JointModel extends LinearModel {
  /** Cost is what goes in less what the finished product sells for, so that the least cost is the best margin. */
  readonly products: readonly ProductColumns[];
  /** The row of each lot, by the id of its supply. */
  readonly lotRows: ReadonlyMap<string, number>;
  /** Every column that draws on a supply, by its id. */
  readonly columnsOf: ReadonlyMap<string, readonly number[]>;
  /** Rows that let a product be made only where its whole column says so, each with that column. */
  readonly madeRows: ReadonlyMap<number, number>;
}

export interface ProductColumns {
  readonly candidate: OpenCandidate;
  /** Column of its first supply; the others follow in their order. */
  readonly first: number;
}

/** What a kilogram of a supply counts as. @param lotsAreSunk whether what lies there counts as paid and lost. */
export function countedCostPerKg({ lot, costPerKg }: Supply, lotsAreSunk: boolean): number {
  return lot && lotsAreSunk ? 0 : costPerKg;
}

/**
 * The joint problem. Limits and seasoning lines are ratios, so the amount of every product is free and the products
 * compete for nothing but the lots. A product with a least amount has a whole column, made or not.
 */
export function jointModel(
  candidates: readonly OpenCandidate[],
  supplies: readonly Supply[],
  lotsAreSunk: boolean,
): JointModel {
  const columns: Column[] = [];
  const rows: Row[] = [];
  const columnsOf = new Map<string, number[]>(supplies.map(({ id }) => [id, []]));
  const products = candidates.map((candidate): ProductColumns => {
    const { coefficients, model, finishedPerKg, pricePerKg } = candidate;
    const first = columns.length;
    coefficients.supplies.forEach((supply, index) => {
      const { lower, upper } = model.columns[index] as Column;
      const cost = countedCostPerKg(supply, lotsAreSunk) - pricePerKg * (finishedPerKg[index] ?? 0);
      columnsOf.get(supply.id)?.push(columns.push({ cost, lower, upper }) - 1);
    });
    for (const row of model.rows) rows.push(shifted(row, first));
    return { candidate, first };
  });
  const madeRows = new Map<number, number>();
  for (const product of products) addAmountRows(product, { columns, rows, madeRows });
  const lotRows = new Map<string, number>();
  for (const supply of supplies) {
    const mostKg = availableKg(supply);
    const terms = (columnsOf.get(supply.id) ?? []).map((column) => ({ column, coefficient: 1 }));
    if (!Number.isFinite(mostKg) || terms.length === 0) continue;
    const row = { name: `lot ${supply.id}`, lower: Number.NEGATIVE_INFINITY, upper: mostKg, terms };
    lotRows.set(supply.id, rows.push(row) - 1);
  }
  return { columns, rows, products, lotRows, columnsOf, madeRows };
}

/** A row of one product in the places of its columns. */
export function shifted(row: Row, first: number): Row {
  return {
    ...row,
    terms: row.terms.map(({ column, coefficient }) => ({ column: column + first, coefficient })),
  };
}

/** Masses of one product's supplies in a solution of all. */
export function massesOf({ candidate, first }: ProductColumns, values: readonly number[]): number[] {
  return values.slice(first, first + candidate.coefficients.supplies.length);
}

interface Growing {
  readonly columns: Column[];
  readonly rows: Row[];
  readonly madeRows: Map<number, number>;
}

function addAmountRows({ candidate, first }: ProductColumns, { columns, rows, madeRows }: Growing): void {
  const { finishedPerKg, leastKg, mostKg, largestKg, product } = candidate;
  const finished: Term[] = finishedPerKg.map((coefficient, index) => ({
    column: first + index,
    coefficient,
  }));
  const atMost = (name: string, upper: number, terms: readonly Term[]) =>
    rows.push({ name, lower: Number.NEGATIVE_INFINITY, upper, terms }) - 1;
  if (mostKg !== undefined) atMost(`most of ${product.id}`, mostKg, finished);
  if (leastKg === undefined) return;
  const canBeMade = leastKg <= largestKg;
  const isMade = columns.push({ cost: 0, lower: 0, upper: canBeMade ? 1 : 0, whole: true }) - 1;
  const lessOf = (massKg: number): Term[] => [...finished, { column: isMade, coefficient: -massKg }];
  rows.push({
    name: `least of ${product.id}`,
    lower: 0,
    upper: Number.POSITIVE_INFINITY,
    terms: lessOf(leastKg),
  });
  // The nearer this is to what can be made at most, the less an engine's tolerance lets through.
  madeRows.set(atMost(`${product.id} is made`, 0, lessOf(canBeMade ? largestKg : leastKg)), isMade);
}
