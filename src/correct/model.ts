import { availableKg, type Supply } from '../batch/lot.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { divisionKg } from '../batch/scale.ts';
import { add, compare, type Exact, exact, multiply, ONE, subtract, sum, toNumber, ZERO } from '../exact.ts';
import { type BatchModel, MOST_BATCH_KG, seasoningRows } from '../formulate/batch-model.ts';
import { chooseScale } from '../formulate/scales.ts';
import { Coefficients } from '../rules/coefficients.ts';
import type { Limit } from '../rules/limit.ts';
import { rowsOf } from '../rules/row.ts';
import {
  activity,
  type ExactColumn,
  type ExactModel,
  type ExactRow,
  toLinear,
} from '../solver/exact-model.ts';
import { type MixLine, possibleFat, testedMix } from './tested-mix.ts';

/** What a correction works with, whichever mix it is about. */
export interface Job {
  readonly product: Product;
  readonly limits: readonly Limit[];
  /** What may be added. */
  readonly additions: readonly Supply[];
  readonly plant: Plant;
  readonly capacityKg: number;
  readonly test: { readonly fatFraction: number; readonly sdFraction: number };
  /** Standard deviations of margin, where confidence is asked. */
  readonly z?: number;
}

/** One mix and what may be added to it: columns of the mix first, then those of the additions. */
export interface MixProblem extends Job {
  /** At the fat that was found. */
  readonly mix: readonly MixLine[];
  /** The same columns at each of the fats: masses mean the same in all, fat, water and protein do not. */
  readonly views: readonly [Coefficients, ...Coefficients[]];
  readonly rates: readonly Rate[];
}

/** A fixed seasoning line over the whole: weight of the line less its rate of the basis. */
export interface Rate {
  readonly materialId: string;
  readonly row: ExactRow;
  /**
   * How far from its rate a line may be that was weighed right: one division of its own scale, and its rate of one
   * division of each line of the basis, which was rounded as well.
   */
  readonly slackKg: Exact;
}

/** Digits that a likely end of the fat is kept to, far below any test. */
const DIGITS = 9;

/** The fat that was found; where confidence is asked, its two likely ends as well, as far as the mix can have them. */
function likelyFats({ test, z }: Job, inMixer: readonly MixLine[], sdFraction: number): number[] {
  const { fatFraction } = test;
  if (z === undefined || sdFraction === 0) return [fatFraction];
  const { least, most } = possibleFat(inMixer);
  const end = (fraction: number) => Math.min(most, Math.max(least, Number(fraction.toFixed(DIGITS))));
  return [fatFraction, end(fatFraction - z * sdFraction), end(fatFraction + z * sdFraction)];
}

/**
 * A mix of a job. Undefined where its meat cannot have the fat that was found.
 * @param sdFraction of the fat of the mix: that of its test, or more where what is added is uncertain too.
 */
export function mixProblem(
  job: Job,
  inMixer: readonly MixLine[],
  sdFraction = job.test.sdFraction,
): MixProblem | undefined {
  const [found, ...ends] = likelyFats(job, inMixer, sdFraction).map((fat) => testedMix(inMixer, fat));
  if (!found) return undefined;
  const over = (lines: readonly MixLine[]) =>
    new Coefficients([...lines.map(({ supply }) => supply), ...job.additions], job.product.process);
  const first = over(found);
  const others = ends.flatMap((lines) => (lines ? [over(lines)] : []));
  const masses = found.map(({ massKg }) => massKg);
  return {
    ...job,
    mix: found,
    views: [first, ...others],
    rates: ratesOf(job, first, masses),
  };
}

