import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';

/** The shapes that many limits of Canada share. */

export const LAW = { authority: 'law', sense: 'max', unit: 'percent' } as const;
/** Food and Drug Regulations. */
export const section = (number: string) => `Food and Drug Regulations, C.R.C., c. 870, ${number}`;

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
