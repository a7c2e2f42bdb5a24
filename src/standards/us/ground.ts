import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { ANTIMICROBIALS, PHOSPHATE_PATTIES, UNCURED } from './additives.ts';
import { NONE_LISTED } from './antioxidants.ts';
import { finishedFat, none, seasoningOnly } from './law.ts';
import { MECHANICALLY_SEPARATED, NO_MECHANICALLY_SEPARATED } from './mechanically-separated.ts';

/** Ground and chopped beef, 9 CFR 319.15. */

const BOTH = '9 CFR 319.15(a), (b)';
const OF_MEAT = { basis: FORMS.greenWeight };

const BEEF_ONLY = none(
  'us-319.15-beef-only',
  'Only beef goes in.',
  FORMS.notBeef,
  '9 CFR 319.15(a), (b), (c)',
  OF_MEAT,
);

const SEASONING_ONLY = seasoningOnly('319.15', '9 CFR 319.15(a), (b), (c)');

export const CHEEK_MEAT: Limit = {
  ...LAW,
  id: 'us-319.15a-cheek-meat',
  says: 'Beef cheek meat is at most 25 % of the meat; above its natural share it is declared.',
  numerator: FORMS.cheekMeat,
  basis: FORMS.greenWeight,
  bound: 0.25,
  citation: '9 CFR 319.15(a)',
  read: 'official',
  note: 'The rule says 25 percent and no more; taken of all the meat, so cheek meat is a third of the other meat.',
};

const GROUND_COMMON: readonly Limit[] = [
  BEEF_ONLY,
  CHEEK_MEAT,
  SEASONING_ONLY,
  none(
    'us-319.15-no-added-water',
    'No water is added, and no liquid that brings water.',
    FORMS.waterPutIn,
    BOTH,
  ),
  none('us-319.15-no-phosphate', 'No phosphate is added.', FORMS.phosphate, BOTH),
  none('us-319.15-no-binder', 'No binder or extender is added.', FORMS.anyBinder, BOTH),
  none(
    'us-319.15-no-antimicrobial',
    'No antimicrobial is added: the standard names beef and seasoning.',
    FORMS.antimicrobials,
    '9 CFR 319.15(a), (b) and 319.1(b)',
    { note: '319.1(b) lets antimicrobials into a standard only where it already permits them.' },
  ),
  NO_MECHANICALLY_SEPARATED,
  none(
    'us-319.15-no-byproducts',
    'No byproducts go in.',
    FORMS.byproducts,
    '9 CFR 319.15(a), (b), (e) and 301.2',
    { ...OF_MEAT, note: 'The standard names beef; a byproduct is by definition not meat.' },
  ),
  none(
    'us-319.15-no-heart-or-tongue',
    'Heart and tongue meat do not go into ground beef or hamburger.',
    FORMS.organMeat,
    'agency labeling policy on ground beef and hamburger',
    {
      ...OF_MEAT,
      read: 'from memory',
      note: '9 CFR 301.2 counts the muscle of heart and tongue as meat: it is the policy that keeps them out.',
    },
  ),
  ...UNCURED,
  ...NONE_LISTED,
];

export const GROUND: readonly Standard[] = [
  {
    productClass: 'ground-beef',
    says: 'Ground beef or chopped beef',
    citation: '9 CFR 319.15(a)',
    cooking: ['raw'],
    limits: [
      finishedFat('319.15a', 'Ground beef', 30, '9 CFR 319.15(a)'),
      none(
        'us-319.15a-no-fat-as-such',
        'No beef fat is added as such: the fat comes with the trimmings.',
        FORMS.fatAsSuch,
        '9 CFR 319.15(a)',
        OF_MEAT,
      ),
      ...GROUND_COMMON,
    ],
    naming: { name: 'Ground Beef', species: 'in name', leanPair: true },
  },
  {
    productClass: 'hamburger',
    says: 'Hamburger',
    citation: '9 CFR 319.15(b)',
    cooking: ['raw'],
    limits: [finishedFat('319.15b', 'Hamburger', 30, '9 CFR 319.15(b)'), ...GROUND_COMMON],
    naming: { name: 'Hamburger', species: 'none', leanPair: true },
  },
  {
    productClass: 'beef-patties',
    says: 'Beef patties (no fat figure in the standard)',
    citation: '9 CFR 319.15(c)',
    cooking: ['raw'],
    limits: [
      BEEF_ONLY,
      SEASONING_ONLY,
      none(
        'us-319.15c-no-byproducts',
        'Of the byproducts only partially defatted beef fatty tissue goes in.',
        FORMS.byproductsOtherThanDefattedTissue,
        '9 CFR 319.15(c) and 301.2',
        OF_MEAT,
      ),
      ...MECHANICALLY_SEPARATED,
      PHOSPHATE_PATTIES,
      ...ANTIMICROBIALS,
      ...UNCURED,
      ...NONE_LISTED,
    ],
    naming: { name: 'Beef Patties', species: 'in name', leanPair: true },
  },
];
