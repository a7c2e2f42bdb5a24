import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import {
  ANTIMICROBIALS,
  CURING_ACIDS,
  NITRITE_FOUND_COMMINUTED,
  PHOSPHATE_NONE,
  UNCURED,
} from './additives.ts';
import { ANTIOXIDANTS_FRESH, NONE_LISTED, TOCOPHEROLS } from './antioxidants.ts';
import { noBinder, SAUSAGE_BINDERS } from './binders.ts';
import { CURING } from './cure.ts';
import { ITALIAN } from './italian-sausage.ts';
import { finishedFat, noByproducts, none, seasoningOnly, water3Percent } from './law.ts';
import { MECHANICALLY_SEPARATED } from './mechanically-separated.ts';
import { POULTRY_AT_MOST_HALF } from './poultry.ts';

/** Sausage that is not cooked, 9 CFR 319.140 to 319.145 and 319.160. */

const fat = (section: string, name: string, percent: number) =>
  finishedFat(section, name, percent, `9 CFR ${section}`);

const porkOnly = (section: string): Limit =>
  none(`us-${section}-pork-only`, 'Only pork goes in.', FORMS.notPork, `9 CFR ${section}`);

export const UNCOOKED: readonly Limit[] = [
  water3Percent('319.140', 'uncooked sausage'),
  PHOSPHATE_NONE,
  ...MECHANICALLY_SEPARATED,
  ...ANTIMICROBIALS,
];
const FRESH = [...UNCOOKED, ...UNCURED, ...ANTIOXIDANTS_FRESH, TOCOPHEROLS];

export const UNCOOKED_SAUSAGE: readonly Standard[] = [
  {
    productClass: 'fresh-pork-sausage',
    says: 'Fresh pork sausage',
    citation: '9 CFR 319.141',
    cooking: ['raw'],
    limits: [
      fat('319.141', 'Fresh pork sausage', 50),
      porkOnly('319.141'),
      noByproducts('319.141'),
      seasoningOnly('319.141'),
      noBinder('319.141'),
      ...FRESH,
    ],
    naming: { name: 'Fresh Pork Sausage', species: 'in name', leanPair: false },
  },
  {
    productClass: 'fresh-beef-sausage',
    says: 'Fresh beef sausage',
    citation: '9 CFR 319.142',
    cooking: ['raw'],
    limits: [
      fat('319.142', 'Fresh beef sausage', 30),
      none('us-319.142-beef-only', 'Only beef goes in.', FORMS.notBeef, '9 CFR 319.142'),
      noByproducts('319.142'),
      seasoningOnly('319.142'),
      noBinder('319.142'),
      ...FRESH,
    ],
    naming: { name: 'Fresh Beef Sausage', species: 'in name', leanPair: false },
  },
  {
    productClass: 'breakfast-sausage',
    says: 'Breakfast sausage',
    citation: '9 CFR 319.143',
    cooking: ['raw'],
    limits: [
      fat('319.143', 'Breakfast sausage', 50),
      none(
        'us-319.143-no-poultry',
        'No poultry goes in: the standard names meat and its byproducts.',
        FORMS.poultry,
        '9 CFR 319.143 and 301.2',
      ),
      seasoningOnly('319.143'),
      ...SAUSAGE_BINDERS,
      ...FRESH,
    ],
    naming: { name: 'Breakfast Sausage', species: 'lead', leanPair: false },
  },
  {
    productClass: 'whole-hog-sausage',
    says: 'Whole hog sausage',
    citation: '9 CFR 319.144',
    cooking: ['raw'],
    limits: [
      fat('319.144', 'Whole hog sausage', 50),
      porkOnly('319.144'),
      none(
        'us-319.144-muscle-of-one-animal',
        'Meat goes in as it comes from one hog; single parts bought apart do not.',
        FORMS.notMuscleOfOneAnimal,
        '9 CFR 319.144',
        {
          note: 'The rule asks for the proportions of one animal, which lots of single parts cannot show; what was mechanically separated from the same hog could go in.',
        },
      ),
      seasoningOnly('319.144'),
      noBinder('319.144'),
      ...FRESH,
    ],
    naming: { name: 'Whole Hog Sausage', species: 'in name', leanPair: false },
  },
  {
    productClass: 'italian-sausage',
    says: 'Italian sausage (pork)',
    citation: '9 CFR 319.145',
    cooking: ['raw'],
    limits: [
      ...ITALIAN,
      porkOnly('319.145'),
      noByproducts('319.145'),
      seasoningOnly('319.145b', '9 CFR 319.145(b)', FORMS.notSeasoningNorPepper),
      noBinder('319.145b', '9 CFR 319.145(b)'),
      ...FRESH,
    ],
    naming: { name: 'Italian Sausage', species: 'none', leanPair: false },
  },
  {
    productClass: 'uncooked-sausage',
    says: 'Other uncooked sausage, such as fresh bratwurst',
    citation: '9 CFR 319.140',
    cooking: ['raw'],
    limits: [POULTRY_AT_MOST_HALF, ...SAUSAGE_BINDERS, ...FRESH],
    naming: { species: 'none', leanPair: false },
  },
  {
    productClass: 'smoked-pork-sausage',
    says: 'Smoked pork sausage, uncooked',
    citation: '9 CFR 319.160',
    cooking: ['raw'],
    limits: [
      fat('319.160', 'Smoked pork sausage', 50),
      porkOnly('319.160'),
      noByproducts('319.160', {
        read: 'from memory',
        note: '319.160 says only "pork sausage"; 319.141 keeps byproducts out of fresh pork sausage.',
      }),
      seasoningOnly('319.160'),
      noBinder('319.160'),
      ...CURING,
      ...CURING_ACIDS,
      ...UNCOOKED,
      ...NONE_LISTED,
    ],
    laboratory: [NITRITE_FOUND_COMMINUTED],
    naming: { name: 'Smoked Pork Sausage', species: 'in name', leanPair: false },
  },
];
