import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { ANTIMICROBIALS } from './additives.ts';
import { NO_ANTIOXIDANTS } from './antioxidants.ts';
import { noBinder } from './binders.ts';
import { ACCELERATORS_CUTS, CURING, CURING_PICKLE, NITRITE_FOUND } from './cure.ts';
import { cutsOnly, NO_SEPARATED_IN_CUTS, PHOSPHATE_CUTS, porkOnly } from './cuts.ts';
import {
  HAM_BINDERS,
  HAM_BINDERS_WATER_PRODUCT,
  NO_BINDER_IN_CURED_PORK,
  ONE_BINDER,
} from './ham-binders.ts';
import { finishedFat, seasoningOnly } from './law.ts';
import { MECHANICALLY_SEPARATED } from './mechanically-separated.ts';

/**
 * Cured pork by its protein, 9 CFR 319.104 and 319.105: the protein of the raw pork as a percent of the finished
 * product less its fat (PFF). The name follows from the figure; below the last of them nothing is asked but that the
 * name says how much was added.
 */

const COMPLIANCE =
  'The figure is compared unrounded. Compliance is judged on samples (318.19), of which about half fall below a batch that just meets it: leave room above.';

const pff = (id: string, name: string, percent: number, citation: string): Limit => ({
  ...LAW,
  id: `us-${id}-pff`,
  says: `The meat protein of ${name} is at least ${percent} % of the finished product less its fat.`,
  numerator: FORMS.meatProtein,
  basis: FORMS.finishedWithoutFat,
  sense: 'min',
  bound: Number((percent / 100).toPrecision(3)),
  citation,
  read: 'official',
  note: COMPLIANCE,
});

const PFF_SAMPLES: LaboratoryLimit = {
  id: 'us-318.19-pff-samples',
  says: 'No sample lies below the least PFF by 2.3 percentage points, or by 2.7 points out of a smokehouse.',
  citation: '9 CFR 318.19(b)(2)(i)',
  read: 'official',
  note: '2.3 for product cooked in an impervious casing or in water (groups I and II), 2.7 for smokehouse product (III and IV). A lot held back goes out when three samples average the least PFF.',
};

const SORBITOL: Limit = {
  ...LAW,
  id: 'us-424.21c-sorbitol-cured-pork',
  says: 'Sorbitol in cured pork is at most 2 % of all ingredients less water, ice and the water of liquids.',
  numerator: FORMS.sorbitol,
  basis: FORMS.formulaWithoutWater,
  bound: 0.02,
  citation: '9 CFR 424.21(c)',
  read: 'official',
};

const SHARED = [PHOSPHATE_CUTS, SORBITOL, ...ANTIMICROBIALS, NO_ANTIOXIDANTS];

const CURED_PORK: readonly Limit[] = [
  porkOnly('319.104'),
  cutsOnly('319.104', 'hams, shoulders, picnics, butts and loins', '9 CFR 319.104(a)'),
  NO_SEPARATED_IN_CUTS,
  seasoningOnly('319.104'),
  ...CURING_PICKLE,
  ...ACCELERATORS_CUTS,
  ...SHARED,
];

/** The grades of a name, the figure of each of them and what the name becomes. */
const GRADES = [
  { suffix: '', qualifier: '' },
  { suffix: '-with-natural-juices', qualifier: ' with Natural Juices' },
  { suffix: '-water-added', qualifier: ' Water Added' },
] as const;

/** X is the most that was added, in percent of the finished product: the label maker writes it. */
const WATER_PRODUCT = ' and Water Product - X% of Weight is Added Ingredients';

interface Family {
  readonly productClass: string;
  readonly name: string;
  /** As it stands in a sentence. */
  readonly says: string;
  readonly section: string;
  readonly part: string;
  /** What the least figure is of, where several families share it. */
  readonly meat: string;
  readonly cooking: Standard['cooking'];
  readonly species: Standard['naming']['species'];
  /** Least PFF of the plain name, with natural juices and water added, as far as there are such names. */
  readonly figures: readonly number[];
  readonly limits: readonly Limit[];
  readonly laboratory?: readonly LaboratoryLimit[];
  /** Which binders a grade takes, the last for water product; those of no cured pork where nothing is said. */
  readonly binders?: (suffix: string) => readonly Limit[];
}

/** One standard a grade and one for water product, which has no least figure. */
function grades(family: Family): Standard[] {
  const { productClass, name, says, section, part, meat, cooking, species, figures, limits } = family;
  const citation = `9 CFR ${section}`;
  const laboratory = [NITRITE_FOUND, ...(family.laboratory ?? [])];
  const bindersOf = (suffix: string) => family.binders?.(suffix) ?? [NO_BINDER_IN_CURED_PORK];
  const oneBinder = (binders: readonly Limit[]) => (binders.length > 1 ? [ONE_BINDER] : []);
  const lowest = figures.at(-1);
  const named = figures.map((figure, grade): Standard => {
    const { suffix = '', qualifier = '' } = GRADES[grade] ?? {};
    const binders = bindersOf(suffix);
    return {
      productClass: `${productClass}${suffix}`,
      says: `${says}${qualifier.toLowerCase()}`,
      citation,
      cooking,
      limits: [
        pff(`${section}-${part}${suffix}`, `${meat}${qualifier.toLowerCase()}`, figure, citation),
        ...limits,
        ...binders,
      ],
      laboratory: [PFF_SAMPLES, ...laboratory, ...oneBinder(binders)],
      naming: { name: `${name}${qualifier}`, species, leanPair: false, impliesCure: true },
    };
  });
  const binders = bindersOf('-and-water-product');
  return [
    ...named,
    {
      productClass: `${productClass}-and-water-product`,
      says: `${says} and water product, for a PFF below ${lowest}; the name states the percent of added ingredients`,
      citation,
      cooking,
      limits: [...limits, ...binders],
      laboratory: [...laboratory, ...oneBinder(binders)],
      naming: { name: `${name}${WATER_PRODUCT}`, species, leanPair: false, impliesCure: true },
    },
  ];
}

