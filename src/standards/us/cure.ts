import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { none } from './law.ts';

/**
 * Curing agents and accelerators of 9 CFR 424.21(c) in chopped or ground meat. The rule writes ounces per
 * 100 lb, inspectors' material prints rounded ppm; a batch is compared, unrounded, with the stricter of the two.
 */

const CURED = {
  ...LAW,
  unit: 'ppm',
  basis: FORMS.greenWeight,
  citation: '9 CFR 424.21(c)',
  read: 'official',
} as const;

const NITRITE: Limit = {
  ...CURED,
  id: 'us-424.21c-nitrite-comminuted',
  says: 'Ingoing nitrite in chopped or ground cured meat is at most 156 ppm of the green weight.',
  numerator: FORMS.nitrite,
  bound: 156e-6,
  read: 'secondary',
  note: 'The rule itself, read, writes 1/4 oz per 100 lb (156.25 ppm); the 156 compared is the figure printed for inspectors, as texts quote it.',
};

const NITRATE: Limit = {
  ...CURED,
  id: 'us-424.21c-nitrate-comminuted',
  says: 'Ingoing nitrate in chopped or ground cured meat is at most 1718 ppm of the green weight.',
  numerator: FORMS.nitrate,
  bound: 1718e-6,
  read: 'secondary',
  note: 'The rule itself, read, writes 2 3/4 oz per 100 lb (1718.75 ppm); the 1718 compared is the figure printed for inspectors, as texts quote it.',
};

const ASCORBIC_ACID: Limit = {
  ...CURED,
  id: 'us-424.21c-ascorbic-acid',
  says: 'Ascorbic or erythorbic acid in cured comminuted meat is at most 468.75 ppm of the green weight.',
  numerator: FORMS.ascorbicAcid,
  bound: 468.75e-6,
  note: 'Written as 3/4 oz per 100 lb (often rounded to 469 ppm), one row for each acid; the two are added up here.',
};

const SODIUM_ASCORBATE: Limit = {
  ...CURED,
  id: 'us-424.21c-sodium-ascorbate',
  says: 'Sodium ascorbate or erythorbate in cured comminuted meat is at most 546.875 ppm of the green weight.',
  numerator: FORMS.sodiumAscorbate,
  bound: 546.875e-6,
  note: 'Written as 7/8 oz per 100 lb (often rounded to 547 ppm), one row for each salt; the two are added up here.',
};

const CITRIC_ACID: Limit = {
  ...CURED,
  id: 'us-424.21c-citric-acid',
  says: 'Citric acid replaces at most 50 % of the curing accelerators.',
  numerator: FORMS.citricAcidAsAccelerator,
  basis: FORMS.acceleratorsAndCitricAcid,
  bound: 0.5,
  unit: 'percent',
  note: 'Counted as half of accelerators and citric acid together; citric acid from other ingredients is not counted.',
};

export const CURING: readonly Limit[] = [NITRITE, NITRATE, ASCORBIC_ACID, SODIUM_ASCORBATE, CITRIC_ACID];

/** For a product sold without the word "cured". */
export const NOT_CURED: readonly Limit[] = [
  none(
    'us-not-cured',
    'A product of this standard sold without the word "cured" holds no nitrite or nitrate.',
    FORMS.nitriteAndNitrate,
    '9 CFR 319.145(a)(4) and the standard of the product',
    {
      basis: FORMS.greenWeight,
      unit: 'ppm',
      read: 'secondary',
      note: 'Written for Italian sausage; the other standards of fresh product name no curing agent.',
    },
  ),
  none(
    'us-424.21c-no-accelerator-without-cure',
    'Ascorbate, erythorbate and their acids go in only together with a curing agent.',
    FORMS.accelerators,
    '9 CFR 424.21(c)',
    {
      basis: FORMS.greenWeight,
      unit: 'ppm',
      note: 'Without a cure the table has them for the surface of fresh beef, lamb and pork cuts alone.',
    },
  ),
];

