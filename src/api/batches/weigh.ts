import type { Supply } from '../../batch/lot.ts';
import { hasPlace } from '../../formulate/choose-supplies.ts';
import { rulesOn } from '../../formulate/prepare.ts';
import { micrograms } from '../../ledger/micrograms.ts';
import { drawnUg } from '../../ledger/movement.ts';
import { Refused } from '../../ledger/refused.ts';
import { type Deviation, type LimitStanding, type PlannedLine, stepsOf } from '../../making/batch.ts';
import { standingOf } from '../../making/standing.ts';
import { departures, linesOf, putIn, standingWeighings, weighedMix } from '../../making/weighing.ts';
import { forbiddenBy, missingFigures } from '../../rules/eligibility.ts';
import { sourceOf } from '../../rules/limit.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { keepDocument } from '../../store/documents.ts';
import { book, lotOrRefuse, refuseUnusable, releaseAll, reservedFor } from '../../store/lots.ts';
import type { Writing } from '../../store/store.ts';
import { fixed } from '../../units.ts';
import { supplyNow } from '../blend-task.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { takeBackSchema, weighedSchema, weighingSchema } from './contract.ts';
import { keptSupply, type OpenedBatch, openedBatch } from './opened.ts';
import { answered } from './steps.ts';
import { divisionOf, notMet } from './view.ts';

