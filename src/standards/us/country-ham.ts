import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { NO_ANTIOXIDANTS } from './antioxidants.ts';
import { noBinder } from './binders.ts';
import { CURING_DRY, NITRITE_FOUND } from './cure.ts';
import { cutsOnly, NO_SEPARATED_IN_CUTS, porkOnly, weightOfFresh } from './cuts.ts';
import { none, seasoningOnly } from './law.ts';

/**
 * Country ham and shoulder, dry cured, 9 CFR 319.106. What may go in is a closed list, paragraph (d): salt, nutritive
 * sweeteners, spices, seasonings, flavorings, nitrate and nitrite. The days and degrees of (c)(5) and (6) have not
 * been in effect since 17 November 1980 (46 FR 1257).
 */

const notListed = (what: string, says: string, numerator: Limit['numerator'], extra: Partial<Limit> = {}) =>
  none(`us-319.106d-no-${what}`, says, numerator, '9 CFR 319.106(d)', extra);

const COUNTRY: readonly Limit[] = [
  weightOfFresh('319.106c7', 'The finished piece weighs at most 82 % of the fresh uncured piece.', 0.82, {
    citation: '9 CFR 319.106(c)(7)',
    note: 'Written as at least 18 percent less than the fresh uncured weight.',
  }),
  {
    ...LAW,
    id: 'us-319.106a-salt',
    says: 'Salt goes on dry.',
    numerator: FORMS.saltPutIn,
    basis: FORMS.greenWeight,
    sense: 'present',
    bound: 0,
    citation: '9 CFR 319.106(a)',
    read: 'official',
  },
  none(
    'us-319.106a-no-pickle',
    'No water goes in: the piece is neither injected with a curing solution nor placed in one.',
    FORMS.waterPutIn,
    '9 CFR 319.106(a)',
  ),
  porkOnly('319.106'),
  cutsOnly('319.106', 'a single ham or a single piece of shoulder', '9 CFR 319.106(a)'),
  NO_SEPARATED_IN_CUTS,
  seasoningOnly('319.106d', '9 CFR 319.106(d)'),
  noBinder('319.106d', '9 CFR 319.106(d)'),
  notListed('phosphate', 'Phosphate is not among the ingredients that the standard lists.', FORMS.phosphate),
  notListed(
    'accelerator',
    'Curing accelerators are not among the ingredients that the standard lists.',
    FORMS.acceleratorsAndCitricAcid,
    { unit: 'ppm' },
  ),
  notListed(
    'antimicrobial',
    'Antimicrobials are not among the ingredients that the standard lists.',
    FORMS.antimicrobials,
  ),
  NO_ANTIOXIDANTS,
];

const NO_NITRITE: Limit = none(
  'us-319.106c4-no-nitrite',
  'Without nitrate and nitrite none of either goes in.',
  FORMS.nitriteAndNitrate,
  '9 CFR 319.106(c)(4)',
  { basis: FORMS.greenWeight, unit: 'ppm', note: 'With either, internal salt decides instead, (c)(3).' },
);

const INTERNAL_SALT: LaboratoryLimit = {
  id: 'us-319.106c3-internal-salt',
  says: 'The finished product holds at least 4 % of salt inside.',
  citation: '9 CFR 319.106(c)(3)',
  read: 'official',
};

const BRINE_OR_WATER_ACTIVITY: LaboratoryLimit = {
  id: 'us-319.106c4-brine-or-water-activity',
  says: 'The finished product has a brine concentration of at least 10 % or a water activity of at most 0.92.',
  citation: '9 CFR 319.106(c)(4)',
  read: 'official',
};

const TRICHINAE: LaboratoryLimit = {
  id: 'us-319.106b-trichinae',
  says: 'The product is treated for the destruction of possible live trichinae.',
  citation: '9 CFR 319.106(b)',
  read: 'official',
};

const country = (productClass: string, name: string): Standard[] => {
  const shared = {
    citation: '9 CFR 319.106',
    cooking: ['dried'],
    naming: { name, species: name.includes('Pork') ? 'in name' : 'none', leanPair: false },
  } as const;
  return [
    {
      ...shared,
      productClass,
      says: `${name}, dry cured with nitrite or nitrate`,
      limits: [...COUNTRY, ...CURING_DRY],
      laboratory: [INTERNAL_SALT, NITRITE_FOUND, TRICHINAE],
    },
    {
      ...shared,
      productClass: `${productClass}-without-nitrite`,
      says: `${name}, dry cured without nitrite and nitrate`,
      limits: [...COUNTRY, NO_NITRITE],
      laboratory: [BRINE_OR_WATER_ACTIVITY, TRICHINAE],
    },
  ];
};

export const COUNTRY_HAM_STANDARDS: readonly Standard[] = [
  ...country('country-ham', 'Country Ham'),
  ...country('country-pork-shoulder', 'Country Pork Shoulder'),
];
