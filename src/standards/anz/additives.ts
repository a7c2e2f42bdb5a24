import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { none, SCHEDULE_15 } from './law.ts';

/** Nitrites, nitrates and sulfites of Schedule 15. */

const IN_FOOD = {
  ...LAW,
  unit: 'ppm',
  basis: FORMS.finished,
  citation: SCHEDULE_15,
  read: 'from memory',
} as const;
const SAFE_SIDE =
  'The schedule bounds what the food holds; what goes in is held to the same figure, which is on the safe side.';

export const NITRITE: Limit = {
  ...IN_FOOD,
  id: 'anz-sch15-nitrite',
  says: 'Nitrite put into cured or processed meat is at most 125 ppm of the product, as sodium nitrite.',
  numerator: FORMS.nitriteAsSodiumNitrite,
  bound: 125e-6,
  note: SAFE_SIDE,
};

export const NITRATE: Limit = {
  ...IN_FOOD,
  id: 'anz-sch15-nitrate',
  says: 'Nitrate put into slow dry cured meat and fermented sausage is at most 500 ppm of the product, as sodium nitrate.',
  numerator: FORMS.nitrateAsSodiumNitrate,
  bound: 500e-6,
  note: SAFE_SIDE,
};

export const NO_NITRATE: Limit = none(
  'anz-sch15-no-nitrate',
  'Nitrate is for slow dry cured meat and fermented sausage only.',
  FORMS.nitrateAsSodiumNitrate,
  SCHEDULE_15,
  { read: 'from memory' },
);

export const NOT_CURED: Limit = none(
  'anz-sch15-not-cured',
  'Nitrite and nitrate do not go into raw sausage, mince or meat that is not cured.',
  FORMS.nitriteAndNitrate,
  SCHEDULE_15,
  { read: 'from memory' },
);

export const SULFITE_SAUSAGE: Limit = {
  ...IN_FOOD,
  id: 'anz-sch15-sulfite-sausage',
  says: 'Sulfites in sausage and sausage meat of raw unprocessed meat are at most 500 ppm, as sulfur dioxide.',
  numerator: FORMS.sulfurDioxide,
  bound: 500e-6,
  read: 'secondary',
  citation: `${SCHEDULE_15}, as a state health department states it`,
};

export const NO_SULFITE: Limit = none(
  'anz-sch15-no-sulfite',
  'Sulfites go into sausage and sausage meat only, never into mince, plain patties or other meat.',
  FORMS.sulfurDioxide,
  `${SCHEDULE_15}, as a state health department states it`,
);

export const IN_THE_FOOD: readonly LaboratoryLimit[] = [
  {
    id: 'anz-sch15-nitrite-in-food',
    says: 'Nitrites and nitrates together are at most 125 mg in a kilogram of the food as sold, as sodium nitrite (500 mg as sodium nitrate where it is slow dry cured or fermented).',
    citation: SCHEDULE_15,
    read: 'from memory',
  },
];

export const NO_ANTIOXIDANTS: Limit = none(
  'anz-no-antioxidants',
  'BHA, BHT, propyl gallate and TBHQ do not go in.',
  FORMS.antioxidants,
  SCHEDULE_15,
  {
    read: 'from memory',
    note: 'No figure for them in meat is known here, so none goes in: look at the list itself.',
  },
);
