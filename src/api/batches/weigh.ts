import type { Supply } from '../../batch/lot.ts';
import { isMeat, isRework, type Material } from '../../batch/material.ts';
import { hasPlace } from '../../formulate/choose-supplies.ts';
import { rulesOn } from '../../formulate/prepare.ts';
import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { drawnUg, freeUg } from '../../ledger/movement.ts';
import { Refused } from '../../ledger/refused.ts';
import {
  type PlannedLine,
  type ScaleWeight,
  type StepOf,
  settledBefore,
  stepsOf,
} from '../../making/batch.ts';
import { foundSoFar } from '../../making/found-mix.ts';
import { notMet, settled, withReasons } from '../../making/reasons.ts';
import { standingOfLoads, weightUg } from '../../making/standing.ts';
import { departures, linesOf, placesOf, putIn, slipOf, standingWeighings } from '../../making/weighing.ts';
import { forbiddenBy, missingFigures } from '../../rules/eligibility.ts';
import { sourceOf } from '../../rules/limit.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { keepDocument } from '../../store/documents.ts';
import { book, lotOrRefuse, releaseAll, reservedFor } from '../../store/lots.ts';
import type { LotRow } from '../../store/schema.ts';
import type { Writing } from '../../store/store.ts';
import { massText } from '../../units.ts';
import { supplyNow } from '../blend-task.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { refuseUnfitForUse } from '../stock/take.ts';
import { takeBackSchema, weighedSchema, weighingSchema } from './contract.ts';
import { labelOfMix } from './label.ts';
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
    if (isOther && reason === undefined) {
      throw needsReason(`Line ${number} is planned from ${line.supplyId}; ${taken} is another lot`);
    }
    const wantedUg = weightUg(weight);
    // A reason for another lot is none for its weight.
    if (!meant && (isOther || reason === undefined)) refuseSlip(batch, line, load, wantedUg, isOther);
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

function needsReason(message: string): Refused {
  return new Refused('needs a reason', `${message}. If it is right, say why in reason.`, ['reason']);
}

/** A slip of the pen must not take a lot. */
function refuseSlip(
  batch: OpenedBatch,
  line: PlannedLine,
  load: number,
  addedUg: number,
  isOther: boolean,
): void {
  const place = placesOf(batch.steps, floorOf(batch)).find(
    (one) => one.line.number === line.number && one.load === load,
  );
  const slip = place && slipOf(place, addedUg);
  if (!slip) return;
  const check = `${slip}. Check the weight, its unit and the line`;
  if (!isOther) throw needsReason(check);
  throw new Refused('needs a reason', `${check}. If it is right, send "meant": true and say in reason why.`, [
    'meant',
  ]);
}

function lineOf(batch: OpenedBatch, number: number, load: number): PlannedLine {
  const lines = linesOf(batch.steps);
  const line = lines.find((one) => one.number === number);
  if (!line) {
    throw new Refused('unfit', `There is no line ${number}; the lines are 1 to ${lines.length}`, ['line']);
  }
  if (line.loads.includes(load)) return line;
  throw new Refused('unfit', `Line ${number} goes into load ${line.loads.join(', ')}, not ${load}`, ['load']);
}

/** A lot in place of the planned one, with what is known of it. @throws Refused when it may not go in there. */
function otherSupply(
  { basis, supplies }: OpenedBatch,
  plant: PlantBooks,
  line: PlannedLine,
  lotId: string,
): Supply {
  const supply = supplies.get(lotId) ?? supplyNow(plant, lotId, basis.date);
  const refuse = (why: string) =>
    new Refused('unfit', `${lotId} cannot go in: ${why}. Take another lot.`, ['lotId']);
  if (!supply) throw refuse('no such lot is on hand');
  const { product } = basis;
  const planned = supplies.get(line.supplyId)?.material;
  if (!planned || !standsIn(supply.material, planned)) {
    throw refuse(`line ${line.number} is ${line.material}, the lot is ${supply.material.name}`);
  }
  if (!hasPlace(supply, product)) throw refuse(`${product.name} has no place for ${supply.material.name}`);
  const { limits } = rulesOn(basis);
  const [missing] = missingFigures(limits, [supply], product.process);
  if (missing) throw refuse(`the ${missing.missing.constituent} of it is not known`);
  const limit = forbiddenBy(limits, supply, product.process);
  if (limit) throw refuse(`${limit.says} (${sourceOf(limit)})`);
  return supply;
}

/** Fresh meat stands in for meat of its species, everything else for nothing but itself. */
function standsIn(taken: Material, planned: Material): boolean {
  if (taken.id === planned.id) return true;
  const isFresh = (material: Material) => isMeat(material) && !isRework(material);
  return isFresh(taken) && isFresh(planned) && taken.species === planned.species;
}

/** Takes a weight off a lot, of what it was promised first. */
async function draw(writing: Writing, { row, basis }: OpenedBatch, lotId: string, weight: ScaleWeight) {
  const lot = await lotOrRefuse(writing.db, lotId);
  // Usable on the day of the batch, and still usable today.
  for (const day of [row.day, writing.act.day]) refuseUnfitForUse(lot, day, ['lotId']);
  const promisedUg = (await reservedFor(writing.db, row.id)).get(lotId) ?? 0;
  const thereUg = promisedUg + freeUg(lot);
  const massUg = drawnUg(drawnUg(weightUg(weight), promisedUg), thereUg);
  if (massUg > thereUg) throw short(lot, thereUg, weight, basis);
  const movement = await book(writing, {
    lotId,
    kind: 'weighed',
    massUg: -massUg,
    reservedUg: -Math.min(promisedUg, massUg),
    batchId: row.id,
  });
  return { massUg, movement };
}

/** Scales differ: the last of a lot often weighs a little more than the books say. */
function short(
  { id, onHandUg }: LotRow,
  thereUg: number,
  { value, unit }: ScaleWeight,
  { plant }: OpenedBatch['basis'],
): Refused {
  const text = (ug: number) => massText(kilogramsOfMicrograms(ug), plant.units);
  const promised = onHandUg > thereUg ? `, and ${text(onHandUg - thereUg)} promised to others` : '';
  const remedy =
    promised === ''
      ? `If all of it is on the scale and the scale is right, adjust the lot to ${value} ${unit} first; otherwise take the rest from another lot.`
      : 'Take out what is too much, weigh the rest from another lot, or count this one and adjust it.';
  return new Refused(
    'short',
    `Lot ${id} has ${text(thereUg)} for this batch${promised}; ${value} ${unit} is asked. ${remedy}`,
    ['weight'],
  );
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