/** One line, or a part of it, into one load: the lot gives what the scale showed. */
export async function weighIn(books: Books, call: Call): Promise<Answer> {
  const { line: number, load, weight, lotId, reason } = parseOrProblem(weighingSchema, call.body);
  const { id = '' } = call.params;
  const plant = await books.plant();
  return change(books, call, { action: 'weighed in', subject: { kind: 'batch', id } }, async (writing) => {
    const batch = await openedBatch(writing.db, id, call.ifVersion);
    refuseOutOfTurn(batch.row, 'weighing');
    const line = lineOf(batch, number, load);
    const taken = lotId ?? line.lotId;
    const isOther = taken !== line.lotId;
    if (isOther && reason === undefined) {
      throw new Refused(
        'needs a reason',
        `Line ${number} is planned from ${line.supplyId}; say in reason why ${taken} is taken instead`,
        ['reason'],
      );
    }
    const supply = isOther && taken !== undefined ? otherSupply(batch, plant, taken) : undefined;
    const wantedUg = micrograms(weight.value, weight.unit);
    const drawn = taken === undefined ? undefined : await draw(writing, batch, taken, wantedUg);
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

function lineOf(batch: OpenedBatch, number: number, load: number): PlannedLine {
  const lines = linesOf(batch.steps);
  const line = lines.find((one) => one.number === number);
  if (!line) {
    throw new Refused('unfit', `There is no line ${number}; the lines are 1 to ${lines.length}`, ['line']);
  }
  if (line.loads.includes(load)) return line;
  throw new Refused('unfit', `Line ${number} goes into load ${line.loads.join(', ')}, not ${load}`, ['load']);
}

/** A lot that was not planned, with what is known of it now. @throws Refused when it may not go in. */
function otherSupply({ basis, supplies }: OpenedBatch, plant: PlantBooks, lotId: string): Supply {
  const known = supplies.get(lotId);
  if (known) return known;
  const supply = supplyNow(plant, lotId, basis.date);
  const refuse = (why: string) =>
    new Refused('unfit', `${lotId} cannot go in: ${why}. Take another lot.`, ['lotId']);
  if (!supply) throw refuse('no such lot is on hand');
  const { product } = basis;
  if (!hasPlace(supply, product)) throw refuse(`${product.name} has no place for ${supply.material.name}`);
  const { limits } = rulesOn(basis);
  const [missing] = missingFigures(limits, [supply], product.process);
  if (missing) throw refuse(`the ${missing.missing.constituent} of it is not known`);
  const limit = forbiddenBy(limits, supply, product.process);
  if (limit) throw refuse(`${limit.says} (${sourceOf(limit)})`);
  return supply;
}

/** Takes a weight off a lot, of what it was promised first. */
async function draw(writing: Writing, { row }: OpenedBatch, lotId: string, wantedUg: number) {
  const lot = await lotOrRefuse(writing.db, lotId);
  refuseUnusable(lot, row.day);
  const promisedUg = (await reservedFor(writing.db, row.id)).get(lotId) ?? 0;
  const massUg = drawnUg(drawnUg(wantedUg, promisedUg), lot.onHandUg);
  const movement = await book(writing, {
    lotId,
    kind: 'weighed',
    massUg: -massUg,
    reservedUg: -Math.min(promisedUg, massUg),
    batchId: row.id,
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
      const weighing = standingWeighings(batch.steps).find(({ number }) => String(number) === given);
      if (!weighing) throw new Refused('unknown', `Batch ${id} has no weighing ${given} that stands`);
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
    const mix = weighedMix(steps, supplies);
    if (mix.length === 0)
      throw new Refused('out of turn', `Nothing is weighed into batch ${id}. Weigh it in, or cancel it.`);
    const standing = standingOf(basis, mix);
    if (!standing) throw new Error(`batch ${id} cannot be checked`);
    const departed = departures(steps, supplies, divisionOf(batch), basis.plant.units);
    const deviations = [...explained(departed, reasons), ...explainedLimits(standing.limits, reasons)];
    await releaseAll(writing, id);
    await takeStep(writing, row, 'weighed', {
      weighedUg: putIn(steps, supplies).massUg,
      deviations,
      limits: standing.limits,
      makeup: standing.makeup,
    });
    const correction = stepsOf(steps, 'corrected').length > 0 ? ' after a correction' : '';
    return answered(
      writing,
      id,
      `all weighed in${correction}, ${deviations.length} departures from the plan`,
    );
  });
}

export interface Reason {
  readonly line?: number | undefined;
  readonly load?: number | undefined;
  readonly limitId?: string | undefined;
  readonly about?: string | undefined;
  readonly reason: string;
}

/** @throws Refused 'needs a reason' naming every departure that has none. */
function explained(
  departed: readonly ReturnType<typeof departures>[number][],
  reasons: readonly Reason[],
): Deviation[] {
  const withReasons = departed.map((one) => ({
    ...one,
    reason:
      reasons.find(({ line, load }) => line === one.line.number && (load === undefined || load === one.load))
        ?.reason ?? one.reason,
  }));
  refuseUnexplained(
    withReasons.map(({ line, load, what, planned, found, reason }) => ({
      what: `${what} (line ${line.number}, load ${load})`,
      planned,
      found,
      reason,
    })),
  );
  return withReasons.map(({ what, planned, found, reason = '' }) => ({ what, planned, found, reason }));
}

/** @throws Refused 'needs a reason' naming every limit that is not met and has none. */
export function explainedLimits(limits: readonly LimitStanding[], reasons: readonly Reason[]): Deviation[] {
  const broken = notMet(limits).map(({ limitId, ...one }) => ({
    ...one,
    what: `${one.what} (limit ${limitId})`,
    reason: reasons.find((given) => given.limitId === limitId)?.reason,
  }));
  refuseUnexplained(broken);
  return broken.map(({ reason = '', ...one }) => ({ ...one, reason }));
}

export function refuseUnexplained(
  departed: readonly {
    readonly what: string;
    readonly planned: string;
    readonly found: string;
    readonly reason?: string | undefined;
  }[],
): void {
  const open = departed.filter(({ reason }) => reason === undefined);
  if (open.length === 0) return;
  const list = open.map(({ what, planned, found }) => `${what}: planned ${planned}, found ${found}`);
  throw new Refused(
    'needs a reason',
    `${open.length === 1 ? 'One departure needs' : `${fixed(open.length, 0)} departures need`} a reason, in reasons by line or limitId: ${list.join('; ')}`,
    ['reasons'],
  );
}
