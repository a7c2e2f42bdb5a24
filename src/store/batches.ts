import { Refused } from '../ledger/refused.ts';
import type { BatchState, Step, StepBodies, StepKind } from '../making/batch.ts';
import { mayTake, stateAfter, takenIn } from '../making/batch.ts';
import type { Db } from './open.ts';
import type { BatchRow } from './schema.ts';
import type { Writing } from './store.ts';

/** Batches and their steps: a step is added when the state allows it, and the state follows. */

/** Opens a batch with its plan. @param day that it is made on. @returns its id: the day and a running number, such as 261125-003. */
export async function openBatch(
  writing: Writing,
  productId: string,
  day: string,
  planOf: (batchId: string) => Promise<StepBodies['planned']>,
): Promise<string> {
  const id = await nextBatchId(writing.db, day);
  await writing.db
    .insertInto('batches')
    .values({ id, productId, day, state: 'planned', steps: 1, entry: writing.entry })
    .execute();
  await appendStep(writing, id, 1, 'planned', await planOf(id));
  return id;
}

async function nextBatchId(db: Db, day: string): Promise<string> {
  const last = await db
    .selectFrom('batches')
    .select('id')
    .where('day', '=', day)
    .orderBy('entry', 'desc')
    .limit(1)
    .executeTakeFirst();
  const number = last ? Number(last.id.split('-')[1]) + 1 : 1;
  return `${day.slice(2).replaceAll('-', '')}-${String(number).padStart(3, '0')}`;
}

/**
 * Adds a step. @returns its number, which is also the version of the batch.
 * @throws Refused 'out of turn' when the state does not allow it.
 */
export async function takeStep<Kind extends StepKind>(
  writing: Writing,
  batch: BatchRow,
  kind: Kind,
  body: StepBodies[Kind],
): Promise<number> {
  refuseOutOfTurn(batch, kind);
  const number = batch.steps + 1;
  await appendStep(writing, batch.id, number, kind, body);
  const state = stateAfter(batch.state as BatchState, kind);
  await writing.db.updateTable('batches').set({ state, steps: number }).where('id', '=', batch.id).execute();
  return number;
}

/** @throws Refused 'out of turn'. */
export function refuseOutOfTurn({ id, state }: Pick<BatchRow, 'id' | 'state'>, kind: StepKind): void {
  if (mayTake(kind, state as BatchState)) return;
  throw new Refused(
    'out of turn',
    `Batch ${id} is ${state}; "${kind}" fits only a batch that is ${takenIn(kind).join(' or ')}.`,
  );
}

async function appendStep<Kind extends StepKind>(
  { append, act }: Writing,
  batchId: string,
  number: number,
  kind: Kind,
  body: StepBodies[Kind],
): Promise<void> {
  await append('batchSteps', {
    batchId,
    number,
    kind,
    body: JSON.stringify(body),
    at: act.at,
    day: act.day,
    personId: act.by.id,
    person: act.by.name,
  });
}

/**
 * @param ifVersion the version that was read; any when absent.
 * @throws Refused 'unknown' or 'changed meanwhile'.
 */
export async function batchOrRefuse(db: Db, id: string, ifVersion?: number): Promise<BatchRow> {
  const row = await db.selectFrom('batches').selectAll().where('id', '=', id).executeTakeFirst();
  if (!row) throw new Refused('unknown', `There is no batch "${id}"`);
  if (ifVersion === undefined || ifVersion === row.steps) return row;
  const since = (await stepsOfBatch(db, id)).filter(({ number }) => number > ifVersion);
  const told = since.slice(-TOLD).map(({ kind, person }) => `${kind} by ${person}`);
  const more = since.length > TOLD ? `, the last ${TOLD} of ${since.length} steps` : '';
  throw new Refused(
    'changed meanwhile',
    `Batch ${id} is no longer as you read it: version ${ifVersion} then, ${row.steps} and ${row.state} now (${told.join(', ')}${more}). Read it again and decide anew.`,
  );
}

/** Steps told in a refusal; more would not be read. */
const TOLD = 3;

/** Which of these lots are on hold. */
export async function heldAmong(db: Db, ids: readonly string[]): Promise<string[]> {
  if (ids.length === 0) return [];
  const rows = await db
    .selectFrom('lots')
    .select('id')
    .where('id', 'in', [...new Set(ids)])
    .where('held', '=', 1)
    .orderBy('id')
    .execute();
  return rows.map(({ id }) => id);
}

/** What was done to the lots that a batch made, by themselves: holds, releases, changes of their days. */
export async function lotsHistory(db: Db, batchId: string) {
  return db
    .selectFrom('entries')
    .innerJoin('lots', 'lots.id', 'entries.subjectId')
    .select(['lots.id as lotId', 'entries.at', 'entries.person as by', 'entries.action', 'entries.says'])
    .where('entries.subjectKind', '=', 'lot')
    .where('lots.batchId', '=', batchId)
    .orderBy('entries.seq')
    .execute();
}

/** The steps of a batch, in turn. */
export async function stepsOfBatch(db: Db, batchId: string): Promise<Step[]> {
  const rows = await db
    .selectFrom('batchSteps')
    .selectAll()
    .where('batchId', '=', batchId)
    .orderBy('number')
    .execute();
  return rows.map(
    ({ number, kind, body, at, day, person }) =>
      ({ number, kind, body: JSON.parse(body), at, day, person }) as Step,
  );
}

export interface BatchesWanted {
  readonly productId?: string;
  readonly states?: readonly BatchState[];
  readonly fromDay?: string;
  readonly toDay?: string;
  readonly beforeId?: string;
  readonly limit?: number;
}

/** Batches, the latest first. */
export async function listBatches(db: Db, wanted: BatchesWanted): Promise<BatchRow[]> {
  let query = db.selectFrom('batches').selectAll().orderBy('id', 'desc');
  if (wanted.productId !== undefined) query = query.where('productId', '=', wanted.productId);
  if (wanted.states) query = query.where('state', 'in', wanted.states);
  if (wanted.fromDay !== undefined) query = query.where('day', '>=', wanted.fromDay);
  if (wanted.toDay !== undefined) query = query.where('day', '<=', wanted.toDay);
  if (wanted.beforeId !== undefined) query = query.where('id', '<', wanted.beforeId);
  if (wanted.limit !== undefined) query = query.limit(wanted.limit);
  return query.execute();
}
