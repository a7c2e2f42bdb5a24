import { BATCH_STATES, type BatchState } from '../../making/batch.ts';
import { linesOf, standingWeighings } from '../../making/weighing.ts';
import { listBatches, stepsOfBatch } from '../../store/batches.ts';
import type { Db } from '../../store/open.ts';
import type { BatchRow } from '../../store/schema.ts';
import type { Books } from '../books.ts';
import type { BatchesAnswer, BatchesQuery } from './contract.ts';

const OVER: readonly BatchState[] = ['closed', 'cancelled'];

/** Batches, the latest first; of those that are being weighed, how far. */
export async function listed(books: Books, query: BatchesQuery): Promise<BatchesAnswer> {
  const { productId, fromDay, toDay, before, limit } = query;
  const states = statesOf(query);
  const { products } = await books.plant();
  return books.store.read(async (db) => {
    const rows = await listBatches(db, {
      ...(productId !== undefined && { productId }),
      ...(states && { states }),
      ...(fromDay !== undefined && { fromDay }),
      ...(toDay !== undefined && { toDay }),
      ...(before !== undefined && { beforeId: before }),
      limit: limit + 1,
    });
    const items = [];
    for (const row of rows.slice(0, limit)) {
      items.push({
        id: row.id,
        productId: row.productId,
        product: products.get(row.productId)?.product.name ?? row.productId,
        date: row.day,
        state: row.state as BatchState,
        version: row.steps,
        ...(row.state === 'weighing' && { lines: await linesBegun(db, row) }),
      });
    }
    const last = items.at(-1);
    return { items, ...(rows.length > limit && last && { next: last.id }) };
  });
}

function statesOf({ state, open }: BatchesQuery): readonly BatchState[] | undefined {
  if (open === undefined) return state && [state];
  return BATCH_STATES.filter(
    (each) => OVER.includes(each) === (open === 'false') && (state === undefined || each === state),
  );
}

async function linesBegun(db: Db, { id }: BatchRow): Promise<{ begun: number; all: number }> {
  const steps = await stepsOfBatch(db, id);
  const begun = new Set(standingWeighings(steps).map(({ body }) => `${body.line} in ${body.load}`));
  return { begun: begun.size, all: linesOf(steps).reduce((count, { loads }) => count + loads.length, 0) };
}
