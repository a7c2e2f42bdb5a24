import { Refused } from '../../ledger/refused.ts';
import { correctionsOf } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import { addRecord, listRecords, recordOrRefuse } from '../../store/records.ts';
import type { RecordRow } from '../../store/schema.ts';
import { keyOf } from '../../store/store.ts';
import { type Books, change } from '../books.ts';
import { pageAfter } from '../contract/pages.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { personsOf, type UnderWay, underWay } from '../stock/people.ts';
import { cleaningFieldsOf } from './cleanings.ts';
import {
  correctionSchema,
  type RecordAnswer,
  type RecordsQuery,
  recordAnswer,
  recordsAnswer,
  recordsQuery,
} from './contract.ts';
import { timeAt } from './times.ts';

/** What is sealed, to be shown years later; a correction stands beside what it corrects. */
export function recordEndpoints(books: Books): Endpoint[] {
  const tag = 'Records';
  return [
    {
      method: 'GET',
      path: '/records',
      tag,
      says: 'Records, in the order in which they were sealed or the newest first',
      may: 'read',
      query: recordsQuery,
      gives: recordsAnswer,
      handle: async ({ query }) => ({
        body: await findRecords(books, query as RecordsQuery),
      }),
    },
    {
      method: 'GET',
      path: '/records/:seq',
      tag,
      says: 'One record, with what it corrects and what corrects it',
      may: 'read',
      gives: recordAnswer,
      handle: async ({ params }) => {
        const data = await books.plant();
        const body = await books.store.read(async (db) => {
          const [one] = await recordAnswers(db, data, [await recordOrRefuse(db, seqOf(params.seq))]);
          return one;
        });
        return { body };
      },
    },
    {
      method: 'POST',
      path: '/records/:seq/corrections',
      tag,
      says: 'Say what was wrong in a record and what is right; the record itself stays as it is',
      may: 'plan',
      takes: correctionSchema,
      example: {
        reason: 'read from the wrong line of the sheet',
        corrects: 'The temperature after mixing was 36 F, not 63 F.',
      },
      gives: recordAnswer,
      status: 201,
      handle: (call) => correctRecord(books, call),
    },
  ];
}

/** @throws Refused 'unknown' for what is no number of a record. */
function seqOf(given = ''): number {
  if (/^\d{1,15}$/.test(given)) return Number(given);
  throw new Refused('unknown', `There is no record "${given}". They are in GET /v1/records`);
}

async function findRecords(books: Books, wanted: RecordsQuery) {
  const { kind, subjectId, productId, lotId, fromDay, toDay, order, after, limit } = wanted;
  const data = await books.plant();
  return books.store.read(async (db) => {
    const rows = await listRecords(db, {
      ...(kind !== undefined && { kinds: [kind] }),
      ...(subjectId !== undefined && { subjectId }),
      ...(productId !== undefined && { productId }),
      ...(lotId !== undefined && { lotId }),
      ...(fromDay !== undefined && { fromDay }),
      ...(toDay !== undefined && { toDay }),
      ...(after !== undefined && { afterSeq: after }),
      isNewestFirst: order === 'newest',
      limit: limit + 1,
    });
    const { items, ...next } = pageAfter(rows, limit);
    return { items: await recordAnswers(db, data, items), ...next };
  });
}

async function recordAnswers(
  db: Db,
  { plant }: PlantBooks,
  rows: readonly RecordRow[],
  now?: UnderWay,
): Promise<RecordAnswer[]> {
  const personOf = await personsOf(
    db,
    rows.map(({ entry }) => entry),
    now,
  );
  const corrections = await correctionsOf(
    db,
    rows.map(({ seq }) => seq),
  );
  const sealOf = await sealsOf(db, rows);
  return rows.map((row) => {
    const { seq, kind, subjectId, day, at, corrects, body, entry } = row;
    return {
      seq,
      kind,
      subjectId,
      day,
      sealed: timeAt(plant.timeZone, at),
      by: personOf(entry),
      ...(corrects !== null && { corrects }),
      correctedBy: (corrections.get(seq) ?? []).map((one) => one.seq),
      ...sealOf(row),
      body: JSON.parse(body) as unknown,
    };
  });
}

/** The entry that wrote each record, with the hash of the record in it. */
async function sealsOf(db: Db, rows: readonly RecordRow[]) {
  const wanted = [...new Set(rows.map(({ entry }) => entry))];
  const found =
    wanted.length === 0
      ? []
      : await db.selectFrom('entries').selectAll().where('seq', 'in', wanted).execute();
  const entries = new Map(found.map((row) => [row.seq, row]));
  return (record: RecordRow): Pick<RecordAnswer, 'entry'> => {
    const row = entries.get(record.entry);
    if (!row) return {};
    const { seq, says, previousHash, hash, rowHashes } = row;
    const key = keyOf('records', record);
    const named = (JSON.parse(rowHashes) as [string, string, string][]).find(
      ([table, of]) => table === 'records' && of === key,
    );
    return { entry: { seq, says, previousHash, hash, rowHash: named?.[2] ?? '' } };
  };
}

async function correctRecord(books: Books, call: Call): Promise<Answer> {
  const { reason, corrects, fields } = parseOrProblem(correctionSchema, call.body);
  const seq = seqOf(call.params.seq);
  const data = await books.plant();
  const what = { action: 'record corrected', subject: { kind: 'record', id: String(seq) } };
  return change(books, call, what, async (writing) => {
    const { db } = writing;
    const old = await recordOrRefuse(db, seq);
    const right = fields && (await rightFields(db, data, old, fields, writing.act.at));
    const body = { reason, corrects, ...(right && { fields: right }) };
    const correction = await addRecord(writing, 'correction', old.subjectId, body, seq);
    const row = await recordOrRefuse(db, correction);
    const [answer] = await recordAnswers(db, data, [row], underWay(writing));
    return {
      says: `record ${correction} corrects record ${seq} (${old.kind} ${old.subjectId}): ${reason}`,
      result: { body: answer, location: `/records/${correction}` },
    };
  });
}

/** Fields of a cleaning count from now on, so they are held to what a cleaning may say. */
async function rightFields(
  db: Db,
  data: PlantBooks,
  old: RecordRow,
  fields: Readonly<Record<string, unknown>>,
  now: string,
): Promise<object> {
  let first = old;
  while (first.corrects !== null) first = await recordOrRefuse(db, first.corrects);
  return first.kind === 'cleaning' ? cleaningFieldsOf(data, fields, now) : fields;
}
