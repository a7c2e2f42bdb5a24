import type { TrimSeriesAnswer } from '../../api/reports/contract.ts';

/** One supplier's trim with the lots of it that were tested. */
export type Trim = TrimSeriesAnswer['items'][number];
