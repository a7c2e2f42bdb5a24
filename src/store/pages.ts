import { type RawBuilder, sql } from 'kysely';
import type { Db } from './open.ts';
import { APPEND_ONLY, type Schema } from './schema.ts';

/** Tables read from one end to the other, a page at a time, so that memory does not grow with the store. */

/** The columns that name a row of each table. */
export const KEYS: { readonly [Table in keyof Schema]: readonly (keyof Schema[Table])[] } = {
  ...APPEND_ONLY,
  entries: ['seq'],
  head: ['id'],
  lots: ['id'],
  batches: ['id'],
  people: ['id'],
  sessions: ['tokenHash'],
  apiKeys: ['id'],
  idempotencyKeys: ['personId', 'key'],
};

const PAGE_ROWS = 500;
/** Documents are large: fewer of them make a page. */
const PAGE_DOCUMENTS = 50;

export interface Paging<Table extends keyof Schema> {
  /** Columns that give the order; together they must name a row. The key when absent. */
  readonly by?: readonly (keyof Schema[Table])[];
  readonly where?: RawBuilder<unknown>;
}

/** The rows of a table in the order of its key, each page after the last row of the one before. */
export async function* pagesOf<Table extends keyof Schema>(
  db: Db,
  table: Table,
  { by = KEYS[table], where = sql`1 = 1` }: Paging<Table> = {},
): AsyncGenerator<Schema[Table][]> {
  const size = table === 'documents' ? PAGE_DOCUMENTS : PAGE_ROWS;
  const columns = sql.join(by.map((column) => sql.ref(String(column))));
  let last: Schema[Table] | undefined;
  do {
    const rest = last ? sql`(${columns}) > (${sql.join(by.map((column) => last?.[column]))})` : sql`1 = 1`;
    const { rows } = await sql<Schema[Table]>`select * from ${sql.table(table)}
      where ${where} and ${rest} order by ${columns} limit ${sql.lit(size)}`.execute(db);
    if (rows.length > 0) yield rows;
    last = rows.length === size ? rows.at(-1) : undefined;
  } while (last);
}
