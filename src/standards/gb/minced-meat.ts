import type { Standard } from '../../rules/standard.ts';
import { mincedMeat } from '../minced-meat.ts';

/** Minced meat by the retained table, and under the national mark, which frees every designation but lean from it. */

const { designations, common, pureBeef } = mincedMeat('gb', 'retained ');

export const MINCED_MEAT: readonly Standard[] = [
  ...designations,
  {
    productClass: 'minced-beef-with-national-mark',
    says: 'Minced beef under the national mark "For UK market only"; not for lean mince',
    citation: 'Food Information Regulations 2014 (SI 2014/1855), regulation 4 and Schedule 2',
    cooking: ['raw'],
    limits: [pureBeef, ...common],
    naming: { name: 'Minced Beef', species: 'none', leanPair: false },
  },
];
