import { availableKg } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Column, Engine, LinearModel, Optimum, Row } from '../solver/model.ts';
import { solve } from '../solver/solve.ts';
import type { BatchModel, SizeRow } from './batch-model.ts';
import { byAge } from './older-first.ts';
import type { FloorWishes, Issue } from './request.ts';

/** Which lots to use and how much of each, before rounding to the scales. */
export interface ChosenLots {
  readonly massesKg: readonly number[];
  /** Whole boxes of the columns that are taken so. */
  readonly boxes: ReadonlyMap<number, number>;
  readonly cost: number;
  /** The least cost of such a choice; below the cost where older lots were preferred. */
  readonly leastCost: number;
  /** The cost below which the engine reports that no choice lies; not proven here. */
  readonly reportedLeastCost: number;
}

/** Less of a lot than this is none of it. */
export const NONE_KG = 1e-6;
/** Rounds of setting the price of a kilogram anew where the size of the batch is free. */
const PRICE_ROUNDS = 6;

/** Whether lots must be chosen in whole numbers at all. */
export function asksForWholes(
  { wholeBoxes, mostLots, simplestWithin }: FloorWishes,
  coefficients: Coefficients,
): boolean {
  return (
    (wholeBoxes ?? []).length > 0 ||
    mostLots !== undefined ||
    simplestWithin !== undefined ||
    coefficients.supplies.some(({ leastIfUsedKg }) => leastIfUsedKg !== undefined)
  );
}

/** Whether one of the engines can count at all. */
export function canCount(engines: readonly Engine[]): boolean {
  const counting: LinearModel = { columns: [{ cost: 0, lower: 0, upper: 1, whole: true }], rows: [] };
  return engines.some(({ takes }) => takes(counting));
}

/** The one engine that was chosen solves no problems in whole numbers. */
export function cannotCount(engines: readonly Engine[], path: Issue['path']): Issue {
  const names = engines.map(({ name }) => name).join(', ');
  return {
    code: 'engine-cannot',
    path,
    message: `Whole boxes, counts of lots, least amounts if used and other blends need an engine that solves in whole numbers; ${names} does not. Leave the choice of the engine to the problem, or choose highs.`,
  };
}

/**
 * The least-cost choice of lots with whole boxes, least amounts if used and at most so many lots, as a mixed-integer
 * problem; where older lots come first, the choice that takes most of them within the share of cost allowed.
 * Undefined when there is none. @param avoided sets of columns that may not all be used at once.
 */
export function chooseLots(
  model: BatchModel,
  coefficients: Coefficients,
  size: SizeRow,
  wishes: FloorWishes,
  engines: readonly Engine[],
  avoided: readonly (readonly number[])[] = [],
): ChosenLots | undefined {
  const whole = wholeModel(model, coefficients, size, wishes, avoided);
  const cheapest = cheapestOf(whole, coefficients, size, wishes, engines);
  if (!cheapest) return undefined;
  const simple = simplestOf(whole, cheapest, wishes, engines);
  const chosen =
    simple === whole ? cheapest : (cheapestOf(simple, coefficients, size, wishes, engines) ?? cheapest);
  const { olderFirstWithin } = wishes;
  if (olderFirstWithin === undefined) return chosen;
  const older = olderOf(simple, coefficients, size, chosen, olderFirstWithin, engines);
  const preferred = cheapestOf(older, coefficients, size, wishes, engines) ?? chosen;
  return { ...preferred, leastCost: chosen.cost, reportedLeastCost: chosen.reportedLeastCost };
}

/** The model with no more lots than the fewest that do for the share of cost allowed. */
function simplestOf(
  whole: WholeModel,
  { cost }: ChosenLots,
  { simplestWithin }: FloorWishes,
  engines: readonly Engine[],
): WholeModel {
  if (simplestWithin === undefined) return whole;
  const fewest = solve(fewestLots(whole, cost + Math.abs(cost) * simplestWithin), engines);
  if (fewest.status !== 'optimal') return whole;
  const mostLots = Math.round(whole.used.reduce((sum, column) => sum + (fewest.values[column] ?? 0), 0));
  return { ...whole, rows: [...whole.rows, countRow('fewest lots', whole.used, mostLots)] };
}

/** Days of age that are looked at one after the other; every one is a problem in whole numbers. */
const MOST_AGES = 4;

