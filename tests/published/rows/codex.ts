import type { PublishedRow } from '../row.ts';

/** Codex Alimentarius. */
export const CODEX_ROWS: readonly PublishedRow[] = [];
