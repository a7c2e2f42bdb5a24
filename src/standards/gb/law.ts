import { noneReadAs, LAW as SHARED_LAW } from '../shapes.ts';

/** The shapes that many limits of Great Britain share. */

export const LAW = { ...SHARED_LAW, read: 'official' } as const;

export const REGULATIONS =
  'Products Containing Meat etc. (England) Regulations 2014 (SI 2014/3001; Scotland SSI 2014/289, Wales WSI 2014/3087)';
/** Retained Regulation (EC) No 1333/2008. @param category such as '08.3.1'. */
export const additives = (category: string) =>
  `retained Regulation (EC) No 1333/2008, Annex II part E, ${category}`;

/** None of the numerator may go in. */
export const none = noneReadAs('official');
