import type { LimitCases } from './case.ts';

/** Codex Alimentarius. */
export const CODEX_CASES: LimitCases = { atTheBound: {}, keptOut: {}, brings: {} };
