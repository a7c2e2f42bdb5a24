import type { Lot } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import { exact, ONE } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Limit } from '../rules/limit.ts';
import { type ChanceRow, tangentCut } from '../solver/chance.ts';
import type { ExactRow } from '../solver/exact-model.ts';
import { toRow } from '../solver/exact-model.ts';
import { keepOpen } from '../solver/keep-open.ts';
import type { Engine } from '../solver/model.ts';
import type { PricedOutcome } from '../solver/prices.ts';
import type { BatchModel } from './batch-model.ts';
import { missesMargin } from './certainty.ts';

/** Of the batch: what rounding to the scales may take back of a preference, so that it does not stiffen the blend. */
const EASE = 0.002;
/** Rounds of laying planes before the answer is taken as it is; the scales have the last word anyway. */
const MOST_PLANES = 200;

/** A row more for the model, and the limit whose margin it keeps, where it is a plane of one. */
export interface AddedRow {
  readonly row: ExactRow;
  readonly limit?: Limit;
}

/**
 * Rows that hold a blend to the older lots, with the planes that margins need there: as much as possible of the meat
 * that must be used first, then of the next, and so on, at no more than a share above the least cost. Strictly one
 * after the other, because a kilogram that goes out of date is lost while money within the share is what the plant
 * has allowed for it.
 */
export function olderFirst(
  model: BatchModel,
  coefficients: Coefficients,
  chances: readonly ChanceRow[],
  leastCost: number,
  withinFraction: number,
  engines: readonly Engine[],
): AddedRow[] {
  const cap: ExactRow = {
    name: 'cost of older first',
    upper: exact(Number((leastCost + Math.abs(leastCost) * withinFraction).toPrecision(15))),
    terms: model.exact.columns.map(({ cost }, column) => ({ column, coefficient: cost })),
  };
  return keepOpen({ columns: model.columns, rows: [...model.rows, toRow(cap)] }, engines, (kept) => {
    const added: AddedRow[] = [{ row: cap }];
    /** As much as the costs set now allow, with every margin kept. */
    const solveSurely = (): PricedOutcome => {
      for (let planes = 0; ; planes++) {
        const outcome = kept.solve();
        const missed = outcome.status === 'optimal' ? missesMargin(model, chances, outcome.values) : [];
        if (outcome.status !== 'optimal' || missed.length === 0 || planes === MOST_PLANES) return outcome;
        for (const chance of missed) {
          const row = tangentCut(model.exact, chance, outcome.values);
          const limit = model.limitOfRow.get(chance.row);
          kept.addRow(toRow(row));
          added.push({ row, ...(limit && { limit }) });
        }
      }
    };
    model.columns.forEach((_, column) => {
      kept.setCost(column, 0);
    });
    for (const columns of byAge(coefficients)) {
      for (const column of columns) kept.setCost(column, -1);
      const outcome = solveSurely();
      for (const column of columns) kept.setCost(column, 0);
      if (outcome.status !== 'optimal') break;
      const mostKg = columns.reduce((sum, column) => sum + (outcome.values[column] ?? 0), 0);
      const batchKg = outcome.values.reduce((sum, massKg) => sum + massKg, 0);
      const atLeast = (lessKg: number): ExactRow => ({
        name: 'older first',
        lower: exact(Number(Math.max(0, mostKg - lessKg).toPrecision(12))),
        terms: columns.map((column) => ({ column, coefficient: ONE })),
      });
      if (mostKg <= EASE * batchKg) continue;
      kept.addRow(toRow(atLeast(1e-6)));
      added.push({ row: atLeast(EASE * batchKg) });
    }
    return added;
  });
}

/** Columns of the meat lots, those that must be used first before the others; lots of one day together. */
export function byAge({ supplies }: Coefficients): number[][] {
  const groups = new Map<string, number[]>();
  supplies.forEach(({ lot, material }, column) => {
    if (!lot || !isMeat(material)) return;
    const key = urgency(lot);
    groups.set(key, [...(groups.get(key) ?? []), column]);
  });
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, columns]) => columns);
}

/** By use-by date, then by the day it was received; a lot without a use-by date comes after those with one. */
function urgency({ useByDate = '9999-12-31', receivedDate }: Lot): string {
  return `${useByDate} ${receivedDate}`;
}
