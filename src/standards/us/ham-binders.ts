import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { none } from './law.ts';

/** Binders in ham with natural juices, ham water added and ham and water product, 9 CFR 319.104(d). */

const OF_FORMULA = {
  ...LAW,
  basis: FORMS.formula,
  citation: '9 CFR 424.21(c) and 319.104(d)',
  read: 'official',
} as const;

const ALONE = 'One binder at a time, with no other beside it.';
const STARCH_PAIR =
  'One binder at a time; only 3 % of starch with 0.5 % of soy protein concentrate are named together.';

const STARCH: Limit = {
  ...OF_FORMULA,
  id: 'us-424.21c-modified-starch-ham',
  says: 'Modified food starch in ham water added or with natural juices is at most 2 % of the formula.',
  numerator: FORMS.modifiedStarch,
  bound: 0.02,
  note: STARCH_PAIR,
};

const STARCH_WATER_PRODUCT: Limit = {
  ...OF_FORMULA,
  id: 'us-424.21c-modified-starch-water-product',
  says: 'Modified food starch in ham and water product is at most 3.5 % of the formula.',
  numerator: FORMS.modifiedStarch,
  bound: 0.035,
  note: STARCH_PAIR,
};

const OTHERS: readonly Limit[] = [
  {
    ...OF_FORMULA,
    id: 'us-424.21c-carrageenan-ham',
    says: 'Carrageenan in ham is at most 1.5 % of the formula.',
    numerator: FORMS.carrageenan,
    bound: 0.015,
    note: 'One binder at a time; only soy protein concentrate may stand beside it, both together at most 1.5 %. A blend with locust bean gum and xanthan stops at 0.5 %.',
  },
  {
    ...OF_FORMULA,
    id: 'us-424.21c-isolated-soy-ham',
    says: 'Isolated soy protein in ham is at most 2 % of the formula.',
    numerator: FORMS.isolatedSoy,
    bound: 0.02,
    note: ALONE,
  },
  {
    ...OF_FORMULA,
    id: 'us-424.21c-caseinate-ham',
    says: 'Sodium caseinate in ham is at most 2 % of the formula.',
    numerator: FORMS.caseinate,
    bound: 0.02,
    note: ALONE,
  },
  {
    ...OF_FORMULA,
    id: 'us-424.21c-soy-concentrate-ham',
    says: 'Soy protein concentrate in ham is at most 3.5 % of the formula.',
    numerator: FORMS.soyConcentrate,
    bound: 0.035,
    note: 'One binder at a time; only modified food starch (3 % with 0.5 %) or carrageenan (together 1.5 %) may stand beside it.',
  },
  {
    ...OF_FORMULA,
    id: 'us-319.104d-pork-collagen',
    says: 'Pork collagen in ham is at most 3.5 % of the formula.',
    numerator: FORMS.porkCollagen,
    bound: 0.035,
    citation: '9 CFR 319.104(d)',
    note: ALONE,
  },
  none(
    'us-319.104d-no-other-binder',
    'No other binder goes into ham than those that the rules list for it.',
    FORMS.binderNotForHam,
    '9 CFR 319.104(d) and 424.21(c)',
  ),
];

export const HAM_BINDERS: readonly Limit[] = [STARCH, ...OTHERS];
export const HAM_BINDERS_WATER_PRODUCT: readonly Limit[] = [STARCH_WATER_PRODUCT, ...OTHERS];

export const NO_BINDER_IN_CURED_PORK: Limit = none(
  'us-319.104d-no-binder',
  'Binders go into ham with natural juices, ham water added and ham and water product alone.',
  FORMS.anyBinder,
  '9 CFR 319.104(d)',
  { note: 'The rule names ham; loins and shoulders, and uncooked products, are not on its list.' },
);

/** No sum of weights can show that only one of several went in. */
export const ONE_BINDER: LaboratoryLimit = {
  id: 'us-319.104d-one-binder',
  says: 'Of the binders only one goes in, or one of the pairs that 9 CFR 424.21(c) names.',
  citation: '9 CFR 319.104(d)',
  read: 'official',
  note: 'Each binder is held to its own figure here; that no second one stands beside it is for the plant to see to.',
};
