import type { RuleSet } from '../rules/standard.ts';
import type { Act, Store, Subject, Writing, Written } from '../store/store.ts';
import type { Worker } from './all-jobs.ts';
import type { Desk } from './blending.ts';
import type { Answer, Call } from './endpoint.ts';
import type { PlantBooks } from './plant-of-store.ts';

/** An instant and the calendar day that it is at the plant. */
export interface Moment {
  readonly at: string;
  readonly day: string;
}

/** What the service works on: the plant's books, and what works things out. */
export interface Books {
  readonly store: Store;
  readonly ruleSets: readonly RuleSet[];
  readonly work: Worker;
  readonly doubts: () => Readonly<Record<string, number>>;
  /** The plant as its books stand now. */
  readonly plant: () => Promise<PlantBooks>;
  readonly now: () => Date;
}

/** What the blends work with, as things stand. */
export async function deskOf(books: Books): Promise<Desk> {
  const data = await books.plant();
  const { day } = momentOf(data, books.now());
  return { data, ruleSets: books.ruleSets, today: () => day, work: books.work, doubts: books.doubts };
}

/** Now, at the plant; a demonstration stands still at its day. */
export function momentOf({ plant }: Pick<PlantBooks, 'plant'>, now: Date): Moment {
  return { at: now.toISOString(), day: plant.demoDate ?? dayAt(plant.timeZone, now) };
}

/** The calendar day in a time zone. */
export function dayAt(timeZone: string, now: Date): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }).format(now);
}

/** One change to the books in the name of whoever calls, once for each Idempotency-Key. */
export async function change(
  books: Books,
  call: Pick<Call, 'caller' | 'idempotency'>,
  what: { readonly action: string; readonly subject: Subject },
  work: (writing: Writing) => Promise<Written<Answer>>,
): Promise<Answer> {
  const moment = momentOf(await books.plant(), books.now());
  const { id, name } = call.caller;
  const act: Act = {
    by: { id, name },
    ...moment,
    ...what,
    ...(call.idempotency && { idempotency: call.idempotency }),
  };
  return books.store.write(act, work);
}
