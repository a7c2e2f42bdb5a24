import type { LimitCases } from './case.ts';

/** Great Britain. */
export const GB_CASES: LimitCases = { atTheBound: {}, keptOut: {}, brings: {} };
