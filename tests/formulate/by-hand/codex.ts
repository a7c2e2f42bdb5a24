import type { Meaning } from './quantities.ts';

/** Forms that only Codex standards count. */
export const CODEX: Readonly<Record<string, Meaning>> = {};
