import type { LimitCases } from './case.ts';

/** Cured and cooked cuts of the United States. */
export const US_CURED_CUT_CASES: LimitCases = { atTheBound: {}, keptOut: {}, brings: {} };
