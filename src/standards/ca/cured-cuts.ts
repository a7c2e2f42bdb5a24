import { FORMS } from '../../rules/forms.ts';
import type { Standard } from '../../rules/standard.ts';
import { CURED, NO_SULFITE, PHOSPHATE, SIDE_BACON_NITRITE, SLOW_CURED } from './cure.ts';
import { none, section } from './law.ts';
import { meatProtein } from './protein.ts';

/** Solid cuts with something added, and side bacon. */

const naming = { species: 'none', leanPair: false } as const;
const SOLID_CUT =
  'Bone and visible fat are not counted. A solid cut is a whole cut, or at least 80 % pieces of 25 g or more. At retail the name carries the least percent of meat protein.';
const source = { citation: section('B.14.021'), read: 'official', note: SOLID_CUT } as const;
const PORK_ONLY = none(
  'ca-side-bacon-pork-only',
  'Side bacon is of pork.',
  FORMS.notPork,
  section('B.14.021'),
  {
    read: 'from memory',
  },
);

export const CURED_CUTS: readonly Standard[] = [
  {
    productClass: 'cured-cut-uncooked',
    says: 'Cured solid cut, uncooked',
    citation: section('B.14.021'),
    cooking: ['raw'],
    limits: [
      meatProtein('solid-cut-uncooked', 'An uncooked solid cut', 10, source),
      PHOSPHATE,
      ...CURED,
      NO_SULFITE,
    ],
    naming,
  },
  {
    productClass: 'cured-cut-cooked',
    says: 'Cured solid cut, cooked, such as ham',
    citation: section('B.14.021'),
    cooking: ['cooked'],
    limits: [
      meatProtein('solid-cut-cooked', 'A cooked solid cut', 12, source),
      PHOSPHATE,
      ...CURED,
      NO_SULFITE,
    ],
    naming,
  },
  {
    productClass: 'slow-cured-cut',
    says: 'Slow cured meat',
    citation: section('B.14.021'),
    cooking: ['dried', 'raw'],
    limits: [meatProtein('slow-cured-cut', 'A slow cured solid cut', 10, source), ...SLOW_CURED, NO_SULFITE],
    naming,
  },
  {
    productClass: 'side-bacon',
    says: 'Side bacon',
    citation: section('B.14.021'),
    cooking: ['raw'],
    limits: [PORK_ONLY, SIDE_BACON_NITRITE, ...CURED, PHOSPHATE, NO_SULFITE],
    naming,
  },
];
