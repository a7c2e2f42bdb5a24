import type { Transaction } from 'kysely';
import { Refused } from '../ledger/refused.ts';
import type { Db } from './open.ts';
import { revise } from './revisions.ts';
import type { ApiKeyRow, PersonRow, Schema, SessionRow } from './schema.ts';
import type { Writing } from './store.ts';

/**
 * People, their sessions and the keys of programs. Who may do what is vouched for by revisions; what proves it
 * (passwords, tokens, keys) is kept as hashes alone and stands in no entry.
 */

/** A name as it is compared: NFKC, lower case, one space. */
export function nameKeyOf(name: string): string {
  return name.normalize('NFKC').toLowerCase().trim().replaceAll(/\s+/g, ' ');
}

export interface NewPerson {
  readonly name: string;
  readonly role: string;
  /** Hash and parameters. */
  readonly password: string;
}

/** @returns the person's row. @throws Refused 'taken' when someone has that name. */
export async function addPerson(writing: Writing, { name, role, password }: NewPerson): Promise<PersonRow> {
  await refuseTakenName(writing.db, name);
  const id = await nextId(writing.db, 'people', 'P');
  const described = { name, role, active: 1 };
  const revision = await revise(writing, 'person', id, described);
  const row = { id, ...described, nameKey: nameKeyOf(name), password, revision, entry: writing.entry };
  await writing.db.insertInto('people').values(row).execute();
  return row;
}

export interface PersonChange {
  readonly name?: string | undefined;
  readonly role?: string | undefined;
  readonly active?: boolean | undefined;
}

/**
 * Writes a new state of a person. Whoever is no longer active is logged out.
 * @returns the person's row.
 * @throws Refused 'unknown', 'taken' for a name in use, 'out of turn' when no active admin would be left.
 */
export async function editPerson(writing: Writing, id: string, change: PersonChange): Promise<PersonRow> {
  const { db } = writing;
  const row = await personOrRefuse(db, id);
  const name = change.name ?? row.name;
  const described = {
    name,
    role: change.role ?? row.role,
    active: change.active === undefined ? row.active : Number(change.active),
  };
  await refuseTakenName(db, name, id);
  if (isAdmin(row) && !isAdmin({ ...row, ...described })) await refuseLastAdmin(db, row);
  const revision = await revise(writing, 'person', id, described);
  const edited = { ...described, nameKey: nameKeyOf(name), revision };
  await db.updateTable('people').set(edited).where('id', '=', id).execute();
  if (described.active === 0) await endSessionsOf(db, id);
  return { ...row, ...edited };
}

/** A new password ends every session of the person. @throws Refused 'unknown'. */
export async function setPassword({ db }: Writing, id: string, password: string): Promise<void> {
  await personOrRefuse(db, id);
  await db.updateTable('people').set({ password }).where('id', '=', id).execute();
  await endSessionsOf(db, id);
}

function isAdmin({ role, active, password }: Pick<PersonRow, 'role' | 'active' | 'password'>): boolean {
  return role === 'admin' && active === 1 && password !== null;
}

async function refuseLastAdmin(db: Db, { id, name }: PersonRow): Promise<void> {
  if ((await activeAdmins(db)).some((admin) => admin !== id)) return;
  throw new Refused(
    'out of turn',
    `${name} is the last admin who can log in. Make someone else an admin first.`,
  );
}

async function activeAdmins(db: Db): Promise<string[]> {
  const rows = await db
    .selectFrom('people')
    .select('id')
    .where('role', '=', 'admin')
    .where('active', '=', 1)
    .where('password', 'is not', null)
    .execute();
  return rows.map(({ id }) => id);
}

/** Whether anyone can log in who may add the others. */
export async function hasAdmin(db: Db): Promise<boolean> {
  return (await activeAdmins(db)).length > 0;
}

export async function hasPeople(db: Db): Promise<boolean> {
  return (await db.selectFrom('people').select('id').limit(1).executeTakeFirst()) !== undefined;
}

async function refuseTakenName(db: Db, name: string, ownId?: string): Promise<void> {
  const other = await personNamed(db, name);
  if (!other || other.id === ownId) return;
  throw new Refused('taken', `${other.name} is the name of someone else (${other.id}); choose another`, [
    'name',
  ]);
}

export async function personNamed(db: Db, name: string): Promise<PersonRow | undefined> {
  return db.selectFrom('people').selectAll().where('nameKey', '=', nameKeyOf(name)).executeTakeFirst();
}

/** @throws Refused 'unknown'. */
export async function personOrRefuse(db: Db, id: string): Promise<PersonRow> {
  const row = await db.selectFrom('people').selectAll().where('id', '=', id).executeTakeFirst();
  if (row) return row;
  throw new Refused('unknown', `There is no person "${id}"`);
}

