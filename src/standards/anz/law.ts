import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';

/** The shapes that many limits of the Australia New Zealand Food Standards Code share. */

export const LAW = { authority: 'law', sense: 'max', unit: 'percent' } as const;
export const STANDARD_221 = 'Food Standards Code, Standard 2.2.1';
export const SCHEDULE_15 = 'Food Standards Code, Schedule 15';

/** None of the numerator may go in. */
export const none = (
  id: string,
  says: string,
  numerator: Limit['numerator'],
  citation: string,
  extra: Partial<Pick<Limit, 'read' | 'note'>> = {},
): Limit => ({
  ...LAW,
  id,
  says,
  numerator,
  basis: FORMS.formula,
  bound: 0,
  citation,
  read: 'secondary',
  ...extra,
});
