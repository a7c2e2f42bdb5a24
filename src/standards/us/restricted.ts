import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';

/**
 * Restricted ingredients of 9 CFR 424.21(c). Bounds are the figures as printed for inspectors; the ounces per
 * 100 lb they come from stand in the note. A batch is compared unrounded.
 */

const LAW = { authority: 'law', sense: 'max' } as const;
const CURED = { ...LAW, unit: 'ppm', basis: FORMS.greenWeight, citation: '9 CFR 424.21(c)' } as const;

export const NITRITE_COMMINUTED: Limit = {
  ...CURED,
  id: 'us-424.21c-nitrite-comminuted',
  says: 'Ingoing nitrite in chopped or ground cured meat is at most 156 ppm of the green weight.',
  numerator: FORMS.nitrite,
  bound: 156e-6,
  read: 'official',
  note: 'Written as 1/4 oz per 100 lb (156.25 ppm) of meat; compared with 156 as printed.',
};

export const NITRATE_COMMINUTED: Limit = {
  ...CURED,
  id: 'us-424.21c-nitrate-comminuted',
  says: 'Ingoing nitrate in chopped or ground cured meat is at most 1718 ppm of the green weight.',
  numerator: FORMS.nitrate,
  bound: 1718e-6,
  read: 'secondary',
  note: 'Written as 2 3/4 oz per 100 lb (1718.75 ppm) of meat; compared with 1718 as printed.',
};

export const ASCORBIC_ACID: Limit = {
  ...CURED,
  id: 'us-424.21c-ascorbic-acid',
  says: 'Ascorbic or erythorbic acid in cured comminuted meat is at most 469 ppm of the green weight.',
  numerator: FORMS.ascorbicAcid,
  bound: 469e-6,
  read: 'from memory',
  note: '3/4 oz per 100 lb of meat (468.75 ppm).',
};

export const SODIUM_ASCORBATE: Limit = {
  ...CURED,
  id: 'us-424.21c-sodium-ascorbate',
  says: 'Sodium ascorbate or erythorbate in cured comminuted meat is at most 547 ppm of the green weight.',
  numerator: FORMS.sodiumAscorbate,
  bound: 547e-6,
  read: 'from memory',
  note: '7/8 oz per 100 lb of meat (546.875 ppm).',
};

export const CURING: readonly Limit[] = [
  NITRITE_COMMINUTED,
  NITRATE_COMMINUTED,
  ASCORBIC_ACID,
  SODIUM_ASCORBATE,
];

export const PHOSPHATE_COOKED: Limit = {
  ...LAW,
  id: 'us-424.21c-phosphate',
  says: 'Phosphates in cooked sausage are at most 0.5 % of the finished product.',
  numerator: FORMS.phosphate,
  basis: FORMS.finished,
  bound: 0.005,
  unit: 'percent',
  citation: '9 CFR 424.21(c)',
  read: 'from memory',
};

export const PHOSPHATE_NONE: Limit = {
  ...LAW,
  id: 'us-319.140-no-phosphate',
  says: 'Phosphates are permitted in cooked sausage only.',
  numerator: FORMS.phosphate,
  basis: FORMS.formula,
  bound: 0,
  unit: 'percent',
  citation: '9 CFR 319.140',
  read: 'official',
};

export const BINDERS_SAUSAGE: Limit = {
  ...LAW,
  id: 'us-424.21c-binders',
  says: 'Binders and extenders, alone or together, are at most 3.5 % of the finished sausage; 2 % of isolated soy protein or sodium caseinate counts as 3.5 %.',
  numerator: FORMS.binder,
  basis: FORMS.finished,
  bound: 0.035,
  unit: 'percent',
  citation: '9 CFR 319.140 (earlier text) and 424.21(c)',
  read: 'secondary',
};