function ratesOf({ product, plant }: Job, coefficients: Coefficients, masses: readonly Exact[]): Rate[] {
  const fixed = product.seasoning.filter(({ minFraction, maxFraction }) => minFraction === maxFraction);
  return seasoningRows(product, coefficients).map((row, index) => {
    const materialId = fixed[index]?.materialId ?? '';
    const inKg = sum(masses.filter((_, column) => coefficients.supplies[column]?.material.id === materialId));
    const askedKg = toNumber(subtract(inKg, activity(row, masses)));
    const scale = chooseScale(Math.max(toNumber(inKg), askedKg), plant.scales);
    const ofBasis = row.terms.flatMap(({ column, coefficient }) => {
      const massKg = masses[column];
      const isOwn = coefficients.supplies[column]?.material.id === materialId;
      if (massKg === undefined || isOwn) return [];
      const division = divisionKg(chooseScale(toNumber(massKg), plant.scales));
      return [multiply(division, subtract(ZERO, coefficient))];
    });
    return { materialId, row, slackKg: sum([divisionKg(scale), ...ofBasis]) };
  });
}

/** Which ends of a correction hold; without one of them it shows what stands in the way. */
export interface Held {
  readonly capacity: boolean;
  readonly stocks: boolean;
}

export interface CorrectionModel extends BatchModel {
  /** Row 0 is the capacity of the mixer; these are the rows of fixed seasoning lines. */
  readonly rateOfRow: ReadonlyMap<number, Rate>;
}

/** A hair of cost on every kilogram, as a share of the dearest: what is free is not added for nothing. */
const HAIR = 1e-7;

/**
 * The additions as a linear problem: what is in the mixer is fixed, the total stays within the mixer, fixed seasoning
 * lines follow the whole, and every limit holds over the whole, at every fat that is to be reckoned with. A fixed line
 * that is already above its rate by no more than its scale rounds may stay there: nothing can be taken out.
 */
export function correctionModel(
  { mix, additions, views, rates, limits, capacityKg }: MixProblem,
  held: Held = { capacity: true, stocks: true },
): CorrectionModel {
  const dearest = additions.reduce((most, { costPerKg }) => Math.max(most, costPerKg), 1);
  const columns: ExactColumn[] = [
    ...mix.map(({ massKg }) => ({ cost: ZERO, lower: massKg, upper: massKg })),
    ...additions.map((supply) => ({
      cost: add(exact(supply.costPerKg), exact(Number((HAIR * dearest).toPrecision(3)))),
      lower: ZERO,
      upper: exact(held.stocks ? Math.min(availableKg(supply), MOST_BATCH_KG) : MOST_BATCH_KG),
    })),
  ];
  const rows: ExactRow[] = [
    {
      name: 'capacity',
      upper: exact(held.capacity ? capacityKg : MOST_BATCH_KG),
      terms: columns.map((_, column) => ({ column, coefficient: ONE })),
    },
  ];
  const rateOfRow = new Map<number, Rate>();
  const masses = mix.map(({ massKg }) => massKg);
  for (const rate of rates) {
    rateOfRow.set(rows.push({ ...rate.row, lower: ZERO, upper: overOf(rate, masses) }) - 1, rate);
  }
  const limitOfRow = new Map<number, Limit>();
  for (const limit of limits) {
    for (const row of rowsInViews(limit, views)) limitOfRow.set(rows.push(row) - 1, limit);
  }
  const model: ExactModel = { columns, rows };
  return { ...toLinear(model), exact: model, limitOfRow, rateOfRow };
}

/** How far a line is above its rate already, up to what rounding explains. */
function overOf({ row, slackKg }: Rate, masses: readonly Exact[]): Exact {
  const over = activity(row, masses);
  if (compare(over, ZERO) <= 0) return ZERO;
  return compare(over, slackKg) < 0 ? over : slackKg;
}

/** The rows of a limit at every fat; one that the fat does not change is there once. */
function rowsInViews(limit: Limit, [first, ...others]: MixProblem['views']): ExactRow[] {
  const rows = rowsOf(limit, first);
  const moved = others.flatMap((view) =>
    rowsOf(limit, view).filter((row, index) => !isSame(row, rows[index])),
  );
  return [...rows, ...moved].filter(({ terms }) => terms.length > 0);
}

function isSame({ terms }: ExactRow, other: ExactRow | undefined): boolean {
  return (
    other !== undefined &&
    terms.length === other.terms.length &&
    terms.every(({ column, coefficient }, index) => {
      const term = other.terms[index];
      return term?.column === column && compare(term.coefficient, coefficient) === 0;
    })
  );
}
