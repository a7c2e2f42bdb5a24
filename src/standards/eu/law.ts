import { BIRD_DEFINITION, MAMMAL_DEFINITION, PORK_DEFINITION } from '../../rules/forms/europe.ts';
import type { MeatContent } from '../../rules/standard.ts';
import { noneReadAs, LAW as SHARED_LAW } from '../shapes.ts';

/** The shapes that many limits of the European Union share. */

export const LAW = { ...SHARED_LAW, read: 'official' } as const;

/** Food additives: Regulation (EC) No 1333/2008, Annex II part E. @param category such as '08.3.1'. */
export const additives = (category: string) => `Regulation (EC) No 1333/2008, Annex II part E, ${category}`;

/** Before and from the day that Regulation (EU) 2023/2108 applies. */
export const UNTIL_2025 = { until: '2025-10-09' } as const;
export const FROM_2025 = { from: '2025-10-09' } as const;

/** None of the numerator may go in. */
export const none = noneReadAs('official');

/** Meat for the ingredient list, once for each kind that went in (guidance note 17 of the Irish authority, 8.1). */
export const MEAT_CONTENT: MeatContent = {
  citation: 'Regulation (EU) No 1169/2011, Annex VII part B 17',
  read: 'official',
  meats: [PORK_DEFINITION, MAMMAL_DEFINITION, BIRD_DEFINITION],
};
