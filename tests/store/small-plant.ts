import { sql } from 'kysely';
import { keepDocument } from '../../src/store/documents.ts';
import { book, editLot, openLot, releaseAll, reserve } from '../../src/store/lots.ts';
import { type Db, openConnection } from '../../src/store/open.ts';
import { revise } from '../../src/store/revisions.ts';
import { APPEND_ONLY } from '../../src/store/schema.ts';
import type { Act, Store, Writing, Written } from '../../src/store/store.ts';
import type { StoreUrl } from '../../src/store/store-url.ts';

/** A store with a little of everything, and ways to tamper with it as somebody could who has the file or the server. */

const DAY = '2026-03-02';
const KG = 1_000_000_000;

export function act(kind: string, id: string, action = `${kind} written`): Act {
  return {
    by: { id: 'ana', name: 'Ana' },
    at: `${DAY}T08:00:00.000Z`,
    day: DAY,
    action,
    subject: { kind, id },
  };
}

export async function receiveLot(store: Store, id: string, massUg = 10 * KG, padding = ''): Promise<void> {
  await store.write(act('lot', id, 'lot received'), async (writing) => {
    const body = { supplier: 'Demo supplier', padding };
    await openLot(writing, { id, kind: 'material', ofId: 'beef trim', body, receivedDay: DAY });
    await book(writing, { lotId: id, kind: 'received', massUg, reservedUg: 0 });
    return { says: `Lot ${id} received`, result: null };
  });
}

/** Entries: 1 Ana, 2 to 4 lots, 5 lot A edited, 6 batch planned, 7 batch weighed with a test and its record. */
export async function fillSmallPlant(store: Store): Promise<void> {
  await store.write(act('person', 'ana'), async (writing) => {
    const person = { name: 'Ana', role: 'owner', active: 1 };
    const revision = await revise(writing, 'person', 'ana', person);
    const row = { ...person, id: 'ana', nameKey: 'ana', password: null, revision, entry: writing.entry };
    await writing.db.insertInto('people').values(row).execute();
    return { says: 'Ana was added', result: null };
  });
  for (const id of ['A', 'B', 'ß/ü']) await receiveLot(store, id);
  await store.write(act('lot', 'A', 'lot edited'), async (writing) => {
    await editLot(writing, 'A', { body: { supplier: 'Demo supplier', note: 'cold' }, held: false });
    return { says: 'Lot A edited', result: null };
  });
  await store.write({ ...act('batch', 'one'), idempotency: { key: 'k1', requestHash: 'r1' } }, planBatch);
  await store.write(act('batch', 'one'), weighBatch);
  await store.note(async (db) => {
    const times = { createdAt: DAY, seenAt: DAY, expiresAt: DAY };
    await db
      .insertInto('sessions')
      .values({ tokenHash: 't', personId: 'ana', ...times })
      .execute();
  });
}

async function planBatch(writing: Writing): Promise<Written<null>> {
  const { db, entry } = writing;
  await db
    .insertInto('batches')
    .values({ id: 'one', productId: 'p', day: DAY, state: 'planned', steps: 1, entry })
    .execute();
  const plan = await keepDocument(writing, { lines: ['A', 'B'] });
  await writing.append('batchSteps', {
    ...step(1, 'planned'),
    body: JSON.stringify({ productId: 'p', date: DAY, plan }),
  });
  await reserve(writing, 'A', 'one', 4 * KG, DAY);
  await reserve(writing, 'B', 'one', 2 * KG, DAY);
  return { says: 'Batch planned', result: null };
}

async function weighBatch(writing: Writing): Promise<Written<null>> {
  const when = { at: writing.act.at, day: DAY, personId: 'ana' };
  await releaseAll(writing, 'one');
  await book(writing, { lotId: 'A', kind: 'weighed', massUg: -4 * KG, reservedUg: 0, batchId: 'one' });
  await writing.append('batchSteps', { ...step(2, 'weighed'), body: '{}' });
  await writing.db
    .updateTable('batches')
    .set({ steps: 2, state: 'weighed' })
    .where('id', '=', 'one')
    .execute();
  const seq = await writing.nextSeq('tests');
  await writing.append('tests', {
    seq,
    subjectKind: 'batch',
    subjectId: 'one',
    body: '{"fat":0.2}',
    ...when,
  });
  const record = { kind: 'batch', subjectId: 'one', body: '{}', ...when };
  await writing.append('records', { seq: await writing.nextSeq('records'), corrects: null, ...record });
  await writing.append('records', { seq: await writing.nextSeq('records'), corrects: 1, ...record });
  return { says: 'Batch weighed', result: null };
}

function step(number: number, kind: string) {
  return {
    batchId: 'one',
    number,
    kind,
    at: `${DAY}T08:00:00.000Z`,
    day: DAY,
    personId: 'ana',
    person: 'Ana',
  };
}

const PROTECTED = ['entries', ...Object.keys(APPEND_ONLY)].map((table) =>
  table === 'batchSteps' ? 'batch_steps' : table,
);

/** Takes away what protects the rows, and changes what it likes. */
export async function tamper(url: StoreUrl, change: (db: Db) => Promise<void>): Promise<void> {
  await unprotected(url, 'commit', change);
}

/** What is seen in a store that was tampered with; it is then set back. */
export async function seenTampered<Seen>(
  url: StoreUrl,
  change: (db: Db) => Promise<void>,
  look: (db: Db) => Promise<Seen>,
): Promise<Seen> {
  return unprotected(url, 'rollback', async (db) => {
    await change(db);
    return look(db);
  });
}

async function unprotected<Result>(
  url: StoreUrl,
  end: 'commit' | 'rollback',
  work: (db: Db) => Promise<Result>,
): Promise<Result> {
  const { db, dialect, close } = openConnection(url);
  try {
    return await db.connection().execute(async (single) => {
      const run = (text: string) => sql.raw(text).execute(single);
      await run(
        dialect === 'SQLite' ? 'pragma foreign_keys = off' : 'set session_replication_role = replica',
      );
      await run('begin');
      for (const table of PROTECTED) {
        if (dialect === 'PostgreSQL') await run(`drop trigger ${table}_append_only on ${table}`);
        else for (const event of ['update', 'delete']) await run(`drop trigger ${table}_no_${event}`);
      }
      const result = await work(single);
      await run(end);
      return result;
    });
  } finally {
    await close();
  }
}

/** Runs statements that are the same on both databases. */
export function statements(...texts: readonly string[]): (db: Db) => Promise<void> {
  return async (db) => {
    for (const text of texts) await sql.raw(text).execute(db);
  };
}
