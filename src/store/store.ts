import { AsyncLocalStorage } from 'node:async_hooks';
import { type KyselyPlugin, sql, type Transaction, type TransactionBuilder } from 'kysely';
import { Refused } from '../ledger/refused.ts';
import { asStoreFault } from './faults.ts';
import { entryHash, rowHash } from './hash.ts';
import { atOneMoment, type Connection, connect, type Db } from './open.ts';
import { APPEND_ONLY, type AppendOnlyTable, type EntryRow, type Schema } from './schema.ts';
import type { Dialect, StoreUrl } from './store-url.ts';
import { takeTurns } from './turns.ts';

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
  /** The same for many rows at once. */
  readonly appendAll: <Table extends AppendOnlyTable>(
    table: Table,
    rows: readonly Omit<Schema[Table], 'entry'>[],
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
  /**
   * All that is looked at in one read is as it was at one moment, whatever is written meanwhile.
   * @throws StoreFault when the store fails.
   */
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
  // On SQLite there is one connection: to wait for it within a read or a write would be to wait for ever.
  const within = new AsyncLocalStorage<true>();
  const outside = () => {
    if (within.getStore()) throw new Error('within a read or a write only its own db may be used');
  };
  const transact = async <Result>(
    transaction: TransactionBuilder<Schema>,
    work: (trx: Transaction<Schema>) => Promise<Result>,
  ): Promise<Result> => {
    outside();
    try {
      return await transaction.execute((trx) => within.run(true, () => work(trx)));
    } catch (error) {
      throw asStoreFault(error);
    }
  };
  // Writers that wait for the head would hold connections that readers need.
  const inTurn = takeTurns();
  return {
    dialect,
    url,
    read: (look) => transact(atOneMoment(db, dialect), look),
    write: async (act, work) => {
      outside();
      return inTurn(() => transact(db.transaction(), (trx) => writeEntry(trx, act, work)));
    },
    note: (change) => transact(db.transaction(), (trx) => wholly(trx, change)),
    close,
  };
}

/**
 * Does work within a transaction and lets nothing of it come later. Where one of several steps at once fails, or nobody
 * waits for a step, it may still be under way: its next statement would run behind the end of the transaction, and
 * stay, or go unvouched.
 */
async function wholly<Result>(
  trx: Transaction<Schema>,
  work: (trx: Transaction<Schema>) => Promise<Result>,
): Promise<Result> {
  let over = false;
  let underWay = 0;
  let late = false;
  const gate: KyselyPlugin = {
    transformQuery: ({ node }) => {
      late ||= over;
      if (late) throw hasty();
      underWay += 1;
      return node;
    },
    transformResult: async ({ result }) => {
      underWay -= 1;
      return result;
    },
  };
  try {
    const result = await work(trx.withPlugin(gate));
    over = true;
    // A step between two statements comes to its next one meanwhile.
    await new Promise((resolve) => setImmediate(resolve));
    if (underWay > 0 || late) throw hasty();
    return result;
  } catch (error) {
    over = true;
    // Statements of one transaction run in the order in which they came: after this one none is under way.
    await sql`select 1`.execute(trx).catch(() => {});
    throw error;
  }
}

/** As many rows or ids as one statement takes on either database: no table has more than 16 columns. */
const PORTION = 500;

export function* inPortions<Item>(items: readonly Item[]): Generator<readonly Item[]> {
  for (let start = 0; start < items.length; start += PORTION) yield items.slice(start, start + PORTION);
}

function hasty(): Error {
  return new Error('a write ended before its statements did; wait for every one of them');
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
  const {
    says,
    subject = act.subject,
    result,
  } = await wholly(db, (own) => {
    const appendAll: Writing['appendAll'] = async (table, all) => {
      const rows = all.map((columns) => ({ ...columns, entry }) as unknown as Schema[typeof table]);
      for (const row of rows) refuseUnkeepable(table, row);
      for (const some of inPortions(rows)) {
        await own
          .insertInto(table)
          .values(some as never)
          .execute();
      }
      for (const row of rows) hashes.push([table, keyOf(table, row), rowHash(row)]);
    };
    const append: Writing['append'] = (table, row) => appendAll(table, [row]);
    return work({ db: own, act, entry, append, appendAll, nextSeq: counter(own) });
  });
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
  refuseUnkeepable('entries', columns);
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

/**
 * Half of a surrogate pair has no form in UTF-8, and PostgreSQL keeps no NUL: such a text would come back as another one,
 * and the row would not be what the entry vouches for, for ever.
 */
function refuseUnkeepable(table: string, row: object): void {
  const [column] = Object.entries(row).find(([, value]) => /\0|\p{Surrogate}/u.test(String(value))) ?? [];
  if (column !== undefined) throw new RangeError(`${table}.${column} holds a character that no store keeps`);
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
  const last = new Map<string, Promise<number>>();
  return (table) => {
    const next = (last.get(table) ?? lastSeq(db, table)).then((seq) => seq + 1);
    last.set(table, next);
    return next;
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
