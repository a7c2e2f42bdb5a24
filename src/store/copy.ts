import { existsSync, promises } from 'node:fs';
import { dirname } from 'node:path';
import { type RawBuilder, sql } from 'kysely';
import { CopyRefused } from './copy-refused.ts';
import { checkDump, type DumpHeader, readDump, type Source, writeDump } from './dump-file.ts';
import { migrations as stepsOf } from './migrations.ts';
import {
  appliedSteps,
  bringUpToDate,
  type Connection,
  type Db,
  openConnection,
  openingFault,
} from './open.ts';
import { pagesOf } from './pages.ts';
import { type Schema, TABLES } from './schema.ts';
import { snapshot } from './snapshot.ts';
import { dialectOf, type StoreUrl, shownUrl } from './store-url.ts';
import { type Page, summed, summing, sumsDiffer, type TableSums } from './table-sums.ts';
import { type Verdict, type VerifyOptions, verifyStore } from './verify.ts';
import { readHead } from './verify-chain.ts';

/**
 * Copies of a whole store: to a file, from a file, and from one database to another. All of it goes, but sessions:
 * whoever was logged in logs in again.
 */
export interface Copied {
  /** The head of the copy, worth writing down: see `expectHead` in verify.ts. */
  readonly head: DumpHeader['head'];
  /** Rows and sums of each table, as read back from the copy. */
  readonly tables: TableSums;
  /** What is wrong with the store itself: with the source of a backup, with the target of a restore or a move. */
  readonly verdict: Verdict;
}

export interface CopyOptions extends VerifyOptions {
  /** Also takes a store that does not hold together; it is then copied with its faults. */
  readonly despiteFindings?: boolean;
}

type CopiedTable = Exclude<(typeof TABLES)[number], 'sessions'>;
export const COPIED_TABLES = TABLES.filter((table): table is CopiedTable => table !== 'sessions');

/**
 * Writes a store to a file, as it is at one moment; the service may go on writing. The file appears under its name only
 * when it is whole, on the disk, and has been read back. It is written even when the store does not hold together,
 * which the verdict says: a faulty backup is better than none.
 * @throws CopyRefused when there is such a file already or it cannot be written, StoreFault when the store fails.
 */
export async function backup(url: StoreUrl, file: string, options: VerifyOptions = {}): Promise<Copied> {
  if (existsSync(file)) {
    throw new CopyRefused(
      `There is a file ${file} already; give each backup a name of its own, such as one with its date.`,
    );
  }
  const partial = `${file}.partial`;
  try {
    return await snapshot(url, async (db) => {
      const source = await sourceOf(db, url);
      const written = await writeDump(partial, source).catch((error) => {
        throw writingFault(file, error);
      });
      const { sums } = await checkDump(partial);
      const difference = sumsDiffer(written, sums);
      if (difference)
        throw new CopyRefused(`The backup ${file}, read back, is not what was written: ${difference}.`);
      const verdict = await verifyStore(db, options);
      await promises.rename(partial, file);
      await flushFolder(dirname(file));
      return { head: source.header.head, tables: sums, verdict };
    });
  } finally {
    await promises.rm(partial, { force: true });
  }
}

const DISK_CODES = [
  'ENOSPC',
  'EDQUOT',
  'EFBIG',
  'EIO',
  'EROFS',
  'EACCES',
  'EPERM',
  'ENOENT',
  'ENOTDIR',
  'EISDIR',
];

/** What a disk answers is about the backup here, not about the store. */
function writingFault(file: string, error: unknown): unknown {
  const { code = '', message } = error as NodeJS.ErrnoException;
  if (!DISK_CODES.includes(code)) return error;
  const why = code === 'ENOSPC' ? 'its disk is full' : message;
  return new CopyRefused(`The backup ${file} cannot be written: ${why}. The store is untouched.`, error);
}

/** A new name is on the disk once its folder is; Windows has no such flush and needs none. */
async function flushFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await promises.open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/**
 * Puts a backup into an empty store, new or without entries. The file is read in full before the store is touched, all
 * rows come in one transaction, and are read back and verified in it.
 * @throws CopyRefused when the file or the store does not allow it, StoreFault when the store fails; the store is then
 * as it was.
 */
export async function restore(file: string, url: StoreUrl, options: CopyOptions = {}): Promise<Copied> {
  await checkDump(file);
  return fill(url, await readDump(file), options);
}

/**
 * Copies a store to another database, which must be empty. Nobody may write to the source meanwhile.
 * @throws CopyRefused when the target is not empty or the source was written to, StoreFault when either store fails;
 * the target is then as it was.
 */
export async function move(fromUrl: StoreUrl, toUrl: StoreUrl, options: CopyOptions = {}): Promise<Copied> {
  return snapshot(fromUrl, async (db) => {
    const source = await sourceOf(db, fromUrl);
    return fill(toUrl, source, options, async () => {
      const now = await snapshot(fromUrl, readHead);
      if (now?.hash === source.header.head.hash) return;
      throw new CopyRefused(
        'The store was written to while it was moved. Stop the service and move it again.',
      );
    });
  });
}

async function sourceOf(db: Db, url: StoreUrl): Promise<Source> {
  const tables: Record<string, number> = {};
  for (const table of COPIED_TABLES) tables[table] = await countRows(db, table);
  const migrations = await appliedSteps({ db, dialect: dialectOf(url) });
  const head = (await readHead(db)) ?? { length: 0, hash: '' };
  return { header: { migrations, tables, head }, pages: pagesOfTables(db, COPIED_TABLES) };
}

