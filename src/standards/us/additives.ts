import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW, none } from './law.ts';

/** Phosphates and antimicrobials of 9 CFR 424.21(c). */

const TABLE = { ...LAW, citation: '9 CFR 424.21(c)', read: 'official' } as const;

export const PHOSPHATE_COOKED: Limit = {
  ...TABLE,
  id: 'us-424.21c-phosphate',
  says: 'Phosphates in cooked sausage are at most 0.5 % of the finished product.',
  numerator: FORMS.phosphate,
  basis: FORMS.finished,
  bound: 0.005,
};

export const PHOSPHATE_PATTIES: Limit = {
  ...TABLE,
  id: 'us-424.21c-phosphate-patties',
  says: 'Phosphates in beef patties are at most 0.5 % of the product.',
  numerator: FORMS.phosphate,
  basis: FORMS.finished,
  bound: 0.005,
  note: 'Only sodium tripolyphosphate and its mixtures, and only in patties cooked or frozen after processing.',
};

export const PHOSPHATE_NONE: Limit = none(
  'us-319.140-no-phosphate',
  'Phosphates are permitted in cooked sausage only.',
  FORMS.phosphate,
  '9 CFR 319.140',
);

export const ANTIMICROBIALS: readonly Limit[] = [
  {
    ...TABLE,
    id: 'us-424.21c-lactate',
    says: 'Sodium and potassium lactate are at most 4.8 % of the formula.',
    numerator: FORMS.lactate,
    basis: FORMS.formula,
    bound: 0.048,
    note: 'Written once for each of the two; they are added up here. As a flavoring the table stops at 2 %.',
  },
  {
    ...TABLE,
    id: 'us-424.21c-diacetate',
    says: 'Sodium diacetate is at most 0.25 % of the formula.',
    numerator: FORMS.diacetate,
    basis: FORMS.formula,
    bound: 0.0025,
  },
];
