import { AsyncLocalStorage } from 'node:async_hooks';
import type { Transaction } from 'kysely';
import { Refused } from '../ledger/refused.ts';
import type { Dialect } from './append-only.ts';
import { asStoreFault } from './faults.ts';
import { entryHash, rowHash } from './hash.ts';
import { type Connection, connect, type Db, type StoreUrl } from './open.ts';
import { APPEND_ONLY, type AppendOnlyTable, type EntryRow, type Schema } from './schema.ts';

/** Who does something, by name as it is then. */
export interface Actor {
  readonly id: string;
  readonly name: string;
}

export interface Subject {
  readonly kind: string;
  readonly id: string;
}

/** Something that is about to be done. */
export interface Act {
  readonly by: Actor;
  /** The instant, ISO 8601 in UTC, and the calendar day at the plant. */
  readonly at: string;
  readonly day: string;
  /** In few words, such as 'lot received'. */
  readonly action: string;
  readonly subject: Subject;
  /** A key under which the same request, sent again, is done once; with a hash of what was sent. */
  readonly idempotency?: { readonly key: string; readonly requestHash: string };
}

/** A write under way. Everything happens or nothing does. */
export interface Writing {
  readonly db: Transaction<Schema>;
  readonly act: Act;
  /** Number of the entry that this write becomes. */
  readonly entry: number;
  /** Adds a row that will never change; the entry vouches for it. */
  readonly append: <Table extends AppendOnlyTable>(
    table: Table,
    row: Omit<Schema[Table], 'entry'>,
  ) => Promise<void>;
  /** The next free number of a table that counts its rows. */
  readonly nextSeq: (table: 'movements' | 'tests' | 'records') => Promise<number>;
}

/** What a write has done: a sentence for the audit and what the caller gets, which must be plain JSON. */
export interface Written<Result> {
  readonly says: string;
  /** Where it is only known by then. */
  readonly subject?: Subject;
  readonly result: Result;
}

/** The one door to what a plant keeps. */
export interface Store {
  readonly dialect: Dialect;
  readonly url: StoreUrl;
  /** @throws StoreFault when the store fails. */
  readonly read: <Result>(look: (db: Db) => Promise<Result>) => Promise<Result>;
  /**
   * Writers take turns, each with one entry of the chain. What was acknowledged is on the disk.
   * @throws StoreFault when the store fails, Refused and whatever else the work throws; nothing has changed then.
   */
  readonly write: <Result>(act: Act, work: (writing: Writing) => Promise<Written<Result>>) => Promise<Result>;
  /** Small changes that no record speaks of, such as when a session was last seen. */
  readonly note: (change: (db: Transaction<Schema>) => Promise<void>) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** Opens a store for work. @throws StoreFault when it cannot be reached, read or written. */
export async function openStore(url: StoreUrl): Promise<Store> {
  return storeOn(await connect(url), url);
}

/** A store over a connection that is open. */
export function storeOn({ db, dialect, close }: Connection, url: StoreUrl): Store {
  // On SQLite there is one connection: to wait for it within a write would be to wait for ever.
  const writing = new AsyncLocalStorage<true>();
  const outside = () => {
    if (writing.getStore()) throw new Error('within a write only its own db may be used');
  };
  const faulty = async <Result>(work: () => Promise<Result>): Promise<Result> => {
    outside();
    try {
      return await work();
    } catch (error) {
      throw asStoreFault(error);
    }
  };
  return {
    dialect,
    url,
    read: (look) => faulty(() => look(db)),
    write: (act, work) =>
      faulty(() => db.transaction().execute((trx) => writing.run(true, () => writeEntry(trx, act, work)))),
    note: (change) => faulty(() => db.transaction().execute((trx) => writing.run(true, () => change(trx)))),
    close,
  };
}

async function writeEntry<Result>(
  db: Transaction<Schema>,
  act: Act,
  work: (writing: Writing) => Promise<Written<Result>>,
): Promise<Result> {
  const head = await lockHead(db);
  const done = await doneBefore<Result>(db, act);
  if (done) return done.result;
  const entry = head.length + 1;
  const hashes: [table: string, key: string, hash: string][] = [];
  const append: Writing['append'] = async (table, columns) => {
    const row = { ...columns, entry } as unknown as Schema[typeof table];
    await db
      .insertInto(table)
      .values(row as never)
      .execute();
    hashes.push([table, keyOf(table, row), rowHash(row)]);
  };
  const {
    says,
    subject = act.subject,
    result,
  } = await work({ db, act, entry, append, nextSeq: counter(db) });
  const columns = {
    seq: entry,
    at: act.at,
    day: act.day,
    personId: act.by.id,
    person: act.by.name,
    action: act.action,
    subjectKind: subject.kind,
    subjectId: subject.id,
    says,
    rowHashes: JSON.stringify(hashes),
    previousHash: head.hash,
  };
  const row: EntryRow = { ...columns, hash: entryHash(columns) };
  await db.insertInto('entries').values(row).execute();
  await db.updateTable('head').set({ length: entry, hash: row.hash }).execute();
  if (act.idempotency) {
    await db
      .insertInto('idempotencyKeys')
      .values({
        personId: act.by.id,
        key: act.idempotency.key,
        requestHash: act.idempotency.requestHash,
        answer: JSON.stringify(result ?? null),
        at: act.at,
      })
      .execute();
  }
  return result;
}

/** The end of the chain. Its row stays locked until the write ends, so that writers take turns on either database. */
async function lockHead(db: Transaction<Schema>) {
  return db.updateTable('head').set({ id: 1 }).returning(['length', 'hash']).executeTakeFirstOrThrow();
}

/** The answer given to the same request before. @throws Refused when the key was used for another one. */
async function doneBefore<Result>(db: Transaction<Schema>, { by, idempotency }: Act) {
  if (!idempotency) return undefined;
  const found = await db
    .selectFrom('idempotencyKeys')
    .select(['requestHash', 'answer'])
    .where('personId', '=', by.id)
    .where('key', '=', idempotency.key)
    .executeTakeFirst();
  if (!found) return undefined;
  if (found.requestHash === idempotency.requestHash) return { result: JSON.parse(found.answer) as Result };
  throw new Refused(
    'taken',
    `The Idempotency-Key "${idempotency.key}" was used for another request. Send each new request with a key of its own.`,
  );
}

function counter(db: Transaction<Schema>): Writing['nextSeq'] {
  const last = new Map<string, number>();
  return async (table) => {
    const known = last.get(table) ?? (await lastSeq(db, table));
    last.set(table, known + 1);
    return known + 1;
  };
}

async function lastSeq(db: Db, table: 'movements' | 'tests' | 'records'): Promise<number> {
  const found = await db.selectFrom(table).select('seq').orderBy('seq', 'desc').limit(1).executeTakeFirst();
  return found?.seq ?? 0;
}

/** The key of a row as it stands in the chain. */
export function keyOf<Table extends AppendOnlyTable>(table: Table, row: Schema[Table]): string {
  return APPEND_ONLY[table]
    .map((column) => String((row as unknown as Record<string, unknown>)[column]))
    .join('/');
}
