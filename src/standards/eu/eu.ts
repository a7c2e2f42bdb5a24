import type { RuleSet } from '../../rules/standard.ts';
import { mincedMeat } from '../minced-meat.ts';
import { noSeparatedRuminants } from '../ruminants.ts';
import { MEAT_PREPARATIONS } from './meat-preparations.ts';
import { MEAT_PRODUCTS } from './meat-products.ts';
import { MINCED_MEAT_CRITERIA } from './microbiology.ts';
import { TRADITIONAL_PRODUCTS } from './traditional-products.ts';

/** European Union (and Northern Ireland). */
export const EU: RuleSet = {
  jurisdiction: 'eu',
  says: 'European Union and Northern Ireland',
  knownFrom: '2014-12-13',
  edition:
    'consolidated text of Regulation (EC) No 1333/2008 of 18 August 2026 as copied in a public repository; pages of the Irish and Finnish authorities on Regulation (EU) No 1169/2011',
  standards: [
    ...mincedMeat('eu', '', MINCED_MEAT_CRITERIA).designations,
    ...MEAT_PREPARATIONS,
    ...MEAT_PRODUCTS,
    ...TRADITIONAL_PRODUCTS,
  ].map((standard) => ({ ...standard, limits: [...standard.limits, noSeparatedRuminants('eu', '')] })),
};
