import type { Meaning } from './quantities.ts';

/** Forms that only the rules of Australia and New Zealand count. */
export const AUSTRALASIA: Readonly<Record<string, Meaning>> = {};