/** Everyone, by name. */
export async function listPeople(db: Db): Promise<PersonRow[]> {
  return db.selectFrom('people').selectAll().orderBy('nameKey').execute();
}

/** The rows of both tables stay, so their count names the next one. */
async function nextId(db: Db, table: 'people' | 'apiKeys', letter: string): Promise<string> {
  const { count } = await db
    .selectFrom(table)
    .select(({ fn }) => fn.countAll<number>().as('count'))
    .executeTakeFirstOrThrow();
  return `${letter}${Number(count) + 1}`;
}

/**
 * Opens a session for someone whose password was found right.
 * @param password the hash that it was compared with.
 * @returns whether it was opened: not when the person was changed in the meantime.
 */
export async function openSession(
  db: Transaction<Schema>,
  session: SessionRow,
  password: string,
): Promise<boolean> {
  // The update locks the row, so that a password that is changed at this moment ends this session too.
  const person = await db
    .updateTable('people')
    .set({ id: session.personId })
    .where('id', '=', session.personId)
    .where('active', '=', 1)
    .where('password', '=', password)
    .returning('id')
    .executeTakeFirst();
  if (!person) return false;
  await db.insertInto('sessions').values(session).execute();
  return true;
}

export interface SessionFound extends SessionRow {
  readonly person: PersonRow;
}

/** The session of a token with its person, ended or not. */
export async function findSession(db: Db, tokenHash: string): Promise<SessionFound | undefined> {
  const session = await db
    .selectFrom('sessions')
    .selectAll()
    .where('tokenHash', '=', tokenHash)
    .executeTakeFirst();
  return session && { ...session, person: await personOrRefuse(db, session.personId) };
}

export async function touchSession(
  db: Transaction<Schema>,
  { tokenHash }: Pick<SessionRow, 'tokenHash'>,
  seenAt: string,
): Promise<void> {
  await db.updateTable('sessions').set({ seenAt }).where('tokenHash', '=', tokenHash).execute();
}

export async function endSession(db: Transaction<Schema>, tokenHash: string): Promise<void> {
  await db.deleteFrom('sessions').where('tokenHash', '=', tokenHash).execute();
}

async function endSessionsOf(db: Transaction<Schema>, personId: string): Promise<void> {
  await db.deleteFrom('sessions').where('personId', '=', personId).execute();
}

/** Takes out sessions that have ended. */
export async function dropEndedSessions(
  db: Transaction<Schema>,
  { now, idleSince }: { readonly now: string; readonly idleSince: string },
): Promise<void> {
  await db
    .deleteFrom('sessions')
    .where(({ or, eb }) => or([eb('expiresAt', '<=', now), eb('seenAt', '<=', idleSince)]))
    .execute();
}

export interface NewKey {
  readonly name: string;
  readonly role: string;
  readonly keyHash: string;
}

export async function addKey(writing: Writing, { name, role, keyHash }: NewKey): Promise<ApiKeyRow> {
  const { db, act } = writing;
  const id = await nextId(db, 'apiKeys', 'K');
  await revise(writing, 'key', id, { name, role, keyHash, revoked: false });
  const row = { id, name, role, keyHash, createdBy: act.by.id, createdAt: act.at, revokedAt: null };
  await db.insertInto('apiKeys').values(row).execute();
  return row;
}

/** @returns the key as it is then. @throws Refused 'unknown', 'out of turn' when it was revoked before. */
export async function revokeKey(writing: Writing, id: string): Promise<ApiKeyRow> {
  const { db, act } = writing;
  const row = await db.selectFrom('apiKeys').selectAll().where('id', '=', id).executeTakeFirst();
  if (!row) throw new Refused('unknown', `There is no key "${id}"`);
  if (row.revokedAt !== null) {
    throw new Refused('out of turn', `Key ${id} was revoked already; nothing is left to do.`);
  }
  await revise(writing, 'key', id, {
    name: row.name,
    role: row.role,
    keyHash: row.keyHash,
    revoked: true,
  });
  await db.updateTable('apiKeys').set({ revokedAt: act.at }).where('id', '=', id).execute();
  return { ...row, revokedAt: act.at };
}

export async function findKey(db: Db, keyHash: string): Promise<ApiKeyRow | undefined> {
  return db.selectFrom('apiKeys').selectAll().where('keyHash', '=', keyHash).executeTakeFirst();
}

/** Every key, the revoked ones too, in the order in which they were made. */
export async function listKeys(db: Db): Promise<ApiKeyRow[]> {
  return db.selectFrom('apiKeys').selectAll().orderBy('createdAt').orderBy('id').execute();
}
