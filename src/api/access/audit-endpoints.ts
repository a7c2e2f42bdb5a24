import type { z } from 'zod';
import type { Db } from '../../store/open.ts';
import type { EntryRow } from '../../store/schema.ts';
import type { Books } from '../books.ts';
import { pageAfter } from '../contract/pages.ts';
import type { Endpoint } from '../endpoint.ts';
import { entriesAnswer, entriesQuery } from './contract.ts';
import { NO_STORE } from './no-store.ts';

/** Who did what and when: the entries of the chain. */
export function auditEndpoints(books: Books): Endpoint[] {
  return [
    {
      method: 'GET',
      path: '/entries',
      tag: 'Audit',
      says: 'Who did what, and when',
      may: 'read',
      query: entriesQuery,
      gives: entriesAnswer,
      handle: async ({ query }) => {
        const wanted = query as EntriesQuery;
        const rows = await books.store.read((db) => findEntries(db, wanted));
        const { items, ...more } = pageAfter(rows, wanted.limit);
        return { body: { items: items.map(viewOf), ...more }, headers: NO_STORE };
      },
    },
  ];
}

type EntriesQuery = z.output<typeof entriesQuery>;

/** One more than fits, to know whether there is a next page. */
function findEntries(db: Db, wanted: EntriesQuery): Promise<EntryRow[]> {
  const { person, order, after, limit } = wanted;
  const newest = order === 'newest';
  let query = db
    .selectFrom('entries')
    .selectAll()
    .orderBy('seq', newest ? 'desc' : 'asc')
    .limit(limit + 1);
  for (const column of ['action', 'subjectKind', 'subjectId'] as const) {
    const value = wanted[column];
    if (value !== undefined) query = query.where(column, '=', value);
  }
  if (person !== undefined) {
    query = query.where(({ or, eb }) => or([eb('personId', '=', person), eb('person', '=', person)]));
  }
  if (wanted.fromDay !== undefined) query = query.where('day', '>=', wanted.fromDay);
  if (wanted.toDay !== undefined) query = query.where('day', '<=', wanted.toDay);
  if (after !== undefined) query = query.where('seq', newest ? '<' : '>', after);
  return query.execute();
}

function viewOf(row: EntryRow) {
  const { seq, at, day, action, says, previousHash, hash } = row;
  return {
    seq,
    at,
    day,
    person: { id: row.personId, name: row.person },
    action,
    subject: { kind: row.subjectKind, id: row.subjectId },
    says,
    previousHash,
    hash,
  };
}