const hamBinders = (suffix: string): readonly Limit[] => {
  if (suffix === '') return [NO_BINDER_IN_CURED_PORK];
  return suffix === '-and-water-product' ? HAM_BINDERS_WATER_PRODUCT : HAM_BINDERS;
};

const HAM_AND_LOIN = [20.5, 18.5, 17];
const SHOULDER = [20, 18, 16.5];

const CUTS = { section: '319.104', limits: CURED_PORK } as const;
const COOKED = { ...CUTS, cooking: ['cooked'] } as const;
const UNCOOKED = { ...CUTS, cooking: ['raw'] } as const;

/** Chopped meat: its nitrite is that of chopped meat, not of pickle. */
const CHOPPED: readonly Limit[] = [
  porkOnly('319.105'),
  cutsOnly('319.105', 'ham', '9 CFR 319.105(a)'),
  ...MECHANICALLY_SEPARATED,
  seasoningOnly('319.105'),
  ...CURING,
  ...SHARED,
];
const CHOPPED_GRADES = {
  section: '319.105',
  part: 'chopped-ham',
  meat: 'chopped, pressed or spiced ham and ham patties',
  cooking: ['cooked'],
  species: 'none',
  figures: [19.5, 17.5, 16],
  binders: () => [noBinder('319.105')],
} as const;

const SHANK_MEAT: LaboratoryLimit = {
  id: 'us-319.105b-shank-meat',
  says: 'Finely chopped ham shank meat is at most 25 % above what boneless ham normally holds.',
  citation: '9 CFR 319.105(b)',
  read: 'official',
  note: 'The rule gives no figure for what is normal, so the plant shows its own.',
};

export const CURED_PORK_STANDARDS: readonly Standard[] = [
  ...grades({
    ...COOKED,
    productClass: 'ham',
    name: 'Ham',
    says: 'Cooked ham',
    part: 'ham-or-loin',
    meat: 'cooked ham or loin',
    species: 'none',
    figures: HAM_AND_LOIN,
    binders: hamBinders,
  }),
  ...grades({
    ...COOKED,
    productClass: 'cured-pork-loin',
    name: 'Cured Pork Loin',
    says: 'Cooked cured pork loin',
    part: 'ham-or-loin',
    meat: 'cooked ham or loin',
    species: 'in name',
    figures: HAM_AND_LOIN,
  }),
  ...grades({
    ...COOKED,
    productClass: 'cured-pork-shoulder',
    name: 'Cured Pork Shoulder',
    says: 'Cooked cured pork shoulder, butt or picnic',
    part: 'shoulder',
    meat: 'cooked shoulder, butt or picnic',
    species: 'in name',
    figures: SHOULDER,
  }),
  ...grades({
    ...UNCOOKED,
    productClass: 'uncooked-ham',
    name: 'Uncooked Ham',
    says: 'Uncooked cured ham',
    part: 'uncooked-ham-or-loin',
    meat: 'uncooked cured ham or loin',
    species: 'none',
    figures: [18],
  }),
  ...grades({
    ...UNCOOKED,
    productClass: 'uncooked-cured-pork-loin',
    name: 'Uncooked Cured Pork Loin',
    says: 'Uncooked cured pork loin',
    part: 'uncooked-ham-or-loin',
    meat: 'uncooked cured ham or loin',
    species: 'in name',
    figures: [18],
  }),
  ...grades({
    ...UNCOOKED,
    productClass: 'uncooked-cured-pork-shoulder',
    name: 'Uncooked Cured Pork Shoulder',
    says: 'Uncooked cured pork shoulder, butt or picnic',
    part: 'uncooked-shoulder',
    meat: 'uncooked cured shoulder, butt or picnic',
    species: 'in name',
    figures: [17.5],
  }),
  ...grades({
    ...CHOPPED_GRADES,
    productClass: 'chopped-ham',
    name: 'Chopped Ham',
    says: 'Chopped, pressed or spiced ham',
    limits: CHOPPED,
    laboratory: [SHANK_MEAT],
  }),
  ...grades({
    ...CHOPPED_GRADES,
    productClass: 'ham-patties',
    name: 'Ham Patties',
    says: 'Ham patties',
    limits: [finishedFat('319.105d', 'A ham patty', 35, '9 CFR 319.105(d)'), ...CHOPPED],
  }),
];
