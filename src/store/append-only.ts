import { type Kysely, sql } from 'kysely';
import type { Dialect } from './store-url.ts';

/** Lets the database itself refuse to change or take out a row of this table. */
// biome-ignore lint/suspicious/noExplicitAny: a migration works on tables as they were then, which no type describes.
export async function protectRows(db: Kysely<any>, dialect: Dialect, table: string): Promise<void> {
  const says = `${table}: rows are never changed or taken out`;
  if (dialect === 'SQLite') {
    for (const event of ['update', 'delete']) {
      await sql`create trigger ${sql.raw(`${table}_no_${event}`)} before ${sql.raw(event)} on ${sql.raw(table)}
        begin select raise(abort, ${sql.lit(says)}); end`.execute(db);
    }
    return;
  }
  await sql`create or replace function refuse_change() returns trigger language plpgsql as
    $$ begin raise exception '%: rows are never changed or taken out', tg_table_name; end $$`.execute(db);
  await sql`create trigger ${sql.raw(`${table}_append_only`)} before update or delete on ${sql.raw(table)}
    for each row execute function refuse_change()`.execute(db);
}
