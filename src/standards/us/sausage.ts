import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import {
  ANTIMICROBIALS,
  ANTIOXIDANTS_FRESH,
  CURING,
  NO_ANTIOXIDANTS,
  NOT_CURED,
  PHOSPHATE_COOKED,
  PHOSPHATE_NONE,
  SAUSAGE_BINDERS,
} from './restricted.ts';

/** Sausage, 9 CFR 319 subparts E to G. */

const LAW = { authority: 'law', sense: 'max', unit: 'percent' } as const;

const fat = (section: string, name: string, bound: number, read: Limit['read'] = 'official'): Limit => ({
  ...LAW,
  id: `us-${section}-fat`,
  says: `${name} holds at most ${bound * 100} % fat.`,
  numerator: FORMS.finishedFat,
  basis: FORMS.finished,
  bound,
  citation: `9 CFR ${section}`,
  read,
});

const none = (
  id: string,
  says: string,
  numerator: Limit['numerator'],
  citation: string,
  read: Limit['read'] = 'official',
): Limit => ({
  ...LAW,
  id,
  says,
  numerator,
  basis: FORMS.formula,
  bound: 0,
  citation,
  read,
});

const WATER_3_PERCENT: Limit = {
  ...LAW,
  id: 'us-319.140-water',
  says: 'Water or ice put into uncooked sausage is at most 3 % of all ingredients, the water included.',
  numerator: FORMS.waterPutIn,
  basis: FORMS.formula,
  bound: 0.03,
  citation: '9 CFR 319.140',
  read: 'official',
};

const MECHANICALLY_SEPARATED: readonly Limit[] = [
  {
    ...LAW,
    id: 'us-319.6-mechanically-separated-share',
    says: 'Mechanically separated (species) is at most 20 % of the livestock and poultry part.',
    numerator: FORMS.mechanicallySeparated,
    basis: FORMS.greenWeight,
    bound: 0.2,
    citation: '9 CFR 319.6',
    read: 'official',
  },
  none(
    'us-319.5b-mechanically-separated-beef',
    'Mechanically separated beef is not human food.',
    FORMS.mechanicallySeparatedBeef,
    '9 CFR 319.5(b)',
  ),
];

const noBinder = (section: string): Limit =>
  none(
    `us-${section}-no-binder`,
    'The standard names no binder or extender, so none goes in.',
    FORMS.anyBinder,
    `9 CFR ${section}`,
  );

const noByproducts = (section: string, read: Limit['read'] = 'official'): Limit =>
  none(`us-${section}-no-byproducts`, 'No byproducts go in.', FORMS.byproducts, `9 CFR ${section}`, read);

const porkOnly = (section: string): Limit =>
  none(`us-${section}-pork-only`, 'Only pork goes in.', FORMS.notPork, `9 CFR ${section}`);

const UNCOOKED: readonly Limit[] = [
  WATER_3_PERCENT,
  PHOSPHATE_NONE,
  ...MECHANICALLY_SEPARATED,
  ...ANTIMICROBIALS,
];
const FRESH: readonly Limit[] = [...UNCOOKED, NOT_CURED, ...ANTIOXIDANTS_FRESH];

const present = (name: string, numerator: Limit['numerator']): Limit => ({
  id: `us-319.145a-${name}`,
  says: `Italian sausage holds ${numerator.says}.`,
  numerator,
  basis: FORMS.formula,
  sense: 'present',
  bound: 0,
  unit: 'percent',
  authority: 'law',
  citation: '9 CFR 319.145(a)',
  read: 'official',
});

const ITALIAN: readonly Limit[] = [
  {
    ...LAW,
    id: 'us-319.145a-meat',
    says: 'Meat, or meat and fat, is at least 85 % of Italian sausage.',
    numerator: FORMS.meatOrFat,
    basis: FORMS.formula,
    sense: 'min',
    bound: 0.85,
    citation: '9 CFR 319.145(a)',
    read: 'official',
  },
  {
    ...LAW,
    id: 'us-319.145a-fat',
    says: 'Italian sausage holds at most 35 % fat, judged on the raw mix.',
    numerator: FORMS.fat,
    basis: FORMS.formula,
    bound: 0.35,
    citation: '9 CFR 319.145(a)',
    read: 'official',
  },
  present('salt', FORMS.saltPutIn),
  present('pepper', FORMS.pepper),
  present('fennel-or-anise', FORMS.fennelOrAnise),
];

const COOKED: readonly Limit[] = [
  ...CURING,
  PHOSPHATE_COOKED,
  ...SAUSAGE_BINDERS,
  ...MECHANICALLY_SEPARATED,
  ...ANTIMICROBIALS,
  NO_ANTIOXIDANTS,
];

