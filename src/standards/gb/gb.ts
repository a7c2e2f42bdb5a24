import type { RuleSet } from '../../rules/standard.ts';
import { noSeparatedRuminants } from '../ruminants.ts';
import { NO_ANTIOXIDANTS } from './additives.ts';
import { MEAT_PRODUCTS } from './meat-products.ts';
import { MINCED_MEAT } from './minced-meat.ts';
import { RESERVED } from './reserved.ts';

/** England, Scotland and Wales. Northern Ireland follows the rules of the European Union. */
export const GB: RuleSet = {
  jurisdiction: 'gb',
  says: 'Great Britain (Northern Ireland: see European Union)',
  knownFrom: '2014-12-13',
  edition:
    'SI 2014/3001, SSI 2014/289 and NISR 2014/285 as far as legislation.gov.uk copies showed them; additives in retained texts up to 2023',
  standards: [...RESERVED, ...MINCED_MEAT, ...MEAT_PRODUCTS].map((standard) => ({
    ...standard,
    limits: [...standard.limits, NO_ANTIOXIDANTS, noSeparatedRuminants('gb', 'retained ')],
  })),
};
