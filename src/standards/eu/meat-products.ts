import type { Limit } from '../../rules/limit.ts';
import type { LaboratoryLimit, Standard } from '../../rules/standard.ts';
import {
  ERYTHORBIC_ACID,
  NO_ANTIOXIDANTS,
  NO_FUMARIC_ACID,
  NO_NITRATE,
  NO_SULFITE,
  nitrateAdded,
  nitriteAdded,
  PHOSPHATE,
  residualNitrate,
  residualNitrite,
} from './additives.ts';
import { additives, MEAT_CONTENT } from './law.ts';
import { READY_TO_EAT_CRITERIA } from './microbiology.ts';

/** Dried, cooked and canned meat products, categories 08.3.1 and 08.3.2. */

const COMMON: readonly Limit[] = [PHOSPHATE, ERYTHORBIC_ACID, NO_SULFITE, NO_ANTIOXIDANTS, NO_FUMARIC_ACID];
export const DRIED = ['dried', 'raw'] as const;
export const COOKED = ['cooked'] as const;

/** A meat product with what every one of them must keep. */
export const product = (
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

const STERILISED: LaboratoryLimit = {
  id: 'eu-1333-08.3.2-sterilised-fo',
  says: 'The heat process reaches an Fo above 3.00 (an Fo of 3 is 3 minutes at 121 °C).',
  citation: `${additives('08.3.2')}, note (58)`,
  read: 'official',
  note: 'Set and checked by a process authority.',
};

export const MEAT_PRODUCTS: readonly Standard[] = [
  product(
    'dried-sausage',
    '08.3.1',
    'Dried or fermented sausage and other meat products that are not heat treated',
    DRIED,
    [...nitriteAdded('08.3.1', '08.3.1', [150, 80]), ...nitrateAdded('08.3.1', '08.3.1', [150, 90])],
    [
      residualNitrite('08.3.1', '08.3.1', 45, 'XD'),
      residualNitrate('08.3.1', '08.3.1', 90, 'XE'),
      ...READY_TO_EAT_CRITERIA,
    ],
  ),
  product(
    'cooked-sausage',
    '08.3.2',
    'Cooked sausage, cooked ham and other heat-treated meat products',
    COOKED,
    [...nitriteAdded('08.3.2', '08.3.2', [150, 80]), NO_NITRATE],
    [residualNitrite('08.3.2', '08.3.2', 45, 'XD'), ...READY_TO_EAT_CRITERIA],
  ),
  product(
    'canned-meat',
    '08.3.2',
    'Sterilised meat products (Fo above 3.00)',
    COOKED,
    [...nitriteAdded('08.3.2-sterilised', '08.3.2', [100, 55]), NO_NITRATE],
    [residualNitrite('08.3.2-sterilised', '08.3.2', 25, 'XG'), STERILISED],
  ),
];
