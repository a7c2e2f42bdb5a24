import { z } from 'zod';
import { isMeat, type Material } from '../batch/material.ts';
import type { FatTest } from '../batch/trim-learning.ts';
import { fractionOfPercent } from '../units.ts';
import {
  dateCell,
  knownMaterialCell,
  optionalTextCell,
  percentCell,
  textCell,
  unsignedCell,
} from './cells.ts';
import { readTable } from './csv.ts';

export const FAT_TESTS_FILE = 'fat-tests.csv';

/** Even single pieces of trim, scanned one by one, err by less (8.7 points, Wold et al. 2011, Meat Sci. 89:317). */
const MOST_SD_POINTS = 10;

/** A standard deviation in points of fat; an empty cell leaves it to the default of the method. */
export const optionalFatSdCell = optionalTextCell.pipe(
  unsignedCell('write the standard deviation in points of fat, such as 0.8')
    .refine((points) => points > 0, 'is 0, and no test is that sure; leave it empty where it is not known')
    .refine(
      (points) => points <= MOST_SD_POINTS,
      `is above ${MOST_SD_POINTS}; the standard deviation in points of fat is expected, such as 0.8`,
    )
    .transform(fractionOfPercent)
    .optional(),
);

/**
 * Reads past fat tests of lots, used up or on hand, from which the fat of later lots is learned.
 * @throws TableError naming file, row and column of every fault.
 */
export function readFatTests(
  file: string,
  text: string,
  materials: ReadonlyMap<string, Material>,
): FatTest[] {
  // An unknown material has its own message.
  const isMeatOrUnknown = (id: string) => {
    const material = materials.get(id);
    return !material || isMeat(material);
  };
  const row = z.object({
    date: dateCell,
    supplier_establishment: textCell,
    material_id: knownMaterialCell(materials).refine(
      isMeatOrUnknown,
      'is no meat; only tests of meat are kept here, take the row out',
    ),
    lot_id: optionalTextCell,
    fat_percent: percentCell,
    method: textCell,
    sd_points: optionalFatSdCell,
  });
  return readTable(file, text, row).map((test) => ({
    date: test.date,
    supplierEstablishment: test.supplier_establishment,
    materialId: test.material_id,
    ...(test.lot_id && { lotId: test.lot_id }),
    fatFraction: test.fat_percent,
    method: test.method,
    ...(test.sd_points !== undefined && { sdFraction: test.sd_points }),
  }));
}
