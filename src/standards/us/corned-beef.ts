import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { ANTIMICROBIALS } from './additives.ts';
import { NO_ANTIOXIDANTS } from './antioxidants.ts';
import { noBinder } from './binders.ts';
import { ACCELERATORS_CUTS, CURING_PICKLE, NITRITE_FOUND } from './cure.ts';
import { beefOnly, cutsOnly, NO_SEPARATED_IN_CUTS, PHOSPHATE_CUTS, weightOfFresh } from './cuts.ts';
import { none, seasoningOnly } from './law.ts';

/** Corned beef and cured tongue, 9 CFR 319.100 to 319.103: what the cure may add to the fresh weight. */

const shared = (section: string): readonly Limit[] => [
  beefOnly(section),
  NO_SEPARATED_IN_CUTS,
  seasoningOnly(section),
  noBinder(section),
  ...CURING_PICKLE,
  ...ACCELERATORS_CUTS,
  PHOSPHATE_CUTS,
  ...ANTIMICROBIALS,
  NO_ANTIOXIDANTS,
];

const cured = (section: string, what: string, bound: number): Limit =>
  weightOfFresh(
    `${section}-cured`,
    `${what} weighs at most ${bound} to 1 of its fresh uncured weight.`,
    bound,
    { unit: 'to 1', citation: `9 CFR ${section}` },
  );

const cooked = (section: string, what: string): Limit =>
  weightOfFresh(
    `${section}-cooked`,
    `${what}, cooked, weighs at most 100 % of its fresh uncured weight.`,
    1,
    {
      citation: `9 CFR ${section}`,
    },
  );

const PIECES: LaboratoryLimit = {
  id: 'us-319.100-pieces',
  says: 'The pieces that are cured weigh at least 1 lb each.',
  citation: '9 CFR 319.100 and 319.102',
  read: 'official',
};

interface Corned {
  readonly productClass: string;
  readonly name: string;
  readonly section: string;
  readonly mostCured: number;
  readonly limits: readonly Limit[];
  readonly laboratory: readonly LaboratoryLimit[];
}

/** Cured and not cooked, and the same cooked. */
function corned({ productClass, name, section, mostCured, limits, laboratory }: Corned): Standard[] {
  const naming = { species: 'in name', leanPair: false, impliesCure: true } as const;
  const citation = `9 CFR ${section}`;
  return [
    {
      productClass,
      says: `${name}, cured`,
      citation,
      cooking: ['raw'],
      limits: [cured(section, name, mostCured), ...limits],
      laboratory,
      naming: { ...naming, name },
    },
    {
      productClass: `${productClass}-cooked`,
      says: `${name}, cooked`,
      citation,
      cooking: ['cooked'],
      limits: [cooked(section, name), ...limits],
      laboratory,
      naming: { ...naming, name: `Cooked ${name}` },
    },
  ];
}

/** Cheek, head and heart meat go into corned beef alone, not into a brisket or a round. */
const CHEEK_HEAD_AND_HEART: Limit = {
  ...LAW,
  id: 'us-319.100-cheek-head-and-heart',
  says: 'Beef cheek, head and heart meat together are at most 5 % of the meat of corned beef.',
  numerator: FORMS.cheekHeadAndHeart,
  basis: FORMS.greenWeight,
  bound: 0.05,
  citation: '9 CFR 319.100',
  read: 'official',
  note: 'Trimmed as 319.81 says (no glands, connective tissue or heart cap), and declared.',
};

export const CORNED_BEEF_STANDARDS: readonly Standard[] = [
  ...corned({
    productClass: 'corned-beef',
    name: 'Corned Beef',
    section: '319.100',
    mostCured: 1.1,
    limits: [
      CHEEK_HEAD_AND_HEART,
      cutsOnly('319.100', 'beef cuts', '9 CFR 319.100', FORMS.notCutNorHeadNorHeart),
      ...shared('319.100'),
    ],
    laboratory: [PIECES, NITRITE_FOUND],
  }),
  ...corned({
    productClass: 'corned-beef-brisket',
    name: 'Corned Beef Brisket',
    section: '319.101',
    mostCured: 1.2,
    limits: [cutsOnly('319.101', 'beef brisket'), ...shared('319.101')],
    laboratory: [NITRITE_FOUND],
  }),
  ...corned({
    productClass: 'corned-beef-round',
    name: 'Corned Beef Round',
    section: '319.102',
    mostCured: 1.1,
    limits: [cutsOnly('319.102', 'beef round or another single cut'), ...shared('319.102')],
    laboratory: [PIECES, NITRITE_FOUND],
  }),
  {
    productClass: 'cured-beef-tongue',
    says: 'Cured beef tongue',
    citation: '9 CFR 319.103',
    cooking: ['raw'],
    limits: [
      cured('319.103', 'Cured beef tongue', 1.1),
      none('us-319.103-tongue-only', 'Only tongue goes in.', FORMS.otherThanTongue, '9 CFR 319.103', {
        basis: FORMS.greenWeight,
      }),
      ...shared('319.103'),
    ],
    laboratory: [NITRITE_FOUND],
    naming: { name: 'Cured Beef Tongue', species: 'in name', leanPair: false, impliesCure: true },
  },
];
