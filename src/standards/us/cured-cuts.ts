import type { Limit } from '../../rules/limit.ts';
import type { Standard } from '../../rules/standard.ts';
import { CURING_ACIDS, NO_FUMARIC_ACID_IN_CUTS } from './additives.ts';
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
].map((standard) => ({ ...standard, limits: [...standard.limits, ...curingAcids(standard)] }));

/** The row of fumaric acid names comminuted product: chopped ham and ham patties, and no cut. */
function curingAcids({ productClass }: Standard): readonly Limit[] {
  return /chopped|patties/.test(productClass) ? CURING_ACIDS : [NO_FUMARIC_ACID_IN_CUTS];
}
