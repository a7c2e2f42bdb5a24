import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';
import { none } from './law.ts';

/** Binders and extenders, 9 CFR 424.21(c). */

const IN_SAUSAGE = { ...LAW, basis: FORMS.finished } as const;
const OFFICIAL = { ...IN_SAUSAGE, read: 'official', citation: '9 CFR 424.21(c)' } as const;

const TOGETHER = {
  ...IN_SAUSAGE,
  numerator: FORMS.binder,
  bound: 0.035,
  read: 'secondary',
  note: "The 3.5 % is in today's table; the count of soy protein is in an earlier text only and is the stricter reading.",
} as const;

/** 9 CFR 319.140: in sausage in which binders of their class may be used. */
const OF_FORMULA: readonly Limit[] = [
  {
    ...LAW,
    id: 'us-319.140-pork-collagen',
    says: 'Pork collagen in sausage that may carry binders is at most 3.5 % of the formula.',
    numerator: FORMS.porkCollagen,
    basis: FORMS.formula,
    bound: 0.035,
    citation: '9 CFR 319.140',
    read: 'official',
  },
  {
    ...LAW,
    id: 'us-319.140-transglutaminase',
    says: 'Transglutaminase enzyme in sausage that may carry binders is at most 65 ppm of the formula.',
    numerator: FORMS.transglutaminase,
    basis: FORMS.formula,
    bound: 65e-6,
    unit: 'ppm',
    citation: '9 CFR 319.140',
    read: 'official',
  },
];

export const SAUSAGE_BINDERS: readonly Limit[] = [
  {
    ...TOGETHER,
    id: 'us-424.21c-binders',
    says: 'Binders and extenders, alone or together, are at most 3.5 % of the finished sausage; 2 % of isolated soy protein or sodium caseinate counts as 3.5 %.',
    citation: '9 CFR 424.21(c); the count of soy protein 319.140 (earlier text)',
  },
  {
    ...IN_SAUSAGE,
    id: 'us-424.21c-isolated-soy',
    says: 'Isolated soy protein is at most 2 % of the finished sausage.',
    numerator: FORMS.isolatedSoy,
    bound: 0.02,
    citation: '9 CFR 424.21(c)',
    read: 'official',
  },
  {
    ...IN_SAUSAGE,
    id: 'us-424.21c-caseinate',
    says: 'Sodium caseinate is at most 2 % of the finished sausage.',
    numerator: FORMS.caseinate,
    bound: 0.02,
    citation: '9 CFR 424.21(c)',
    read: 'official',
  },
  ...OF_FORMULA,
];

/** 9 CFR 319.181: limits on use are exclusive of the cheese. */
export const CHEESEFURTER_BINDERS: readonly Limit[] = [
  {
    ...TOGETHER,
    id: 'us-319.181-binders',
    says: 'Binders and extenders in cheesefurters, alone or together, are at most 3.5 % of the finished product less its cheese; 2 % of isolated soy protein or sodium caseinate counts as 3.5 %.',
    basis: FORMS.finishedWithoutDairy,
    citation: '9 CFR 319.181 and 424.21(c); the count of soy protein 319.140 (earlier text)',
  },
  {
    ...OFFICIAL,
    id: 'us-319.181-isolated-soy',
    says: 'Isolated soy protein in cheesefurters is at most 2 % of the finished product less its cheese.',
    numerator: FORMS.isolatedSoy,
    basis: FORMS.finishedWithoutDairy,
    bound: 0.02,
    citation: '9 CFR 319.181 and 424.21(c)',
  },
  {
    ...OFFICIAL,
    id: 'us-319.181-caseinate',
    says: 'Sodium caseinate in cheesefurters is at most 2 % of the finished product less its cheese.',
    numerator: FORMS.caseinate,
    basis: FORMS.finishedWithoutDairy,
    bound: 0.02,
    citation: '9 CFR 319.181 and 424.21(c)',
  },
  ...OF_FORMULA,
];

export const CHILI_BINDERS: Limit = {
  ...OFFICIAL,
  id: 'us-424.21c-binders-chili',
  says: 'Binders and extenders in chili, alone or together, are at most 8 % of the finished product.',
  numerator: FORMS.anyBinder,
  bound: 0.08,
};

const caseinateInPoultry = (state: 'raw' | 'cooked', percent: number): Limit => ({
  ...OFFICIAL,
  id: `us-424.21c-caseinate-poultry-${state}`,
  says: `Sodium caseinate in ${state} poultry products is at most ${percent} % of the product.`,
  numerator: FORMS.caseinate,
  bound: percent / 100,
});

const METHYL_CELLULOSE_POULTRY: Limit = {
  ...OFFICIAL,
  id: 'us-424.21c-methyl-cellulose-poultry',
  says: 'Methyl cellulose in poultry products is at most 0.15 % of the product.',
  numerator: FORMS.methylCellulose,
  bound: 0.0015,
  note: 'The row writes 0.15 percent and no basis.',
};

/** What else binds poultry is listed as "sufficient for purpose". */
export const POULTRY_BINDERS_RAW: readonly Limit[] = [caseinateInPoultry('raw', 2), METHYL_CELLULOSE_POULTRY];
export const POULTRY_BINDERS_COOKED: readonly Limit[] = [
  caseinateInPoultry('cooked', 3),
  METHYL_CELLULOSE_POULTRY,
];

/** @param section as in the id, for example '319.145b'. */
export const noBinder = (section: string, citation = `9 CFR ${section}`): Limit =>
  none(
    `us-${section}-no-binder`,
    'The standard names no binder or extender, so none goes in.',
    FORMS.anyBinder,
    citation,
  );
