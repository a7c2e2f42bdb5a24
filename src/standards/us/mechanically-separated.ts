import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';
import { none } from './law.ts';

/** Mechanically separated meat, 9 CFR 319.5 and 319.6. */

export const MECHANICALLY_SEPARATED: readonly Limit[] = [
  {
    ...LAW,
    id: 'us-319.6-mechanically-separated-share',
    says: 'Mechanically separated (species) is at most 20 % of the livestock and poultry part.',
    numerator: FORMS.mechanicallySeparated,
    basis: FORMS.greenWeight,
    bound: 0.2,
    citation: '9 CFR 319.6(b), (c)',
    read: 'official',
    note: 'Of less than 14 % protein or more than 30 % fat it goes only into a product whose standard limits fat.',
  },
  none(
    'us-319.5b-mechanically-separated-beef',
    'Mechanically separated beef is not human food.',
    FORMS.mechanicallySeparatedBeef,
    '9 CFR 319.5(b)',
    { basis: FORMS.greenWeight },
  ),
];

export const NO_MECHANICALLY_SEPARATED: Limit = none(
  'us-319.6d-no-mechanically-separated',
  'No mechanically separated meat goes into ground beef, hamburger or fabricated steak.',
  FORMS.mechanicallySeparatedMeat,
  '9 CFR 319.6(d)',
  { basis: FORMS.greenWeight },
);
