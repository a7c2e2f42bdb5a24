import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import type { Deviation, LimitStanding } from '../../making/batch.ts';
import { isOddYield, lossUg, type Outcome, yieldFraction } from '../../making/finish.ts';
import { foundMix } from '../../making/found-mix.ts';
import { standingOf, unlawful, weightUg } from '../../making/standing.ts';
import { putIn } from '../../making/weighing.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { book, openLot } from '../../store/lots.ts';
import type { Writing } from '../../store/store.ts';
import { fixed, massText } from '../../units.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { type Finish, finishSchema } from './contract.ts';
import { type OpenedBatch, openedBatch } from './opened.ts';
import { makeRework } from './rework.ts';
import { answered } from './steps.ts';
import { explainedLimits, type Reason, refuseUnexplained } from './weigh.ts';

/**
 * What came out: the product as a lot, rework as lots that carry what they are made of, and what was lost. A batch that is
 * not lawful gives a lot on hold.
 */
export async function finishBatch(books: Books, call: Call): Promise<Answer> {
  const request = parseOrProblem(finishSchema, call.body);
  const { id = '' } = call.params;
  return change(
    books,
    call,
    { action: 'batch finished', subject: { kind: 'batch', id } },
    async (writing) => {
      const batch = await openedBatch(writing.db, id, call.ifVersion);
      refuseOutOfTurn(batch.row, 'finished');
      const { steps, supplies, basis, row } = batch;
      const outcome = outcomeOf(batch, request);
      const found = yieldFraction(outcome);
      if (found === undefined)
        throw new Refused('unfit', 'Nothing came out of the process; weigh the product again', ['output']);
      const standing = standingOf(basis, foundMix(steps, supplies), { yieldFraction: found });
      if (!standing) throw new Error(`batch ${id} cannot be checked`);
      const deviations = [
        ...yieldDeviation(batch, outcome, found, request.reasons),
        ...explainedLimits(standing.limits, request.reasons),
      ];
      const broken = unlawful(standing.limits);
      const { outputUg } = outcome;
      await openOutput(writing, batch, request, outputUg, broken);
      const rework = await makeRework(writing, batch, request, found);
      await takeStep(writing, row, 'finished', {
        weighedUg: outcome.weighedUg,
        output: { lotId: id, massUg: outputUg, weight: request.output.weight },
        rework,
        discarded: request.discarded.map(({ stage, weight, reason }) => ({
          stage,
          massUg: weightUg(weight),
          weight,
          reason,
        })),
        lossUg: lossUg(outcome),
        yieldFraction: found,
        temperatures: request.temperatures.map(({ time, ...temperature }) => ({
          ...temperature,
          ...(time !== undefined && { time }),
        })),
        deviations,
        limits: standing.limits,
        makeup: standing.makeup,
      });
      const { units } = basis.plant;
      return answered(
        writing,
        id,
        `${massText(kilogramsOfMicrograms(outputUg), units)} came out, yield ${fixed(found * 100, 1)} %${broken.length > 0 ? ', on hold: not lawful' : ''}`,
      );
    },
  );
}

/** The product as a lot of its own, on hold where it is not lawful. */
async function openOutput(
  writing: Writing,
  batch: OpenedBatch,
  { output }: Finish,
  outputUg: number,
  broken: readonly LimitStanding[],
): Promise<void> {
  const { row, basis } = batch;
  const { state, location, useByDate } = output;
  await openLot(writing, {
    id: row.id,
    kind: 'bulk',
    ofId: row.productId,
    batchId: row.id,
    body: {
      product: basis.product.name,
      state,
      costPerKg: putIn(batch.steps, batch.supplies).cost / kilogramsOfMicrograms(outputUg),
      ...(location !== undefined && { location }),
      ...(broken.length > 0 && {
        holdReason: `not lawful as finished: ${broken.map(({ what }) => what).join(', ')}`,
      }),
    },
    receivedDay: writing.act.day,
    ...(useByDate !== undefined && { useByDay: useByDate }),
    held: broken.length > 0,
  });
  await book(writing, { lotId: row.id, kind: 'produced', massUg: outputUg, reservedUg: 0, batchId: row.id });
}

function outcomeOf({ steps, supplies }: OpenedBatch, { output, rework, discarded }: Finish): Outcome {
  return {
    weighedUg: putIn(steps, supplies).massUg,
    outputUg: weightUg(output.weight),
    aside: [...rework, ...discarded].map(({ stage, weight }) => ({ stage, massUg: weightUg(weight) })),
  };
}

function yieldDeviation(
  { basis }: OpenedBatch,
  outcome: Outcome,
  found: number,
  reasons: readonly Reason[],
): Deviation[] {
  const { process } = basis.product;
  const gainUg = -lossUg(outcome);
  if (!isOddYield(found, process) && gainUg <= 0) return [];
  const reason = reasons.find(({ about }) => about === 'yield')?.reason;
  const { units } = basis.plant;
  const deviation = {
    what: 'yield (give the reason about "yield")',
    planned: `${fixed(process.yieldFraction * 100, 1)} %`,
    found: `${fixed(found * 100, 1)} %${gainUg > 0 ? `, ${massText(kilogramsOfMicrograms(gainUg), units)} more than was weighed in` : ''}`,
    reason,
  };
  // A scale that differs from another by a hair is no gain.
  if (!isOddYield(found, process) && gainUg <= outcome.weighedUg * SCALES_DIFFER) return [];
  refuseUnexplained([deviation]);
  return [{ ...deviation, what: 'yield', reason: reason ?? '' }];
}

/** Share of a batch by which two scales of a plant may differ. Own judgement. */
const SCALES_DIFFER = 0.002;
