import type { Standard } from '../../rules/standard.ts';
import { BACON_STANDARDS } from './bacon.ts';
import { CORNED_BEEF_STANDARDS } from './corned-beef.ts';
import { COUNTRY_HAM_STANDARDS } from './country-ham.ts';
import { CURED_PORK_STANDARDS } from './cured-pork.ts';
import { ROAST_BEEF_STANDARDS } from './roast-beef.ts';

/** Cured and cooked cuts: pork by its protein, bacon, country ham, corned and roast beef. */
export const CURED_CUT_STANDARDS: readonly Standard[] = [
  ...CURED_PORK_STANDARDS,
  ...BACON_STANDARDS,
  ...COUNTRY_HAM_STANDARDS,
  ...CORNED_BEEF_STANDARDS,
  ...ROAST_BEEF_STANDARDS,
];
