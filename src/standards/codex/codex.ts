import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { RuleSet, Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import {
  NITRITE,
  NO_ANTIOXIDANTS,
  NO_NITRATE,
  NO_NITRITE,
  NO_SULFITE,
  PHOSPHATE_COMMINUTED,
  PHOSPHATE_CUTS,
  RESIDUAL_NITRITE,
} from './additives.ts';
import { GSFA, none } from './law.ts';

const naming = { species: 'none', leanPair: false } as const;
const NO_FIGURE =
  'Least meat and most fat of this standard, with and without binder, were not found and are not held here: look at the standard.';

const HAM_PROTEIN: Limit = {
  ...LAW,
  sense: 'min',
  id: 'codex-96-protein',
  says: 'Protein of the meat is at least 18 % of cooked cured ham without its fat.',
  numerator: FORMS.meatProtein,
  basis: FORMS.finishedWithoutFat,
  bound: 0.18,
  citation: 'CXS 96-1981',
  read: 'secondary',
  note: 'The average of a lot; a single ham may not be below 16.5 %.',
};

const CORNED_BEEF: readonly Limit[] = [
  none('codex-88-beef-only', 'Only beef goes into corned beef.', FORMS.notBeef, 'CXS 88-1981'),
  {
    ...LAW,
    unit: 'ppm',
    basis: FORMS.formula,
    id: 'codex-88-nitrite',
    says: 'Nitrite put into corned beef is at most 100 ppm of all ingredients, as sodium nitrite.',
    numerator: FORMS.nitriteAsSodiumNitrite,
    bound: 100e-6,
    citation: 'CXS 88-1981',
    read: 'secondary',
    note: 'Read in an older text of the standard.',
  },
  {
    ...LAW,
    unit: 'ppm',
    basis: FORMS.formula,
    id: 'codex-88-ascorbate',
    says: 'Ascorbic and iso-ascorbic acid and their sodium salts in corned beef are at most 300 ppm of all ingredients.',
    numerator: FORMS.accelerators,
    bound: 300e-6,
    citation: 'CXS 88-1981',
    read: 'secondary',
    note: 'Read in an older text; written as the acid, held here by the weight put in.',
  },
  NO_NITRATE,
];

const STANDARDS: readonly Standard[] = [
  {
    productClass: 'fresh-meat',
    says: 'Fresh meat, comminuted or in pieces',
    citation: `${GSFA}, food category 08.1`,
    cooking: ['raw'],
    limits: [NO_NITRITE],
    naming,
  },
  {
    productClass: 'comminuted-meat',
    says: 'Processed comminuted meat, sausage among it',
    citation: `${GSFA}, food category 08.3`,
    cooking: ['raw', 'cooked', 'dried'],
    limits: [NITRITE, NO_NITRATE, PHOSPHATE_COMMINUTED],
    laboratory: [RESIDUAL_NITRITE],
    naming,
  },
  {
    productClass: 'cured-cut',
    says: 'Processed meat in whole cuts or pieces, not heat treated',
    citation: `${GSFA}, food category 08.2.1`,
    cooking: ['raw', 'dried'],
    limits: [NITRITE, NO_NITRATE, PHOSPHATE_CUTS],
    laboratory: [RESIDUAL_NITRITE],
    naming,
  },
  {
    productClass: 'cooked-cut',
    says: 'Processed meat in whole cuts or pieces, heat treated',
    citation: `${GSFA}, food category 08.2.2`,
    cooking: ['cooked'],
    limits: [NITRITE, NO_NITRATE, PHOSPHATE_CUTS],
    laboratory: [RESIDUAL_NITRITE],
    naming,
  },
  {
    productClass: 'cooked-cured-ham',
    says: 'Cooked cured ham',
    citation: 'CXS 96-1981',
    cooking: ['cooked'],
    limits: [
      none('codex-96-pork-only', 'Only pork goes into cooked cured ham.', FORMS.notPork, 'CXS 96-1981'),
      HAM_PROTEIN,
      NITRITE,
      NO_NITRATE,
      PHOSPHATE_CUTS,
    ],
    laboratory: [RESIDUAL_NITRITE],
    naming: { ...naming, name: 'Cooked Cured Ham' },
  },
  {
    productClass: 'corned-beef',
    says: 'Corned beef in a sealed container',
    citation: 'CXS 88-1981',
    cooking: ['cooked'],
    limits: CORNED_BEEF,
    laboratory: [
      {
        id: 'codex-192-residual-nitrite-corned-beef',
        says: 'Nitrite left in corned beef is at most 30 mg/kg, as the ion.',
        citation: `${GSFA}, food category 08.3, note 287`,
        read: 'secondary',
      },
    ],
    naming: { ...naming, name: 'Corned Beef' },
  },
  {
    productClass: 'luncheon-meat',
    says: 'Luncheon meat',
    citation: 'CXS 89-1981',
    cooking: ['cooked'],
    limits: [
      { ...NITRITE, id: 'codex-89-nitrite', note: `${NITRITE.note} ${NO_FIGURE}` },
      NO_NITRATE,
      PHOSPHATE_COMMINUTED,
    ],
    laboratory: [RESIDUAL_NITRITE],
    naming: { ...naming, name: 'Luncheon Meat' },
  },
  {
    productClass: 'chopped-cured-meat',
    says: 'Cooked cured chopped meat',
    citation: 'CXS 98-1981',
    cooking: ['cooked'],
    limits: [
      { ...NITRITE, id: 'codex-98-nitrite', note: `${NITRITE.note} ${NO_FIGURE}` },
      NO_NITRATE,
      PHOSPHATE_COMMINUTED,
    ],
    laboratory: [
      RESIDUAL_NITRITE,
      {
        id: 'codex-98-pieces',
        says: 'At least half of the meat is in coarse pieces (ground through a plate of 8 mm or more), and no piece is larger than 15 mm.',
        citation: 'CXS 98-1981',
        read: 'secondary',
      },
    ],
    naming: { ...naming, name: 'Chopped Meat' },
  },
];

/** Codex Alimentarius. */
export const CODEX: RuleSet = {
  jurisdiction: 'codex',
  says: 'Codex Alimentarius',
  knownFrom: '2015-01-01',
  edition:
    'pages of the GSFA database and copies of CXS 88, 96 and 98 (revised 2015) as stored in public; the standards themselves decide',
  standards: STANDARDS.map((standard) => ({
    ...standard,
    limits: [...standard.limits, NO_ANTIOXIDANTS, NO_SULFITE],
  })),
};
