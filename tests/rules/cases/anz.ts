import type { LimitCases } from './case.ts';

/** Australia and New Zealand. */
export const ANZ_CASES: LimitCases = { atTheBound: {}, keptOut: {}, brings: {} };
