import { CLEANINGS_NOTES, CLEANINGS_TITLE } from '../../documents/logs/cleanings.ts';
import { Refused } from '../../ledger/refused.ts';
import { type Cleaning, type CleaningBody, cleaningsWritten, type Days } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import { addRecord } from '../../store/records.ts';
import { type Books, change, dayAt } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { parseOrProblem } from '../parse.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { Problem } from '../problem.ts';
import { cleaningFix, cleaningSchema } from './contract.ts';
import { dayLater, instantAt, shownAt, timeAt } from './times.ts';

/** Days after which a cleaning is no more written down: what was so long ago nobody remembers. Own judgement. */
const LATEST_DAYS = 31;

/** Writes a cleaning down. */
export async function recordCleaning(books: Books, call: Call): Promise<Answer> {
  const { equipment, what, at, note } = parseOrProblem(cleaningSchema, call.body);
  const data = await books.plant();
  const about = { action: 'cleaning recorded', subject: { kind: 'cleaning', id: '' } };
  return change(books, call, about, async (writing) => {
    const { act } = writing;
    const when = at === undefined ? { at: act.at, day: act.day } : instantOrRefuse(data, at, act.at, ['at']);
    const body: CleaningBody = {
      equipment,
      what,
      ...when,
      ...(note !== undefined && { note }),
      by: act.by.name,
    };
    const seq = await addRecord(writing, 'cleaning', when.day, body);
    const { timeZone } = data.plant;
    const entry = entryOf(timeZone, body, seq, act.at, []);
    return {
      says: `${equipment.join(', ')} ${what} at ${shownAt(timeZone, when.at)}`,
      subject: { kind: 'cleaning', id: String(seq) },
      result: { body: entry, location: `/records/${seq}` },
    };
  });
}

/** A time that somebody wrote down, as the instant that it was. @throws Refused 'unfit'. */
function instantOrRefuse(
  { plant: { timeZone, demoDate } }: PlantBooks,
  local: string,
  now: string,
  path: readonly string[],
): { at: string; day: string } {
  const refuse = (why: string) => new Refused('unfit', `${local} ${why}`, path);
  const valid = Number.isFinite(Date.parse(`${local}:00Z`));
  const at = valid ? instantAt(timeZone, local) : undefined;
  if (at === undefined) throw refuse(`is no time that the clock showed in ${timeZone}; correct it`);
  if (at > now) throw refuse(`is not yet; it is ${shownAt(timeZone, now)}. Write it down when it is done`);
  const day = dayAt(timeZone, new Date(at));
  const today = dayAt(timeZone, new Date(now));
  if (day < dayLater(today, -LATEST_DAYS))
    throw refuse(`is more than ${LATEST_DAYS} days ago; a cleaning is written down while it is remembered`);
  // A demonstration stands still at its day: today is what it says.
  return { at, day: day === today ? (demoDate ?? day) : day };
}

/** What a correction says is right in a cleaning, as a cleaning holds it. @throws Problem for other fields. */
export function cleaningFieldsOf(
  data: PlantBooks,
  fields: Readonly<Record<string, unknown>>,
  now: string,
): Partial<CleaningBody> {
  const parsed = cleaningFix.safeParse(fields);
  if (!parsed.success) {
    throw new Problem('invalid-request', 'A cleaning has no such fields.', {
      errors: parsed.error.issues.map(({ path, message }) => ({
        pointer: `/fields${path.map((step) => `/${String(step)}`).join('')}`,
        message,
      })),
    });
  }
  const { at, equipment, what, note, withdrawn } = parsed.data;
  return {
    ...(equipment && { equipment }),
    ...(what !== undefined && { what }),
    ...(note !== undefined && { note }),
    ...(withdrawn !== undefined && { withdrawn }),
    ...(at !== undefined && instantOrRefuse(data, at, now, ['fields', 'at'])),
  };
}

/** Cleanings done in these days, as they stand with their corrections. */
export async function cleaningsDone(db: Db, { fromDay, toDay }: Days): Promise<Cleaning[]> {
  // A correction may move one to another day, as far as it may be written down late.
  const written = await cleaningsWritten(db, {
    fromDay: dayLater(fromDay, -LATEST_DAYS),
    toDay: dayLater(toDay, LATEST_DAYS),
  });
  return written.filter(({ day }) => day >= fromDay && day <= toDay);
}

export async function cleaningLog(db: Db, { plant: { timeZone } }: PlantBooks, days: Days) {
  const cleanings = await cleaningsDone(db, days);
  return {
    title: CLEANINGS_TITLE,
    notes: CLEANINGS_NOTES,
    items: cleanings.map((cleaning) =>
      entryOf(timeZone, cleaning, cleaning.record.seq, cleaning.record.at, cleaning.correctedBy),
    ),
  };
}

function entryOf(
  timeZone: string,
  { equipment, what, at, note, by, withdrawn = false }: CleaningBody,
  record: number,
  writtenAt: string,
  correctedBy: readonly number[],
) {
  return {
    record,
    equipment,
    what,
    cleaned: timeAt(timeZone, at),
    ...(note !== undefined && { note }),
    by,
    written: timeAt(timeZone, writtenAt),
    correctedBy,
    withdrawn,
  };
}
