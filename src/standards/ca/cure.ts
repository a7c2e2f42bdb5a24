import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';
import { none } from './law.ts';

/** Nitrites, nitrates and phosphates in Canada. Parts per million are of the batch as it goes in. */

const OF_BATCH = { ...LAW, unit: 'ppm', basis: FORMS.formula, read: 'secondary' } as const;
const MANUAL = 'Canadian Food Inspection Agency, Meat Hygiene Manual of Procedures, chapter 4 (archived)';
const IDENTITY = 'Canadian Standards of Identity, volume 7';
const PRESERVATIVES = 'List of Permitted Preservatives';
export const BASIS = 'Reckoned on the batch before smoking, cooking or fermentation.';

const MOST: Limit = {
  ...OF_BATCH,
  id: 'ca-cure-most',
  says: 'Nitrite and nitrate put in, of sodium or potassium, are together at most 200 ppm of the batch.',
  numerator: FORMS.nitriteAndNitrate,
  bound: 200e-6,
  citation: MANUAL,
  note: BASIS,
};

const LEAST: Limit = {
  ...OF_BATCH,
  id: 'ca-cure-least',
  says: 'A cured product holds at least 100 ppm of nitrite and nitrate put in, alone or together.',
  numerator: FORMS.nitriteAndNitrate,
  sense: 'min',
  bound: 100e-6,
  citation: IDENTITY,
  note: BASIS,
};

const NO_NITRATE: Limit = none(
  'ca-no-nitrate',
  'Nitrate is for slow cured meat and dry or semi-dry sausage only.',
  FORMS.nitrate,
  PRESERVATIVES,
);

export const SIDE_BACON_NITRITE: Limit = {
  ...OF_BATCH,
  id: 'ca-side-bacon-nitrite',
  says: 'Nitrite put into side bacon is at most 120 ppm of the batch.',
  numerator: FORMS.nitrite,
  bound: 120e-6,
  citation: PRESERVATIVES,
  read: 'from memory',
  note: BASIS,
};

export const PHOSPHATE: Limit = {
  ...LAW,
  id: 'ca-phosphate',
  says: 'Phosphates added are at most 0.5 % of the product, as disodium phosphate.',
  numerator: FORMS.phosphateAsDisodiumPhosphate,
  basis: FORMS.finished,
  bound: 0.005,
  citation:
    'Canadian Food Inspection Agency, Meat Hygiene Manual of Procedures, chapter 7, annex K (2006); Food and Drug Regulations, B.14.031 (2018)',
  read: 'secondary',
};

export const NOT_CURED: Limit = none(
  'ca-not-cured',
  'Nitrite and nitrate go into cured products only.',
  FORMS.nitriteAndNitrate,
  `${IDENTITY}; ${PRESERVATIVES}`,
);

export const NO_SULFITE: Limit = none(
  'ca-no-sulfite',
  'Sulfites do not go into meat.',
  FORMS.sulfurDioxide,
  PRESERVATIVES,
  { read: 'from memory' },
);

/** For a product sold as cured. */
export const CURED: readonly Limit[] = [MOST, LEAST, NO_NITRATE];
/** For slow cured meat and dry sausage, which nitrate may go into. */
export const SLOW_CURED: readonly Limit[] = [MOST, LEAST];

export const NO_ANTIOXIDANTS: Limit = none(
  'ca-no-antioxidants',
  'BHA, BHT, propyl gallate and TBHQ do not go in.',
  FORMS.antioxidants,
  PRESERVATIVES,
  {
    read: 'from memory',
    note: 'No figure for them in meat is known here, so none goes in: look at the list itself.',
  },
);
