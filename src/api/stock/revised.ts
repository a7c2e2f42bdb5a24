import { Refused } from '../../ledger/refused.ts';
import { refuseChanged } from '../../store/history.ts';
import type { Db } from '../../store/open.ts';
import { lastRevision, revise } from '../../store/revisions.ts';
import type { RevisionRow } from '../../store/schema.ts';
import type { Subject, Writing } from '../../store/store.ts';
import { type Books, change } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import type { PlantBooks } from '../plant-of-store.ts';

/** Products, materials, prices, the plant: whole things that are written anew as a whole. */

export type State = RevisionRow | undefined;

/** The present state; undefined when it is not there or was withdrawn. */
export async function presentState(db: Db, kind: string, id: string): Promise<State> {
  const row = await lastRevision(db, kind, id);
  return row && row.withdrawn === 0 ? row : undefined;
}

/** What a new state is, and what is said of it. */
export interface NewState {
  readonly body: unknown;
  readonly withdrawn?: boolean;
  readonly says: string;
  /** What the caller gets, once the number of the state is known. */
  readonly answer: (version: number) => Answer;
}

/**
 * Writes a new state of something that is still as it was read.
 * @throws Refused 'changed meanwhile', and whatever the edit refuses.
 */
export async function writeState(
  books: Books,
  call: Call,
  { action, subject }: { readonly action: string; readonly subject: Subject },
  edit: (writing: Writing, state: State, data: PlantBooks) => Promise<NewState>,
): Promise<Answer> {
  const data = await books.plant();
  return change(books, call, { action, subject }, async (writing) => {
    const { kind, id } = subject;
    const last = await lastRevision(writing.db, kind, id);
    const state = last?.withdrawn === 0 ? last : undefined;
    // What was never there stands at version 0.
    await refuseChanged(writing.db, subject, last?.revision ?? 0, call.ifVersion, data.plant.timeZone);
    const { body, withdrawn = false, says, answer } = await edit(writing, state, data);
    const version = await revise(writing, kind, id, body, { withdrawn });
    return { says, result: answer(version) };
  });
}

/** @throws Refused 'unknown' for what is not there. */
export function refuseAbsent(state: State, message: string): RevisionRow {
  if (state) return state;
  throw new Refused('unknown', message);
}

/** Something is taken away; its past stays. */
export function withdrawn({ id, body }: RevisionRow, says: string): NewState {
  return {
    body: JSON.parse(body) as unknown,
    withdrawn: true,
    says,
    answer: (version) => ({ body: { id, withdrawn: true, version }, version }),
  };
}
