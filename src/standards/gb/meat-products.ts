import { BIRD_DEFINITION, MAMMAL_DEFINITION, PORK_DEFINITION } from '../../rules/forms/europe.ts';
import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import {
  ERYTHORBIC_ACID,
  NITRATE_RAW,
  NITRITE_COOKED,
  NITRITE_RAW,
  NITRITE_STERILISED,
  NO_NITRATE,
  NO_SULFITE,
  PHOSPHATE,
  traditional,
} from './additives.ts';
import { additives } from './law.ts';
import { meatContent } from './reserved.ts';

/** Products without a reserved description: dried, cooked, canned and traditionally cured. */

const CONTENT = meatContent(PORK_DEFINITION, MAMMAL_DEFINITION, BIRD_DEFINITION);

const product = (
  productClass: string,
  category: string,
  says: string,
  cooking: Standard['cooking'],
  limits: readonly Limit[],
  laboratory: readonly LaboratoryLimit[] = [],
): Standard => ({
  productClass,
  says,
  citation: additives(category),
  cooking,
  limits: [...limits, PHOSPHATE, ERYTHORBIC_ACID, NO_SULFITE],
  laboratory,
  meatContent: CONTENT,
  naming: { species: 'none', leanPair: false },
});

const cured = (productClass: string, category: string, says: string, ppm: number): Standard => {
  const { limits, laboratory } = traditional(productClass, category, ppm);
  return product(productClass, category, says, ['raw', 'dried'], limits, laboratory);
};

export const MEAT_PRODUCTS: readonly Standard[] = [
  product(
    'dried-sausage',
    '08.3.1',
    'Dried or fermented sausage',
    ['dried', 'raw'],
    [NITRITE_RAW, NITRATE_RAW],
  ),
  product(
    'cooked-sausage',
    '08.3.2',
    'Cooked meat product that bears no reserved description',
    ['cooked'],
    [NITRITE_COOKED, NO_NITRATE],
  ),
  product(
    'canned-meat',
    '08.3.2',
    'Sterilised meat product (Fo above 3.00)',
    ['cooked'],
    [NITRITE_STERILISED, NO_NITRATE],
  ),
  cured('immersion-cured-bacon', '08.3.4.1', 'Wiltshire bacon and similar', 175),
  cured('immersion-cured-ham', '08.3.4.1', 'Wiltshire ham and similar', 100),
  cured('dry-cured-bacon', '08.3.4.2', 'Dry cured bacon and similar', 175),
  cured('dry-cured-ham', '08.3.4.2', 'Dry cured ham and similar', 100),
];
