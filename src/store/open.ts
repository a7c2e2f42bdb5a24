import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import { CamelCasePlugin, Kysely, Migrator, PostgresDialect, SqliteDialect } from 'kysely';
import pg from 'pg';
import type { Dialect } from './append-only.ts';
import { asStoreFault, StoreFault } from './faults.ts';
import { migrations } from './migrations.ts';
import type { Schema } from './schema.ts';

/** Where a store lies: a file of SQLite, ':memory:' for one that is forgotten, or the URL of a PostgreSQL database. */
export type StoreUrl = string;

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

export function dialectOf(url: StoreUrl): Dialect {
  return /^postgres(ql)?:\/\//.test(url) ? 'PostgreSQL' : 'SQLite';
}

/** The URL without its password, for people and logs. */
export function shownUrl(url: StoreUrl): string {
  if (dialectOf(url) === 'SQLite') return url;
  const { protocol, host, pathname } = new URL(url);
  return `${protocol}//${host}${pathname}`;
}

/**
 * Opens a store and brings its tables up to date.
 * @throws StoreFault when it cannot be reached, read or written.
 */
export async function connect(url: StoreUrl, { readOnly = false }: OpenOptions = {}): Promise<Connection> {
  const dialect = dialectOf(url);
  try {
    const { db, beforeClose } =
      dialect === 'SQLite' ? openSqlite(url, readOnly) : openPostgres(url, readOnly);
    const close = async () => {
      beforeClose();
      await db.destroy();
    };
    try {
      await migrate(db, dialect, readOnly);
    } catch (error) {
      await db.destroy();
      throw error;
    }
    return { dialect, db, close };
  } catch (error) {
    throw asStoreFault(error);
  }
}

interface Opened {
  readonly db: Db;
  readonly beforeClose: () => void;
}

/** Every commit is on the disk before it is acknowledged: write-ahead log with a full flush. */
function openSqlite(file: string, readOnly: boolean): Opened {
  if (file !== ':memory:' && !readOnly) mkdirSync(dirname(file), { recursive: true });
  const database = new Sqlite(file, { readonly: readOnly, fileMustExist: readOnly });
  if (!readOnly) {
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
  }
  database.pragma('foreign_keys = ON');
  database.pragma('busy_timeout = 5000');
  return {
    db: new Kysely<Schema>({ dialect: new SqliteDialect({ database }), plugins: [new CamelCasePlugin()] }),
    beforeClose: () => {
      if (!readOnly && database.open) database.pragma('wal_checkpoint(TRUNCATE)');
    },
  };
}

const INT8 = 20;
const NUMERIC = 1700;

function openPostgres(url: string, readOnly: boolean): Opened {
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
  // A connection that breaks while it is idle is replaced by the next query; without a listener it would end the process.
  pool.on('error', () => {});
  return {
    db: new Kysely<Schema>({ dialect: new PostgresDialect({ pool }), plugins: [new CamelCasePlugin()] }),
    beforeClose: () => {},
  };
}

/** Counts, weights and their sums are whole; one too large for a double must not lose a digit in silence. */
function wholeNumber(text: string): number {
  const value = Number(text);
  if (Number.isSafeInteger(value)) return value;
  throw new RangeError(`${text} from the database is no whole number that can be counted exactly`);
}

async function migrate(db: Db, dialect: Dialect, readOnly: boolean): Promise<void> {
  const known = migrations(dialect);
  const migrator = new Migrator({ db, provider: { getMigrations: async () => known } });
  if (readOnly) return;
  const { error } = await migrator.migrateToLatest();
  if (!error) return;
  const { message = '' } = error as Error;
  if (/previously executed migration .* is missing/.test(message)) {
    throw new StoreFault(
      'newer',
      'The store was written by a newer version of this program. Start that version, or restore an older backup.',
      error,
    );
  }
  throw error;
}
