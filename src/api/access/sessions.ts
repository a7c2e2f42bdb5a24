import { StoreFault } from '../../store/faults.ts';
import {
  dropEndedSessions,
  endSession,
  findSession,
  openSession,
  type SessionFound,
  touchSession,
} from '../../store/people.ts';
import type { PersonRow } from '../../store/schema.ts';
import type { Books } from '../books.ts';
import type { Caller } from './caller.ts';
import type { Role } from './roles.ts';
import { newToken, sha256Of } from './secrets.ts';

/** Logins of people. The browser holds a random token, the store its hash. */

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const IDLE_MS = 12 * HOUR_MS;
export const LASTS_MS = 7 * 24 * HOUR_MS;
/** How exactly it is known when a session was last used. */
const SEEN_WITHIN_MS = MINUTE_MS;

/** @returns the token, always a new one; undefined when the person was changed since the password was compared. */
export async function startSession(
  { store, now }: Books,
  { id, password }: Pick<PersonRow, 'id' | 'password'>,
): Promise<string | undefined> {
  const token = newToken();
  const at = now();
  const session = {
    tokenHash: sha256Of(token),
    personId: id,
    createdAt: at.toISOString(),
    seenAt: at.toISOString(),
    expiresAt: later(at, LASTS_MS),
  };
  let opened = false;
  await store.note(async (db) => {
    await dropEnded(db, at);
    opened = await openSession(db, session, password ?? '');
  });
  return opened ? token : undefined;
}

/** Takes out sessions that have ended. */
export function dropEnded(db: Parameters<typeof dropEndedSessions>[0], at: Date): Promise<void> {
  return dropEndedSessions(db, { now: at.toISOString(), idleSince: later(at, -IDLE_MS) });
}

/** Whose session it is, with the role of this moment; undefined when it has ended. */
export async function callerOfSession(books: Books, token: string): Promise<Caller | undefined> {
  const session = await books.store.read((db) => findSession(db, sha256Of(token)));
  const now = books.now();
  if (!session || !goesOn(session, now)) return undefined;
  await noteSeen(books, session, now);
  const { id, name, role } = session.person;
  return { id, name, role: role as Role, via: 'session' };
}

function goesOn({ seenAt, expiresAt, person }: SessionFound, now: Date): boolean {
  return person.active === 1 && now.toISOString() < expiresAt && later(now, -IDLE_MS) < seenAt;
}

async function noteSeen({ store }: Books, session: SessionFound, now: Date): Promise<void> {
  if (later(now, -SEEN_WITHIN_MS) < session.seenAt) return;
  try {
    await store.note((db) => touchSession(db, session, now.toISOString()));
  } catch (error) {
    // Whoever only reads can go on in a store that cannot be written.
    if (!(error instanceof StoreFault)) throw error;
  }
}

export async function stopSession({ store }: Books, token: string | undefined): Promise<void> {
  if (token !== undefined) await store.note((db) => endSession(db, sha256Of(token)));
}

function later(from: Date, byMs: number): string {
  return new Date(from.getTime() + byMs).toISOString();
}
