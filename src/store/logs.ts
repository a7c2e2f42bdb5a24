import { grouped } from '../ledger/trace.ts';
import { type Step, type StepKind, stepsOf } from '../making/batch.ts';
import type { Basis } from '../making/standing.ts';
import type { Supplies } from '../making/weighing.ts';
import { documentsOf } from './documents.ts';
import type { Db } from './open.ts';
import { listRecords } from './records.ts';
import type { BatchRow, RecordRow, TestRow } from './schema.ts';
import { WITHDRAWAL } from './tests.ts';
import { stepsOfBatches } from './trace.ts';

/** What the logs are made of, read by the day on which it was written down. */

/** A calendar day and another one, both included. */
export interface Days {
  readonly fromDay: string;
  readonly toDay: string;
}

/** A batch with its steps and what they refer to. */
export interface LoggedBatch {
  readonly row: BatchRow;
  readonly steps: readonly Step[];
  readonly basis: Basis;
  readonly supplies: Supplies;
}

/** Batches opened together; more would only take memory. */
const AT_ONCE = 100;

const LOGGED: readonly StepKind[] = [
  'planned',
  'weighing',
  'taken back',
  'weighed',
  'tested',
  'corrected',
  'finished',
];

/** Batches that had a step of one of these kinds in these days, in the order of their ids, a part at a time. */
export async function* batchesWithSteps(
  db: Db,
  kinds: readonly StepKind[],
  { fromDay, toDay }: Days,
): AsyncGenerator<LoggedBatch> {
  const found = await db
    .selectFrom('batchSteps')
    .select('batchId')
    .distinct()
    .where('day', '>=', fromDay)
    .where('day', '<=', toDay)
    .where('kind', 'in', kinds)
    .orderBy('batchId')
    .execute();
  const ids = found.map(({ batchId }) => batchId);
  for (let start = 0; start < ids.length; start += AT_ONCE) {
    yield* await loggedBatches(db, ids.slice(start, start + AT_ONCE));
  }
}

/** A batch with when something was done to it, without its supplies. */
export type BatchTimes = Pick<LoggedBatch, 'row' | 'steps'> & { readonly product: Basis['product'] };

const TIMED: readonly StepKind[] = ['planned', 'weighing', 'taken back', 'weighed', 'finished'];

/** Batches that something was weighed into in these days, in the order of their ids. */
export async function batchTimes(db: Db, { fromDay, toDay }: Days): Promise<BatchTimes[]> {
  const rows = await db
    .selectFrom('batches')
    .selectAll()
    .where('id', 'in', (steps) =>
      steps
        .selectFrom('batchSteps')
        .select('batchId')
        .where('day', '>=', fromDay)
        .where('day', '<=', toDay)
        .where('kind', '=', 'weighing'),
    )
    .orderBy('id')
    .execute();
  const ids = rows.map(({ id }) => id);
  const steps = await stepsOfBatches(db, ids, TIMED);
  const hashOf = (id: string) => stepsOf(steps.get(id) ?? [], 'planned')[0]?.body.basisHash ?? '';
  const bases = await documentsOf(db, [...new Set(ids.map(hashOf))]);
  return rows.flatMap((row) => {
    const basis = bases.get(hashOf(row.id)) as Basis | undefined;
    return basis ? [{ row, steps: steps.get(row.id) ?? [], product: basis.product }] : [];
  });
}

/** These batches with their steps, in the order of their ids. */
export async function loggedBatches(db: Db, ids: readonly string[]): Promise<LoggedBatch[]> {
  if (ids.length === 0) return [];
  const rows = await db.selectFrom('batches').selectAll().where('id', 'in', ids).orderBy('id').execute();
  const steps = await stepsOfBatches(db, ids, LOGGED);
  const documents = await documentsOf(db, [...steps.values()].flatMap(hashesOf));
  return rows.flatMap((row) => {
    const own = steps.get(row.id) ?? [];
    const [plan] = stepsOf(own, 'planned');
    if (!plan) return [];
    return [
      {
        row,
        steps: own,
        basis: documents.get(plan.body.basisHash) as Basis,
        supplies: suppliesOf(own, documents),
      },
    ];
  });
}