/** The model held to the older lots, the oldest first, at no more than a share above the cost of a kilogram chosen. */
function olderOf(
  whole: WholeModel,
  coefficients: Coefficients,
  { form }: SizeRow,
  { cost, massesKg }: ChosenLots,
  withinFraction: number,
  engines: readonly Engine[],
): WholeModel {
  const perKg = coefficients.of(form).map(toNumber);
  const sizeKg = massesKg.reduce((sum, massKg, column) => sum + massKg * (perKg[column] ?? 0), 0);
  const mostPerKg = (cost + Math.abs(cost) * withinFraction) / sizeKg;
  const cap: Row = {
    name: 'cost of older first',
    lower: Number.NEGATIVE_INFINITY,
    upper: 0,
    terms: coefficients.supplies.map((_, column) => ({
      column,
      coefficient: (whole.columns[column]?.cost ?? 0) - mostPerKg * (perKg[column] ?? 0),
    })),
  };
  const rows: Row[] = [...whole.rows, cap];
  for (const columns of byAge(coefficients).slice(0, MOST_AGES)) {
    const oldest = whole.columns.map((column, index) => ({
      ...column,
      cost: columns.includes(index) ? -1 : 0,
    }));
    const outcome = solve({ columns: oldest, rows }, engines);
    if (outcome.status !== 'optimal') break;
    const mostKg = -outcome.cost;
    if (mostKg <= NONE_KG) continue;
    rows.push({
      name: 'older first',
      lower: mostKg - 1e-6 * Math.max(1, mostKg),
      upper: Number.POSITIVE_INFINITY,
      terms: columns.map((column) => ({ column, coefficient: 1 })),
    });
  }
  return { ...whole, rows };
}

interface WholeModel extends LinearModel {
  /** Columns of the batch itself, before those for counting. */
  readonly supplies: number;
  /** Columns that are 1 where a meat lot is used. */
  readonly used: readonly number[];
  /** Count of boxes by supply. */
  readonly boxes: ReadonlyMap<number, number>;
}

function wholeModel(
  model: BatchModel,
  coefficients: Coefficients,
  size: SizeRow,
  { wholeBoxes = [], mostLots, simplestWithin, sizeWithin = 0 }: FloorWishes,
  avoided: readonly (readonly number[])[],
): WholeModel {
  const columns: Column[] = [...model.columns];
  const rows: Row[] = model.rows.map((row, index) =>
    index === 0
      ? { ...row, lower: size.massKg * (1 - sizeWithin), upper: size.massKg * (1 + sizeWithin) }
      : row,
  );
  const boxes = new Map<number, number>();
  const usedBy = new Map<number, number>();
  const counts = mostLots !== undefined || simplestWithin !== undefined || avoided.length > 0;
  coefficients.supplies.forEach((supply, column) => {
    const { lot, material, leastIfUsedKg } = supply;
    if (!isMeat(material) && leastIfUsedKg === undefined) return;
    const mostKg = Math.min(availableKg(supply), model.columns[column]?.upper ?? 0);
    if (lot?.boxKg && wholeBoxes.includes(lot.id)) {
      const most = Math.floor(mostKg / lot.boxKg + 1e-9);
      const box = columns.push({ cost: 0, lower: 0, upper: most, whole: true }) - 1;
      boxes.set(column, box);
      rows.push(link(`boxes of ${lot.id}`, column, box, lot.boxKg, 0, 0));
    }
    if (!counts && leastIfUsedKg === undefined) return;
    const used = columns.push({ cost: 0, lower: 0, upper: 1, whole: true }) - 1;
    usedBy.set(column, used);
    // Nothing of a lot that is not used; tighter than its stock where the batch is smaller.
    const roomKg = Math.min(
      mostKg,
      model.columns.length > 0 ? largestOf(size, sizeWithin, mostKg, coefficients, column) : mostKg,
    );
    rows.push(link(`use of ${supply.id}`, column, used, roomKg, Number.NEGATIVE_INFINITY, 0));
    if (leastIfUsedKg !== undefined) {
      rows.push(link(`least of ${supply.id}`, column, used, leastIfUsedKg, 0, Number.POSITIVE_INFINITY));
    }
  });
  const used = [...usedBy].filter(([column]) => isMeatColumn(coefficients, column)).map(([, index]) => index);
  if (mostLots !== undefined) rows.push(countRow('lots', used, mostLots));
  for (const together of avoided) {
    const those = together.flatMap((column) => usedBy.get(column) ?? []);
    rows.push(countRow('another blend', those, those.length - 1));
  }
  return { columns, rows, supplies: model.columns.length, used, boxes };
}

function isMeatColumn({ supplies }: Coefficients, column: number): boolean {
  const supply = supplies[column];
  return supply !== undefined && isMeat(supply.material);
}

/** The most of one lot that a batch of this size can hold, where every kilogram of it counts toward the size. */
function largestOf(
  size: SizeRow,
  sizeWithin: number,
  mostKg: number,
  coefficients: Coefficients,
  column: number,
): number {
  const perKg = coefficients.of(size.form).map(toNumber);
  const own = perKg[column] ?? 0;
  return own > 0 && perKg.every((each) => each >= 0) ? (size.massKg * (1 + sizeWithin)) / own : mostKg;
}