const FRANKFURTER: readonly Limit[] = [
  fat('319.180(a)', 'A frankfurter, bologna or similar sausage', 0.3),
  {
    ...LAW,
    id: 'us-319.180a-fat-and-added-water',
    says: 'Fat and added water together are at most 40 % of the finished product.',
    numerator: FORMS.fatAndAddedWater,
    basis: FORMS.finished,
    bound: 0.4,
    citation: '9 CFR 319.180(a)',
    read: 'official',
    note: 'Added water is the moisture of the finished product less four times its meat protein (read in a secondary text).',
  },
  {
    ...LAW,
    id: 'us-319.180a-poultry',
    says: 'Poultry is at most 15 % of all ingredients less water and ice.',
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
    '9 CFR 319.180(g)',
  ),
  none(
    'us-319.180a-no-byproducts',
    'Byproducts need "with byproducts" or "with variety meats" in the name.',
    FORMS.byproducts,
    '9 CFR 319.180(a), (b)',
  ),
];

const OTHER_COOKED: readonly Limit[] = [
  {
    ...LAW,
    id: 'us-319.140-added-water',
    says: 'Added water in cooked sausage is at most 10 % of the finished product.',
    numerator: FORMS.addedWater,
    basis: FORMS.finished,
    bound: 0.1,
    citation: '9 CFR 319.140',
    read: 'official',
    note: 'Added water is the moisture of the finished product less four times its meat protein (read in a secondary text).',
  },
];

export const SAUSAGE: readonly Standard[] = [
  {
    productClass: 'fresh-pork-sausage',
    says: 'Fresh pork sausage',
    citation: '9 CFR 319.141',
    limits: [
      fat('319.141', 'Fresh pork sausage', 0.5),
      porkOnly('319.141'),
      noByproducts('319.141'),
      noBinder('319.141'),
      ...FRESH,
    ],
    naming: { name: 'Fresh Pork Sausage', species: 'in name', leanPair: false },
  },
  {
    productClass: 'fresh-beef-sausage',
    says: 'Fresh beef sausage',
    citation: '9 CFR 319.142',
    limits: [
      fat('319.142', 'Fresh beef sausage', 0.3, 'secondary'),
      none('us-319.142-beef-only', 'Only beef goes in.', FORMS.notBeef, '9 CFR 319.142', 'secondary'),
      noByproducts('319.142', 'secondary'),
      noBinder('319.142'),
      ...FRESH,
    ],
    naming: { name: 'Fresh Beef Sausage', species: 'in name', leanPair: false },
  },
  {
    productClass: 'breakfast-sausage',
    says: 'Breakfast sausage',
    citation: '9 CFR 319.143',
    limits: [fat('319.143', 'Breakfast sausage', 0.5), ...SAUSAGE_BINDERS, ...FRESH],
    naming: { name: 'Breakfast Sausage', species: 'lead', leanPair: false },
  },
  {
    productClass: 'whole-hog-sausage',
    says: 'Whole hog sausage',
    citation: '9 CFR 319.144',
    limits: [
      fat('319.144', 'Whole hog sausage', 0.5),
      porkOnly('319.144'),
      none(
        'us-319.144-muscle-of-one-animal',
        'Muscle tissue goes in as it comes from one hog; single variety parts do not.',
        FORMS.notMuscleOfOneAnimal,
        '9 CFR 319.144',
      ),
      noBinder('319.144'),
      ...FRESH,
    ],
    naming: { name: 'Whole Hog Sausage', species: 'in name', leanPair: false },
  },
  {
    productClass: 'italian-sausage',
    says: 'Italian sausage (pork)',
    citation: '9 CFR 319.145',
    limits: [...ITALIAN, porkOnly('319.145'), noByproducts('319.145'), noBinder('319.145(b)'), ...FRESH],
    naming: { name: 'Italian Sausage', species: 'none', leanPair: false },
  },
  {
    productClass: 'uncooked-sausage',
    says: 'Other uncooked sausage, such as fresh bratwurst',
    citation: '9 CFR 319.140',
    limits: [...SAUSAGE_BINDERS, ...FRESH],
    naming: { species: 'none', leanPair: false },
  },
  {
    productClass: 'smoked-pork-sausage',
    says: 'Smoked pork sausage, uncooked',
    citation: '9 CFR 319.160',
    limits: [
      fat('319.160', 'Smoked pork sausage', 0.5),
      porkOnly('319.160'),
      noByproducts('319.160', 'from memory'),
      noBinder('319.160'),
      ...CURING,
      ...UNCOOKED,
      NO_ANTIOXIDANTS,
    ],
    naming: { name: 'Smoked Pork Sausage', species: 'in name', leanPair: false },
  },
  {
    productClass: 'frankfurter',
    says: 'Frankfurter, bologna, knockwurst and similar cooked sausage',
    citation: '9 CFR 319.180(a)',
    limits: [...FRANKFURTER, ...COOKED],
    naming: { name: 'Frankfurter', species: 'lead', leanPair: false },
  },
  {
    productClass: 'cooked-sausage',
    says: 'Other cooked sausage, such as smoked sausage',
    citation: '9 CFR 319.140',
    limits: [...OTHER_COOKED, ...COOKED],
    naming: { species: 'none', leanPair: false },
  },
];
