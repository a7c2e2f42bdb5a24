import { coverageText } from './coverage.ts';

/** Prints which limits have an outside check and which have none. */
console.log(coverageText());
