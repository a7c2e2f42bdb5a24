import { reworkMaterial } from '../../batch/rework.ts';
import { mixKg } from '../../correct/tested-mix.ts';
import { exact, multiply } from '../../exact.ts';
import { drawnUg } from '../../ledger/movement.ts';
import { Refused } from '../../ledger/refused.ts';
import { type StepBodies, stepsOf } from '../../making/batch.ts';
import { processAsFound, type Stage } from '../../making/finish.ts';
import { foundSoFar } from '../../making/found-mix.ts';
import { weightUg } from '../../making/standing.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { book, lotOrRefuse, openLot } from '../../store/lots.ts';
import { lastRevision, revise } from '../../store/revisions.ts';
import type { Writing } from '../../store/store.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { CameOut } from './came-out.ts';
import { type Finish, setAsideSchema } from './contract.ts';
import { type OpenedBatch, openedBatch } from './opened.ts';
import { answered } from './steps.ts';
import { refusePastUse } from './use-by.ts';

/**
 * Rework goes back into stock as a material of its own: a kilogram of it is so much of everything that went in. It
 * keeps no longer than the product unless someone says so, and is on hold with it.
 */
export async function makeRework(
  writing: Writing,
  batch: OpenedBatch,
  { rework, output }: Pick<Finish, 'rework' | 'output'>,
  came: CameOut,
  hold: string | undefined,
): Promise<StepBodies['finished']['rework']> {
  const made: StepBodies['finished']['rework'][number][] = [];
  const known = new Map<Stage, string>();
  for (const [index, { weight, stage, location, ...given }] of rework.entries()) {
    const useByDate = given.useByDate ?? output.useByDate;
    refusePastUse(useByDate, writing.act.day, ['rework', index, 'useByDate']);
    const materialId = known.get(stage) ?? (await reviseRework(writing, batch, stage, came.process));
    known.set(stage, materialId);
    const lotId = `${batch.row.id}-R${index + 1}`;
    const massUg = weightUg(weight);
    await openLot(writing, {
      id: lotId,
      kind: 'material',
      ofId: materialId,
      batchId: batch.row.id,
      body: {
        state: 'chilled',
        costPerKg: came.costs[stage],
        ...(location !== undefined && { location }),
        ...(hold !== undefined && { holdReason: hold }),
      },
      receivedDay: writing.act.day,
      ...(useByDate !== undefined && { useByDay: useByDate }),
      held: hold !== undefined,
    });
    await book(writing, { lotId, kind: 'produced', massUg, reservedUg: 0, batchId: batch.row.id });
    made.push({ lotId, materialId, stage, massUg, weight });
  }
  return made;
}

/**
 * Product that goes back after the batch was finished, such as links that broke at packing: it leaves the bulk, and is on
 * hold with it.
 */
export async function setAside(books: Books, call: Call): Promise<Answer> {
  const { weight, reason, useByDate, location } = parseOrProblem(setAsideSchema, call.body);
  const { id = '' } = call.params;
  return change(
    books,
    call,
    { action: 'rework set aside', subject: { kind: 'batch', id } },
    async (writing) => {
      const batch = await openedBatch(writing.db, id, call.ifVersion);
      refuseOutOfTurn(batch.row, 'set aside');
      const finished = stepsOf(batch.steps, 'finished').at(-1);
      if (!finished) throw new Error(`batch ${id} is ${batch.row.state} and was never finished`);
      const bulk = await lotOrRefuse(writing.db, id);
      const { costPerKg, holdReason } = JSON.parse(bulk.body) as { costPerKg?: number; holdReason?: string };
      const useByDay = useByDate ?? bulk.useByDay ?? undefined;
      refusePastUse(useByDay, writing.act.day, ['useByDate']);
      const process = processAsFound(batch.basis.product.process, finished.body.yieldFraction);
      const before = finished.body.rework.length + stepsOf(batch.steps, 'set aside').length;
      const lotId = `${id}-R${before + 1}`;
      const massUg = drawnUg(weightUg(weight), bulk.onHandUg);
      const materialId = await reviseRework(writing, batch, 'finished', process);
      await openLot(writing, {
        id: lotId,
        kind: 'material',
        ofId: materialId,
        batchId: id,
        body: {
          state: 'chilled',
          costPerKg: costPerKg ?? 0,
          ...(location !== undefined && { location }),
          ...(holdReason !== undefined && { holdReason }),
        },
        receivedDay: writing.act.day,
        ...(useByDay !== undefined && { useByDay }),
        held: bulk.held === 1,
      });
      const both = { kind: 'set aside', reservedUg: 0, batchId: id, reason } as const;
      await book(writing, { ...both, lotId: id, massUg: -massUg, otherLotId: lotId });
      await book(writing, { ...both, lotId, massUg, otherLotId: id });
      await takeStep(writing, batch.row, 'set aside', {
        rework: { lotId, materialId, stage: 'finished', massUg, weight },
        reason,
      });
      return answered(writing, id, `${weight.value} ${weight.unit} as ${lotId}: ${reason}`);
    },
  );
}

/** Rework of one batch and stage is one material, however often some of it is set aside. */
async function reviseRework(
  writing: Writing,
  batch: OpenedBatch,
  stage: Stage,
  process: CameOut['process'],
): Promise<string> {
  const { row } = batch;
  const id = `rework-${row.id}${stage === 'raw' ? '-raw' : ''}`;
  if (await lastRevision(writing.db, 'rework', id)) return id;
  await revise(writing, 'rework', id, materialOf(batch, id, stage, process));
  return id;
}

/** @throws Refused when what was weighed in makes no rework. */
function materialOf(
  { row, steps, supplies, basis }: OpenedBatch,
  id: string,
  stage: Stage,
  process: CameOut['process'],
) {
  const mix = foundSoFar(steps, supplies).flatMap(({ lines }) => lines);
  const wentThrough = stage === 'finished' && process.yieldFraction !== 1;
  try {
    return reworkMaterial({
      id,
      name: `Rework of ${basis.product.name}, batch ${row.id}${stage === 'raw' ? ', raw' : ''}`,
      productId: row.productId,
      lines: mix.map(({ supply, massKg }) => ({
        material: { ...supply.material, composition: supply.composition },
        massKg,
        ...(supply.fat && { fatSdFraction: supply.fat.sdFraction }),
      })),
      ...(wentThrough && { finishedKg: multiply(mixKg(mix), exact(process.yieldFraction)) }),
      process: basis.product.process,
      ...(basis.casing && { casing: basis.casing }),
    });
  } catch (error) {
    if (error instanceof RangeError) throw new Refused('unfit', `${error.message}.`, ['rework']);
    throw error;
  }
}
