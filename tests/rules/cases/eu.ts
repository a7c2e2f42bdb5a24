import type { LimitCases } from './case.ts';

/** European Union. */
export const EU_CASES: LimitCases = { atTheBound: {}, keptOut: {}, brings: {} };
