import { FORMS } from '../../rules/forms.ts';
import type { Limit } from '../../rules/limit.ts';
import { LAW } from './law.ts';

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
