import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { ANTIMICROBIALS, PHOSPHATE_COOKED } from './additives.ts';
import { NO_ANTIOXIDANTS } from './antioxidants.ts';
import { SAUSAGE_BINDERS } from './binders.ts';
import { CURING } from './cure.ts';
import { finishedFat, LAW, none, seasoningOnly } from './law.ts';
import { MECHANICALLY_SEPARATED } from './mechanically-separated.ts';
import { POULTRY_AT_MOST_HALF } from './poultry.ts';

/**
 * Cooked sausage, 9 CFR 319.140 and 319.180. Added water follows 318.22: moisture less four times the protein,
 * where protein that is not of meat counts up to one percent of the product.
 */

const OF_FINISHED = { ...LAW, basis: FORMS.finished, read: 'official' } as const;

const ADDED_WATER: Limit = {
  ...OF_FINISHED,
  id: 'us-319.140-added-water',
  says: 'Added water in cooked sausage is at most 10 % of the finished product.',
  numerator: FORMS.addedWater,
  bound: 0.1,
  citation: '9 CFR 319.140 and 318.22',
};

const FAT_AND_ADDED_WATER: Limit = {
  ...OF_FINISHED,
  id: 'us-319.180a-fat-and-added-water',
  says: 'Fat and added water together are at most 40 % of the finished product.',
  numerator: FORMS.fatAndAddedWater,
  bound: 0.4,
  citation: '9 CFR 319.180(a) and 318.22',
};

const BYPRODUCTS = 'It needs "with byproducts" or "with variety meats" in the name.';

const FRANKFURTER: readonly Limit[] = [
  finishedFat('319.180a', 'A frankfurter, bologna or similar sausage', 30, '9 CFR 319.180(a)'),
  FAT_AND_ADDED_WATER,
  {
    ...LAW,
    id: 'us-319.180a-poultry',
    says: 'Poultry is at most 15 % of all ingredients less water, ice and the water of liquids.',
    numerator: FORMS.poultry,
    basis: FORMS.formulaWithoutWater,
    bound: 0.15,
    citation: '9 CFR 319.180(a)',
    read: 'official',
  },
  none(
    'us-319.180g-no-poultry-skin',
    'Poultry in this class is deboned meat without skin or added fat.',
    FORMS.poultrySkinAndFat,
    '9 CFR 319.180(a), (g)',
  ),
  none(
    'us-319.180a-no-byproducts',
    'Byproducts need "with byproducts" or "with variety meats" in the name.',
    FORMS.byproducts,
    '9 CFR 319.180(a), (b)',
  ),
  none(
    'us-319.180g-no-heart-or-tongue',
    'Heart and tongue are variety meats in this class.',
    FORMS.organMeat,
    '9 CFR 319.180(a), (g)',
    { note: BYPRODUCTS },
  ),
  none(
    'us-319.180g-no-fat-as-such',
    'Fat added as such is a byproduct in this class: the fat comes with the muscle.',
    FORMS.fatAsSuch,
    '9 CFR 319.180(a), (g)',
    { note: BYPRODUCTS },
  ),
  seasoningOnly('319.180a', '9 CFR 319.180(a), (e)'),
];

const COOKED: readonly Limit[] = [
  ...CURING,
  PHOSPHATE_COOKED,
  ...SAUSAGE_BINDERS,
  ...MECHANICALLY_SEPARATED,
  ...ANTIMICROBIALS,
  NO_ANTIOXIDANTS,
];

export const COOKED_SAUSAGE: readonly Standard[] = [
  {
    productClass: 'frankfurter',
    says: 'Frankfurter, bologna, knockwurst and similar cooked sausage',
    citation: '9 CFR 319.180(a)',
    cooking: ['cooked'],
    limits: [...FRANKFURTER, ...COOKED],
    naming: { name: 'Frankfurter', species: 'lead', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'cooked-sausage',
    says: 'Other cooked sausage, such as smoked sausage',
    citation: '9 CFR 319.140',
    cooking: ['cooked'],
    limits: [ADDED_WATER, POULTRY_AT_MOST_HALF, ...COOKED],
    naming: { species: 'none', leanPair: false },
  },
];
