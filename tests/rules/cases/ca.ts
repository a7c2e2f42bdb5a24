import type { LimitCases } from './case.ts';

/** Canada. */
export const CA_CASES: LimitCases = { atTheBound: {}, keptOut: {}, brings: {} };
