import type { Declaration } from '../declaration.ts';

/** Days of a pack, each YYYY-MM-DD. */
export interface PackDays {
  readonly packedDate: string;
  readonly useByDate?: string;
  readonly bestBeforeDate?: string;
}

/** A day as it stands on the label. */
export interface LabelDate {
  readonly says: string;
  readonly day: string;
  readonly text: string;
}

/** Codes of months that are read in English and French (Food and Drug Regulations B.01.007, from memory, verify). */
const CANADIAN_MONTHS = ['JA', 'FE', 'MR', 'AL', 'MA', 'JN', 'JL', 'AU', 'SE', 'OC', 'NO', 'DE'];
const MONTHS = ['JAN', 'FEB', 'MAR', 'APR', 'MAY', 'JUN', 'JUL', 'AUG', 'SEP', 'OCT', 'NOV', 'DEC'];

/** The month in letters, so that no order of figures is misread; the day first outside North America. */
function dayText(day: string, jurisdiction: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  const at = Number(month) - 1;
  if (jurisdiction === 'ca') return `${year} ${CANADIAN_MONTHS[at]} ${date}`;
  return jurisdiction === 'us' ? `${MONTHS[at]} ${date} ${year}` : `${date} ${MONTHS[at]} ${year}`;
}

export interface LastDay {
  readonly says: 'Use by' | 'Best before';
  readonly day: string;
}

/** The day until which it keeps, by the word that the market has for it; a day that is given as best before stays so. */
export function lastDay(
  { date }: Pick<Declaration, 'date'>,
  { useByDate, bestBeforeDate }: PackDays,
): LastDay | undefined {
  const day = bestBeforeDate ?? useByDate;
  if (day === undefined) return undefined;
  const isBestBefore = bestBeforeDate !== undefined || date?.text.startsWith('Best before');
  return { says: isBestBefore ? 'Best before' : 'Use by', day };
}

export function labelDates(packedDate: string, last: LastDay | undefined, jurisdiction: string): LabelDate[] {
  return [{ says: 'Packed', day: packedDate }, ...(last ? [last] : [])].map(({ says, day }) => ({
    says,
    day,
    text: dayText(day, jurisdiction),
  }));
}
