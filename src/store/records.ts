import { Refused } from '../ledger/refused.ts';
import type { Db } from './open.ts';
import type { RecordRow } from './schema.ts';
import type { Writing } from './store.ts';

/** What is sealed. A record is never changed: a correction is a new one that names the old. */

export const RECORD_KINDS = ['batch', 'cleaning', 'recall drill', 'correction'] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];

/** Adds a record. @returns its number. @throws Refused 'unknown' when the one it corrects is not there. */
export async function addRecord(
  writing: Writing,
  kind: RecordKind,
  subjectId: string,
  body: unknown,
  corrects?: number,
): Promise<number> {
  if (corrects !== undefined) await recordOrRefuse(writing.db, corrects);
  const { act } = writing;
  const seq = await writing.nextSeq('records');
  await writing.append('records', {
    seq,
    kind,
    subjectId,
    corrects: corrects ?? null,
    body: JSON.stringify(body),
    at: act.at,
    day: act.day,
    personId: act.by.id,
  });
  return seq;
}

/** @throws Refused 'unknown'. */
export async function recordOrRefuse(db: Db, seq: number): Promise<RecordRow> {
  const row = await db.selectFrom('records').selectAll().where('seq', '=', seq).executeTakeFirst();
  if (row) return row;
  throw new Refused('unknown', `There is no record ${seq}`);
}

export interface RecordsWanted {
  readonly kinds?: readonly RecordKind[];
  readonly subjectId?: string;
  readonly corrects?: number;
  readonly fromDay?: string;
  readonly toDay?: string;
  readonly afterSeq?: number;
  readonly limit?: number;
}

/** Records in the order in which they were sealed. */
export async function listRecords(db: Db, wanted: RecordsWanted): Promise<RecordRow[]> {
  let query = db.selectFrom('records').selectAll().orderBy('seq');
  if (wanted.kinds) query = query.where('kind', 'in', wanted.kinds);
  if (wanted.subjectId !== undefined) query = query.where('subjectId', '=', wanted.subjectId);
  if (wanted.corrects !== undefined) query = query.where('corrects', '=', wanted.corrects);
  if (wanted.fromDay !== undefined) query = query.where('day', '>=', wanted.fromDay);
  if (wanted.toDay !== undefined) query = query.where('day', '<=', wanted.toDay);
  if (wanted.afterSeq !== undefined) query = query.where('seq', '>', wanted.afterSeq);
  if (wanted.limit !== undefined) query = query.limit(wanted.limit);
  return query.execute();
}
