import type { Lot } from '../../batch/lot.ts';
import { exact, toText } from '../../exact.ts';
import { INDISTINGUISHABLE_UG, kilogramsOfMicrograms, microgramsOf } from '../../ledger/micrograms.ts';
import { editLot, receiveLots } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';
import { inPortions, type Writing } from '../../store/store.ts';
import type { CellFault } from '../../tables/sheets/read-sheet.ts';
import { massText } from '../../units.ts';
import { mayDo, rolesThatMay } from '../access/roles.ts';
import { materialsOf } from '../plant-of-store.ts';
import { dateIssues } from '../stock/lot-dates.ts';
import { bodyOf, type StoredLot } from '../stock/lot-view.ts';
import { COLUMN_OF } from './lot-form.ts';
import { cellFault, type Importing, type Planner, type RowChange } from './plan.ts';

type LotItem = Importing<'lots'>['read']['items'][number];

/** What changes of a lot that is there. */
interface Edit {
  readonly row: LotRow;
  readonly lot: Lot;
  readonly fields: readonly Changeable[];
}

/** New lots come in; of those that are there only what is known of them changes, as by hand. */
export const planLots: Planner<'lots'> = async (db, importing) => {
  const { read } = importing;
  const there = await lotsById(
    db,
    read.items.map(({ id }) => id),
  );
  const materials = await materialsOf(db, importing.data.tables);
  const received: LotItem[] = [];
  const edits: Edit[] = [];
  const changes: RowChange[] = [];
  const faults: CellFault[] = [];
  let unchanged = 0;
  for (const item of read.items) {
    const row = there.get(item.id);
    if (!row) {
      faults.push(...newLotFaults(importing, item));
      if (!materials.has(item.value.materialId))
        faults.push(cellFault(read, item.row, 'material_id', 'was withdrawn; add the material again first'));
      received.push(item);
      const much = massText(item.value.onHandKg, importing.data.plant.units);
      const hold = item.value.held === undefined ? '' : `, on hold: ${item.value.held}`;
      changes.push({
        row: item.row,
        id: item.id,
        what: 'new',
        says: `${much} of ${item.value.materialId}${hold}`,
      });
      continue;
    }
    const found = fixedFaults(importing, item, row);
    const fields = changedFields(read, item.value, row);
    if (found.length === 0 && fields.length > 0) found.push(...changeFaults(importing, item, fields));
    faults.push(...found);
    if (fields.length === 0) unchanged += 1;
    else {
      edits.push({ row, lot: item.value, fields });
      const says = fields.map((field) => COLUMN_OF[field]).join(', ');
      changes.push({ row: item.row, id: item.id, what: 'changed', says });
    }
  }
  return { changes, unchanged, faults, write: (writing) => write(writing, received, edits) };
};

async function lotsById(db: Db, ids: readonly string[]): Promise<Map<string, LotRow>> {
  const found = new Map<string, LotRow>();
  for (const some of inPortions(ids)) {
    for (const row of await db.selectFrom('lots').selectAll().where('id', 'in', some).execute())
      found.set(row.id, row);
  }
  return found;
}

async function write(writing: Writing, received: readonly LotItem[], edits: readonly Edit[]): Promise<void> {
  await receiveLots(
    writing,
    received.map(({ id, value }) => ({
      id,
      kind: 'material' as const,
      ofId: value.materialId,
      body: bodyOfLot(value),
      receivedDay: value.receivedDate,
      ...(value.useByDate !== undefined && { useByDay: value.useByDate }),
      held: value.held !== undefined,
      massUg: ugOf(value),
      details: { entered: { value: toText(exact(value.onHandKg)), unit: 'kg' } },
    })),
  );
  for (const { row, lot, fields } of edits) {
    const changed = fields.filter((field) => field !== 'useByDate');
    const body = Object.entries({
      ...bodyOf(row),
      ...Object.fromEntries(changed.map((field) => [field, lot[field]])),
    }).filter(([, value]) => value !== undefined);
    const useByDay = fields.includes('useByDate') ? lot.useByDate : (row.useByDay ?? undefined);
    await editLot(writing, row.id, {
      body: Object.fromEntries(body),
      held: row.held === 1,
      ...(useByDay !== undefined && { useByDay }),
    });
  }
}

function bodyOfLot({ held, ...lot }: Lot): StoredLot {
  const { id, materialId, onHandKg, receivedDate, useByDate, ...body } = lot;
  return { ...body, ...(held !== undefined && { holdReason: held }) };
}

