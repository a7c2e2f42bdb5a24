import type { RuleSet } from '../../rules/standard.ts';

/** Codex Alimentarius. */
export const CODEX: RuleSet = {
  jurisdiction: 'codex',
  says: 'Codex Alimentarius',
  knownFrom: '2015-01-01',
  edition: '2026',
  standards: [],
};
