import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { NOT_CURED } from './cure.ts';
import { none } from './law.ts';

/** Phosphates, acids of the cure, sweeteners and antimicrobials of 9 CFR 424.21(c). */

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

export const PHOSPHATE_PRODUCT: Limit = {
  ...TABLE,
  id: 'us-424.21c-phosphate-product',
  says: 'Phosphates are at most 0.5 % of the finished product.',
  numerator: FORMS.phosphate,
  basis: FORMS.finished,
  bound: 0.005,
  note: 'For meat food products except where otherwise prohibited; the standard of the product does not speak of them.',
};

export const PHOSPHATE_POULTRY: Limit = {
  ...TABLE,
  id: 'us-424.21c-phosphate-poultry',
  says: 'Phosphates in poultry products are at most 0.5 % of the total product.',
  numerator: FORMS.phosphate,
  basis: FORMS.finished,
  bound: 0.005,
  note: 'Uncooked sausage of poultry included: the ban of 319.140 speaks of sausage of meat.',
};

const FUMARIC_ACID: Limit = {
  ...TABLE,
  id: 'us-424.21c-fumaric-acid',
  says: 'Fumaric acid in cured comminuted meat and poultry is at most 625 ppm of the green weight.',
  numerator: FORMS.fumaricAcid,
  basis: FORMS.greenWeight,
  bound: 625e-6,
  unit: 'ppm',
  note: 'The rule writes 0.065 percent (or 1 oz to 100 lb); the ounce is the stricter of the two.',
};

export const GLUCONO_DELTA_LACTONE: Limit = {
  ...TABLE,
  id: 'us-424.21c-glucono-delta-lactone',
  says: 'Glucono delta lactone in cured comminuted meat is at most 0.5 % of the meat.',
  numerator: FORMS.gluconoDeltaLactone,
  basis: FORMS.notPoultry,
  bound: 0.005,
  note: 'Written as 8 oz to each 100 lb of meat or meat byproduct: poultry is no part of the basis.',
};

export const GLUCONO_DELTA_LACTONE_GENOA: Limit = {
  ...TABLE,
  id: 'us-424.21c-glucono-delta-lactone-genoa',
  says: 'Glucono delta lactone in Genoa salami is at most 1 % of the meat.',
  numerator: FORMS.gluconoDeltaLactone,
  basis: FORMS.notPoultry,
  bound: 0.01,
  note: 'Written as 16 oz to 100 lb of meat (1.0 percent).',
};

/** Acids that speed the cure, in any cured comminuted product. */
export const CURING_ACIDS: readonly Limit[] = [FUMARIC_ACID, GLUCONO_DELTA_LACTONE];
export const CURING_ACIDS_GENOA: readonly Limit[] = [FUMARIC_ACID, GLUCONO_DELTA_LACTONE_GENOA];
/** The rows of glucono delta lactone and acid pyrophosphate name no poultry. */
export const CURING_ACIDS_POULTRY: readonly Limit[] = [FUMARIC_ACID];

const PYROPHOSPHATE_NOTE =
  'The row limits it alone or in combination with other curing accelerators; the sum is compared whether it is there or not.';

/** Only for "frankfurters, wieners, vienna, bologna, garlic bologna, knockwurst and similar products". */
export const FRANKFURTER_ACIDS: readonly Limit[] = [
  {
    ...TABLE,
    id: 'us-424.21c-acid-pyrophosphate-of-meat',
    says: 'Sodium acid pyrophosphate and other curing accelerators together are at most 0.5 % of the meat.',
    numerator: FORMS.sodiumAcidPyrophosphateAndAccelerators,
    basis: FORMS.notPoultry,
    bound: 0.005,
    note: PYROPHOSPHATE_NOTE,
  },
  {
    ...TABLE,
    id: 'us-424.21c-acid-pyrophosphate-of-product',
    says: 'Sodium acid pyrophosphate and other curing accelerators together are at most 0.5 % of the finished product.',
    numerator: FORMS.sodiumAcidPyrophosphateAndAccelerators,
    basis: FORMS.finished,
    bound: 0.005,
    note: PYROPHOSPHATE_NOTE,
  },
];

export const SORBITOL: Limit = {
  ...TABLE,
  id: 'us-424.21c-sorbitol',
  says: 'Sorbitol in frankfurters and knockwurst is at most 2 % of all ingredients less water and ice.',
  numerator: FORMS.sorbitol,
  basis: FORMS.formulaWithoutWater,
  bound: 0.02,
};

/** For a product sold without the word "cured": no curing agent and nothing that goes only with one. */
export const UNCURED: readonly Limit[] = [
  ...NOT_CURED,
  none(
    'us-424.21c-no-fumaric-acid-without-cure',
    'Fumaric acid goes in only together with a curing agent.',
    FORMS.fumaricAcid,
    '9 CFR 424.21(c)',
    {
      basis: FORMS.greenWeight,
      unit: 'ppm',
      note: 'The table lists it among the curing accelerators alone.',
    },
  ),
];

export const NITRITE_FOUND_COMMINUTED: LaboratoryLimit = {
  id: 'us-424.21c-nitrite-found',
  says: 'Nitrite found in the finished product is at most 200 ppm, as sodium nitrite.',
  citation: '9 CFR 424.21(c)',
  read: 'official',
  note: 'Nitrites, nitrates or both together must not result in more. Nitrate turns into nitrite and nitrite is used up: only a test tells.',
};

/** For every class of the place: sulfites bring back the color of meat that has lost it. */
export const NO_SULFITE: Limit = none(
  'us-no-sulfite',
  'Sulfites do not go into meat or poultry products.',
  FORMS.sulfurDioxide,
  '21 CFR 182.3862 and 9 CFR 424.21(c), which lists none',
  { read: 'from memory' },
);

export const NO_FUMARIC_ACID_IN_CUTS: Limit = none(
  'us-424.21c-no-fumaric-acid-cuts',
  'Fumaric acid is for cured comminuted product only.',
  FORMS.fumaricAcid,
  '9 CFR 424.21(c)',
);
