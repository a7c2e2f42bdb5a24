import type { PublishedRow } from '../row.ts';

/** Cured and cooked cuts of the United States. */
export const US_CURED_CUT_ROWS: readonly PublishedRow[] = [];
