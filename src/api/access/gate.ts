import { findKey } from '../../store/people.ts';
import type { Books } from '../books.ts';
import { Problem } from '../problem.ts';
import type { Access } from './access.ts';
import { type Caller, DEMO_CALLER, type Gate, type Incoming } from './caller.ts';
import { sessionToken } from './cookies.ts';
import { isSafe, namesLoopback, type Site, siteOf } from './origin.ts';
import type { Role } from './roles.ts';
import { sha256Of } from './secrets.ts';
import { callerOfSession } from './sessions.ts';

/**
 * The gate of a service: an API key, or the cookie of a session; in a demonstration on this machine alone nobody is
 * asked. Browsers send cookies, and reach this machine, for any page that tells them to: what changes anything must
 * therefore come from a page of this service itself, unless a key proves that no browser was tricked.
 */
export function storeGate(books: Books, access: Pick<Access, 'isOpen'>): Gate {
  return {
    callerOf: async (incoming) => {
      const { authorization } = incoming.headers;
      if (authorization !== undefined) return callerOfKey(books, authorization);
      const site = siteOf(incoming);
      if (await access.isOpen()) return demoCaller(incoming, site);
      if (!isSafe(incoming) && site === 'other') throw fromElsewhere(incoming);
      const token = sessionToken(incoming.headers);
      const caller = token === undefined ? undefined : await callerOfSession(books, token);
      if (caller && !isSafe(incoming) && site === 'unknown') throw withoutOrigin();
      return caller;
    },
  };
}

async function callerOfKey({ store }: Books, authorization: string): Promise<Caller> {
  const key = /^Bearer +([\x21-\x7e]{1,200})$/i.exec(authorization)?.[1];
  const row = key === undefined ? undefined : await store.read((db) => findKey(db, sha256Of(key)));
  if (row && row.revokedAt === null) {
    return { id: row.id, name: `${row.name} (key)`, role: row.role as Role, via: 'key' };
  }
  throw new Problem(
    'not-logged-in',
    row
      ? `Key ${row.id} was revoked. Ask an admin for a new one.`
      : 'This is no API key of this service. Send one that an admin made as "Authorization: Bearer KEY".',
    { headers: { 'WWW-Authenticate': 'Bearer error="invalid_token"' } },
  );
}

function demoCaller(incoming: Incoming, site: Site): Caller {
  if (!namesLoopback(incoming)) {
    throw new Problem(
      'not-allowed',
      'The demonstration answers on this machine alone, at 127.0.0.1, [::1] or localhost. The request names another host.',
    );
  }
  if (site === 'other') throw fromElsewhere(incoming);
  return DEMO_CALLER;
}

function fromElsewhere({ headers }: Incoming): Problem {
  const from = headers.origin === undefined ? '' : ` (${headers.origin.slice(0, 100)})`;
  return new Problem(
    'not-allowed',
    `The request comes from a page of another site${from}. Only pages of this service may send it.`,
  );
}

function withoutOrigin(): Problem {
  return new Problem(
    'not-allowed',
    'The request has a session but does not say which page it comes from. A program sends an API key instead of a cookie, or Origin with the address of this service.',
  );
}
