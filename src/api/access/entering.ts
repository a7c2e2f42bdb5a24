import { personNamed } from '../../store/people.ts';
import type { PersonRow } from '../../store/schema.ts';
import type { Books } from '../books.ts';
import type { Answer } from '../endpoint.ts';
import { Problem } from '../problem.ts';
import type { Access } from './access.ts';
import type { Caller } from './caller.ts';
import { sessionCookie } from './cookies.ts';
import { NO_STORE } from './no-store.ts';
import { mayDo, PERMISSIONS, type Role } from './roles.ts';
import { LASTS_MS, startSession, stopSession } from './sessions.ts';

/** Proving who one is, and getting in. */

export interface Claim {
  readonly name: string;
  readonly password: string;
  readonly address: string;
}

/**
 * The person of a name and a password.
 * @throws Problem 'not-logged-in' when they do not fit, whether there is such a person or not.
 */
export async function whoeverProves(books: Books, access: Access, claim: Claim): Promise<PersonRow> {
  const { name, password, address } = claim;
  const attempt = access.attempts.begin({ name, address });
  try {
    const person = await books.store.read((db) => personNamed(db, name));
    const isRight = await access.passwords.isRight(password, person?.password);
    if (isRight && person?.active === 1) {
      attempt.right();
      return person;
    }
    // The name as typed is not logged: some type their password there.
    access.tell({ personId: person?.id ?? 'unknown', address }, 'a login failed');
  } catch (error) {
    attempt.dropped();
    throw error;
  }
  throw wrong();
}

function wrong(): Problem {
  return new Problem(
    'not-logged-in',
    'The name or the password is wrong. An admin can give you a new password.',
    { headers: { 'WWW-Authenticate': 'Bearer' } },
  );
}

/** Opens a new session in place of whatever the browser had. */
export async function enter(
  books: Books,
  access: Access,
  person: Pick<PersonRow, 'id' | 'name' | 'role' | 'password'>,
  before?: string,
): Promise<Answer> {
  const token = await startSession(books, person);
  if (token === undefined) throw wrong();
  await stopSession(books, before);
  const { id, name, role } = person;
  return told(
    await viewOf(access, { id, name, role: role as Role, via: 'session' }),
    sessionCookie(token, LASTS_MS, { secure: access.secureCookie }),
  );
}

/** How people get in, and who the caller is. */
export async function viewOf(access: Access, caller: Caller | undefined) {
  const entrance = (await access.isOpen()) ? 'open' : (await access.isSetUpNeeded()) ? 'set-up' : 'login';
  return {
    entrance,
    ...(caller && {
      caller: { ...caller, may: PERMISSIONS.filter((permission) => mayDo(caller.role, permission)) },
    }),
  };
}

export function told(body: unknown, cookie?: string): Answer {
  return { body, headers: { ...NO_STORE, ...(cookie !== undefined && { 'Set-Cookie': cookie }) } };
}
