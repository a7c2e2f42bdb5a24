import { z } from 'zod';
import { LOT_STATES, type Lot } from '../batch/lot.ts';
import type { Material } from '../batch/material.ts';
import { kilograms, MASS_UNITS, perKilogram } from '../units.ts';
import {
  choiceCell,
  dateCell,
  knownMaterialCell,
  optionalDateCell,
  optionalPercentCell,
  optionalTextCell,
  uniqueCell,
  unsignedCell,
} from './cells.ts';
import { readTable } from './csv.ts';
import { optionalFatSdCell } from './fat-tests.ts';
import { optionalOriginCell } from './origin.ts';

/**
 * Reads the lots on hand. A lot without a measured fat keeps the figure of its material.
 * @throws TableError naming file, row and column of every fault.
 */
export function readLots(file: string, text: string, materials: ReadonlyMap<string, Material>): Lot[] {
  return readTable(file, text, lotRow(materials)).map(lotOfRow);
}

/** The row of one lot. Build one for each reading, since it remembers the ids it has seen. */
export function lotRow(materials: ReadonlyMap<string, Material>) {
  return z
    .object({
      // A supply is known by its lot or, where it has none, by its material: the two must not be confused.
      lot_id: uniqueCell('give each lot its own id').refine(
        (id) => !materials.has(id),
        'is the id of a material; give the lot another id',
      ),
      material_id: knownMaterialCell(materials),
      on_hand: unsignedCell('count the lot again and write what is there, 0 if it is used up'),
      unit: choiceCell(MASS_UNITS),
      cost: unsignedCell('write the price as it is paid, 0 for what is free'),
      cost_per: choiceCell(MASS_UNITS),
      box_weight: optionalTextCell.pipe(unsignedCell('write the weight of one full box').optional()),
      box_unit: optionalTextCell.pipe(choiceCell(MASS_UNITS).optional()),
      measured_fat_percent: optionalPercentCell,
      fat_method: optionalTextCell,
      fat_sd_points: optionalFatSdCell,
      received_date: dateCell,
      packed_date: optionalDateCell,
      use_by_date: optionalDateCell,
      state: choiceCell(LOT_STATES),
      supplier_establishment: optionalTextCell,
      supplier_lot: optionalTextCell,
      location: optionalTextCell,
      origin: optionalOriginCell,
      // Why it must not be used for now.
      hold: optionalTextCell,
    })
    .superRefine((row, context) => {
      const refuse = (column: keyof typeof row, message: string) =>
        context.addIssue({ code: 'custom', path: [column], message });

      if (row.use_by_date && row.use_by_date < row.received_date) {
        refuse('use_by_date', `is before received_date ${row.received_date}; correct one of the two`);
      }
      if (row.use_by_date && row.packed_date && row.use_by_date < row.packed_date) {
        refuse('use_by_date', `is before packed_date ${row.packed_date}; correct one of the two`);
      }
      if (row.box_weight === 0)
        refuse('box_weight', 'is 0; write the weight of one full box or leave it empty');
      if (row.box_weight !== undefined && !row.box_unit) {
        refuse('box_unit', `is empty; write the unit of the box weight, one of: ${MASS_UNITS.join(', ')}`);
      }
      if (row.box_weight === undefined && row.box_unit) {
        refuse('box_weight', 'is empty but box_unit is filled in; fill in both or neither');
      }
      if (row.measured_fat_percent !== undefined && !row.fat_method) {
        refuse('fat_method', 'is empty; say how the fat was measured, such as NIR');
      }
      if (row.measured_fat_percent === undefined && row.fat_method) {
        refuse('measured_fat_percent', 'is empty but fat_method is filled in; fill in both or neither');
      }
      if (row.measured_fat_percent === undefined && row.fat_sd_points !== undefined) {
        refuse(
          'fat_sd_points',
          'is filled in but measured_fat_percent is empty; give the test or leave it empty',
        );
      }
    });
}

export function lotOfRow(row: z.output<ReturnType<typeof lotRow>>): Lot {
  return {
    id: row.lot_id,
    materialId: row.material_id,
    onHandKg: kilograms({ value: row.on_hand, unit: row.unit }),
    costPerKg: perKilogram(row.cost, row.cost_per),
    ...(row.measured_fat_percent !== undefined &&
      row.fat_method && {
        measuredFat: {
          fatFraction: row.measured_fat_percent,
          method: row.fat_method,
          ...(row.fat_sd_points !== undefined && { sdFraction: row.fat_sd_points }),
        },
      }),
    receivedDate: row.received_date,
    ...(row.packed_date && { packedDate: row.packed_date }),
    ...(row.use_by_date && { useByDate: row.use_by_date }),
    state: row.state,
    ...(row.box_weight !== undefined &&
      row.box_unit && { boxKg: kilograms({ value: row.box_weight, unit: row.box_unit }) }),
    ...(row.supplier_establishment && { supplierEstablishment: row.supplier_establishment }),
    ...(row.supplier_lot && { supplierLot: row.supplier_lot }),
    ...(row.location && { location: row.location }),
    ...(row.origin && { origin: row.origin }),
    ...(row.hold && { held: row.hold }),
  };
}