/** lower ≤ column − times × counter ≤ upper. */
function link(
  name: string,
  column: number,
  counter: number,
  times: number,
  lower: number,
  upper: number,
): Row {
  return {
    name,
    lower,
    upper,
    terms: [
      { column, coefficient: 1 },
      { column: counter, coefficient: -times },
    ],
  };
}

function countRow(name: string, columns: readonly number[], most: number): Row {
  return {
    name,
    lower: Number.NEGATIVE_INFINITY,
    upper: most,
    terms: columns.map((column) => ({ column, coefficient: 1 })),
  };
}

/** How few lots do it for no more than this. */
function fewestLots(whole: WholeModel, mostCost: number): LinearModel {
  return {
    columns: whole.columns.map((column, index) => ({ ...column, cost: whole.used.includes(index) ? 1 : 0 })),
    rows: [
      ...whole.rows,
      {
        name: 'cost of the simplest',
        lower: Number.NEGATIVE_INFINITY,
        upper: mostCost,
        terms: whole.columns.map(({ cost }, column) => ({ column, coefficient: cost })),
      },
    ],
  };
}

/**
 * Where the size is free between two ends, the least cost of a kilogram counts, not that of the batch: each
 * kilogram is paid for at the price of the last answer until that price stands still (Dinkelbach, Management Science
 * 13 (1967)). Of the choices at that price the one nearest the asked size is taken.
 */
function cheapestOf(
  whole: WholeModel,
  coefficients: Coefficients,
  { form, massKg: askedKg }: SizeRow,
  { sizeWithin = 0 }: FloorWishes,
  engines: readonly Engine[],
): ChosenLots | undefined {
  const perKg = coefficients.of(form).map(toNumber);
  const priced = (paid: number) =>
    whole.columns.map((column, index) => ({ ...column, cost: column.cost - paid * (perKg[index] ?? 0) }));
  const read = (
    { values, cost: left, reportedBound }: Optimum,
    paid: number,
  ): ChosenLots & { price: number } => {
    const massesKg = values.slice(0, whole.supplies);
    const sum = (each: (column: number) => number) =>
      massesKg.reduce((total, massKg, column) => total + massKg * each(column), 0);
    const cost = sum((column) => whole.columns[column]?.cost ?? 0);
    const sizeKg = sum((column) => perKg[column] ?? 0);
    return {
      massesKg,
      boxes: new Map([...whole.boxes].map(([column, box]) => [column, Math.round(values[box] ?? 0)])),
      cost,
      leastCost: cost,
      reportedLeastCost: (reportedBound ?? left) + paid * sizeKg,
      price: cost / sizeKg,
    };
  };
  const first = solve({ columns: whole.columns, rows: whole.rows }, engines);
  if (first.status !== 'optimal') return undefined;
  let chosen = read(first, 0);
  if (sizeWithin === 0) return chosen;
  for (let round = 0; round < PRICE_ROUNDS; round++) {
    const outcome = solve({ columns: priced(chosen.price), rows: whole.rows }, engines);
    if (outcome.status !== 'optimal') break;
    const next = read(outcome, chosen.price);
    const stands = next.price >= chosen.price - 1e-9 * Math.max(1, Math.abs(chosen.price));
    chosen = next;
    if (stands) break;
  }
  const nearest = solve(nearestSize(whole, perKg, askedKg, chosen), engines);
  if (nearest.status !== 'optimal') return chosen;
  const { massesKg, boxes, cost } = read(nearest, chosen.price);
  // The same price a kilogram at another size: what the engine reports goes with it.
  const reportedLeastCost = cost * (chosen.reportedLeastCost / chosen.cost);
  return { massesKg, boxes, cost, leastCost: cost, reportedLeastCost };
}

/** How near to the asked size a choice at this price comes: what it is over or under is to be least. */
function nearestSize(
  whole: WholeModel,
  perKg: readonly number[],
  askedKg: number,
  { price, cost }: { readonly price: number; readonly cost: number },
): LinearModel {
  const columns: Column[] = whole.columns.map((column) => ({ ...column, cost: 0 }));
  const away = (): number => columns.push({ cost: 1, lower: 0, upper: askedKg }) - 1;
  const [over, under] = [away(), away()];
  const sized = perKg.map((each, column) => ({ column, coefficient: each }));
  return {
    columns,
    rows: [
      ...whole.rows,
      {
        name: 'off its size',
        lower: askedKg,
        upper: askedKg,
        terms: [...sized, { column: over, coefficient: -1 }, { column: under, coefficient: 1 }],
      },
      {
        name: 'at this price',
        lower: Number.NEGATIVE_INFINITY,
        upper: 1e-7 * Math.max(1, Math.abs(cost)),
        terms: perKg.map((each, column) => ({
          column,
          coefficient: (whole.columns[column]?.cost ?? 0) - price * each,
        })),
      },
    ],
  };
}
