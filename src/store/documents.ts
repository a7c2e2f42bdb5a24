import { sha256 } from './hash.ts';
import type { Db } from './open.ts';
import type { Writing } from './store.ts';

/** Large texts that many rows share, kept once, by their hash. */

/** Keeps a value as JSON. @returns its hash. */
export async function keepDocument(writing: Writing, value: unknown): Promise<string> {
  const body = JSON.stringify(value);
  const hash = sha256(body);
  const found = await writing.db
    .selectFrom('documents')
    .select('hash')
    .where('hash', '=', hash)
    .executeTakeFirst();
  if (!found) await writing.append('documents', { hash, body });
  return hash;
}

/** The values behind these hashes. @throws Error when one is missing: the store is then not whole. */
export async function documentsOf(db: Db, hashes: readonly string[]): Promise<Map<string, unknown>> {
  const wanted = [...new Set(hashes)];
  if (wanted.length === 0) return new Map();
  const rows = await db
    .selectFrom('documents')
    .select(['hash', 'body'])
    .where('hash', 'in', wanted)
    .execute();
  const found = new Map(rows.map(({ hash, body }) => [hash, JSON.parse(body) as unknown]));
  const missing = wanted.find((hash) => !found.has(hash));
  if (missing !== undefined)
    throw new Error(`document ${missing} is missing from the store; verify the store`);
  return found;
}

/** The value behind one hash. @throws Error when it is missing. */
export async function documentOf<Value>(db: Db, hash: string): Promise<Value> {
  return (await documentsOf(db, [hash])).get(hash) as Value;
}
