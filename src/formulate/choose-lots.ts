import { availableKg } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Column, Engine, LinearModel, Row } from '../solver/model.ts';
import { solve } from '../solver/solve.ts';
import type { BatchModel, SizeRow } from './batch-model.ts';
import type { FloorWishes } from './request.ts';

/** Which lots to use and how much of each, before rounding to the scales. */
export interface ChosenLots {
  readonly massesKg: readonly number[];
  /** Whole boxes of the columns that are taken so. */
  readonly boxes: ReadonlyMap<number, number>;
  readonly cost: number;
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

/**
 * The least-cost choice of lots with whole boxes, least amounts if used and at most so many lots, as a mixed-integer
 * problem. Undefined when there is none. @param avoided sets of columns that may not all be used at once.
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
  if (!cheapest || wishes.simplestWithin === undefined) return cheapest;
  const { sizeWithin: _, ...asked } = wishes;
  const most = cheapest.cost + Math.abs(cheapest.cost) * wishes.simplestWithin;
  const fewest = solve(fewestLots(whole, most), engines);
  if (fewest.status !== 'optimal') return cheapest;
  const mostLots = Math.round(whole.used.reduce((sum, column) => sum + (fewest.values[column] ?? 0), 0));
  const simple = {
    ...asked,
    ...(wishes.sizeWithin !== undefined && { sizeWithin: wishes.sizeWithin }),
    mostLots,
  };
  return (
    cheapestOf(wholeModel(model, coefficients, size, simple, avoided), coefficients, size, simple, engines) ??
    cheapest
  );
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
 * kilogram is paid for at the price of the last answer until that price stands still (Dinkelbach 1967).
 */
function cheapestOf(
  whole: WholeModel,
  coefficients: Coefficients,
  { form }: SizeRow,
  { sizeWithin = 0 }: FloorWishes,
  engines: readonly Engine[],
): ChosenLots | undefined {
  const perKg = coefficients.of(form).map(toNumber);
  let paid = 0;
  let chosen: ChosenLots | undefined;
  for (let round = 0; round < (sizeWithin > 0 ? PRICE_ROUNDS : 1); round++) {
    const columns = whole.columns.map((column, index) => ({
      ...column,
      cost: column.cost - paid * (perKg[index] ?? 0),
    }));
    const outcome = solve({ columns, rows: whole.rows }, engines);
    if (outcome.status !== 'optimal') return chosen;
    const massesKg = outcome.values.slice(0, whole.supplies);
    const costOf = (masses: readonly number[]) =>
      masses.reduce((sum, massKg, column) => sum + massKg * (whole.columns[column]?.cost ?? 0), 0);
    const sizeKg = massesKg.reduce((sum, massKg, column) => sum + massKg * (perKg[column] ?? 0), 0);
    const cost = costOf(massesKg);
    chosen = {
      massesKg,
      boxes: new Map([...whole.boxes].map(([column, box]) => [column, Math.round(outcome.values[box] ?? 0)])),
      cost,
      reportedLeastCost: (outcome.reportedBound ?? outcome.cost) + paid * sizeKg,
    };
    const price = cost / sizeKg;
    if (Math.abs(price - paid) <= 1e-9 * Math.max(1, Math.abs(price))) break;
    paid = price;
  }
  return chosen;
}
