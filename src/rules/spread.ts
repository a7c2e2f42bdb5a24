import { atFat } from '../batch/composition.ts';
import type { Supply } from '../batch/lot.ts';
import { compare, type Exact, exact, isZero, subtract, ZERO } from '../exact.ts';
import type { ExactRow } from '../solver/exact-model.ts';
import { Coefficients } from './coefficients.ts';
import type { Limit } from './limit.ts';
import { rowsOf } from './row.ts';

/** One row of a limit, and how uncertain each supply's part in it is. */
export interface SpreadRow {
  readonly row: ExactRow;
  /** Standard deviation of the coefficient, one for each supply: what one standard deviation of its fat does. */
  readonly sds: readonly Exact[];
}

/** Coefficients as the supplies are known, and with every fat one standard deviation off. */
export interface Uncertain {
  readonly coefficients: Coefficients;
  readonly oneOff: Coefficients;
}

/** What is uncertain about a list of supplies; to be worked out once for all limits. */
export function uncertain(coefficients: Coefficients): Uncertain {
  const { supplies, process } = coefficients;
  return { coefficients, oneOff: new Coefficients(supplies.map(oneDeviationOff), process) };
}

/**
 * The rows of a limit with what the uncertain fat of the lots does to them. More fat means less water and protein
 * along the line of the species, so a limit on added water or protein is uncertain as well. Lots are taken as
 * independent of each other.
 */
export function spreadRows(limit: Limit, { coefficients, oneOff }: Uncertain): SpreadRow[] {
  const { supplies } = coefficients;
  const shifted = rowsOf(limit, oneOff);
  return rowsOf(limit, coefficients).map((row, index) => {
    const perKg = dense(row, supplies.length);
    const off = dense(shifted[index], supplies.length);
    return { row, sds: perKg.map((coefficient, column) => distance(coefficient, off[column] ?? ZERO)) };
  });
}

/** Digits that a fat moved by one deviation is kept to, far below any test. */
const DIGITS = 12;

function oneDeviationOff(supply: Supply): Supply {
  const sd = supply.fat?.sdFraction ?? 0;
  if (sd === 0) return supply;
  const { fatFraction } = supply.composition;
  // Downward where upward would be more than all of it: a straight line has the same slope both ways.
  const moved = fatFraction + sd <= 1 ? fatFraction + sd : fatFraction - sd;
  const { material } = supply;
  return {
    ...supply,
    composition: atFat(
      { composition: supply.composition, ...(material.trimLine && { trimLine: material.trimLine }) },
      Number(Math.max(0, moved).toFixed(DIGITS)),
    ),
  };
}

function dense(row: ExactRow | undefined, columns: number): Exact[] {
  const all: Exact[] = Array.from({ length: columns }, () => ZERO);
  for (const { column, coefficient } of row?.terms ?? []) all[column] = coefficient;
  return all;
}

function distance(a: Exact, b: Exact): Exact {
  const apart = subtract(a, b);
  if (isZero(apart)) return ZERO;
  return compare(apart, ZERO) < 0 ? subtract(exact(0), apart) : apart;
}
