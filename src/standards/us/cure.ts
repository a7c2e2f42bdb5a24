import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW, none } from './law.ts';

/**
 * Curing agents and accelerators of 9 CFR 424.21(c) in chopped or ground meat. The rule writes ounces per
 * 100 lb; the bounds are the ppm as printed for inspectors. A batch is compared unrounded.
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
  note: 'Written as 1/4 oz per 100 lb (156.25 ppm) of meat, byproduct or poultry; compared with 156 as printed.',
};

const NITRATE: Limit = {
  ...CURED,
  id: 'us-424.21c-nitrate-comminuted',
  says: 'Ingoing nitrate in chopped or ground cured meat is at most 1718 ppm of the green weight.',
  numerator: FORMS.nitrate,
  bound: 1718e-6,
  note: 'Written as 2 3/4 oz per 100 lb (1718.75 ppm) of meat or poultry; compared with 1718 as printed.',
};

const ASCORBIC_ACID: Limit = {
  ...CURED,
  id: 'us-424.21c-ascorbic-acid',
  says: 'Ascorbic or erythorbic acid in cured comminuted meat is at most 469 ppm of the green weight.',
  numerator: FORMS.ascorbicAcid,
  bound: 469e-6,
  note: 'Written as 3/4 oz per 100 lb (468.75 ppm), one row for each acid; the two are added up here.',
};

const SODIUM_ASCORBATE: Limit = {
  ...CURED,
  id: 'us-424.21c-sodium-ascorbate',
  says: 'Sodium ascorbate or erythorbate in cured comminuted meat is at most 547 ppm of the green weight.',
  numerator: FORMS.sodiumAscorbate,
  bound: 547e-6,
  note: 'Written as 7/8 oz per 100 lb (546.875 ppm), one row for each salt; the two are added up here.',
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
