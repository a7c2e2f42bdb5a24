import type { RuleSet } from '../../rules/standard.ts';
import { GROUND } from './ground.ts';
import { SAUSAGE } from './sausage.ts';

/** United States: meat inspection regulations, 9 CFR chapter III. */
export const US: RuleSet = {
  jurisdiction: 'us',
  says: 'United States, 9 CFR chapter III',
  standards: [...GROUND, ...SAUSAGE],
};
