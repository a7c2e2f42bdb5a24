import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit } from '../../rules/standard.ts';
import { LAW } from '../shapes.ts';
import { GSFA, none } from './law.ts';

/**
 * Additives of the general standard. Its nitrite is what is left in the product, which only a laboratory can tell; what
 * goes in is held to the same figure, so that a batch is never without a most.
 */

const PPM = { ...LAW, unit: 'ppm', basis: FORMS.finished, read: 'secondary' } as const;

export const NITRITE: Limit = {
  ...PPM,
  id: 'codex-192-nitrite',
  says: 'Nitrite put in is at most 80 ppm of the product, as the ion.',
  numerator: FORMS.nitriteIon,
  bound: 80e-6,
  citation: `${GSFA}, food categories 08.2.2 and 08.3, note 32`,
  note: 'The standard writes 80 mg/kg of residual nitrite; holding what goes in to it is our reading, on the safe side.',
};

export const RESIDUAL_NITRITE: LaboratoryLimit = {
  id: 'codex-192-residual-nitrite',
  says: 'Nitrite left in the product is at most 80 mg/kg, as the ion.',
  citation: `${GSFA}, food categories 08.2.2 and 08.3, note 32`,
  read: 'secondary',
};

const PHOSPHATE_WORDS = 'Phosphates put in are at most 0.22 % of the product, as phosphorus';

export const PHOSPHATE_CUTS: Limit = {
  ...LAW,
  id: 'codex-192-phosphate-cuts',
  says: `${PHOSPHATE_WORDS}.`,
  numerator: FORMS.phosphateAsPhosphorus,
  basis: FORMS.finished,
  bound: 0.0022,
  citation: `${GSFA}, food category 08.2.1, note 33`,
  read: 'secondary',
  note: 'Written as 2200 mg/kg as phosphorus, which is 5041 mg/kg as phosphorus pentoxide.',
};

export const PHOSPHATE_COMMINUTED: Limit = {
  ...PHOSPHATE_CUTS,
  id: 'codex-192-phosphate-comminuted',
  says: `${PHOSPHATE_WORDS} (comminuted meat).`,
  citation: `${GSFA}, food category 08.3, note 33`,
  read: 'from memory',
  note: 'Some older product standards write 1320 mg/kg as phosphorus; ask the buyer which one holds.',
};

export const NO_NITRITE: Limit = none(
  'codex-192-no-nitrite',
  'Nitrite and nitrate have no place in fresh meat.',
  FORMS.nitriteAndNitrate,
  `${GSFA}, food category 08.1`,
  { read: 'from memory' },
);

export const NO_NITRATE: Limit = none(
  'codex-192-no-nitrate',
  'Nitrate has no figure here for this food category, so none goes in.',
  FORMS.nitrate,
  GSFA,
  { read: 'from memory', note: 'Nitrate in the general standard was not read.' },
);

export const NO_ANTIOXIDANTS: Limit = none(
  'codex-no-antioxidants',
  'BHA, BHT, propyl gallate and TBHQ do not go in.',
  FORMS.antioxidants,
  GSFA,
  {
    read: 'from memory',
    note: 'No figure for them in meat is known here, so none goes in: look at the list itself.',
  },
);

export const NO_SULFITE: Limit = none(
  'codex-no-sulfite',
  'Sulfites do not go in.',
  FORMS.sulfurDioxide,
  GSFA,
  {
    read: 'from memory',
    note: 'No figure for them in meat is known here, so none goes in: look at the list itself.',
  },
);
