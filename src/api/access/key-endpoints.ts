import { addKey, listKeys, revokeKey } from '../../store/people.ts';
import type { ApiKeyRow } from '../../store/schema.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call, Endpoint } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import { keyAnswer, keysAnswer, madeKeyAnswer, newKeySchema } from './contract.ts';
import { NO_STORE } from './no-store.ts';
import type { Role } from './roles.ts';
import { newToken, sha256Of } from './secrets.ts';

/** Keys for programs, each with a role of its own. */
export function keyEndpoints(books: Books): Endpoint[] {
  const shared = { tag: 'People and access', may: 'manage' } as const;
  return [
    {
      ...shared,
      method: 'GET',
      path: '/keys',
      says: 'Every API key, the revoked ones too; not the keys themselves',
      gives: keysAnswer,
      handle: async () => {
        const rows = await books.store.read(listKeys);
        return { body: { items: rows.map(viewOf) }, headers: NO_STORE };
      },
    },
    {
      ...shared,
      method: 'POST',
      path: '/keys',
      says: 'Make an API key for a program; it is shown this once',
      takes: newKeySchema,
      example: { name: 'cooler scale', role: 'floor' },
      gives: madeKeyAnswer,
      status: 201,
      handle: (call) => make(books, call),
    },
    {
      ...shared,
      method: 'DELETE',
      path: '/keys/:id',
      says: 'Revoke an API key',
      gives: keyAnswer,
      handle: (call) => revoke(books, call),
    },
  ];
}

async function make(books: Books, call: Call): Promise<Answer> {
  const { name, role } = parseOrProblem(newKeySchema, call.body);
  const key = `meatblock_${newToken()}`;
  const what = { action: 'key made', subject: { kind: 'key', id: '' } };
  let isNew = false;
  const answer = await change(books, call, what, async (writing) => {
    const row = await addKey(writing, { name, role, keyHash: sha256Of(key) });
    isNew = true;
    return {
      says: `${name}, ${role}`,
      subject: { kind: 'key', id: row.id },
      result: { body: viewOf(row), headers: NO_STORE },
    };
  });
  // The answer that is kept for repeats does not hold the key.
  return isNew ? { ...answer, body: { ...(answer.body as object), key } } : answer;
}

async function revoke(books: Books, call: Call): Promise<Answer> {
  const { id = '' } = call.params;
  return change(books, call, { action: 'key revoked', subject: { kind: 'key', id } }, async (writing) => {
    const row = await revokeKey(writing, id);
    return { says: `${row.name}, ${row.role}`, result: { body: viewOf(row), headers: NO_STORE } };
  });
}

function viewOf({ id, name, role, createdBy, createdAt, revokedAt }: ApiKeyRow) {
  return {
    id,
    name,
    role: role as Role,
    createdBy,
    createdAt,
    ...(revokedAt !== null && { revokedAt }),
  };
}
