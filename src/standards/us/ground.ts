import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { NO_ANTIOXIDANTS, NOT_CURED } from './restricted.ts';

/** Ground and chopped beef, 9 CFR 319.15. */

const LAW = { authority: 'law', sense: 'max', unit: 'percent' } as const;

const beefOnly = (citation: string): Limit => ({
  ...LAW,
  id: 'us-319.15-beef-only',
  says: 'Only beef goes in.',
  numerator: FORMS.notBeef,
  basis: FORMS.greenWeight,
  bound: 0,
  citation,
  read: 'official',
});

const fat30 = (id: string, name: string, citation: string): Limit => ({
  ...LAW,
  id,
  says: `${name} holds at most 30 % fat.`,
  numerator: FORMS.finishedFat,
  basis: FORMS.finished,
  bound: 0.3,
  citation,
  read: 'official',
});

const CHEEK_MEAT: Limit = {
  ...LAW,
  id: 'us-319.15a-cheek-meat',
  says: 'Beef cheek meat is at most 25 % of the meat; above its natural share it is declared.',
  numerator: FORMS.cheekMeat,
  basis: FORMS.greenWeight,
  bound: 0.25,
  citation: '9 CFR 319.15(a)',
  read: 'official',
  note: '25 % of the whole, so cheek meat is at most one third of the other meat.',
};

const NO_WATER: Limit = {
  ...LAW,
  id: 'us-319.15-no-added-water',
  says: 'No water is added.',
  numerator: FORMS.waterPutIn,
  basis: FORMS.formula,
  bound: 0,
  citation: '9 CFR 319.15(a), (b)',
  read: 'official',
};

const NO_PHOSPHATE: Limit = {
  ...LAW,
  id: 'us-319.15-no-phosphate',
  says: 'No phosphate is added.',
  numerator: FORMS.phosphate,
  basis: FORMS.formula,
  bound: 0,
  citation: '9 CFR 319.15(a), (b)',
  read: 'official',
};

const NO_BINDER: Limit = {
  ...LAW,
  id: 'us-319.15-no-binder',
  says: 'No binder or extender is added.',
  numerator: FORMS.anyBinder,
  basis: FORMS.formula,
  bound: 0,
  citation: '9 CFR 319.15(a), (b)',
  read: 'official',
};

const NO_FAT_AS_SUCH: Limit = {
  ...LAW,
  id: 'us-319.15a-no-fat-as-such',
  says: 'No beef fat is added as such: the fat comes with the trimmings.',
  numerator: FORMS.fatAsSuch,
  basis: FORMS.greenWeight,
  bound: 0,
  citation: '9 CFR 319.15(a)',
  read: 'official',
};

const NO_MECHANICALLY_SEPARATED: Limit = {
  ...LAW,
  id: 'us-319.6d-no-mechanically-separated',
  says: 'No mechanically separated meat goes into ground beef or hamburger.',
  numerator: FORMS.mechanicallySeparatedMeat,
  basis: FORMS.greenWeight,
  bound: 0,
  citation: '9 CFR 319.6(d)',
  read: 'official',
};

const NO_BYPRODUCTS: Limit = {
  ...LAW,
  id: 'us-319.15-no-byproducts',
  says: 'No byproducts go in.',
  numerator: FORMS.byproducts,
  basis: FORMS.greenWeight,
  bound: 0,
  citation: '9 CFR 319.15',
  read: 'secondary',
};

const NO_ORGAN_MEAT: Limit = {
  ...LAW,
  id: 'us-319.15-no-heart-or-tongue',
  says: 'Heart and tongue meat do not go into ground beef or hamburger.',
  numerator: FORMS.organMeat,
  basis: FORMS.greenWeight,
  bound: 0,
  citation: 'agency labeling policy on ground beef and hamburger',
  read: 'from memory',
};

const NO_MECHANICALLY_SEPARATED_BEEF: Limit = {
  ...LAW,
  id: 'us-319.5b-mechanically-separated-beef',
  says: 'Mechanically separated beef is not human food.',
  numerator: FORMS.mechanicallySeparatedBeef,
  basis: FORMS.greenWeight,
  bound: 0,
  citation: '9 CFR 319.5(b)',
  read: 'official',
};

const PATTY_BINDERS_DECLARED: Limit = {
  ...LAW,
  id: 'us-319.6-mechanically-separated-share',
  says: 'Mechanically separated (species) is at most 20 % of the livestock and poultry part.',
  numerator: FORMS.mechanicallySeparated,
  basis: FORMS.greenWeight,
  bound: 0.2,
  citation: '9 CFR 319.6',
  read: 'official',
};

const GROUND_COMMON: readonly Limit[] = [
  CHEEK_MEAT,
  NO_WATER,
  NO_PHOSPHATE,
  NO_BINDER,
  NO_MECHANICALLY_SEPARATED,
  NO_BYPRODUCTS,
  NO_ORGAN_MEAT,
  NOT_CURED,
  NO_ANTIOXIDANTS,
];

export const GROUND: readonly Standard[] = [
  {
    productClass: 'ground-beef',
    says: 'Ground beef or chopped beef',
    citation: '9 CFR 319.15(a)',
    limits: [
      fat30('us-319.15a-fat', 'Ground beef', '9 CFR 319.15(a)'),
      beefOnly('9 CFR 319.15(a)'),
      NO_FAT_AS_SUCH,
      ...GROUND_COMMON,
    ],
    naming: { name: 'Ground Beef', species: 'in name', leanPair: true },
  },
  {
    productClass: 'hamburger',
    says: 'Hamburger',
    citation: '9 CFR 319.15(b)',
    limits: [
      fat30('us-319.15b-fat', 'Hamburger', '9 CFR 319.15(b)'),
      beefOnly('9 CFR 319.15(b)'),
      ...GROUND_COMMON,
    ],
    naming: { name: 'Hamburger', species: 'none', leanPair: true },
  },
  {
    productClass: 'beef-patties',
    says: 'Beef patties (no fat figure in the standard)',
    citation: '9 CFR 319.15(c)',
    limits: [
      beefOnly('9 CFR 319.15(c)'),
      PATTY_BINDERS_DECLARED,
      NO_MECHANICALLY_SEPARATED_BEEF,
      NO_PHOSPHATE,
      NOT_CURED,
      NO_ANTIOXIDANTS,
    ],
    naming: { name: 'Beef Patties', species: 'in name', leanPair: true },
  },
];
