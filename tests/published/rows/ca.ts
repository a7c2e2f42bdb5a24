import type { PublishedRow } from '../row.ts';

/** Canada. */
export const CA_ROWS: readonly PublishedRow[] = [];
