import type { Transaction } from 'kysely';
import type { Schema } from './schema.ts';

/** Days for which the same request, sent again under its key, gets the answer it got. */
export const ANSWERS_KEPT_DAYS = 30;

const DAY_MS = 86_400_000;

/** Takes out answers that nobody asks for again: the key of such a request is then as good as new. */
export async function dropOldAnswers(db: Transaction<Schema>, now: Date): Promise<void> {
  const before = new Date(now.getTime() - ANSWERS_KEPT_DAYS * DAY_MS).toISOString();
  await db.deleteFrom('idempotencyKeys').where('at', '<', before).execute();
}
