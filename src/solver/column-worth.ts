import { keepOpen } from './keep-open.ts';
import type { Column, Engine, LinearModel, Row, Term } from './model.ts';
import type { Priced } from './prices.ts';
import { rowScale, scaleRow } from './scale.ts';

/**
 * What a unit of a column is worth at an optimum: Σ price × coefficient over the rows that it stands in. Where the
 * optimum is not degenerate one set of row prices proves it and each worth is one figure. Where it is degenerate many
 * do, and the optimum stays one as long as any of them proves it: a column at nothing stays out down to the least that
 * it is worth under all of them, and one at its most stays there up to the most. All of them is a linear problem too,
 * in as many unknowns as there are rows too many, and small.
 * Source: strong duality and complementary slackness (Dantzig, Linear Programming and Extensions (1963), chapter 6).
 */

/** One column and which end of its worth is asked. */
export interface WorthAsked {
  readonly column: number;
  readonly end: 'least' | 'most';
}

/** A column this close to a bound is on it. */
export const ON = 1e-6;
/** The same of a row, as a share of its size. */
const ON_ROW = 1e-7;
/** Prices that prove an optimum may miss what they must keep by this share of the dearest cost. */
const MISSED = 1e-7;
/** Smaller than this beside the largest is nothing: the rest of a subtraction. */
const NOTHING = 1e-10;

/**
 * @returns an answer for each that was asked, infinite where nothing ends it; undefined as a whole where the prices at
 * hand do not prove the optimum well enough to be trusted.
 */
export function columnWorths(
  model: LinearModel,
  optimum: Priced,
  asked: readonly WorthAsked[],
  engines: readonly Engine[],
): readonly number[] | undefined {
  const face = priceFace(model, optimum);
  if (!face) return undefined;
  const { worths, along } = face;
  const signOf = ({ end }: WorthAsked) => (end === 'least' ? 1 : -1);
  const isFixed = (column: number) => along.every((way) => way[column] === 0);
  if (asked.every(({ column }) => isFixed(column)))
    return asked.map(({ column }) => worths[column] as number);
  // Each unknown may go either way from the prices at hand, so it is the difference of two.
  const ways = along.flatMap((way) => [way, way.map((each) => -each)]);
  const columns = ways.map((): Column => ({ cost: 0, lower: 0, upper: Number.POSITIVE_INFINITY }));
  return keepOpen({ columns, rows: face.rows }, engines, (kept) =>
    asked.map((each) => {
      const worth = worths[each.column] as number;
      if (isFixed(each.column)) return worth;
      const sign = signOf(each);
      ways.forEach((way, index) => {
        kept.setCost(index, sign * (way[each.column] as number));
      });
      const outcome = kept.solve();
      if (outcome.status === 'optimal') return worth + sign * outcome.cost;
      return outcome.status === 'unbounded' ? -sign * Number.POSITIVE_INFINITY : worth;
    }),
  );
}

interface PriceFace {
  /** Worth of each column at the prices at hand. */
  readonly worths: readonly number[];
  /** The ways in which prices can move and stay complementary to the optimum: what each does to the worth of columns. */
  readonly along: readonly (readonly number[])[];
  /** What holds them: no column and no row may come to pull the other way. Two columns for each way, to and fro. */
  readonly rows: readonly Row[];
}

