import { Refused } from '../../ledger/refused.ts';
import { labelHashOf, stepsOf } from '../../making/batch.ts';
import { unlawful } from '../../making/standing.ts';
import { standingWeighings } from '../../making/weighing.ts';
import { lotsHistory, refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { listLots, releaseAll } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import { addRecord } from '../../store/records.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { closeSchema, takeBackSchema } from './contract.ts';
import { openedBatch } from './opened.ts';
import { answered } from './steps.ts';
import { batchView, latestStanding } from './view.ts';

/** Seals the record of a batch: nothing of it is changed any more, a correction is a record of its own. */
export async function closeBatch(books: Books, call: Call): Promise<Answer> {
  const { note } = parseOrProblem(closeSchema, call.body);
  const { id = '' } = call.params;
  return change(books, call, { action: 'batch closed', subject: { kind: 'batch', id } }, async (writing) => {
    const batch = await openedBatch(writing.db, id, call.ifVersion);
    refuseOutOfTurn(batch.row, 'closed');
    await refuseHeld(writing.db, id);
    const [plan] = stepsOf(batch.steps, 'planned');
    const { next: _, open: __, version: ___, ...sealed } = batchView(batch);
    const record = await addRecord(writing, 'batch', id, {
      ...sealed,
      state: 'closed',
      reviewedBy: writing.act.by.name,
      ...(note !== undefined && { note }),
      lots: await lotsHistory(writing.db, id),
      documents: plan && {
        basis: plan.body.basisHash,
        supplies: plan.body.suppliesHash,
        sheet: plan.body.sheetHash,
        label: labelHashOf(batch.steps),
      },
    });
    await takeStep(writing, batch.row, 'closed', { record });
    const broken = unlawful(latestStanding(batch).standing.limits);
    return answered(writing, id, `record ${record}${broken.length > 0 ? ', NOT LAWFUL as finished' : ''}`);
  });
}

/** What became of product on hold is a part of the record. @throws Refused 'out of turn'. */
async function refuseHeld(db: Db, batchId: string): Promise<void> {
  const held = await listLots(db, { batchId, onHand: true, held: true });
  if (held.length === 0) return;
  throw new Refused(
    'out of turn',
    `${held.map((lot) => `Lot ${lot.id}`).join(', ')} of batch ${batchId} is still on hold. Decide what becomes of it first: release it, or book it as discarded.`,
  );
}

/** A plan that is given up: its lots are free again. */
export async function cancelBatch(books: Books, call: Call): Promise<Answer> {
  const { reason } = parseOrProblem(takeBackSchema, call.body);
  const { id = '' } = call.params;
  return change(
    books,
    call,
    { action: 'batch cancelled', subject: { kind: 'batch', id } },
    async (writing) => {
      const { row, steps } = await openedBatch(writing.db, id, call.ifVersion);
      refuseOutOfTurn(row, 'cancelled');
      if (standingWeighings(steps).length > 0) {
        throw new Refused(
          'out of turn',
          `Something is weighed into batch ${id}. Take it back if it is not in the mixer; otherwise go on and finish the batch.`,
        );
      }
      await releaseAll(writing, id);
      await takeStep(writing, row, 'cancelled', { reason });
      return answered(writing, id, reason);
    },
  );
}
