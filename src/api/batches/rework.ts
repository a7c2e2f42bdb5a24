import { reworkMaterial } from '../../batch/rework.ts';
import { mixKg } from '../../correct/tested-mix.ts';
import { exact, multiply } from '../../exact.ts';
import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import type { StepBodies } from '../../making/batch.ts';
import type { Stage } from '../../making/finish.ts';
import { foundMix } from '../../making/found-mix.ts';
import { weightUg } from '../../making/standing.ts';
import { putIn } from '../../making/weighing.ts';
import { book, openLot } from '../../store/lots.ts';
import { revise } from '../../store/revisions.ts';
import type { Writing } from '../../store/store.ts';
import type { Finish } from './contract.ts';
import type { OpenedBatch } from './opened.ts';

/** Rework goes back into stock as a material of its own: a kilogram of it is so much of everything that went in. */
export async function makeRework(
  writing: Writing,
  batch: OpenedBatch,
  { rework }: Pick<Finish, 'rework'>,
  found: number,
): Promise<StepBodies['finished']['rework']> {
  const made: StepBodies['finished']['rework'][number][] = [];
  const known = new Map<Stage, string>();
  const { cost, massUg: inUg } = putIn(batch.steps, batch.supplies);
  for (const [index, { weight, stage, useByDate, location }] of rework.entries()) {
    const materialId = known.get(stage) ?? (await reviseRework(writing, batch, stage, found));
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
        costPerKg: cost / kilogramsOfMicrograms(inUg),
        ...(location !== undefined && { location }),
      },
      receivedDay: writing.act.day,
      ...(useByDate !== undefined && { useByDay: useByDate }),
    });
    await book(writing, { lotId, kind: 'produced', massUg, reservedUg: 0, batchId: batch.row.id });
    made.push({ lotId, materialId, stage, massUg, weight });
  }
  return made;
}

async function reviseRework(
  writing: Writing,
  { row, steps, supplies, basis }: OpenedBatch,
  stage: Stage,
  found: number,
): Promise<string> {
  const mix = foundMix(steps, supplies);
  const id = `rework-${row.id}${stage === 'raw' ? '-raw' : ''}`;
  const material = reworkMaterial({
    id,
    name: `Rework of ${basis.product.name}, batch ${row.id}${stage === 'raw' ? ', raw' : ''}`,
    productId: row.productId,
    lines: mix.map(({ supply, massKg }) => ({
      material: { ...supply.material, composition: supply.composition },
      massKg,
      ...(supply.fat && { fatSdFraction: supply.fat.sdFraction }),
    })),
    ...(stage === 'finished' && { finishedKg: multiply(mixKg(mix), exact(found)) }),
    process: basis.product.process,
  });
  await revise(writing, 'rework', id, material);
  return id;
}