async function countRows(db: Db, table: string): Promise<number> {
  const { rows } = await sql<{ count: number }>`select count(*) as count from ${sql.table(table)}`.execute(
    db,
  );
  return rows[0]?.count ?? 0;
}

async function* pagesOfTables(db: Db, tables: readonly string[]): AsyncGenerator<Page> {
  for (const table of tables) {
    for await (const rows of pagesOf(db, table as keyof Schema)) yield { table, rows };
  }
}

/** Fills an empty store from a source, all or nothing. @param before is called when all is there but not yet kept. */
async function fill(
  url: StoreUrl,
  source: Source,
  options: CopyOptions,
  before: () => Promise<void> = async () => {},
): Promise<Copied> {
  const isNew = dialectOf(url) === 'SQLite' && !existsSync(url);
  try {
    const connection = openConnection(url);
    try {
      return await inOneTransaction(connection, async (db) => {
        const copied = await load(db, connection, url, source, options);
        await before();
        return copied;
      });
    } finally {
      await connection.close();
    }
  } catch (error) {
    if (isNew) for (const part of ['', '-wal', '-shm']) await promises.rm(`${url}${part}`, { force: true });
    throw openingFault(url, error);
  }
}

/** Unlike the transactions of kysely, this one may also make the tables. */
async function inOneTransaction<Result>(
  { db, dialect }: Connection,
  work: (db: Db) => Promise<Result>,
): Promise<Result> {
  return db.connection().execute(async (single) => {
    await sql`begin ${sql.raw(dialect === 'SQLite' ? 'immediate' : '')}`.execute(single);
    try {
      const result = await work(single);
      await sql`commit`.execute(single);
      return result;
    } catch (error) {
      // The first error says more than one of the rollback, after which a broken connection is not used again.
      await sql`rollback`.execute(single).catch(() => {});
      throw error;
    }
  });
}

async function load(
  db: Db,
  { dialect }: Connection,
  url: StoreUrl,
  { header, pages }: Source,
  options: CopyOptions,
): Promise<Copied> {
  await prepare({ db, dialect }, url, header);
  const sums = summing(Object.keys(header.tables));
  await sql`delete from head`.execute(db);
  for await (const page of summed(pages, sums)) await insert(db, page);
  const readBack = summing(Object.keys(header.tables));
  for await (const page of pagesOfTables(db, Object.keys(header.tables))) readBack.add(page);
  const difference = sumsDiffer(sums.sums(), readBack.sums());
  if (difference)
    throw new CopyRefused(`${shownUrl(url)}, read back, is not what was copied: ${difference}.`);
  await bringUpToDate({ db, dialect }, { disableTransactions: true });
  const verdict = await verifyStore(db, options);
  refuseFindings(verdict, options);
  return { head: verdict.head, tables: readBack.sums(), verdict };
}

/** Makes the tables as they were where the rows come from, and sees that nothing is in them. */
async function prepare(
  target: Pick<Connection, 'db' | 'dialect'>,
  url: StoreUrl,
  { migrations, tables }: DumpHeader,
): Promise<void> {
  const known = Object.keys(stepsOf(target.dialect));
  const last = migrations.at(-1);
  const unknown = Object.keys(tables).filter((table) => !COPIED_TABLES.includes(table as CopiedTable));
  if (last === undefined || unknown.length > 0 || migrations.some((step) => !known.includes(step))) {
    throw new CopyRefused(
      `The copy was written by a newer version of this program (${migrations.join(', ')}). Use that version.`,
    );
  }
  const applied = await appliedSteps(target);
  if (applied.some((step) => !migrations.includes(step))) {
    throw new CopyRefused(
      `The tables of ${shownUrl(url)} are newer than those of the copy. Give a new file or a database without tables.`,
    );
  }
  if (applied.length < migrations.length) {
    await bringUpToDate(target, { to: last, disableTransactions: true });
  }
  // Whoever writes must wait: the head is locked, as it is by every write.
  await target.db.updateTable('head').set({ id: 1 }).execute();
  for (const table of TABLES.filter((name) => name !== 'head')) {
    if ((await countRows(target.db, table)) === 0) continue;
    throw new CopyRefused(
      `${shownUrl(url)} is not empty: there are rows in ${table}. Give a new file or an empty database.`,
    );
  }
}

/** As many as both databases take: SQLite 32,766, PostgreSQL 65,535 (sqlite.org/limits.html, its manual's appendix K). */
const PARAMETERS = 32_000;

async function insert(db: Db, { table, rows }: Page): Promise<void> {
  const columns = Object.keys(rows[0] ?? {});
  const names = sql.join(columns.map((column) => sql.ref(column)));
  const size = Math.floor(PARAMETERS / columns.length);
  for (let from = 0; from < rows.length; from += size) {
    const values = rows.slice(from, from + size).map((row) => tuple(row, columns));
    await sql`insert into ${sql.table(table)} (${names}) values ${sql.join(values)}`.execute(db);
  }
}

function tuple(row: object, columns: readonly string[]): RawBuilder<unknown> {
  const values = row as Readonly<Record<string, unknown>>;
  return sql`(${sql.join(columns.map((column) => values[column] ?? null))})`;
}

function refuseFindings({ findings, findingsCount }: Verdict, { despiteFindings }: CopyOptions): void {
  const [first] = findings;
  if (!first || despiteFindings) return;
  throw new CopyRefused(
    `The copy is faithful, but what was copied does not hold together (${findingsCount} findings): ${first.says} Take another backup, or copy it despite this.`,
  );
}
