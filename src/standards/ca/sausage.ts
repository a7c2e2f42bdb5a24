import type { Standard } from '../../rules/standard.ts';
import { CURED, NO_SULFITE, NOT_CURED, PHOSPHATE, SLOW_CURED } from './cure.ts';
import { section } from './law.ts';
import { meatProtein, proteins, totalProtein } from './protein.ts';

/** Sausage, fresh, cooked, cured and dry, liver sausage, and what is extended with other protein. */

const AGENCY =
  'Canadian Food Inspection Agency, labelling of meat and poultry products, table of meat protein';
const FAT_NOT_FOUND = 'The most fat stands in an incorporated table that was not found; none is held here.';
const source = { citation: AGENCY, read: 'secondary', note: FAT_NOT_FOUND } as const;
const naming = { species: 'none', leanPair: false } as const;
const ONE_AND_A_HALF = 'Follows from the 1.5 points of B.14.030 and the meat protein that the agency prints.';

const FRESH = [
  totalProtein('fresh-sausage', 'Fresh sausage', 9, {
    ...source,
    note: `${ONE_AND_A_HALF} ${FAT_NOT_FOUND}`,
  }),
  meatProtein('fresh-sausage', 'Fresh sausage', 7.5, source),
];
const COOKED = [
  totalProtein('cooked-sausage', 'Cooked sausage', 11, {
    ...source,
    note: `${ONE_AND_A_HALF} ${FAT_NOT_FOUND}`,
  }),
  meatProtein('cooked-sausage', 'Cooked sausage', 9.5, source),
];

export const SAUSAGE: readonly Standard[] = [
  {
    productClass: 'fresh-sausage',
    says: 'Fresh sausage',
    citation: AGENCY,
    cooking: ['raw'],
    limits: [...FRESH, PHOSPHATE, NOT_CURED, NO_SULFITE],
    naming,
  },
  {
    productClass: 'cured-uncooked-sausage',
    says: 'Cured sausage, uncooked',
    citation: AGENCY,
    cooking: ['raw'],
    limits: [
      meatProtein('cured-uncooked-sausage', 'Cured uncooked sausage', 7.5, source),
      PHOSPHATE,
      ...CURED,
      NO_SULFITE,
    ],
    naming,
  },
  {
    productClass: 'cooked-sausage',
    says: 'Cooked sausage, cured',
    citation: AGENCY,
    cooking: ['cooked'],
    limits: [...COOKED, PHOSPHATE, ...CURED, NO_SULFITE],
    naming,
  },
  {
    productClass: 'cooked-uncured-sausage',
    says: 'Cooked sausage without a cure',
    citation: AGENCY,
    cooking: ['cooked'],
    limits: [...COOKED, PHOSPHATE, NOT_CURED, NO_SULFITE],
    naming,
  },
  {
    productClass: 'dry-sausage',
    says: 'Dry and semi-dry sausage, cured',
    citation: AGENCY,
    cooking: ['dried', 'cooked'],
    limits: [...COOKED, ...SLOW_CURED, NO_SULFITE],
    laboratory: [
      {
        id: 'ca-dry-sausage-safety',
        says: 'Acidity, drying and the control of parasites follow the process that the inspection agency accepts.',
        citation: 'Safe Food for Canadians Regulations and the preventive control plan of the plant',
        read: 'from memory',
      },
    ],
    naming,
  },
  {
    productClass: 'liver-sausage',
    says: 'Liver sausage',
    citation: AGENCY,
    cooking: ['cooked'],
    limits: [meatProtein('liver-sausage', 'Liver sausage', 9.5, source), PHOSPHATE, ...CURED, NO_SULFITE],
    naming,
  },
  {
    productClass: 'extended-fresh-sausage',
    says: 'Extended meat product like fresh sausage',
    citation: section('B.14.075'),
    cooking: ['raw'],
    limits: [
      totalProtein('extended-fresh-sausage', 'An extended product like fresh sausage', 9, {
        citation: section('B.14.075'),
        read: 'official',
      }),
      NOT_CURED,
      NO_SULFITE,
    ],
    naming,
  },
  {
    productClass: 'extended-cooked-sausage',
    says: 'Extended meat product like cooked sausage, loaf or luncheon meat',
    citation: section('B.14.076'),
    cooking: ['cooked'],
    limits: [
      totalProtein('extended-cooked-sausage', 'An extended product like cooked sausage', 11, {
        citation: section('B.14.076'),
        read: 'official',
      }),
      PHOSPHATE,
      ...CURED,
      NO_SULFITE,
    ],
    naming,
  },
  {
    productClass: 'meat-balls',
    says: 'Meat balls, croquettes and steakettes with filler',
    citation: section('B.14.040'),
    cooking: ['raw'],
    limits: [
      ...proteins('meat-balls', 'A ground meat product with filler', 13, 'B.14.040(a)'),
      PHOSPHATE,
      NOT_CURED,
      NO_SULFITE,
    ],
    naming,
  },
];
