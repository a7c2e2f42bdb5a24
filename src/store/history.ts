import { Refused } from '../ledger/refused.ts';
import type { Db } from './open.ts';
import type { Subject } from './store.ts';

/** What was done to something, for whoever wants to change it too. */

/** One change, as its entry tells of it. */
export interface Change {
  readonly seq: number;
  readonly at: string;
  readonly day: string;
  /** Name of who made it. */
  readonly person: string;
  readonly says: string;
}

/** What was done to something since a version of it was written, the latest last. */
export async function changesSince(db: Db, { kind, id }: Subject, version: number): Promise<Change[]> {
  const entries = kind === 'lot' ? await entriesOfLot(db, id) : await entriesOfRevisions(db, kind, id);
  const since = [...new Set(entries.slice(version))];
  if (since.length === 0) return [];
  return db
    .selectFrom('entries')
    .select(['seq', 'at', 'day', 'person', 'says'])
    .where('seq', 'in', since)
    .orderBy('seq')
    .execute();
}

/** Every state of a lot's description and every movement is a version of it: the entries that made them, in turn. */
async function entriesOfLot(db: Db, id: string): Promise<number[]> {
  const moved = await db.selectFrom('movements').select('entry').where('lotId', '=', id).execute();
  const entries = [...moved.map(({ entry }) => entry), ...(await entriesOfRevisions(db, 'lot', id))];
  return entries.sort((a, b) => a - b);
}

async function entriesOfRevisions(db: Db, kind: string, id: string): Promise<number[]> {
  const rows = await db
    .selectFrom('revisions')
    .select('entry')
    .where('kind', '=', kind)
    .where('id', '=', id)
    .orderBy('revision')
    .execute();
  return rows.map(({ entry }) => entry);
}

/** Changes told in a refusal; more would not be read. */
const TOLD = 3;

/**
 * Refuses a change to something that is no longer what was read, and says who changed what meanwhile.
 * @param version that it has now.
 * @param ifVersion that was read; any when absent.
 * @param timeZone of the plant, for the time of day.
 * @throws Refused 'changed meanwhile'.
 */
export async function refuseChanged(
  db: Db,
  subject: Subject,
  version: number,
  ifVersion: number | undefined,
  timeZone: string,
): Promise<void> {
  if (ifVersion === undefined || ifVersion === version) return;
  const changes = await changesSince(db, subject, ifVersion);
  const told = changes.slice(-TOLD).map((change) => changeText(change, timeZone));
  const more = changes.length > TOLD ? ` (${changes.length} changes, the last ${TOLD} of them)` : '';
  const since = told.length > 0 ? `${more}: ${told.join('; ')}` : '';
  throw new Refused(
    'changed meanwhile',
    `${nameOf(subject)} changed since version ${ifVersion}, which you read; version ${version} stands now${since}. Read it again and decide anew.`,
  );
}

function changeText({ person, at, day, says }: Change, timeZone: string): string {
  const clock = new Intl.DateTimeFormat('sv-SE', { timeZone, timeStyle: 'short' }).format(new Date(at));
  return `${person} on ${day} at ${clock}: ${says}`;
}

function nameOf({ kind, id }: Subject): string {
  const name = `${kind.slice(0, 1).toUpperCase()}${kind.slice(1)}`;
  return kind === id ? `The ${kind}` : `${name} ${id}`;
}
