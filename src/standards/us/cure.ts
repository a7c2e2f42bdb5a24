import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW, none } from './law.ts';

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
