import type { RuleSet } from '../../rules/standard.ts';

/** Australia and New Zealand. */
export const ANZ: RuleSet = {
  jurisdiction: 'anz',
  says: 'Australia and New Zealand',
  knownFrom: '2015-01-01',
  edition: '2026',
  standards: [],
};
