import type { RuleSet } from '../../rules/standard.ts';
import { NO_SULFITE } from './additives.ts';
import { COOKED_SAUSAGE } from './cooked-sausage.ts';
import { CURED_CUT_STANDARDS } from './cured-cuts.ts';
import { DRY_SAUSAGE } from './dry-sausage.ts';
import { GROUND } from './ground.ts';
import { LIVER_SAUSAGE } from './liver-sausage.ts';
import { LOAVES } from './loaves.ts';
import { POULTRY_PRODUCTS } from './poultry-products.ts';
import { withReferenceAmounts } from './reference-amounts.ts';
import { STEAKS_AND_OTHER_GROUND } from './steaks-and-other-ground.ts';
import { UNCOOKED_SAUSAGE } from './uncooked-sausage.ts';

/** United States: meat and poultry inspection regulations, 9 CFR chapter III. */
export const US: RuleSet = {
  jurisdiction: 'us',
  says: 'United States, 9 CFR chapter III',
  knownFrom: '2015-01-01',
  edition: '9 CFR as read in the 2015 annual edition; later changes looked for in part',
  standards: [
    ...GROUND,
    ...STEAKS_AND_OTHER_GROUND,
    ...UNCOOKED_SAUSAGE,
    ...COOKED_SAUSAGE,
    ...LIVER_SAUSAGE,
    ...LOAVES,
    ...DRY_SAUSAGE,
    ...POULTRY_PRODUCTS,
    ...CURED_CUT_STANDARDS,
  ].map((standard) => withReferenceAmounts({ ...standard, limits: [...standard.limits, NO_SULFITE] })),
};