export const ISOLATED_SOY_SAUSAGE: Limit = {
  ...LAW,
  id: 'us-424.21c-isolated-soy',
  says: 'Isolated soy protein is at most 2 % of the finished sausage.',
  numerator: FORMS.isolatedSoy,
  basis: FORMS.finished,
  bound: 0.02,
  unit: 'percent',
  citation: '9 CFR 319.140 (earlier text) and 424.21(c)',
  read: 'secondary',
};

export const CASEINATE_SAUSAGE: Limit = {
  ...LAW,
  id: 'us-424.21c-caseinate',
  says: 'Sodium caseinate is at most 2 % of the finished sausage.',
  numerator: FORMS.caseinate,
  basis: FORMS.finished,
  bound: 0.02,
  unit: 'percent',
  citation: '9 CFR 424.21(c)',
  read: 'from memory',
};

export const SAUSAGE_BINDERS: readonly Limit[] = [BINDERS_SAUSAGE, ISOLATED_SOY_SAUSAGE, CASEINATE_SAUSAGE];

export const ANTIMICROBIALS: readonly Limit[] = [
  {
    ...LAW,
    id: 'us-424.21c-lactate',
    says: 'Sodium and potassium lactate are at most 4.8 % of the formula.',
    numerator: FORMS.lactate,
    basis: FORMS.formula,
    bound: 0.048,
    unit: 'percent',
    citation: '9 CFR 424.21(c)',
    read: 'from memory',
  },
  {
    ...LAW,
    id: 'us-424.21c-diacetate',
    says: 'Sodium diacetate is at most 0.25 % of the formula.',
    numerator: FORMS.diacetate,
    basis: FORMS.formula,
    bound: 0.0025,
    unit: 'percent',
    citation: '9 CFR 424.21(c)',
    read: 'from memory',
  },
];

const OF_FAT = {
  ...LAW,
  basis: FORMS.fat,
  unit: 'ppm',
  citation: '9 CFR 424.21(c)',
} as const;

/** Antioxidants of fresh sausage are measured against the fat, not against the product. */
export const ANTIOXIDANTS_FRESH: readonly Limit[] = [
  ...(
    [
      ['bha', 'BHA', FORMS.BHA, 'secondary'],
      ['bht', 'BHT', FORMS.BHT, 'secondary'],
      ['propyl-gallate', 'Propyl gallate', FORMS.propylGallate, 'secondary'],
      ['tbhq', 'TBHQ', FORMS.TBHQ, 'from memory'],
    ] as const
  ).map(
    ([name, says, numerator, read]): Limit => ({
      ...OF_FAT,
      id: `us-424.21c-${name}-fresh-sausage`,
      says: `${says} in fresh sausage is at most 0.01 % of the fat content.`,
      numerator,
      bound: 100e-6,
      read,
    }),
  ),
  {
    ...OF_FAT,
    id: 'us-424.21c-antioxidants-fresh-sausage',
    says: 'Antioxidants together in fresh sausage are at most 0.02 % of the fat content.',
    numerator: FORMS.antioxidants,
    bound: 200e-6,
    read: 'secondary',
  },
];

export const NO_ANTIOXIDANTS: Limit = {
  ...LAW,
  id: 'us-no-antioxidants',
  says: 'This standard names no antioxidant.',
  numerator: FORMS.antioxidants,
  basis: FORMS.formula,
  bound: 0,
  unit: 'ppm',
  citation: '9 CFR 424.21(c)',
  read: 'from memory',
  note: 'Permitted uses are listed product by product; ask the inspector before using one here.',
};

/** For a product sold without the word "cured". */
export const NOT_CURED: Limit = {
  ...LAW,
  id: 'us-not-cured',
  says: 'A product of this standard sold without the word "cured" holds no nitrite or nitrate.',
  numerator: FORMS.nitriteAndNitrate,
  basis: FORMS.greenWeight,
  bound: 0,
  unit: 'ppm',
  citation: '9 CFR 317.17 and the standard of the product',
  read: 'secondary',
};