function hashesOf(steps: readonly Step[]): string[] {
  return [
    ...stepsOf(steps, 'planned').map(({ body }) => body.basisHash),
    ...supplyListsOf(steps),
    ...singleSuppliesOf(steps),
  ];
}

function supplyListsOf(steps: readonly Step[]): string[] {
  return [...stepsOf(steps, 'planned'), ...stepsOf(steps, 'corrected')].map(({ body }) => body.suppliesHash);
}

function singleSuppliesOf(steps: readonly Step[]): string[] {
  return stepsOf(steps, 'weighing').flatMap(({ body }) => body.supplyHash ?? []);
}

type Supply = Supplies extends ReadonlyMap<string, infer One> ? One : never;

function suppliesOf(steps: readonly Step[], documents: ReadonlyMap<string, unknown>): Supplies {
  const supplies = [
    ...singleSuppliesOf(steps).map((hash) => documents.get(hash) as Supply),
    ...supplyListsOf(steps).flatMap((hash) => documents.get(hash) as readonly Supply[]),
  ];
  return new Map(supplies.map((supply) => [supply.id, supply]));
}

/** Fat tests by the day of their sample, those that were withdrawn among them, in the order of the days. */
export async function testsOfDays(db: Db, { fromDay, toDay }: Days): Promise<TestRow[]> {
  return db
    .selectFrom('tests')
    .selectAll()
    .where('subjectKind', '!=', WITHDRAWAL)
    .where('day', '>=', fromDay)
    .where('day', '<=', toDay)
    .orderBy('day')
    .orderBy('seq')
    .execute();
}

/** What a cleaning record holds. */
export interface CleaningBody {
  readonly equipment: readonly string[];
  readonly what: string;
  /** ISO 8601 in UTC. */
  readonly at: string;
  /** The day that it was at the plant. */
  readonly day: string;
  readonly note?: string;
  /** Name of who wrote it down. */
  readonly by: string;
  readonly withdrawn?: boolean;
}

/** A cleaning as it stands with all its corrections. */
export interface Cleaning extends CleaningBody {
  readonly record: RecordRow;
  readonly correctedBy: readonly number[];
}

/** Cleanings written down in these days as they stand now, in the order of when they were done. */
export async function cleaningsWritten(db: Db, days: Days): Promise<Cleaning[]> {
  const records = await listRecords(db, { kinds: ['cleaning'], ...days });
  const corrections = await correctionsOf(
    db,
    records.map(({ seq }) => seq),
  );
  return records
    .map((record) => {
      const own = corrections.get(record.seq) ?? [];
      const fields = own.map(({ body }) => (JSON.parse(body) as { readonly fields?: object }).fields ?? {});
      const body = Object.assign({}, JSON.parse(record.body), ...fields) as CleaningBody;
      return { ...body, record, correctedBy: own.map(({ seq }) => seq) };
    })
    .sort((one, other) => (one.at < other.at ? -1 : Number(one.at > other.at)));
}

/** Corrections of each of these records, and of its corrections, in the order of time. */
export async function correctionsOf(db: Db, seqs: readonly number[]): Promise<Map<number, RecordRow[]>> {
  const found = new Map<number, RecordRow>();
  for (let level: readonly number[] = seqs; level.length > 0; ) {
    const rows = await db.selectFrom('records').selectAll().where('corrects', 'in', level).execute();
    const fresh = rows.filter(({ seq }) => !found.has(seq));
    for (const row of fresh) found.set(row.seq, row);
    level = fresh.map(({ seq }) => seq);
  }
  const direct = grouped(found.values(), ({ corrects }) => corrects);
  const under = (seq: number): RecordRow[] =>
    (direct.get(seq) ?? []).flatMap((row) => [row, ...under(row.seq)]);
  return new Map(seqs.map((seq) => [seq, under(seq).sort((one, other) => one.seq - other.seq)]));
}
