import { z } from 'zod';
import type { Material } from '../batch/material.ts';
import { MASS_UNITS, perKilogram } from '../units.ts';
import { choiceCell, knownMaterialCell, uniqueCell, unsignedCell } from './cells.ts';
import { readTable } from './csv.ts';

/**
 * Reads the prices of materials that are bought without lots of their own.
 * @returns currency per kilogram by material id.
 * @throws TableError naming file, row and column of every fault.
 */
export function readPrices(
  file: string,
  text: string,
  materials: ReadonlyMap<string, Material>,
): Map<string, number> {
  return new Map(
    readTable(file, text, priceRow(materials)).map((price) => [
      price.material_id,
      perKilogram(price.cost, price.cost_per),
    ]),
  );
}

/** The row of one price. Build one for each reading, since it remembers the ids it has seen. */
export function priceRow(materials: ReadonlyMap<string, Material>) {
  return z.object({
    material_id: uniqueCell('keep one price for each material').pipe(knownMaterialCell(materials)),
    cost: unsignedCell('write the price as it is paid, 0 for what is free'),
    cost_per: choiceCell(MASS_UNITS),
  });
}
