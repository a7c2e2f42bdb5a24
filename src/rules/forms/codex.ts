/** Forms that only Codex standards count. */
export const CODEX = {} as const;
