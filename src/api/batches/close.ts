import { stepsOf } from '../../making/batch.ts';
import { unlawful } from '../../making/standing.ts';
import { batchOrRefuse, refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { releaseAll } from '../../store/lots.ts';
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
    const [plan] = stepsOf(batch.steps, 'planned');
    const { next: _, open: __, version: ___, ...sealed } = batchView(batch);
    const record = await addRecord(writing, 'batch', id, {
      ...sealed,
      state: 'closed',
      reviewedBy: writing.act.by.name,
      ...(note !== undefined && { note }),
      documents: plan && {
        basis: plan.body.basisHash,
        supplies: plan.body.suppliesHash,
        sheet: plan.body.sheetHash,
        label: plan.body.labelHash,
      },
    });
    await takeStep(writing, batch.row, 'closed', { record });
    const broken = unlawful(latestStanding(batch).standing?.limits ?? []);
    return answered(writing, id, `record ${record}${broken.length > 0 ? ', NOT LAWFUL as finished' : ''}`);
  });
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
      const row = await batchOrRefuse(writing.db, id, call.ifVersion);
      refuseOutOfTurn(row, 'cancelled');
      await releaseAll(writing, id);
      await takeStep(writing, row, 'cancelled', { reason });
      return answered(writing, id, reason);
    },
  );
}
