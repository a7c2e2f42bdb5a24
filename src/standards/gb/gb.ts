import type { RuleSet } from '../../rules/standard.ts';

/** Great Britain. */
export const GB: RuleSet = {
  jurisdiction: 'gb',
  says: 'Great Britain',
  knownFrom: '2015-01-01',
  edition: '2026',
  standards: [],
};