function ugOf({ onHandKg }: Lot): number {
  return microgramsOf(exact(onHandKg));
}

type Changeable = keyof typeof COLUMN_OF;
const CHANGEABLE = Object.keys(COLUMN_OF) as Changeable[];

/** A column that the file does not have changes nothing: only an empty cell takes a value away. */
function changedFields(read: Importing<'lots'>['read'], lot: Lot, row: LotRow): Changeable[] {
  const known: Partial<Lot> = {
    state: 'chilled',
    costPerKg: 0,
    ...bodyOf(row),
    ...(row.useByDay !== null && { useByDate: row.useByDay }),
  };
  return CHANGEABLE.filter((field) => COLUMN_OF[field] in read.columns && !isSame(known[field], lot[field]));
}

function isSame(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every(
    (key) => (a as Record<string, unknown>)[key] === (b as Record<string, unknown>)[key],
  );
}

/** What of a lot that is there no table changes. */
function fixedFaults(
  { read }: Importing<'lots'>,
  { row: at, id, value: lot }: LotItem,
  row: LotRow,
): CellFault[] {
  if (row.kind !== 'material' || row.batchId !== null) {
    return [cellFault(read, at, 'lot_id', `${id} was made here and did not come in; take the row out`)];
  }
  const faults: CellFault[] = [];
  const refuse = (field: string, message: string) => faults.push(cellFault(read, at, field, message));
  const body = bodyOf(row);
  if (row.ofId !== lot.materialId)
    refuse('material_id', `is ${row.ofId} in the books; receive another lot instead`);
  if (Math.abs(row.onHandUg - ugOf(lot)) > INDISTINGUISHABLE_UG) {
    const there = kilogramsOfMicrograms(row.onHandUg);
    refuse(
      'on_hand',
      `is not what the books have, ${massText(there, 'kg')} (${massText(there, 'lb')}); count the lot and book a movement (POST /v1/lots/${id}/movements), or write what the books have`,
    );
  }
  if (row.receivedDay !== lot.receivedDate)
    refuse('received_date', `is ${row.receivedDay} in the books; write that`);
  if ('measured_fat_percent' in read.columns && !isSame(body.measuredFat, lot.measuredFat)) {
    refuse('measured_fat_percent', 'is not the figure that the lot came with; record a fat test instead');
  }
  const held = row.held === 1 ? (body.holdReason ?? 'no reason given') : undefined;
  if ('hold' in read.columns && held !== lot.held) {
    const now = held === undefined ? 'the lot is not on hold' : `the lot is on hold: ${held}`;
    refuse('hold', `is not as the books have it (${now}); put it on hold or release it there`);
  }
  return faults;
}

function changeFaults(
  { read, day, role }: Importing<'lots'>,
  { row, value: lot, unfit = [] }: LotItem,
  fields: readonly Changeable[],
): CellFault[] {
  const faults: CellFault[] = [];
  if (fields.includes('costPerKg') && !mayDo(role, 'plan')) {
    const who = rolesThatMay('plan').join(' or ');
    faults.push(
      cellFault(read, row, 'cost', `differs from the books, and only ${who} may change what a lot costs`),
    );
  }
  if (fields.includes('useByDate') || fields.includes('packedDate'))
    faults.push(...dayFaults(read, row, lot, day));
  const wrong = unfit.filter(({ field }) => fields.some((changed) => COLUMN_OF[changed] === field));
  return [...faults, ...wrong.map(({ field, message }) => cellFault(read, row, field, message))];
}

function newLotFaults(
  { read, day }: Importing<'lots'>,
  { row, value: lot, unfit = [] }: LotItem,
): CellFault[] {
  return [
    ...unfit.map(({ field, message }) => cellFault(read, row, field, message)),
    ...dayFaults(read, row, lot, day),
  ];
}

const DAY_COLUMNS: Readonly<Record<string, string>> = {
  receivedDate: 'received_date',
  packedDate: 'packed_date',
  useByDate: 'use_by_date',
};

function dayFaults(read: Importing<'lots'>['read'], row: number, lot: Lot, day: string): CellFault[] {
  return dateIssues(lot, day).map(({ path, message }) =>
    cellFault(read, row, DAY_COLUMNS[String(path[0])] ?? 'received_date', message),
  );
}
