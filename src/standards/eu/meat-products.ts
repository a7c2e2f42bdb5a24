import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import {
  ERYTHORBIC_ACID,
  NO_ANTIOXIDANTS,
  NO_NITRATE,
  NO_NITRITE,
  NO_SULFITE,
  nitrateAdded,
  nitriteAdded,
  PHOSPHATE,
  residualNitrate,
  residualNitrite,
  traditionalNitrite,
} from './additives.ts';
import { additives, MEAT_CONTENT } from './law.ts';

/** Dried, cooked, canned and traditionally cured meat products, category 08.3. */

const COMMON: readonly Limit[] = [PHOSPHATE, ERYTHORBIC_ACID, NO_SULFITE, NO_ANTIOXIDANTS];
const DRIED = ['dried', 'raw'] as const;
const COOKED = ['cooked'] as const;

const product = (
  productClass: string,
  category: string,
  says: string,
  cooking: Standard['cooking'],
  limits: readonly Limit[],
  laboratory: readonly LaboratoryLimit[],
): Standard => ({
  productClass,
  says,
  citation: additives(category),
  cooking,
  limits: [...limits, ...COMMON],
  laboratory,
  meatContent: MEAT_CONTENT,
  naming: { species: 'none', leanPair: false },
});

const traditional = (
  productClass: string,
  category: string,
  says: string,
  ppmSalt: number,
  ppmIon: number,
) => {
  const { limits, laboratory } = traditionalNitrite(productClass, category, ppmSalt, ppmIon);
  return product(productClass, category, says, DRIED, [...limits, NO_NITRATE], laboratory);
};

export const MEAT_PRODUCTS: readonly Standard[] = [
  product(
    'dried-sausage',
    '08.3.1',
    'Dried or fermented sausage and other meat products that are not heat treated',
    DRIED,
    [...nitriteAdded('08.3.1', '08.3.1', 150, 80), ...nitrateAdded('08.3.1', '08.3.1', 150, 90)],
    [residualNitrite('08.3.1', '08.3.1', 45, 'XD'), residualNitrate('08.3.1', '08.3.1', 90, 'XE')],
  ),
  product(
    'dried-sausage-without-nitrite',
    '08.3.1',
    'Dry sausage cured with nitrate alone',
    DRIED,
    [NO_NITRITE, ...nitrateAdded('08.3.1-dry', '08.3.1', 150, 110)],
    [residualNitrate('08.3.1-dry', '08.3.1', 110, 'XF')],
  ),
  product(
    'spreadable-raw-sausage',
    '08.3.4.3',
    'Spreadable, soft, short-ripened raw sausage (Mettwurst, Teewurst)',
    ['raw', 'dried'],
    [...nitriteAdded('08.3.4.3-spreadable', '08.3.4.3', 150, 100), NO_NITRATE],
    [residualNitrite('08.3.4.3-spreadable', '08.3.4.3', 50, 'XJ')],
  ),
  product(
    'cooked-sausage',
    '08.3.2',
    'Cooked sausage, cooked ham and other heat-treated meat products',
    COOKED,
    [...nitriteAdded('08.3.2', '08.3.2', 150, 80), NO_NITRATE],
    [residualNitrite('08.3.2', '08.3.2', 45, 'XD')],
  ),
  product(
    'canned-meat',
    '08.3.2',
    'Sterilised meat products (Fo above 3.00)',
    COOKED,
    [...nitriteAdded('08.3.2-sterilised', '08.3.2', 100, 55), NO_NITRATE],
    [residualNitrite('08.3.2-sterilised', '08.3.2', 25, 'XG')],
  ),
  traditional('immersion-cured-bacon', '08.3.4.1', 'Wiltshire bacon and similar, immersion cured', 175, 105),
  traditional('immersion-cured-ham', '08.3.4.1', 'Wiltshire ham and similar, immersion cured', 100, 65),
  traditional('dry-cured-bacon', '08.3.4.2', 'Dry cured bacon and similar', 175, 105),
  traditional('dry-cured-ham', '08.3.4.2', 'Dry cured ham and similar', 100, 65),
];
