import type { RuleSet } from '../../rules/standard.ts';
import { COOKED_SAUSAGE } from './cooked-sausage.ts';
import { CURED_CUT_STANDARDS } from './cured-cuts.ts';
import { GROUND } from './ground.ts';
import { UNCOOKED_SAUSAGE } from './uncooked-sausage.ts';

/** United States: meat inspection regulations, 9 CFR chapter III. */
export const US: RuleSet = {
  jurisdiction: 'us',
  says: 'United States, 9 CFR chapter III',
  knownFrom: '2015-01-01',
  edition: '9 CFR as read in the 2015 annual edition; later changes have not been looked for',
  standards: [...GROUND, ...UNCOOKED_SAUSAGE, ...COOKED_SAUSAGE, ...CURED_CUT_STANDARDS],
};
