import { testedFatSd } from '../../batch/fat-certainty.ts';
import type { Correction } from '../../correct/correction.ts';
import { possibleFat, testedMix } from '../../correct/tested-mix.ts';
import { Refused } from '../../ledger/refused.ts';
import type { StepOf } from '../../making/batch.ts';
import { testOf } from '../../making/found-mix.ts';
import { standingOf } from '../../making/standing.ts';
import { inUnitOf, linesOf, placesOf, weighedMix } from '../../making/weighing.ts';
import { refuseOutOfTurn, takeStep } from '../../store/batches.ts';
import { keepDocument } from '../../store/documents.ts';
import { fixed, kilograms, massText } from '../../units.ts';
import { prepareBlend } from '../blend-task.ts';
import { unusable } from '../blending.ts';
import { type Books, change, deskOf, momentOf } from '../books.ts';
import { blendRequestSchema } from '../contract/blend-request.ts';
import type { CorrectionAnswer } from '../contract/correction.ts';
import { otherProducts, sureness } from '../correcting.ts';
import { correctionAnswer } from '../correction-answer.ts';
import type { Answer, Call } from '../endpoint.ts';
import type { CorrectionTask } from '../jobs.ts';
import { parseOrProblem } from '../parse.ts';
import { Problem } from '../problem.ts';
import { answeredBefore } from './answered-before.ts';
import { batchCorrectionSchema, batchTestSchema } from './contract.ts';
import { floorOf, keptSupply, type OpenedBatch, openedBatch } from './opened.ts';
import { plannedLine, reserveLines } from './plan.ts';
import { answered } from './steps.ts';

const percent = (fraction: number) => `${fixed(fraction * 100, 1)} %`;

/** A fat test of what is in the mixer: every limit stands anew with the fat that was found. */
export async function testBatch(books: Books, call: Call): Promise<Answer> {
  const { load, ...test } = parseOrProblem(batchTestSchema, call.body);
  const { id = '' } = call.params;
  return change(books, call, { action: 'batch tested', subject: { kind: 'batch', id } }, async (writing) => {
    const batch = await openedBatch(writing.db, id, call.ifVersion);
    refuseOutOfTurn(batch.row, 'tested');
    refuseUnfinished(batch, load);
    const mix = mixOfLoad(batch, load);
    const tested = testedMix(mix, test.fatFraction);
    if (!tested) {
      const { least, most } = possibleFat(mix);
      throw new Refused(
        'unfit',
        `${percent(test.fatFraction)} of fat cannot be in a mix of these lots, only ${percent(least)} to ${percent(most)}. Test again.`,
        ['fatFraction'],
      );
    }
    const { fatFraction, method, sdFraction } = test;
    const body = { fatFraction, method, ...(sdFraction !== undefined && { sdFraction }) };
    await writing.append('tests', {
      seq: await writing.nextSeq('tests'),
      subjectKind: 'batch',
      subjectId: id,
      body: JSON.stringify({ ...body, ...(load !== undefined && { load }) }),
      at: writing.act.at,
      day: writing.act.day,
      personId: writing.act.by.id,
    });
    await takeStep(writing, batch.row, 'tested', {
      ...body,
      ...(load !== undefined && { load }),
      ...standingOf(batch.basis, tested),
    });
    return answered(writing, id, `${percent(fatFraction)} of fat by ${method}`);
  });
}

/** What is tested must be all in. */
function refuseUnfinished(batch: OpenedBatch, load: number | undefined): void {
  const missing = placesOf(batch.steps, floorOf(batch)).filter(
    (place) => place.restUg > 0 && (load === undefined || place.load === load),
  );
  if (missing.length === 0 || batch.row.state !== 'weighing') return;
  const list = missing.map((place) => `${inUnitOf(place.line, place.restUg)} of line ${place.line.number}`);
  throw new Refused(
    'out of turn',
    `${load === undefined ? `Batch ${batch.row.id}` : `Load ${load}`} still waits for ${list.join(', ')}. Weigh it in first.`,
  );
}

/** What was weighed into one load, or into all. @throws Refused when there is no such load. */
function mixOfLoad({ steps, supplies }: OpenedBatch, load: number | undefined) {
  const mix = weighedMix(steps, supplies, load);
  if (mix.length > 0) return mix;
  throw new Refused('unfit', `Nothing was weighed into load ${load}`, ['load']);
}

