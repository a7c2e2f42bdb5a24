import type { Db } from './open.ts';
import type { RevisionRow } from './schema.ts';
import type { Writing } from './store.ts';

/** What is edited over time: every state is kept, the highest revision counts. */

/** Adds a state. @returns its number, 1 for the first. */
export async function revise(
  writing: Writing,
  kind: string,
  id: string,
  body: unknown,
  { withdrawn = false }: { readonly withdrawn?: boolean } = {},
): Promise<number> {
  const last = await lastRevision(writing.db, kind, id);
  const revision = (last?.revision ?? 0) + 1;
  await writing.append('revisions', {
    kind,
    id,
    revision,
    body: JSON.stringify(body),
    withdrawn: withdrawn ? 1 : 0,
  });
  return revision;
}

/** Adds a state to each of many. @param last number of the last state of each that has one. */
export async function reviseAll(
  writing: Writing,
  kind: string,
  states: readonly { readonly id: string; readonly body: unknown }[],
  last: ReadonlyMap<string, number> = new Map(),
): Promise<void> {
  await writing.appendAll(
    'revisions',
    states.map(({ id, body }) => ({
      kind,
      id,
      revision: (last.get(id) ?? 0) + 1,
      body: JSON.stringify(body),
      withdrawn: 0,
    })),
  );
}

/** The present state, a withdrawn one included. */
export async function lastRevision(db: Db, kind: string, id: string): Promise<RevisionRow | undefined> {
  return db
    .selectFrom('revisions')
    .selectAll()
    .where('kind', '=', kind)
    .where('id', '=', id)
    .orderBy('revision', 'desc')
    .limit(1)
    .executeTakeFirst();
}

/** The present state of everything of a kind that is not withdrawn, in the order of ids. */
export async function presentOf(db: Db, kind: string): Promise<RevisionRow[]> {
  return db
    .selectFrom('revisions as one')
    .selectAll('one')
    .where('one.kind', '=', kind)
    .where('one.withdrawn', '=', 0)
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('revisions as later')
            .select('later.id')
            .whereRef('later.kind', '=', 'one.kind')
            .whereRef('later.id', '=', 'one.id')
            .whereRef('later.revision', '>', 'one.revision'),
        ),
      ),
    )
    .orderBy('one.id')
    .execute();
}

/** The present states of some kinds, by kind and id, without those that are withdrawn. */
export type PresentStates<Kind extends string> = Readonly<
  Record<Kind, { readonly states: ReadonlyMap<string, RevisionRow>; readonly changes: number }>
>;

/**
 * Follows what is edited: the first look reads every present state, a later one only what was written since, so that it
 * costs no more as the years grow. `changes` of a kind counts, so that what was made of its states can be kept.
 * Looks must come one after the other.
 */
export function followed<Kind extends string>(
  kinds: readonly Kind[],
): (db: Db, length: number) => Promise<PresentStates<Kind>> {
  const present = Object.fromEntries(
    kinds.map((kind) => [kind, { states: new Map(), changes: 0 }]),
  ) as Record<Kind, { states: Map<string, RevisionRow>; changes: number }>;
  let upTo: number | undefined;
  return async (db, length) => {
    const rows =
      upTo === undefined
        ? (await Promise.all(kinds.map((kind) => presentOf(db, kind)))).flat()
        : await writtenAfter(db, upTo);
    upTo = length;
    for (const row of rows) {
      const of = present[row.kind as Kind] as (typeof present)[Kind] | undefined;
      if (!of) continue;
      if (row.withdrawn === 1) of.states.delete(row.id);
      else of.states.set(row.id, row);
      of.changes += 1;
    }
    return present;
  };
}

/** Of every kind: a database that is asked for some would rather read all that there ever was of those. */
function writtenAfter(db: Db, entry: number): Promise<RevisionRow[]> {
  return db
    .selectFrom('revisions')
    .selectAll()
    .where('entry', '>', entry)
    .orderBy('entry')
    .orderBy('revision')
    .execute();
}
