import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { NITRITE_FOUND_COMMINUTED } from './additives.ts';
import { SAUSAGE_BINDERS } from './binders.ts';
import { ADDED_WATER, COOKED_COMMON } from './cooked-sausage.ts';
import { none, seasoningOnly } from './law.ts';

/** Braunschweiger and liver sausage, 9 CFR 319.182; added water as 319.140 names both. */

const liver = (paragraph: 'a' | 'b', product: string): Limit => ({
  ...LAW,
  id: `us-319.182${paragraph}-liver`,
  says: `Fresh liver is at least 30 % of all ingredients of ${product}.`,
  numerator: FORMS.liver,
  basis: FORMS.formula,
  sense: 'min',
  bound: 0.3,
  citation: `9 CFR 319.182(${paragraph})`,
  read: 'official',
  note: 'The rule counts the weight of the fresh livers and writes no basis; all ingredients, water included, are the stricter one.',
});

const COMMON = [ADDED_WATER, ...COOKED_COMMON, ...SAUSAGE_BINDERS];

export const LIVER_SAUSAGE: readonly Standard[] = [
  {
    productClass: 'braunschweiger',
    says: 'Braunschweiger',
    citation: '9 CFR 319.182(a)',
    cooking: ['cooked'],
    limits: [
      liver('a', 'braunschweiger'),
      none(
        'us-319.182a-pork-beef-or-veal-only',
        'Only pork, beef and veal go in, and their livers.',
        FORMS.notPorkBeefOrVeal,
        '9 CFR 319.182(a)',
      ),
      none(
        'us-319.182a-no-byproducts',
        'Of the byproducts only liver goes in, and fat.',
        FORMS.byproductsOtherThanLiver,
        '9 CFR 319.182(a)',
        { note: 'Pork and beef byproducts go into liver sausage.' },
      ),
      seasoningOnly('319.182a', '9 CFR 319.182(a)'),
      ...COMMON,
    ],
    laboratory: [NITRITE_FOUND_COMMINUTED],
    naming: { name: 'Braunschweiger', species: 'lead', leanPair: false },
  },
  {
    productClass: 'liver-sausage',
    says: 'Liver sausage or liverwurst',
    citation: '9 CFR 319.182(b)',
    cooking: ['cooked'],
    limits: [
      liver('b', 'liver sausage'),
      none(
        'us-319.182b-pork-beef-or-veal-only',
        'Only pork, beef and veal go in, and livers of these, of sheep and of goats.',
        FORMS.notForLiverSausage,
        '9 CFR 319.182(b)',
      ),
      seasoningOnly('319.182b', '9 CFR 319.182(b)'),
      ...COMMON,
    ],
    laboratory: [NITRITE_FOUND_COMMINUTED],
    naming: { name: 'Liver Sausage', species: 'lead', leanPair: false },
  },
];
