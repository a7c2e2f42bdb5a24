import type { PublishedRow } from '../row.ts';

/** Australia and New Zealand. */
export const ANZ_ROWS: readonly PublishedRow[] = [];
