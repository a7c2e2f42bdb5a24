import { exact, multiply } from '../../exact.ts';
import { microgramsOf } from '../../ledger/micrograms.ts';
import { drawnUg, freeUg } from '../../ledger/movement.ts';
import { stepsOf } from '../../making/batch.ts';
import { exactKg, weightUg } from '../../making/standing.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { book, lotOrRefuse, openLot, refuseUnusable } from '../../store/lots.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { packSchema } from './contract.ts';
import { openedBatch } from './opened.ts';
import { answered } from './steps.ts';

/** Packs out of the product: what they hold leaves the bulk. */
export async function packBatch(books: Books, call: Call): Promise<Answer> {
  const { packs } = parseOrProblem(packSchema, call.body);
  const { id = '' } = call.params;
  return change(books, call, { action: 'batch packed', subject: { kind: 'batch', id } }, async (writing) => {
    const batch = await openedBatch(writing.db, id, call.ifVersion);
    refuseOutOfTurn(batch.row, 'packed');
    const { basis, row, steps } = batch;
    let number = stepsOf(steps, 'packed').reduce((count, { body }) => count + body.packs.length, 0);
    const made = [];
    for (const { count, net, filled, useByDate, location } of packs) {
      const bulk = await lotOrRefuse(writing.db, id);
      refuseUnusable(bulk, writing.act.day);
      const lotId = `${id}-P${++number}`;
      const wantedUg = filled ? weightUg(filled) : microgramsOf(multiply(exactKg(net), exact(count)));
      const massUg = drawnUg(wantedUg, freeUg(bulk));
      const useByDay = useByDate ?? bulk.useByDay ?? undefined;
      await openLot(writing, {
        id: lotId,
        kind: 'pack',
        ofId: row.productId,
        batchId: id,
        body: {
          product: basis.product.name,
          state: (JSON.parse(bulk.body) as { state?: string }).state ?? 'chilled',
          costPerKg: (JSON.parse(bulk.body) as { costPerKg?: number }).costPerKg ?? 0,
          count,
          net,
          ...(location !== undefined && { location }),
        },
        receivedDay: writing.act.day,
        ...(useByDay !== undefined && { useByDay }),
      });
      const both = { kind: 'packed', reservedUg: 0, batchId: id } as const;
      await book(writing, { ...both, lotId: id, massUg: -massUg, otherLotId: lotId });
      await book(writing, { ...both, lotId, massUg, otherLotId: id, details: { count, net } });
      made.push({ lotId, count, net, massUg });
    }
    await takeStep(writing, row, 'packed', { packs: made });
    const total = made.reduce((sum, { count }) => sum + count, 0);
    return answered(writing, id, `${total} packs`);
  });
}
