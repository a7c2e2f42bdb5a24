import type { PublishedRow } from '../row.ts';

/** European Union. */
export const EU_ROWS: readonly PublishedRow[] = [];
