import { columnsOf } from './columns.ts';
import type { WrittenCell } from './write-csv.ts';

export const PRICE_COLUMNS = columnsOf({ material_id: 'word', cost: 'number', cost_per: 'word' });

export function priceCells(materialId: string, costPerKg: number): WrittenCell[] {
  return [materialId, costPerKg, 'kg'];
}
