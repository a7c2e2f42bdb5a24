import { Refused } from '../../ledger/refused.ts';
import { type ScaleWeight, type StepOf, settledBefore, stepsOf } from '../../making/batch.ts';
import { foundSoFar } from '../../making/found-mix.ts';
import { notMet, settled, withReasons } from '../../making/reasons.ts';
import { standingOfLoads, weightUg } from '../../making/standing.ts';
import { departures, placesOf, putIn, standingWeighings } from '../../making/weighing.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { keepDocument } from '../../store/documents.ts';
import { book, releaseAll } from '../../store/lots.ts';
import type { Writing } from '../../store/store.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { takeBackSchema, weighedSchema, weighingSchema } from './contract.ts';
import { labelOfMix } from './label.ts';
import { drawable, lineOf, otherSupply, refuseSlip, refuseUnexplained } from './may-weigh.ts';
import { floorOf, keptSupply, type OpenedBatch, openedBatch } from './opened.ts';
import { answered } from './steps.ts';

/** One line, or a part of it, into one load: the lot gives what the scale showed. */
export async function weighIn(books: Books, call: Call): Promise<Answer> {
  const { line: number, load, weight, lotId, reason, meant } = parseOrProblem(weighingSchema, call.body);
  const { id = '' } = call.params;
  const plant = await books.plant();
  return change(books, call, { action: 'weighed in', subject: { kind: 'batch', id } }, async (writing) => {
    const batch = await openedBatch(writing.db, id, call.ifVersion);
    refuseOutOfTurn(batch.row, 'weighing');
    const line = lineOf(batch, number, load);
    const taken = lotId ?? line.lotId;
    const isOther = taken !== line.lotId;
    const supply = isOther && taken !== undefined ? otherSupply(batch, plant, line, taken) : undefined;
    if (isOther) refuseUnexplained(line, taken, reason);
    const wantedUg = weightUg(weight);
    refuseSlip(batch, line, { load, wantedUg, isOther, reason, meant });
    const drawn = taken === undefined ? undefined : await draw(writing, batch, taken, weight);
    await takeStep(writing, batch.row, 'weighing', {
      load,
      line: number,
      materialId: supply?.material.id ?? line.materialId,
      weight,
      massUg: drawn?.massUg ?? wantedUg,
      ...(taken !== undefined && { lotId: taken }),
      ...(drawn && { movement: drawn.movement }),
      ...(reason !== undefined && { reason }),
      ...(supply && { supplyHash: await keepDocument(writing, keptSupply(supply)) }),
    });
    return answered(
      writing,
      id,
      `${weight.value} ${weight.unit} of ${taken ?? line.material} into load ${load}`,
    );
  });
}

/** Takes a weight off a lot, of what it was promised first. */
async function draw(writing: Writing, batch: OpenedBatch, lotId: string, weight: ScaleWeight) {
  const { massUg, promisedUg } = await drawable(writing.db, batch, lotId, weight, writing.act.day);
  const movement = await book(writing, {
    lotId,
    kind: 'weighed',
    massUg: -massUg,
    reservedUg: -Math.min(promisedUg, massUg),
    batchId: batch.row.id,
  });
  return { massUg, movement };
}

/** A weighing that was wrong is taken back: its lot has the weight again. */
export async function takeBack(books: Books, call: Call): Promise<Answer> {
  const { reason } = parseOrProblem(takeBackSchema, call.body);
  const { id = '', step: given = '' } = call.params;
  return change(
    books,
    call,
    { action: 'weighing taken back', subject: { kind: 'batch', id } },
    async (writing) => {
      const batch = await openedBatch(writing.db, id, call.ifVersion);
      refuseOutOfTurn(batch.row, 'taken back');
      const weighing = weighingOf(batch, given);
      const { movement, weight, lotId, materialId } = weighing.body;
      if (movement !== undefined) await reverseWeighing(writing, movement, reason);
      await takeStep(writing, batch.row, 'taken back', { step: weighing.number, reason });
      return answered(
        writing,
        id,
        `${weight.value} ${weight.unit} of ${lotId ?? materialId} taken back: ${reason}`,
      );
    },
  );
}

function weighingOf({ steps, row }: OpenedBatch, given: string): StepOf<'weighing'> {
  const standing = standingWeighings(steps).find(({ number }) => String(number) === given);
  if (standing) return standing;
  const back = stepsOf(steps, 'taken back').find(({ body }) => String(body.step) === given);
  if (!back) throw new Refused('unknown', `Batch ${row.id} has no weighing "${given}"`);
  throw new Refused(
    'out of turn',
    `Weighing ${given} was taken back already, by ${back.person}: ${back.body.reason}.`,
  );
}

async function reverseWeighing(writing: Writing, seq: number, reason: string): Promise<void> {
  const { lotId, kind, massUg, reservedUg, batchId } = await writing.db
    .selectFrom('movements')
    .select(['lotId', 'kind', 'massUg', 'reservedUg', 'batchId'])
    .where('seq', '=', seq)
    .executeTakeFirstOrThrow();
  await book(writing, {
    lotId,
    kind,
    // A weight that was promised is promised again.
    massUg: -massUg,
    reservedUg: reservedUg === 0 ? 0 : -reservedUg,
    reverses: seq,
    reason,
    ...(batchId !== null && { batchId }),
  });
}

/** Everything is in: every departure from the plan has its reason, and what was promised and not used is free again. */
export async function weighed(books: Books, call: Call): Promise<Answer> {
  const { reasons } = parseOrProblem(weighedSchema, call.body);
  const { id = '' } = call.params;
  return change(books, call, { action: 'weighing done', subject: { kind: 'batch', id } }, async (writing) => {
    const batch = await openedBatch(writing.db, id, call.ifVersion);
    refuseOutOfTurn(batch.row, 'weighed');
    const { steps, supplies, basis, row } = batch;
    const loads = foundSoFar(steps, supplies);
    if (loads.length === 0) {
      throw new Refused('out of turn', `Nothing is weighed into batch ${id}. Weigh it in, or cancel it.`);
    }
    const standing = standingOfLoads(basis, loads);
    const open = [...departures(placesOf(steps, floorOf(batch))), ...notMet(standing.limits)];
    const deviations = settled(withReasons(open, reasons, settledBefore(steps)));
    await releaseAll(writing, id);
    await takeStep(writing, row, 'weighed', {
      weighedUg: putIn(steps, supplies).massUg,
      labelHash: await keepDocument(
        writing,
        labelOfMix(
          basis,
          loads.flatMap(({ lines }) => lines),
          basis.product.process.yieldFraction,
        ),
      ),
      deviations,
      limits: standing.limits,
      makeup: standing.makeup,
    });
    const correction = stepsOf(steps, 'corrected').length > 0 ? ' after a correction' : '';
    const departed = `${deviations.length} departure${deviations.length === 1 ? '' : 's'} from the plan`;
    return answered(writing, id, `all weighed in${correction}, ${departed}`);
  });
}
