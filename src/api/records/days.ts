import type { Days } from '../../store/logs.ts';
import { Problem } from '../problem.ts';
import { dayLater } from './times.ts';

/** The days that a log or a report is asked for. */

/** A week, unless the days are given. */
const USUAL_DAYS = 7;
const MOST_DAYS = 366;

/** @throws Problem for days that are in the wrong order or too many. */
export function daysOf(
  { fromDay, toDay }: { readonly fromDay?: string | undefined; readonly toDay?: string | undefined },
  today: string,
): Days {
  const last = toDay ?? (fromDay !== undefined && fromDay > today ? fromDay : today);
  const first = fromDay ?? dayLater(last, 1 - USUAL_DAYS);
  const refuse = (message: string) =>
    new Problem('invalid-request', 'One field is wrong.', { errors: [{ pointer: '/fromDay', message }] });
  if (first > last) throw refuse(`${first} is after ${last}, the last day; exchange them`);
  if (first < dayLater(last, 1 - MOST_DAYS))
    throw refuse(`is more than ${MOST_DAYS} days before ${last}; ask for a year at most`);
  return { fromDay: first, toDay: last };
}
