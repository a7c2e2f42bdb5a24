import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';
import { none } from './law.ts';

/** What cured and cooked cuts of every family share. */

export const PHOSPHATE_CUTS: Limit = {
  ...LAW,
  id: 'us-424.21c-phosphate-cuts',
  says: 'Phosphates in cuts are at most 0.5 % of the finished product.',
  numerator: FORMS.phosphate,
  basis: FORMS.finished,
  bound: 0.005,
  citation: '9 CFR 424.21(c)',
  read: 'official',
  note: 'A pickle holds at most 5 % at a 10 % pump, and only a clear solution is injected.',
};

/** 9 CFR 319.6(d) lists barbecued meats, roast beef, corned beef, cured pork products and country ham. */
export const NO_SEPARATED_IN_CUTS: Limit = none(
  'us-319.6d-no-mechanically-separated-cuts',
  'No mechanically separated meat goes into cuts: the rule lists them by their sections.',
  FORMS.mechanicallySeparatedMeat,
  '9 CFR 319.6(d)',
  { basis: FORMS.greenWeight },
);

const OF_MEAT = { basis: FORMS.greenWeight };

export const porkOnly = (section: string, citation = `9 CFR ${section}`): Limit =>
  none(`us-${section}-pork-only`, 'Only pork goes in.', FORMS.notPork, citation, OF_MEAT);

export const beefOnly = (section: string, citation = `9 CFR ${section}`): Limit =>
  none(`us-${section}-beef-only`, 'Only beef goes in.', FORMS.notBeef, citation, OF_MEAT);

/** The standard names a cut of the carcass. @param cut in words, for example 'pork belly'. */
export const cutsOnly = (
  section: string,
  cut: string,
  citation = `9 CFR ${section}`,
  numerator: Limit['numerator'] = FORMS.notCut,
): Limit =>
  none(
    `us-${section}-cuts-only`,
    `The product is made of ${cut} and of no other part.`,
    numerator,
    citation,
    {
      ...OF_MEAT,
      note: 'Which cut a lot is no figure tells: what is kept out is told by its kind.',
    },
  );

/** The most that a product weighs for what its fresh meat weighed. */
export const weightOfFresh = (
  section: string,
  says: string,
  bound: number,
  extra: Partial<Pick<Limit, 'unit' | 'numerator' | 'note' | 'citation' | 'basis'>> = {},
): Limit => ({
  ...LAW,
  id: `us-${section}-weight`,
  says,
  numerator: FORMS.finished,
  basis: FORMS.greenWeight,
  bound,
  citation: `9 CFR ${section}`,
  read: 'official',
  ...extra,
});
