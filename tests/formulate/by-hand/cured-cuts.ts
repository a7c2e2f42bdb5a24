import type { Meaning } from './quantities.ts';

/** Forms of cured cuts, loaves and liver sausage of the United States. */
export const CURED_CUTS: Readonly<Record<string, Meaning>> = {};
