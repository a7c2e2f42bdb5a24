import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import {
  ANTIMICROBIALS,
  CURING_ACIDS_POULTRY,
  NITRITE_FOUND_COMMINUTED,
  PHOSPHATE_POULTRY,
  UNCURED,
} from './additives.ts';
import { ANTIOXIDANTS_POULTRY } from './antioxidants.ts';
import { POULTRY_BINDERS_COOKED, POULTRY_BINDERS_RAW } from './binders.ts';
import { CURING } from './cure.ts';
import { none } from './law.ts';
import { MECHANICALLY_SEPARATED } from './mechanically-separated.ts';
import { CHICKEN_SKIN, MEAT_AT_MOST_HALF, POULTRY_SKIN, TURKEY_SKIN } from './poultry.ts';

/**
 * Ground poultry, burgers and patties (9 CFR 381.160) and sausage of poultry. Ground poultry and poultry sausage have
 * no standard in part 381: what holds for them are the rows of 424.21(c) and the skin of 381.117(d). Names of light
 * and dark meat (381.156: natural proportions are 50 to 65 % light) tell the meat of lots apart that no figure tells.
 */

const OF_MEAT = { basis: FORMS.greenWeight };
const BURGERS = '9 CFR 381.160';

const KINDS = [
  { kind: 'chicken', others: FORMS.notChicken, skin: CHICKEN_SKIN },
  { kind: 'turkey', others: FORMS.notTurkey, skin: TURKEY_SKIN },
] as const;
type Kind = (typeof KINDS)[number];

/** 9 CFR 381.118(b): chicken may hold skin and fat, "not in excess of their natural proportions", and no other kind. */
const kindOnly = ({ kind, others }: Kind): Limit =>
  none(`us-381.160-${kind}-only`, `Only ${kind} goes in.`, others, '9 CFR 381.160 and 381.118(b)', OF_MEAT);

const ONLY_POULTRY: readonly Limit[] = [
  none(
    'us-381.160-no-binder',
    'Product with a binder or filler is called patties.',
    FORMS.anyBinder,
    BURGERS,
    {
      note: 'The rule has 100 percent poultry of the kind; it is taken of the meat, and seasoning is let in.',
    },
  ),
  none('us-381.160-no-filler', `No ${FORMS.notSeasoning.says} go in.`, FORMS.notSeasoning, BURGERS),
  none(
    'us-381.160-no-added-water',
    'No water is added to what is 100 percent poultry.',
    FORMS.waterPutIn,
    BURGERS,
  ),
  none(
    'us-381.160-no-phosphate',
    'No phosphate is added to what is 100 percent poultry.',
    FORMS.phosphate,
    BURGERS,
  ),
];

const COMMON: readonly Limit[] = [...ANTIMICROBIALS, ...ANTIOXIDANTS_POULTRY, ...MECHANICALLY_SEPARATED];

const title = (kind: string) => `${kind.charAt(0).toUpperCase()}${kind.slice(1)}`;

const ofKind = (entry: Kind): readonly Standard[] => {
  const { kind, skin } = entry;
  const raw: Standard['cooking'] = ['raw'];
  return [
    {
      productClass: `ground-${kind}`,
      says: `Ground ${kind} (no standard of its own)`,
      citation: '9 CFR 381.117(d) and 381.118(b)',
      cooking: raw,
      limits: [kindOnly(entry), skin, ...ONLY_POULTRY, ...UNCURED, ...COMMON],
      naming: { name: `Ground ${title(kind)}`, species: 'in name', leanPair: true },
    },
    {
      productClass: `${kind}-burgers`,
      says: `${title(kind)} burgers`,
      citation: BURGERS,
      cooking: raw,
      limits: [kindOnly(entry), skin, ...ONLY_POULTRY, ...UNCURED, ...COMMON],
      naming: { name: `${title(kind)} Burgers`, species: 'in name', leanPair: true },
    },
    {
      productClass: `${kind}-patties`,
      says: `${title(kind)} patties, with or without fillers or binders`,
      citation: BURGERS,
      cooking: raw,
      limits: [kindOnly(entry), skin, ...POULTRY_BINDERS_RAW, PHOSPHATE_POULTRY, ...UNCURED, ...COMMON],
      naming: { name: `${title(kind)} Patties`, species: 'in name', leanPair: false },
    },
  ];
};

const SAUSAGE: readonly Limit[] = [MEAT_AT_MOST_HALF, POULTRY_SKIN, PHOSPHATE_POULTRY, ...COMMON];

export const POULTRY_PRODUCTS: readonly Standard[] = [
  ...KINDS.flatMap(ofKind),
  {
    productClass: 'poultry-sausage',
    says: 'Poultry sausage, uncooked (no standard of its own)',
    citation: '9 CFR 381.117(d) and 424.21(c)',
    cooking: ['raw'],
    limits: [...SAUSAGE, ...POULTRY_BINDERS_RAW, ...UNCURED],
    naming: { species: 'none', leanPair: false },
  },
  {
    productClass: 'cooked-poultry-sausage',
    says: 'Poultry sausage, cooked (no standard of its own)',
    citation: '9 CFR 381.117(d) and 424.21(c)',
    cooking: ['cooked'],
    limits: [...SAUSAGE, ...POULTRY_BINDERS_COOKED, ...CURING, ...CURING_ACIDS_POULTRY],
    laboratory: [NITRITE_FOUND_COMMINUTED],
    naming: { species: 'none', leanPair: false },
  },
];
