import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';

/** The shapes that many limits of Great Britain share. */

export const LAW = { authority: 'law', sense: 'max', unit: 'percent', read: 'official' } as const;

export const REGULATIONS =
  'Products Containing Meat etc. (England) Regulations 2014 (SI 2014/3001; Scotland SSI 2014/289, Wales WSI 2014/3087)';
/** Retained Regulation (EC) No 1333/2008. @param category such as '08.3.1'. */
export const additives = (category: string) =>
  `retained Regulation (EC) No 1333/2008, Annex II part E, ${category}`;

/** None of the numerator may go in. */
export const none = (
  id: string,
  says: string,
  numerator: Limit['numerator'],
  citation: string,
  extra: Partial<Pick<Limit, 'read' | 'note'>> = {},
): Limit => ({ ...LAW, id, says, numerator, basis: FORMS.formula, bound: 0, citation, ...extra });
