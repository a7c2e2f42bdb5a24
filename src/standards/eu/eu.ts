import type { RuleSet } from '../../rules/standard.ts';

/** European Union. */
export const EU: RuleSet = {
  jurisdiction: 'eu',
  says: 'European Union',
  knownFrom: '2015-01-01',
  edition: '2026',
  standards: [],
};