/** All row prices that prove the optimum; undefined where those at hand do not. */
function priceFace({ columns, rows }: LinearModel, { values, rowPrices }: Priced): PriceFace | undefined {
  const dearest = columns.reduce((max, { cost }) => Math.max(max, Math.abs(cost)), 1);
  const slack = MISSED * dearest;
  const held = rows.flatMap((row, index): HeldRow[] => {
    const factor = rowScale(row);
    const price = (rowPrices[index] ?? 0) / factor;
    const { terms, ...ends } = scaleRow(row, factor);
    const on = heldBy(ends, terms, values);
    return terms.length === 0 || (!on.lower && !on.upper && price === 0) ? [] : [{ terms, price, ...on }];
  });
  if (held.some(({ price, lower, upper }) => (!lower && price > slack) || (!upper && price < -slack))) {
    return undefined;
  }
  const tight = held.filter(({ lower, upper }) => lower || upper);
  const worths = worthsOf(
    held.map(({ price }) => price),
    held,
    columns.length,
  );
  const dense = tight.map(({ terms }) => denseOf(terms, columns.length));
  const ends = columns.map(({ lower, upper }, column) => {
    const value = values[column] ?? 0;
    return { lower: value <= lower + ON, upper: value >= upper - ON };
  });
  const left = columns.map(({ cost }, column) => cost - (worths[column] as number));
  const isProven = ends.every(({ lower, upper }, column) => {
    const rest = left[column] as number;
    return (lower || rest <= slack) && (upper || rest >= -slack);
  });
  if (!isProven) return undefined;
  const inside = ends.flatMap(({ lower, upper }, column) => (lower || upper ? [] : [column]));
  const free = nullSpace(
    inside.map((column) => dense.map((row) => row[column] as number)),
    tight.length,
  );
  const along = free.map((way) =>
    columns.map((_, column) => {
      const parts = way.map((each, row) => each * ((dense[row] as number[])[column] as number));
      const size = parts.reduce((max, part) => Math.max(max, Math.abs(part)), 0);
      const moved = parts.reduce((sum, part) => sum + part, 0);
      return Math.abs(moved) <= NOTHING * Math.max(1, size) ? 0 : moved;
    }),
  );
  const bound = (name: string, moves: readonly number[], lower: number, upper: number): Row[] => {
    const terms = moves.flatMap((move, way): Term[] =>
      move === 0
        ? []
        : [
            { column: 2 * way, coefficient: move },
            { column: 2 * way + 1, coefficient: -move },
          ],
    );
    return terms.length === 0 ? [] : [{ name, lower, upper, terms }];
  };
  const none = Number.POSITIVE_INFINITY;
  const ofColumns = ends.flatMap(({ lower, upper }, column) => {
    if (lower === upper) return [];
    const rest = left[column] as number;
    const moves = along.map((way) => way[column] as number);
    return bound(
      `column ${column}`,
      moves,
      lower ? -none : Math.min(0, rest),
      lower ? Math.max(0, rest) : none,
    );
  });
  const ofRows = tight.flatMap(({ price, lower, upper }, row) => {
    if (lower && upper) return [];
    const moves = free.map((way) => way[row] as number);
    return bound(
      `row ${row}`,
      moves,
      lower ? -Math.max(0, price) : -none,
      lower ? none : Math.max(0, -price),
    );
  });
  return { worths, along, rows: [...ofColumns, ...ofRows] };
}

interface HeldRow {
  readonly terms: readonly Term[];
  readonly price: number;
  /** Which of its ends the optimum lies on. */
  readonly lower: boolean;
  readonly upper: boolean;
}

function heldBy(
  { lower, upper }: Pick<Row, 'lower' | 'upper'>,
  terms: readonly Term[],
  values: readonly number[],
): { lower: boolean; upper: boolean } {
  let activity = 0;
  let size = 1;
  for (const { column, coefficient } of terms) {
    const part = coefficient * (values[column] ?? 0);
    activity += part;
    size += Math.abs(part);
  }
  return { lower: activity <= lower + ON_ROW * size, upper: activity >= upper - ON_ROW * size };
}

function worthsOf(prices: readonly number[], rows: readonly HeldRow[], columns: number): number[] {
  const worths = Array.from({ length: columns }, () => 0);
  rows.forEach(({ terms }, index) => {
    const price = prices[index] as number;
    for (const { column, coefficient } of terms)
      worths[column] = (worths[column] as number) + price * coefficient;
  });
  return worths;
}

function denseOf(terms: readonly Term[], columns: number): number[] {
  const dense = Array.from({ length: columns }, () => 0);
  for (const { column, coefficient } of terms) dense[column] = (dense[column] as number) + coefficient;
  return dense;
}

/** Vectors that span all y with M·y = 0, by Gauss and Jordan with the largest pivot. @param width of M, also when it has no row. */
function nullSpace(matrix: readonly (readonly number[])[], width: number): number[][] {
  const rows = matrix.map((row) => [...row]);
  const pivotOf = new Map<number, number[]>();
  for (;;) {
    let best: { row: number; column: number; size: number } | undefined;
    rows.forEach((row, index) => {
      row.forEach((each, column) => {
        if (pivotOf.has(column) || Math.abs(each) <= (best?.size ?? 1e-9)) return;
        best = { row: index, column, size: Math.abs(each) };
      });
    });
    const found = best as { row: number; column: number } | undefined;
    if (!found) break;
    const { column } = found;
    const [taken = []] = rows.splice(found.row, 1);
    const pivot = taken[column] as number;
    const unit = taken.map((each) => each / pivot);
    for (const row of [...rows, ...pivotOf.values()]) {
      const times = row[column] as number;
      if (times === 0) continue;
      unit.forEach((each, place) => {
        row[place] = (row[place] as number) - times * each;
      });
    }
    pivotOf.set(column, unit);
  }
  return Array.from({ length: width }, (_, column) => column)
    .filter((column) => !pivotOf.has(column))
    .map((free) =>
      Array.from({ length: width }, (_, column) => {
        if (column === free) return 1;
        const pivot = pivotOf.get(column);
        return pivot ? -(pivot[free] as number) : 0;
      }),
    );
}