/**
 * Cuts cured with a pickle, pumped or immersed. The rule writes pounds and ounces per 100 gal at a 10 % pump: parts
 * per million follow only for a gallon of a known weight.
 */
const DENSITY =
  'The ppm needs a pickle of 10 lb a gallon; of 8.33 lb a gallon the same pickle brings a fifth more. What is weighed decides, and the pump is reckoned on the green weight.';

export const CURING_PICKLE: readonly Limit[] = [
  {
    ...CURED,
    id: 'us-424.21c-nitrite-pickle',
    says: 'Nitrite that a pickle brings into cured cuts is at most 200 ppm of the green weight.',
    numerator: FORMS.nitrite,
    bound: 200e-6,
    read: 'secondary',
    note: `The rule, read, writes 2 lb to 100 gal pickle at 10 percent pump level; 200 is how inspectors' material works it out. ${DENSITY}`,
  },
  {
    ...CURED,
    id: 'us-424.21c-nitrate-pickle',
    says: 'Nitrate that a pickle brings into cured cuts is at most 700 ppm of the green weight.',
    numerator: FORMS.nitrate,
    bound: 700e-6,
    read: 'secondary',
    note: `The rule, read, writes 7 lb to 100 gal pickle without a pump level; 700 takes the 10 % of nitrite. ${DENSITY}`,
  },
];

/** Cuts cured dry, bacon excepted. */
export const CURING_DRY: readonly Limit[] = [
  {
    ...CURED,
    id: 'us-424.21c-nitrite-dry-cure',
    says: 'Nitrite of a dry cure is at most 625 ppm of the green weight.',
    numerator: FORMS.nitrite,
    bound: 625e-6,
    note: 'Written as 1 oz to 100 lb of product.',
  },
  {
    ...CURED,
    id: 'us-424.21c-nitrate-dry-cure',
    says: 'Nitrate of a dry cure is at most 2187 ppm of the green weight.',
    numerator: FORMS.nitrate,
    bound: 2187e-6,
    read: 'secondary',
    note: 'The rule itself, read, writes 3 1/2 oz per 100 lb (2187.5 ppm); the 2187 compared is the figure printed for inspectors, as texts quote it.',
  },
];

const ASCORBIC_ACID_CUTS: Limit = {
  ...CURED,
  id: 'us-424.21c-ascorbic-acid-cuts',
  says: 'Ascorbic or erythorbic acid in cured cuts is at most 468.75 ppm of the green weight.',
  numerator: FORMS.ascorbicAcid,
  bound: 468.75e-6,
  note: 'Written as 3/4 oz per 100 lb, which 75 oz to 100 gal of pickle at a 10 % pump equal at 10 lb a gallon.',
};

const SODIUM_ASCORBATE_CUTS: Limit = {
  ...CURED,
  id: 'us-424.21c-sodium-ascorbate-cuts',
  says: 'Sodium ascorbate or erythorbate in cured cuts is at most 546.875 ppm of the green weight.',
  numerator: FORMS.sodiumAscorbate,
  bound: 546.875e-6,
  note: 'Written as 7/8 oz per 100 lb, which 87.5 oz to 100 gal of pickle at a 10 % pump equal at 10 lb a gallon.',
};

export const ACCELERATORS_CUTS: readonly Limit[] = [ASCORBIC_ACID_CUTS, SODIUM_ASCORBATE_CUTS, CITRIC_ACID];

/** Pumped bacon takes sodium ascorbate or erythorbate at a figure of its own, 9 CFR 424.22(b)(1). */
export const ACCELERATORS_BESIDE_ASCORBATE: readonly Limit[] = [ASCORBIC_ACID_CUTS, CITRIC_ACID];

export const NITRITE_FOUND: LaboratoryLimit = {
  id: 'us-424.21c-nitrite-found-cuts',
  says: 'Nitrite found in the finished product is at most 200 ppm, as sodium nitrite.',
  citation: '9 CFR 424.21(c)',
  read: 'official',
  note: 'Nitrites, nitrates or both together must not result in more; bacon is excepted.',
};
