import type { RuleSet } from '../../rules/standard.ts';
import { NO_ANTIOXIDANTS } from './cure.ts';
import { CURED_CUTS } from './cured-cuts.ts';
import { GROUND_MEAT } from './ground-meat.ts';
import { withReferenceAmounts } from './reference-amounts.ts';
import { SAUSAGE } from './sausage.ts';

/** Canada: Food and Drug Regulations and the documents that they incorporate. */
export const CA: RuleSet = {
  jurisdiction: 'ca',
  says: 'Canada, Food and Drug Regulations',
  knownFrom: '2025-01-01',
  edition:
    'consolidation of 23 July 2026; the incorporated documents (since SOR/2024-244) were read in pages of the inspection agency only',
  standards: [...GROUND_MEAT, ...SAUSAGE, ...CURED_CUTS].map((standard) =>
    withReferenceAmounts({ ...standard, limits: [...standard.limits, NO_ANTIOXIDANTS] }),
  ),
};
