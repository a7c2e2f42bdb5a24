import { reworkMaterial } from '../../batch/rework.ts';
import { mixKg } from '../../correct/tested-mix.ts';
import { exact, multiply } from '../../exact.ts';
import { Refused } from '../../ledger/refused.ts';
import type { StepBodies } from '../../making/batch.ts';
import type { Stage } from '../../making/finish.ts';
import { foundSoFar } from '../../making/found-mix.ts';
import { weightUg } from '../../making/standing.ts';
import { book, openLot } from '../../store/lots.ts';
import { revise } from '../../store/revisions.ts';
import type { Writing } from '../../store/store.ts';
import type { CameOut } from './came-out.ts';
import type { Finish } from './contract.ts';
import type { OpenedBatch } from './opened.ts';
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
    const materialId = known.get(stage) ?? (await reviseRework(writing, batch, stage, came));
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

async function reviseRework(
  writing: Writing,
  batch: OpenedBatch,
  stage: Stage,
  came: CameOut,
): Promise<string> {
  const { row } = batch;
  const id = `rework-${row.id}${stage === 'raw' ? '-raw' : ''}`;
  await revise(writing, 'rework', id, materialOf(batch, id, stage, came));
  return id;
}

/** @throws Refused when what was weighed in makes no rework. */
function materialOf(
  { row, steps, supplies, basis }: OpenedBatch,
  id: string,
  stage: Stage,
  { process }: CameOut,
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
    });
  } catch (error) {
    if (error instanceof RangeError) throw new Refused('unfit', `${error.message}.`, ['rework']);
    throw error;
  }
}
