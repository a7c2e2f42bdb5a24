import type { PublishedRow } from '../row.ts';

/** Great Britain. */
export const GB_ROWS: readonly PublishedRow[] = [];
