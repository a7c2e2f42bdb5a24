import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import {
  ANTIMICROBIALS,
  CURING_ACIDS,
  NITRITE_FOUND_COMMINUTED,
  PHOSPHATE_PRODUCT,
  UNCURED,
} from './additives.ts';
import { NONE_LISTED } from './antioxidants.ts';
import { CHILI_BINDERS, noBinder, SAUSAGE_BINDERS } from './binders.ts';
import { CURING } from './cure.ts';
import { noByproducts, none, noPoultry, seasoningOnly, water3Percent } from './law.ts';
import { MECHANICALLY_SEPARATED } from './mechanically-separated.ts';

/** Luncheon meat, meat loaf, scrapple, bockwurst and chili, 9 CFR 319.260 to 319.301. */

const COMMON: readonly Limit[] = [...MECHANICALLY_SEPARATED, ...ANTIMICROBIALS, ...NONE_LISTED];
const COOKED = [...COMMON, PHOSPHATE_PRODUCT];

/** At least so much meat of all ingredients, computed on the weight of the fresh meat. */
const leastMeat = (
  section: string,
  says: string,
  percent: number,
  note: string,
  numerator: Limit['numerator'] = FORMS.meatOfLivestock,
): Limit => ({
  ...LAW,
  id: `us-${section}-meat`,
  says,
  numerator,
  basis: FORMS.formula,
  sense: 'min',
  bound: percent / 100,
  citation: `9 CFR ${section}`,
  read: 'official',
  note,
});

const ALL_INGREDIENTS =
  'Taken of all ingredients; mechanically separated meat and fat as such are not counted.';

const chili = (section: string, productClass: string, name: string, percent: number): Standard => ({
  productClass,
  says: name,
  citation: `9 CFR ${section}`,
  cooking: ['cooked'],
  limits: [
    leastMeat(
      section,
      `Fresh meat is at least ${percent} % of ${name.toLowerCase()}.`,
      percent,
      ALL_INGREDIENTS,
    ),
    {
      ...LAW,
      id: `us-${section}-head-cheek-and-heart`,
      says: 'Head, cheek and heart meat together are at most 25 % of the meat.',
      numerator: FORMS.cheekHeadAndHeart,
      basis: FORMS.greenWeight,
      bound: 0.25,
      citation: `9 CFR ${section}`,
      read: 'official',
      note: 'Heart meat without the heart cap; the label declares them.',
    },
    noPoultry(section),
    CHILI_BINDERS,
    ...UNCURED,
    ...COOKED,
  ],
  naming: { name, species: 'none', leanPair: false },
});

export const LOAVES: readonly Standard[] = [
  {
    productClass: 'luncheon-meat',
    says: 'Luncheon meat',
    citation: '9 CFR 319.260',
    cooking: ['cooked'],
    limits: [
      water3Percent('319.260', 'luncheon meat'),
      noPoultry('319.260'),
      noByproducts('319.260', { note: 'The section names comminuted meat.' }),
      seasoningOnly('319.260'),
      noBinder('319.260'),
      ...CURING,
      ...CURING_ACIDS,
      ...COOKED,
    ],
    laboratory: [NITRITE_FOUND_COMMINUTED],
    naming: { name: 'Luncheon Meat', species: 'none', leanPair: false, impliesCure: true },
  },
  {
    productClass: 'meat-loaf',
    says: 'Meat loaf',
    citation: '9 CFR 319.261',
    cooking: ['cooked'],
    limits: [
      water3Percent('319.261', 'meat loaf'),
      noPoultry('319.261'),
      noByproducts('319.261', { note: 'The section names comminuted meat.' }),
      ...UNCURED,
      ...COOKED,
    ],
    naming: { name: 'Meat Loaf', species: 'none', leanPair: false },
  },
  {
    productClass: 'scrapple',
    says: 'Scrapple',
    citation: '9 CFR 319.280',
    cooking: ['cooked'],
    limits: [
      leastMeat(
        '319.280',
        'Fresh meat and byproducts without bone are at least 40 % of scrapple.',
        40,
        'Taken of all ingredients, water included.',
        FORMS.notPoultry,
      ),
      noPoultry('319.280'),
      ...UNCURED,
      ...COOKED,
    ],
    naming: { name: 'Scrapple', species: 'none', leanPair: false },
  },
  {
    productClass: 'bockwurst',
    says: 'Bockwurst',
    citation: '9 CFR 319.281',
    cooking: ['raw', 'cooked'],
    limits: [
      leastMeat(
        '319.281',
        'Meat is at least 70 % of bockwurst, judged on the raw mix.',
        70,
        'Pork fat is an ingredient of its own in the section and is not counted as meat, nor is mechanically separated meat.',
      ),
      none(
        'us-319.281-pork-beef-or-veal-only',
        'Only pork, veal and beef go in.',
        FORMS.notPorkBeefOrVeal,
        '9 CFR 319.281(a)(1)',
        { note: 'Pork may be left out when the name tells the species that went in.' },
      ),
      noByproducts('319.281'),
      {
        ...LAW,
        id: 'us-319.281b-corn-syrup',
        says: 'Corn syrup, its solids and glucose syrup together are at most 2 % of all ingredients, dry.',
        numerator: FORMS.cornSyrup,
        basis: FORMS.formula,
        bound: 0.02,
        citation: '9 CFR 319.281(b)(6)',
        read: 'official',
        note: 'Sugars (sucrose and dextrose) have no figure.',
      },
      ...SAUSAGE_BINDERS,
      none(
        'us-319.281-no-phosphate',
        'The section names no phosphate, so none goes in.',
        FORMS.phosphate,
        '9 CFR 319.281(a), (b)',
      ),
      ...UNCURED,
      ...COMMON,
    ],
    naming: { name: 'Bockwurst', species: 'none', leanPair: false },
  },
  chili('319.300', 'chili-con-carne', 'Chili con Carne', 40),
  chili('319.301', 'chili-con-carne-with-beans', 'Chili con Carne with Beans', 25),
];
