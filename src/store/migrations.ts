import { type Kysely, type Migration, sql } from 'kysely';
import { protectRows } from './append-only.ts';
import type { Dialect } from './store-url.ts';

/**
 * The steps by which a store comes to its present tables. A step that has been released is never changed; the next
 * one follows it. Names here are those of the tables themselves: lower case with underscores.
 */
export function migrations(dialect: Dialect): Record<string, Migration> {
  return {
    '0001-ledger-batches-records-people': { up: (db) => first(db, dialect) },
  };
}

// biome-ignore lint/suspicious/noExplicitAny: a migration works on tables as they were then, which no type describes.
type AnyDb = Kysely<any>;

async function first(db: AnyDb, dialect: Dialect): Promise<void> {
  const { schema } = db;
  await schema
    .createTable('entries')
    .addColumn('seq', 'bigint', (column) => column.primaryKey())
    .addColumn('at', 'text', required)
    .addColumn('day', 'text', required)
    .addColumn('person_id', 'text', required)
    .addColumn('person', 'text', required)
    .addColumn('action', 'text', required)
    .addColumn('subject_kind', 'text', required)
    .addColumn('subject_id', 'text', required)
    .addColumn('says', 'text', required)
    .addColumn('row_hashes', 'text', required)
    .addColumn('previous_hash', 'text', required)
    .addColumn('hash', 'text', required)
    .execute();
  await index(db, 'entries', ['subject_kind', 'subject_id', 'seq']);
  await index(db, 'entries', ['day', 'seq']);

  await schema
    .createTable('head')
    .addColumn('id', 'bigint', (column) => column.primaryKey().check(sql`id = 1`))
    .addColumn('length', 'bigint', required)
    .addColumn('hash', 'text', required)
    .execute();

  await schema
    .createTable('documents')
    .addColumn('hash', 'text', (column) => column.primaryKey())
    .addColumn('body', 'text', required)
    .addColumn('entry', 'bigint', required)
    .execute();
  await index(db, 'documents', ['entry']);

  await schema
    .createTable('revisions')
    .addColumn('kind', 'text', required)
    .addColumn('id', 'text', required)
    .addColumn('revision', 'bigint', required)
    .addColumn('body', 'text', required)
    .addColumn('withdrawn', 'bigint', (column) => column.notNull().check(sql`withdrawn in (0, 1)`))
    .addColumn('entry', 'bigint', required)
    .addPrimaryKeyConstraint('revisions_key', ['kind', 'id', 'revision'])
    .execute();
  await index(db, 'revisions', ['entry']);

  await schema
    .createTable('lots')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('kind', 'text', required)
    .addColumn('of_id', 'text', required)
    .addColumn('batch_id', 'text')
    .addColumn('body', 'text', required)
    .addColumn('revision', 'bigint', required)
    .addColumn('received_day', 'text', required)
    .addColumn('use_by_day', 'text')
    .addColumn('held', 'bigint', (column) => column.notNull().check(sql`held in (0, 1)`))
    .addColumn('on_hand_ug', 'bigint', (column) => column.notNull().check(sql`on_hand_ug >= 0`))
    .addColumn('reserved_ug', 'bigint', (column) => column.notNull().check(sql`reserved_ug >= 0`))
    .addColumn('version', 'bigint', required)
    .addColumn('entry', 'bigint', required)
    .addCheckConstraint('lots_reserved_on_hand', sql`reserved_ug <= on_hand_ug`)
    .execute();
  await index(db, 'lots', ['kind', 'of_id', 'id']);
  await index(db, 'lots', ['batch_id']);
  // Whoever asks for a supplier's lot by the supplier's own number must not read every lot.
  const supplierLot =
    dialect === 'SQLite' ? sql`json_extract(body, '$.supplierLot')` : sql`(body::jsonb ->> 'supplierLot')`;
  await sql`create index lots_by_supplier_lot on lots (${supplierLot})`.execute(db);
  await sql`create index lots_on_hand on lots (kind, id) where on_hand_ug > 0`.execute(db);

  await schema
    .createTable('movements')
    .addColumn('seq', 'bigint', (column) => column.primaryKey())
    .addColumn('lot_id', 'text', (column) => column.notNull().references('lots.id'))
    .addColumn('kind', 'text', required)
    .addColumn('mass_ug', 'bigint', required)
    .addColumn('reserved_ug', 'bigint', required)
    .addColumn('on_hand_after_ug', 'bigint', required)
    .addColumn('reserved_after_ug', 'bigint', required)
    .addColumn('batch_id', 'text')
    .addColumn('other_lot_id', 'text')
    .addColumn('reverses', 'bigint', (column) => column.unique())
    .addColumn('reason', 'text')
    .addColumn('details', 'text')
    .addColumn('at', 'text', required)
    .addColumn('day', 'text', required)
    .addColumn('person_id', 'text', required)
    .addColumn('entry', 'bigint', required)
    .execute();
  await index(db, 'movements', ['lot_id', 'seq']);
  await index(db, 'movements', ['batch_id', 'seq']);
  await index(db, 'movements', ['other_lot_id', 'seq']);
  await index(db, 'movements', ['day', 'seq']);
  await index(db, 'movements', ['entry']);

  await schema
    .createTable('tests')
    .addColumn('seq', 'bigint', (column) => column.primaryKey())
    .addColumn('subject_kind', 'text', required)
    .addColumn('subject_id', 'text', required)
    .addColumn('body', 'text', required)
    .addColumn('at', 'text', required)
    .addColumn('day', 'text', required)
    .addColumn('person_id', 'text', required)
    .addColumn('entry', 'bigint', required)
    .execute();
  await index(db, 'tests', ['subject_kind', 'subject_id', 'seq']);
  await index(db, 'tests', ['day', 'seq']);
  await index(db, 'tests', ['entry']);

  await schema
    .createTable('batches')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('product_id', 'text', required)
    .addColumn('day', 'text', required)
    .addColumn('state', 'text', required)
    .addColumn('steps', 'bigint', required)
    .addColumn('entry', 'bigint', required)
    .execute();
  await index(db, 'batches', ['state', 'id']);
  await index(db, 'batches', ['product_id', 'id']);
  await index(db, 'batches', ['day', 'id']);

  await schema
    .createTable('batch_steps')
    .addColumn('batch_id', 'text', (column) => column.notNull().references('batches.id'))
    .addColumn('number', 'bigint', required)
    .addColumn('kind', 'text', required)
    .addColumn('body', 'text', required)
    .addColumn('at', 'text', required)
    .addColumn('day', 'text', required)
    .addColumn('person_id', 'text', required)
    .addColumn('person', 'text', required)
    .addColumn('entry', 'bigint', required)
    .addPrimaryKeyConstraint('batch_steps_key', ['batch_id', 'number'])
    .execute();
  await index(db, 'batch_steps', ['entry']);
  await index(db, 'batch_steps', ['day', 'kind']);

  await schema
    .createTable('records')
    .addColumn('seq', 'bigint', (column) => column.primaryKey())
    .addColumn('kind', 'text', required)
    .addColumn('subject_id', 'text', required)
    .addColumn('corrects', 'bigint', (column) => column.references('records.seq'))
    .addColumn('body', 'text', required)
    .addColumn('at', 'text', required)
    .addColumn('day', 'text', required)
    .addColumn('person_id', 'text', required)
    .addColumn('entry', 'bigint', required)
    .execute();
  await index(db, 'records', ['kind', 'day', 'seq']);
  await index(db, 'records', ['subject_id', 'seq']);
  await index(db, 'records', ['corrects']);
  await index(db, 'records', ['entry']);

  await schema
    .createTable('people')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', required)
    .addColumn('name_key', 'text', (column) => column.notNull().unique())
    .addColumn('role', 'text', required)
    .addColumn('password', 'text')
    .addColumn('active', 'bigint', (column) => column.notNull().check(sql`active in (0, 1)`))
    .addColumn('revision', 'bigint', required)
    .addColumn('entry', 'bigint', required)
    .execute();

  await schema
    .createTable('sessions')
    .addColumn('token_hash', 'text', (column) => column.primaryKey())
    .addColumn('person_id', 'text', (column) => column.notNull().references('people.id'))
    .addColumn('created_at', 'text', required)
    .addColumn('seen_at', 'text', required)
    .addColumn('expires_at', 'text', required)
    .execute();
  await index(db, 'sessions', ['person_id']);

  await schema
    .createTable('api_keys')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', required)
    .addColumn('key_hash', 'text', (column) => column.notNull().unique())
    .addColumn('role', 'text', required)
    .addColumn('created_by', 'text', required)
    .addColumn('created_at', 'text', required)
    .addColumn('revoked_at', 'text')
    .execute();

  await schema
    .createTable('idempotency_keys')
    .addColumn('person_id', 'text', required)
    .addColumn('key', 'text', required)
    .addColumn('request_hash', 'text', required)
    .addColumn('answer', 'text', required)
    .addColumn('at', 'text', required)
    .addPrimaryKeyConstraint('idempotency_keys_key', ['person_id', 'key'])
    .execute();
  await index(db, 'idempotency_keys', ['at']);

  for (const table of ['entries', 'documents', 'revisions', 'movements', 'tests', 'batch_steps', 'records']) {
    await protectRows(db, dialect, table);
  }
  await sql`insert into head (id, length, hash) values (1, 0, '')`.execute(db);
}

function required<Column extends { notNull(): Column }>(column: Column): Column {
  return column.notNull();
}

function index(db: AnyDb, table: string, columns: string[]): Promise<void> {
  return db.schema
    .createIndex(`${table}_by_${columns.join('_')}`)
    .on(table)
    .columns(columns)
    .execute();
}
