import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import {
  CamelCasePlugin,
  Kysely,
  Migrator,
  PostgresDialect,
  type SqliteDatabase,
  SqliteDialect,
  sql,
  type TransactionBuilder,
} from 'kysely';
import pg from 'pg';

import { asStoreFault, faultOf, StoreFault } from './faults.ts';
import { migrations } from './migrations.ts';
import type { Schema } from './schema.ts';
import { type Dialect, dialectOf, type StoreUrl } from './store-url.ts';

export type Db = Kysely<Schema>;

export interface Connection {
  readonly dialect: Dialect;
  readonly db: Db;
  readonly close: () => Promise<void>;
}

export interface OpenOptions {
  /** Only look: nothing is created, migrated or written. */
  readonly readOnly?: boolean;
}

/**
 * Opens a store and brings its tables up to date.
 * @throws StoreFault when it cannot be reached, read or written.
 */
export async function connect(url: StoreUrl, { readOnly = false }: OpenOptions = {}): Promise<Connection> {
  try {
    const connection = openConnection(url, readOnly);
    try {
      await (readOnly ? refuseOtherTables(connection) : bringUpToDate(connection));
    } catch (error) {
      await connection.db.destroy();
      throw error;
    }
    return connection;
  } catch (error) {
    throw openingFault(url, error);
  }
}

/** SQLite says the same of a file that is not there and of a folder in which it cannot write. */
export function openingFault(url: StoreUrl, error: unknown): unknown {
  const fault = asStoreFault(error);
  const unclear = fault instanceof StoreFault && fault.kind === 'unreachable' && dialectOf(url) === 'SQLite';
  if (!unclear) return fault;
  try {
    accessSync(nearestFolder(url), constants.W_OK);
    return fault;
  } catch (refusal) {
    return asStoreFault(refusal);
  }
}

function nearestFolder(file: string): string {
  const folder = dirname(file);
  return existsSync(folder) || folder === dirname(folder) ? folder : nearestFolder(folder);
}

/** A connection to whatever tables are there. */
export function openConnection(url: StoreUrl, readOnly = false): Connection {
  const dialect = dialectOf(url);
  return { dialect, ...(dialect === 'SQLite' ? openSqlite(url, readOnly) : openPostgres(url, readOnly)) };
}

/** Every commit is on the disk before it is acknowledged: write-ahead log with a full flush. */
function openSqlite(file: string, readOnly: boolean): Omit<Connection, 'dialect'> {
  if (file !== ':memory:' && !readOnly) mkdirSync(dirname(file), { recursive: true });
  const database = new Sqlite(file, { readonly: readOnly, fileMustExist: readOnly });
  if (!readOnly) {
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    // While somebody reads for long, a backup say, the log grows; afterwards it is cut back to 64 MiB.
    database.pragma('journal_size_limit = 67108864');
  }
  database.pragma('foreign_keys = ON');
  database.pragma('busy_timeout = 5000');
  const dialect = new SqliteDialect({ database: rolledBackOnce(database) });
  const db = new Kysely<Schema>({ dialect, plugins: [new CamelCasePlugin()] });
  return {
    db,
    close: async () => {
      if (!readOnly && database.open) shorten(database);
      await db.destroy();
    },
  };
}

/** Puts what stands in the write-ahead log into the file. Where it cannot, the log stays, and nothing is lost. */
function shorten(database: Sqlite.Database): void {
  try {
    database.pragma('wal_checkpoint(TRUNCATE)');
  } catch (error) {
    if (asStoreFault(error) === error) throw error;
  }
}

/**
 * After some faults, a full disk among them, SQLite has rolled back by itself. To roll back again would be an error of
 * its own, which would hide the fault.
 */
function rolledBackOnce(database: Sqlite.Database): SqliteDatabase {
  return {
    prepare: (text) =>
      database.prepare(text === 'rollback' && !database.inTransaction ? 'select 1 where 0' : text),
    close: () => database.close(),
  };
}

const INT8 = 20;
const NUMERIC = 1700;

