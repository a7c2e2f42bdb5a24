import type { Meaning } from './quantities.ts';

/** Forms that only the rules of the European Union and Great Britain count. */
export const EUROPE: Readonly<Record<string, Meaning>> = {};
