import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import { type LimitStanding, settledBefore } from '../../making/batch.ts';
import { isFarShort, lackText, shortOfCure } from '../../making/cure.ts';
import { isOddYield, isUnweighed, lossUg, type Outcome } from '../../making/finish.ts';
import { foundSoFar } from '../../making/found-mix.ts';
import { standingText } from '../../making/limit-text.ts';
import { notMet, type Open, settled, withReasons } from '../../making/reasons.ts';
import { falseOnLabel, type Standing, standingOfLoads, unlawful, weightUg } from '../../making/standing.ts';
import { placesOf, standingWeighings } from '../../making/weighing.ts';
import { MASS_BALANCE } from '../../rules/mass-balance.ts';
import { heldAmong, refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { book, openLot } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import type { Writing } from '../../store/store.ts';
import { fixed, massText } from '../../units.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { type CameOut, cameOut } from './came-out.ts';
import { type Finish, finishSchema } from './contract.ts';
import { floorOf, type OpenedBatch, openedBatch } from './opened.ts';
import { makeRework } from './rework.ts';
import { answered } from './steps.ts';
import { refusePastUse } from './use-by.ts';

/**
 * What came out: the product as a lot, rework as lots that carry what they are made of, and what was lost. A batch that
 * is not lawful, or was made with a lot that is on hold by now, gives lots on hold.
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
      refusePastUse(request.output.useByDate, writing.act.day, ['output', 'useByDate']);
      const came = cameOut(batch, request);
      const { outcome, found } = came;
      refuseUnweighed(batch, outcome);
      const standing = standingOfLoads(basis, foundSoFar(steps, supplies), came.process);
      refuseAgainstNature(standing, found);
      const open = [...oddYield(batch, outcome, found), ...notMet(standing.limits)];
      const deviations = settled(withReasons(open, request.reasons, settledBefore(steps)));
      const hold = await holdReason(writing.db, batch, standing.limits);
      const { outputUg } = outcome;
      await openOutput(writing, batch, request, came, hold);
      const rework = await makeRework(writing, batch, request, came, hold);
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
        costPerKg: came.costs.finished,
        ...(hold !== undefined && { hold }),
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
        `${massText(kilogramsOfMicrograms(outputUg), units)} came out, yield ${fixed(found * 100, 1)} %${hold === undefined ? '' : `, on hold: ${hold}`}`,
      );
    },
  );
}

/** What was never weighed in has no lot, and would thin every limit. @throws Refused 'unfit'. */
function refuseUnweighed({ basis }: OpenedBatch, outcome: Outcome): void {
  if (!isUnweighed(outcome)) return;
  const text = (ug: number) => massText(kilogramsOfMicrograms(ug), basis.plant.units);
  throw new Refused(
    'unfit',
    `${text(-lossUg(outcome))} more came out than the ${text(outcome.weighedUg)} that were weighed in. Weigh the product again; if more went in, take the last weighing back and weigh it in again with what is missing.`,
    ['output', 'weight'],
  );
}

const NATURE: ReadonlySet<string> = new Set(MASS_BALANCE.map(({ id }) => id));

/** No reason explains that more water is gone than was there. */
function refuseAgainstNature({ limits }: Standing, found: number): void {
  if (!limits.some(({ limitId, holds }) => NATURE.has(limitId) && !holds)) return;
  throw new Refused(
    'unfit',
    `A yield of ${fixed(found * 100, 1)} % means that more water is gone than the batch held. Weigh the product again, and give what was thrown away under discarded.`,
    ['output', 'weight'],
  );
}

/**
 * Why what came out is put on hold: it is not lawful, its label would not be true, it lacks its cure, or a lot that is on
 * hold by now went in.
 */
async function holdReason(
  db: Db,
  batch: OpenedBatch,
  limits: readonly LimitStanding[],
): Promise<string | undefined> {
  const broken = unlawful(limits);
  const untrue = falseOnLabel(limits);
  const { steps, supplies } = batch;
  const uncured = shortOfCure(placesOf(steps, floorOf(batch)), supplies).filter(isFarShort);
  const used = standingWeighings(steps).flatMap(({ body }) => body.lotId ?? []);
  const held = await heldAmong(db, used);
  const because = [
    ...(broken.length > 0 ? [`not lawful as finished: ${broken.map(standingText).join('; ')}`] : []),
    ...(untrue.length > 0 ? [`its label would not be true: ${untrue.map(standingText).join('; ')}`] : []),
    ...(uncured.length > 0 ? [`less cure than planned: ${uncured.map(lackText).join('; ')}`] : []),
    ...held.map((id) => `made with lot ${id}, which is on hold`),
  ];
  return because.length > 0 ? because.join('. ') : undefined;
}

/** The product as a lot of its own. */
async function openOutput(
  writing: Writing,
  { row, basis }: OpenedBatch,
  { output }: Finish,
  { outcome, costs }: CameOut,
  hold: string | undefined,
): Promise<void> {
  const { state, location, useByDate } = output;
  await openLot(writing, {
    id: row.id,
    kind: 'bulk',
    ofId: row.productId,
    batchId: row.id,
    body: {
      product: basis.product.name,
      state,
      costPerKg: costs.finished,
      ...(location !== undefined && { location }),
      ...(hold !== undefined && { holdReason: hold }),
    },
    receivedDay: writing.act.day,
    ...(useByDate !== undefined && { useByDay: useByDate }),
    held: hold !== undefined,
  });
  const massUg = outcome.outputUg;
  await book(writing, { lotId: row.id, kind: 'produced', massUg, reservedUg: 0, batchId: row.id });
}

function oddYield({ basis }: OpenedBatch, outcome: Outcome, found: number): Open[] {
  const { process } = basis.product;
  if (!isOddYield(outcome, found, process)) return [];
  const gainUg = -lossUg(outcome);
  const gain = massText(kilogramsOfMicrograms(gainUg), basis.plant.units);
  return [
    {
      about: 'yield',
      what: 'yield',
      planned: `${fixed(process.yieldFraction * 100, 1)} %`,
      found: `${fixed(found * 100, 1)} %${gainUg > 0 ? `, ${gain} more than was weighed in` : ''}`,
    },
  ];
}
