import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from '../shapes.ts';

/** Poultry beside meat, and the skin of poultry. */

/** Poultry in sausage of livestock where the standard gives no figure of its own. */
export const POULTRY_AT_MOST_HALF: Limit = {
  ...LAW,
  id: 'us-319.140-poultry',
  says: 'Poultry is at most 50 % of the meat; with more of it the product is a poultry product.',
  numerator: FORMS.poultry,
  basis: FORMS.greenWeight,
  bound: 0.5,
  citation: '9 CFR 319.140 and agency policy memo 075',
  read: 'secondary',
  note: 'The memo gives a mix of meat and poultry the inspection legend of what is there in the greater amount.',
};

/** The other half of the same memo. */
export const MEAT_AT_MOST_HALF: Limit = {
  ...LAW,
  id: 'us-memo-075-meat',
  says: 'Meat other than poultry is at most 50 % of the meat; with more of it the product is a meat product.',
  numerator: FORMS.notPoultry,
  basis: FORMS.greenWeight,
  bound: 0.5,
  citation: 'agency policy memo 075',
  read: 'secondary',
  note: 'The memo gives a mix of meat and poultry the inspection legend of what is there in the greater amount.',
};

/**
 * 9 CFR 381.117(d) speaks of skin "as found on a whole chicken or turkey carcass" and prints it in a table that no copy
 * showed. 381.168 has 20 percent for raw boneless chicken and 15 for boneless turkey.
 */
const SKIN = {
  ...LAW,
  citation: '9 CFR 381.117(d)',
  read: 'from memory',
} as const;

export const CHICKEN_SKIN: Limit = {
  ...SKIN,
  id: 'us-381.117d-chicken-skin',
  says: 'Skin in its natural proportion is at most 20 % of raw chicken.',
  numerator: FORMS.skin,
  basis: FORMS.greenWeight,
  bound: 0.2,
  note: 'The rule was read, its table was not: verify. Skin that comes with the lot of meat is not seen.',
};

export const TURKEY_SKIN: Limit = {
  ...SKIN,
  id: 'us-381.117d-turkey-skin',
  says: 'Skin in its natural proportion is at most 15 % of raw turkey.',
  numerator: FORMS.skin,
  basis: FORMS.greenWeight,
  bound: 0.15,
  note: 'The rule was read, its table was not: verify. Skin that comes with the lot of meat is not seen.',
};

export const POULTRY_SKIN: Limit = {
  ...SKIN,
  id: 'us-381.117d-poultry-skin',
  says: 'Poultry skin in its natural proportion is at most 15 % of the poultry.',
  numerator: FORMS.poultrySkin,
  basis: FORMS.poultry,
  bound: 0.15,
  note: 'The rule was read, its table was not: verify. 15 is the figure of turkey; chicken, with 20, is held to it too. A name that tells of the skin may hold more.',
};