/** What to add to the load whose test is off; nothing is booked. */
export async function proposeCorrection(books: Books, call: Call): Promise<Answer> {
  const { task, found } = await workedOut(books, call);
  return { body: correctionAnswer(task, found) satisfies CorrectionAnswer };
}

/** Adds what brings the load back to the plan: its lots are promised, its lines wait to be weighed. */
export async function correctBatch(books: Books, call: Call): Promise<Answer> {
  const { id = '' } = call.params;
  const what = { action: 'correction planned', subject: { kind: 'batch', id } };
  const before = await answeredBefore(books, call, what);
  if (before) return before;
  const { load, test, found, version } = await workedOut(books, call);
  if (found.outcome === 'right as it is') {
    throw new Refused(
      'out of turn',
      `Load ${load} is right as it is; nothing has to be added. Finish the batch.`,
    );
  }
  if (found.outcome === 'cannot be brought back') {
    throw new Problem('no-blend', found.because.map(({ message }) => message).join(' '));
  }
  return change(books, call, what, async (writing) => {
    // Worked out on that version: if the batch went on since, it is no answer any more.
    const batch = await openedBatch(writing.db, id, version);
    refuseOutOfTurn(batch.row, 'corrected');
    const last = linesOf(batch.steps).length;
    const lines = found.lines.map((line, index) => ({
      ...plannedLine(line, last + index + 1, [load]),
      ofCorrection: batch.row.steps + 1,
    }));
    await reserveLines(writing, id, lines, writing.act.day);
    const added = found.lines.map(
      ({ supply, weight }) => `${weight.text} ${weight.scale.unit} of ${supply.id}`,
    );
    await takeStep(writing, batch.row, 'corrected', {
      test: test.number,
      lines,
      suppliesHash: await keepDocument(
        writing,
        found.lines.map(({ supply }) => keptSupply(supply)),
      ),
      says: `Load ${load}: add ${added.join(', ')} (${massText(found.after.totalKg, batch.basis.plant.units)} in all)`,
    });
    return answered(writing, id, `to add to load ${load}: ${added.join(', ')}`);
  });
}

interface WorkedOut {
  readonly load: number;
  readonly test: StepOf<'tested'>;
  readonly task: CorrectionTask;
  readonly found: Exclude<Correction, { outcome: 'refused' }>;
  readonly version: number;
}

async function workedOut(books: Books, call: Call): Promise<WorkedOut> {
  const request = parseOrProblem(batchCorrectionSchema, call.body);
  const { load, capacity, confidence, excludeLots } = request;
  const { id = '' } = call.params;
  const desk = await deskOf(books);
  const batch = await books.store.read((db) => openedBatch(db, id, call.ifVersion));
  refuseOutOfTurn(batch.row, 'corrected');
  const test = lastTest(batch, load);
  const { basis } = batch;
  const { day } = momentOf(await books.plant(), books.now());
  const asBlend = blendRequestSchema.parse({
    product: basis.product.id,
    batchSize: { total: { value: 1, unit: 'kg' } },
    excludeLots,
  });
  const prepared = prepareBlend(asBlend, desk.data, desk.ruleSets, day);
  if (!prepared.ok) throw unusable(prepared.issues, asBlend);
  const { fatFraction, method, sdFraction } = test.body;
  const task: CorrectionTask = {
    product: basis.product,
    standard: basis.standard,
    edition: basis.edition,
    date: day,
    plant: basis.plant,
    ...(basis.houseRules && { houseRules: basis.houseRules }),
    inMixer: mixOfLoad(batch, load),
    testedFat: {
      fatFraction,
      method,
      sdFraction: testedFatSd({ fatFraction, method, ...(sdFraction !== undefined && { sdFraction }) }),
    },
    supplies: prepared.task.supplies,
    ...(capacity && { capacityKg: kilograms(capacity) }),
    ...sureness(confidence, prepared.task),
    others: otherProducts({ product: basis.product, date: day }, desk),
  };
  const found = await books.work('correction', task);
  if (found.outcome === 'refused') throw unusable(found.issues, asBlend);
  return { load, test, task, found, version: batch.row.steps };
}

/** The test of the load that counts, or else of the whole batch. */
function lastTest({ steps, row }: OpenedBatch, load: number): StepOf<'tested'> {
  const test = testOf(steps, load);
  if (test) return test;
  throw new Refused(
    'out of turn',
    `Load ${load} of batch ${row.id} has no fat test since it was weighed. Test it first.`,
  );
}
