import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW, none } from './law.ts';

/** Binders and extenders in sausage, 9 CFR 424.21(c). */

const IN_SAUSAGE = { ...LAW, basis: FORMS.finished } as const;

export const SAUSAGE_BINDERS: readonly Limit[] = [
  {
    ...IN_SAUSAGE,
    id: 'us-424.21c-binders',
    says: 'Binders and extenders, alone or together, are at most 3.5 % of the finished sausage; 2 % of isolated soy protein or sodium caseinate counts as 3.5 %.',
    numerator: FORMS.binder,
    bound: 0.035,
    citation: '9 CFR 424.21(c); the count of soy protein 319.140 (earlier text)',
    read: 'secondary',
    note: "The 3.5 % is in today's table; the count of soy protein is in an earlier text only and is the stricter reading.",
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
];

/** @param section as in the id, for example '319.145b'. */
export const noBinder = (section: string, citation = `9 CFR ${section}`): Limit =>
  none(
    `us-${section}-no-binder`,
    'The standard names no binder or extender, so none goes in.',
    FORMS.anyBinder,
    citation,
  );
