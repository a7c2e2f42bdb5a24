import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import {
  ANTIMICROBIALS,
  CURING_ACIDS,
  FRANKFURTER_ACIDS,
  NITRITE_FOUND_COMMINUTED,
  PHOSPHATE_COOKED,
  SORBITOL,
} from './additives.ts';
import { NONE_LISTED } from './antioxidants.ts';
import { CHEESEFURTER_BINDERS, SAUSAGE_BINDERS } from './binders.ts';
import { CURING } from './cure.ts';
import { finishedFat, none, seasoningOnly } from './law.ts';
import { MECHANICALLY_SEPARATED } from './mechanically-separated.ts';
import { POULTRY_AT_MOST_HALF, POULTRY_SKIN } from './poultry.ts';

/**
 * Cooked sausage, 9 CFR 319.140, 319.180 and 319.181. Added water follows 318.22: moisture less four times the protein,
 * where protein that is not of meat counts up to one percent of the product.
 */

const OF_FINISHED = { ...LAW, basis: FORMS.finished, read: 'official' } as const;

export const ADDED_WATER: Limit = {
  ...OF_FINISHED,
  id: 'us-319.140-added-water',
  says: 'Added water in cooked sausage is at most 10 % of the finished product.',
  numerator: FORMS.addedWater,
  bound: 0.1,
  citation: '9 CFR 319.140 and 318.22',
};

const fatAndAddedWater = (section: string, citation: string): Limit => ({
  ...OF_FINISHED,
  id: `us-${section}-fat-and-added-water`,
  says: 'Fat and added water together are at most 40 % of the finished product.',
  numerator: FORMS.fatAndAddedWater,
  bound: 0.4,
  citation: `${citation} and 318.22`,
});

const BYPRODUCTS = 'It needs "with byproducts" or "with variety meats" in the name.';

/** Before fat could give way to water: kept beside the rule of today, since old sheets were made under it. */
const ADDED_WATER_BEFORE_1988: Limit = {
  ...ADDED_WATER,
  id: 'us-319.180a-added-water-1988',
  says: 'Added water in a frankfurter is at most 10 % of the finished product.',
  citation: '9 CFR 319.180(a), text before 1988',
  read: 'secondary',
  inForce: { until: '1988-04-14' },
  note: 'Replaced by 40 % of fat and added water together; the day as a newspaper of 24 March 1988 gives it.',
};

const FRANKFURTER: readonly Limit[] = [
  finishedFat('319.180a', 'A frankfurter, bologna or similar sausage', 30, '9 CFR 319.180(a)'),
  ADDED_WATER_BEFORE_1988,
  { ...fatAndAddedWater('319.180a', '9 CFR 319.180(a)'), inForce: { from: '1988-04-14' } },
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

const SECTION_B = '9 CFR 319.180(b)';

/** Frankfurters "with byproducts" or "with variety meats". */
const WITH_BYPRODUCTS: readonly Limit[] = [
  finishedFat('319.180b', 'A frankfurter with byproducts', 30, SECTION_B),
  fatAndAddedWater('319.180b', SECTION_B),
  {
    ...LAW,
    id: 'us-319.180b-skeletal-meat',
    says: 'Skeletal muscle meat of livestock is at least 15 % of all ingredients.',
    numerator: FORMS.skeletalMeatOfLivestock,
    basis: FORMS.formula,
    sense: 'min',
    bound: 0.15,
    citation: SECTION_B,
    read: 'official',
    note: 'The paragraph writes no basis; taken of the whole sausage, the stricter reading.',
  },
  {
    ...LAW,
    id: 'us-319.180b-defatted-tissue',
    says: 'Partially defatted tissue is at most 15 % of the meat, byproducts and poultry.',
    numerator: FORMS.defattedTissue,
    basis: FORMS.greenWeight,
    bound: 0.15,
    citation: SECTION_B,
    read: 'official',
  },
  {
    ...LAW,
    id: 'us-319.180b-poultry',
    says: 'Poultry products are at most 15 % of all ingredients less water, ice and the water of liquids.',
    numerator: FORMS.poultry,
    basis: FORMS.formulaWithoutWater,
    bound: 0.15,
    citation: SECTION_B,
    read: 'official',
    note: 'Without kidneys and sex glands.',
  },
  POULTRY_SKIN,
  none(
    'us-319.180g-no-liver-or-skin',
    'Liver and skin of livestock are not among the variety meats of this class.',
    FORMS.liverOrSkinOfLivestock,
    '9 CFR 319.180(b), (g)',
    { note: 'The list is closed: kidneys and other parts outside it are not told apart by their kind.' },
  ),
  seasoningOnly('319.180b', '9 CFR 319.180(b), (e)'),
];

const CHEESEFURTER = '9 CFR 319.181';

const CHEESEFURTERS: readonly Limit[] = [
  finishedFat('319.181', 'A cheesefurter', 30, CHEESEFURTER),
  fatAndAddedWater('319.181', CHEESEFURTER),
  {
    ...LAW,
    id: 'us-319.181-cheese',
    says: 'A cheesefurter holds cheese.',
    numerator: FORMS.cheese,
    basis: FORMS.formula,
    sense: 'present',
    bound: 0,
    citation: CHEESEFURTER,
    read: 'official',
    note: 'Enough to give definite characteristics: the rule has no figure.',
  },
];

/** What the provisions for cooked sausage share, the binders apart. */
export const COOKED_COMMON: readonly Limit[] = [
  ...CURING,
  ...CURING_ACIDS,
  PHOSPHATE_COOKED,
  ...MECHANICALLY_SEPARATED,
  ...ANTIMICROBIALS,
  ...NONE_LISTED,
];
const COOKED = [...COOKED_COMMON, ...SAUSAGE_BINDERS];
const LABORATORY = [NITRITE_FOUND_COMMINUTED];

export const COOKED_SAUSAGE: readonly Standard[] = [
  {
    productClass: 'frankfurter',
    says: 'Frankfurter, bologna, knockwurst and similar cooked sausage',
    citation: '9 CFR 319.180(a)',
    cooking: ['cooked'],
    limits: [...FRANKFURTER, ...COOKED, ...FRANKFURTER_ACIDS, SORBITOL],
    laboratory: LABORATORY,
    naming: { name: 'Frankfurter', species: 'lead', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'frankfurter-with-byproducts',
    says: 'Frankfurter, bologna, knockwurst and similar cooked sausage, with byproducts',
    citation: SECTION_B,
    cooking: ['cooked'],
    limits: [...WITH_BYPRODUCTS, ...COOKED, ...FRANKFURTER_ACIDS, SORBITOL],
    laboratory: LABORATORY,
    naming: { name: 'Frankfurter with Byproducts', species: 'none', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'cheesefurter',
    says: 'Cheesefurter and similar products',
    citation: CHEESEFURTER,
    cooking: ['cooked'],
    limits: [
      ...CHEESEFURTERS,
      POULTRY_AT_MOST_HALF,
      ...COOKED_COMMON,
      ...CHEESEFURTER_BINDERS,
      ...FRANKFURTER_ACIDS,
    ],
    laboratory: LABORATORY,
    naming: { name: 'Cheesefurter', species: 'none', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'cooked-sausage',
    says: 'Other cooked sausage, such as smoked sausage',
    citation: '9 CFR 319.140',
    cooking: ['cooked'],
    limits: [ADDED_WATER, POULTRY_AT_MOST_HALF, ...COOKED],
    laboratory: LABORATORY,
    naming: { species: 'none', leanPair: false },
  },
];
