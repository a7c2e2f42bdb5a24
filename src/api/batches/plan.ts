import { batchSheet } from '../../documents/batch-sheet.ts';
import type { Blend, BlendLine } from '../../formulate/blend.ts';
import { declare } from '../../labels/declaration.ts';
import { micrograms } from '../../ledger/micrograms.ts';
import { Refused } from '../../ledger/refused.ts';
import type { PlannedLine, StepBodies } from '../../making/batch.ts';
import type { Basis } from '../../making/standing.ts';
import { openBatch } from '../../store/batches.ts';
import { keepDocument } from '../../store/documents.ts';
import { reserve } from '../../store/lots.ts';
import type { Writing } from '../../store/store.ts';
import type { Turns } from '../../store/turns.ts';
import { fixed, massText } from '../../units.ts';
import type { BlendTask } from '../blend-task.ts';
import { settledBlend } from '../blending.ts';
import { type Books, change, deskOf } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { Problem } from '../problem.ts';
import { answeredBefore } from './answered-before.ts';
import { planRequestSchema } from './contract.ts';
import { fingerprintOf } from './fingerprint.ts';
import { keptSupply, openedBatch } from './opened.ts';
import { batchView } from './view.ts';

/** How often a plan is worked out anew when someone else took of its lots in the meantime. */
const MOST_TRIES = 5;

export interface Planning {
  readonly books: Books;
  /** Whoever lost its lots once waits for its turn, so that the last of many does not lose every race. */
  readonly inTurn: Turns;
}

/**
 * Works out the blend on what is free now and promises its lots to a new batch, so that no one else gets them.
 * @throws Problem when there is no blend, or others were quicker each time.
 */
export async function planBatch({ books, inTurn }: Planning, call: Call): Promise<Answer> {
  const { fingerprint, ...request } = parseOrProblem(planRequestSchema, call.body);
  const what = { action: 'batch planned', subject: { kind: 'batch', id: '' } };
  const before = await answeredBefore(books, call, what);
  if (before) return before;
  const attempt = async (): Promise<Answer | undefined> => {
    const desk = await deskOf(books);
    refusePast(request.date, desk.today());
    const { task, blend } = await settledBlend(desk, request);
    refuseAnother(fingerprint, task, blend);
    try {
      return await change(books, call, what, (writing) => writePlan(writing, call.body, task, blend));
    } catch (error) {
      if (isTakenMeanwhile(error)) return undefined;
      throw error;
    }
  };
  const planned = (await attempt()) ?? (await inTurn(() => upTo(MOST_TRIES - 1, attempt)));
  if (planned) return planned;
  throw new Problem(
    'not-as-things-stand',
    'Other batches took of the same lots each time this one was worked out. Plan it again.',
  );
}

async function upTo<Result>(tries: number, attempt: () => Promise<Result | undefined>) {
  for (let tried = 0; tried < tries; tried++) {
    const done = await attempt();
    if (done) return done;
  }
  return undefined;
}

function isTakenMeanwhile(error: unknown): boolean {
  return error instanceof Refused && (error.code === 'short' || error.code === 'not usable');
}

/** What is past its day today could still go into a batch of last week. */
function refusePast(date: string | undefined, today: string): void {
  if (date === undefined || date >= today) return;
  const message = `${date} is past; a batch is planned for today, ${today}, or a later day`;
  throw new Problem('cannot-be-used', 'One thing stands in the way.', {
    errors: [{ pointer: '/date', message }],
  });
}

/** Whoever has seen a blend gets that one or none. */
function refuseAnother(fingerprint: string | undefined, { plant }: BlendTask, blend: Blend): void {
  if (fingerprint === undefined || fingerprint === fingerprintOf(blend)) return;
  const lots = blend.lines
    .filter(({ supply }) => supply.lot)
    .map(({ supply, massKg }) => `${massText(massKg, plant.units)} of ${supply.id}`);
  throw new Problem(
    'not-as-things-stand',
    `The lots on hand changed since you saw the blend. Now it takes ${lots.join(', ')} and costs ${fixed(blend.cost, 2)} ${plant.currency}. Look at it again, then plan it.`,
  );
}

async function writePlan(writing: Writing, request: unknown, task: BlendTask, blend: Blend) {
  const { product, date, plant } = task;
  const id = await openBatch(writing, product.id, date, async (batchId) => {
    const plan = await planOf(writing, request, task, blend);
    await reserveLines(writing, batchId, plan.lines, date);
    return plan;
  });
  const view = batchView(await openedBatch(writing.db, id));
  return {
    says: `${massText(blend.batchKg, plant.units)} of ${product.name} in ${blend.loads} load${blend.loads === 1 ? '' : 's'}`,
    subject: { kind: 'batch', id },
    result: { body: view, version: view.version, location: `/batches/${id}` },
  };
}

async function planOf(
  writing: Writing,
  request: unknown,
  task: BlendTask,
  blend: Blend,
): Promise<StepBodies['planned']> {
  const { product, standard, edition, houseRules, plant, date, casing } = task;
  const basis: Basis = {
    product,
    standard,
    edition,
    plant,
    date,
    ...(houseRules && { houseRules }),
    ...(casing && { casing }),
  };
  const lines = blend.lines.map((line, index) => plannedLine(line, index + 1, allLoads(blend.loads)));
  return {
    productId: product.id,
    date,
    loads: blend.loads,
    batchUg: lines.reduce((total, { perLoadUg, loads }) => total + perLoadUg * loads.length, 0),
    lines,
    request,
    basisHash: await keepDocument(writing, basis),
    suppliesHash: await keepDocument(
      writing,
      blend.lines.map(({ supply }) => keptSupply(supply)),
    ),
    sheetHash: await keepDocument(writing, batchSheet({ ...task, blend })),
    labelHash: await keepDocument(writing, declare(product, standard, blend, plant, casing)),
    cost: blend.cost,
    currency: plant.currency,
  };
}

function allLoads(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index + 1);
}

/** A line of a blend as one to weigh. */
export function plannedLine(
  { supply, weight }: Pick<BlendLine, 'supply' | 'weight'>,
  number: number,
  loads: readonly number[],
): PlannedLine {
  const { scale, text } = weight;
  return {
    number,
    supplyId: supply.id,
    materialId: supply.material.id,
    material: supply.material.name,
    ...(supply.lot && { lotId: supply.lot.id }),
    perLoad: { value: text, unit: scale.unit },
    scaleId: scale.id,
    perLoadUg: micrograms(text, scale.unit),
    loads,
  };
}

/** Promises the lots of these lines to a batch. @throws Refused when one is gone. */
export async function reserveLines(
  writing: Writing,
  batchId: string,
  lines: readonly PlannedLine[],
  date: string,
): Promise<void> {
  for (const { lotId, perLoadUg, loads } of lines) {
    const wantedUg = perLoadUg * loads.length;
    if (lotId !== undefined && wantedUg > 0) await reserve(writing, lotId, batchId, wantedUg, date);
  }
}
