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
  /** Records of batches of this product. */
  readonly productId?: string;
  /** Records of batches that this lot was weighed into or came out of. */
  readonly lotId?: string;
  readonly corrects?: number;
  readonly fromDay?: string;
  readonly toDay?: string;
  /** The last one of the page before, in the order that is wanted. */
  readonly afterSeq?: number;
  readonly limit?: number;
  readonly isNewestFirst?: boolean;
}

/** Records in the order in which they were sealed, or the other way round. */
export async function listRecords(db: Db, wanted: RecordsWanted): Promise<RecordRow[]> {
  const { productId, lotId, isNewestFirst = false } = wanted;
  let query = db
    .selectFrom('records')
    .selectAll()
    .orderBy('seq', isNewestFirst ? 'desc' : 'asc');
  if (wanted.kinds) query = query.where('kind', 'in', wanted.kinds);
  if (wanted.subjectId !== undefined) query = query.where('subjectId', '=', wanted.subjectId);
  if (wanted.corrects !== undefined) query = query.where('corrects', '=', wanted.corrects);
  if (wanted.fromDay !== undefined) query = query.where('day', '>=', wanted.fromDay);
  if (wanted.toDay !== undefined) query = query.where('day', '<=', wanted.toDay);
  if (productId !== undefined) {
    query = query.where('subjectId', 'in', (batches) =>
      batches.selectFrom('batches').select('id').where('productId', '=', productId),
    );
  }
  if (lotId !== undefined) {
    query = query.where('subjectId', 'in', (movements) =>
      movements
        .selectFrom('movements')
        .select('batchId')
        .where('lotId', '=', lotId)
        .where('batchId', 'is not', null)
        .$castTo<{ batchId: string }>(),
    );
  }
  if (wanted.afterSeq !== undefined) query = query.where('seq', isNewestFirst ? '<' : '>', wanted.afterSeq);
  if (wanted.limit !== undefined) query = query.limit(wanted.limit);
  return query.execute();
}
