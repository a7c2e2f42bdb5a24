import { form, kinds, mass, part } from './build.ts';

/** Meat flesh: skeletal muscle with the fat, skin and connective tissue attached to it. */
const FLESH = kinds('skeletal meat', 'cheek meat', 'head meat');

/** Forms that only the rules of Australia and New Zealand count. */
export const AUSTRALASIA = {
  meatFlesh: form('meatFlesh', 'meat flesh', mass(FLESH)),
  fatFreeMeatFlesh: form('fatFreeMeatFlesh', 'fat free meat flesh', mass(FLESH), part('fat', -1, FLESH)),
} as const;
