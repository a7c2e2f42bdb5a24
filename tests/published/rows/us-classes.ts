import type { PublishedRow } from '../row.ts';

/** Classes of the United States beyond ground beef and plain sausage: cured cuts, loaves, liver sausage, poultry. */
export const US_CLASS_ROWS: readonly PublishedRow[] = [];