function openPostgres(url: string, readOnly: boolean): Omit<Connection, 'dialect'> {
  const pool = new pg.Pool({
    connectionString: url,
    max: 10,
    connectionTimeoutMillis: 10_000,
    // An acknowledged commit is on the disk, whatever the server's own setting.
    options: `-c synchronous_commit=on${readOnly ? ' -c default_transaction_read_only=on' : ''}`,
    types: {
      getTypeParser: ((oid: number, format: 'text' | 'binary') =>
        oid === INT8 || oid === NUMERIC ? wholeNumber : pg.types.getTypeParser(oid, format)) as never,
    },
  });
  // A connection that breaks between two queries is found broken by the next one; without listeners, for those in the
  // pool and those in use, it would end the process.
  pool.on('error', () => {});
  pool.on('connect', (client) => client.on('error', () => {}));
  const dialect = new PostgresDialect({ pool });
  const db = new Kysely<Schema>({ dialect, plugins: [new CamelCasePlugin()] });
  return { db, close: () => db.destroy() };
}

/** Counts, weights and their sums are whole; one too large for a double must not lose a digit in silence. */
function wholeNumber(text: string): number {
  const value = Number(text);
  if (Number.isSafeInteger(value)) return value;
  throw new RangeError(`${text} from the database is no whole number that can be counted exactly`);
}

export interface Steps {
  /** The step to stop at; the last one when absent. */
  readonly to?: string;
  /** A transaction is open already, which takes in the steps too. */
  readonly disableTransactions?: boolean;
}

/**
 * Brings the tables up to date, or to where they were after a step.
 * @throws StoreFault 'newer' when the store has seen steps that are not known here.
 */
export async function bringUpToDate(
  { db, dialect }: Pick<Connection, 'db' | 'dialect'>,
  { to, disableTransactions = false }: Steps = {},
): Promise<void> {
  const isUpToDate = async (on: Db) => {
    const known = Object.keys(migrations(dialect));
    const applied = await appliedSteps({ db: on, dialect });
    refuseNewer(applied, known);
    return to === undefined && applied.length === known.length;
  };
  if (await isUpToDate(db)) return;
  if (dialect === 'PostgreSQL' || disableTransactions) {
    await migrate({ db, dialect }, { ...(to !== undefined && { to }), disableTransactions });
    return;
  }
  await oneProcessAtATime(db, async (on) => {
    // Another process may have done it while this one waited.
    if (await isUpToDate(on)) return;
    await migrate({ db: on, dialect }, { ...(to !== undefined && { to }), disableTransactions: true });
  });
}

async function migrate(
  { db, dialect }: Pick<Connection, 'db' | 'dialect'>,
  { to, disableTransactions = false }: Steps,
): Promise<void> {
  const provider = { getMigrations: async () => migrations(dialect) };
  const migrator = new Migrator({ db, disableTransactions, provider });
  const { error } = await (to === undefined ? migrator.migrateToLatest() : migrator.migrateTo(to));
  if (error) throw error;
}

/** The steps lock PostgreSQL themselves; on SQLite whoever may write first takes them, and others wait. */
async function oneProcessAtATime(db: Db, work: (on: Db) => Promise<void>): Promise<void> {
  await db.connection().execute(async (on) => {
    await sql`begin immediate`.execute(on);
    try {
      await work(on);
      await sql`commit`.execute(on);
    } catch (error) {
      await sql`rollback`.execute(on);
      throw error;
    }
  });
}

async function refuseOtherTables(connection: Connection): Promise<void> {
  const known = Object.keys(migrations(connection.dialect));
  const applied = await appliedSteps(connection);
  refuseNewer(applied, known);
  if (applied.length < known.length) throw faultOf('unprepared');
}

function refuseNewer(applied: readonly string[], known: readonly string[]): void {
  const unknown = applied.filter((step) => !known.includes(step));
  if (unknown.length > 0) throw faultOf('newer', new Error(`unknown steps: ${unknown.join(', ')}`));
}

/** Names of the steps that the tables of a store have seen; none when there are no tables. */
export async function appliedSteps({ db, dialect }: Pick<Connection, 'db' | 'dialect'>): Promise<string[]> {
  const { rows: found } = await (dialect === 'SQLite'
    ? sql`select 1 from sqlite_master where type = 'table' and name = 'kysely_migration'`.execute(db)
    : sql`select 1 where to_regclass('kysely_migration') is not null`.execute(db));
  if (found.length === 0) return [];
  const { rows } = await sql<{ name: string }>`select name from kysely_migration order by name`.execute(db);
  return rows.map(({ name }) => name);
}

/** A transaction in which all that is looked at is as it was at one moment. */
export function atOneMoment(db: Db, dialect: Dialect): TransactionBuilder<Schema> {
  const transaction = db.transaction();
  return dialect === 'SQLite'
    ? transaction
    : transaction.setIsolationLevel('repeatable read').setAccessMode('read only');
}
