import type { Lot } from '../../batch/lot.ts';
import { lotSchema } from '../contract/blend-request.ts';

/** What may change of a lot that is there, with the column that it stands in. */
export const COLUMN_OF = {
  useByDate: 'use_by_date',
  packedDate: 'packed_date',
  state: 'state',
  location: 'location',
  costPerKg: 'cost',
  boxKg: 'box_weight',
  supplierEstablishment: 'supplier_establishment',
  supplierLot: 'supplier_lot',
  origin: 'origin',
} as const satisfies Partial<Record<keyof Lot, string>>;

const INPUT_COLUMNS: Readonly<Record<string, string>> = {
  ...COLUMN_OF,
  id: 'lot_id',
  materialId: 'material_id',
  onHand: 'on_hand',
  cost: 'cost',
  box: 'box_weight',
  measuredFat: 'measured_fat_percent',
  receivedDate: 'received_date',
};

/** What a lot must be to be received by hand: the form of its id, lengths of texts, weights that can be. */
export function lotFormIssues(lot: Lot): { readonly field: string; readonly message: string }[] {
  const { onHandKg, costPerKg, boxKg, held: _, ...plain } = lot;
  const parsed = lotSchema.safeParse({
    ...plain,
    onHand: { value: onHandKg, unit: 'kg' },
    cost: { amount: costPerKg, per: 'kg' },
    ...(boxKg !== undefined && { box: { value: boxKg, unit: 'kg' } }),
  });
  if (parsed.success) return [];
  return parsed.error.issues.map(({ path, message }) => ({
    field: INPUT_COLUMNS[String(path[0])] ?? 'lot_id',
    message,
  }));
}
