import type { Meaning } from './quantities.ts';

/** Forms that only the rules of Canada count. */
export const CANADA: Readonly<Record<string, Meaning>> = {};
