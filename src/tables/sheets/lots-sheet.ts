import type { z } from 'zod';
import type { Lot, Origin } from '../../batch/lot.ts';
import { type Exact, exact, multiply } from '../../exact.ts';
import type { lotRow } from '../lots.ts';
import { type CellKind, columnsOf } from './columns.ts';
import type { WrittenCell } from './write-csv.ts';

type LotColumn = keyof z.output<ReturnType<typeof lotRow>>;

const KINDS: Readonly<Record<LotColumn, CellKind>> = {
  lot_id: 'word',
  material_id: 'word',
  on_hand: 'number',
  unit: 'word',
  cost: 'number',
  cost_per: 'word',
  box_weight: 'number',
  box_unit: 'word',
  measured_fat_percent: 'percent',
  fat_method: 'text',
  fat_sd_points: 'percent',
  received_date: 'date',
  packed_date: 'date',
  use_by_date: 'date',
  state: 'word',
  supplier_establishment: 'text',
  supplier_lot: 'text',
  location: 'text',
  origin: 'word',
  hold: 'text',
};

export const LOT_COLUMNS = columnsOf(KINDS);

/** A lot as its row: weights in kg, cost per kg. @param onHandKg exactly what the books count. */
export function lotCells(lot: Omit<Lot, 'onHandKg'>, onHandKg: Exact): WrittenCell[] {
  const { measuredFat, boxKg } = lot;
  const cells: Readonly<Record<LotColumn, WrittenCell>> = {
    lot_id: lot.id,
    material_id: lot.materialId,
    on_hand: onHandKg,
    unit: 'kg',
    cost: lot.costPerKg,
    cost_per: 'kg',
    box_weight: boxKg,
    box_unit: boxKg === undefined ? undefined : 'kg',
    measured_fat_percent: percentCellOf(measuredFat?.fatFraction),
    fat_method: measuredFat?.method,
    fat_sd_points: percentCellOf(measuredFat?.sdFraction),
    received_date: lot.receivedDate,
    packed_date: lot.packedDate,
    use_by_date: lot.useByDate,
    state: lot.state,
    supplier_establishment: lot.supplierEstablishment,
    supplier_lot: lot.supplierLot,
    location: lot.location,
    origin: lot.origin && originText(lot.origin),
    hold: lot.held,
  };
  return Object.values(cells);
}

/** A fraction in percent, to every digit. */
export function percentCellOf(fraction: number | undefined): Exact | undefined {
  return fraction === undefined ? undefined : multiply(exact(fraction), exact(100));
}

function originText({ bornIn, raisedIn, slaughteredIn }: Origin): string {
  if (bornIn === raisedIn && raisedIn === slaughteredIn) return bornIn;
  return `born ${bornIn}; raised ${raisedIn}; slaughtered ${slaughteredIn}`;
}
