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
