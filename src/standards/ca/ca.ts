import type { RuleSet } from '../../rules/standard.ts';

/** Canada. */
export const CA: RuleSet = {
  jurisdiction: 'ca',
  says: 'Canada',
  knownFrom: '2015-01-01',
  edition: '2026',
  standards: [],
};
