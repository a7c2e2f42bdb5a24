import type { FatTest } from '../../batch/trim-learning.ts';
import { listMovements } from '../../store/lots.ts';
import type { MovementRow, TestRow } from '../../store/schema.ts';
import { WITHDRAWAL, withdrawalsOf } from '../../store/tests.ts';
import { columnsOf } from '../../tables/sheets/columns.ts';
import { percentCellOf } from '../../tables/sheets/lots-sheet.ts';
import type { WrittenCell } from '../../tables/sheets/write-csv.ts';
import type { MovementDetails } from '../stock/movement-view.ts';
import { personsOf } from '../stock/people.ts';
import { type ExportedTable, inPages, kgOf, parsed } from './table.ts';

/** What came, what left and what was tested, as tables. */

const movements: ExportedTable = {
  name: 'movements',
  columns: columnsOf({
    seq: 'number',
    at: 'word',
    day: 'date',
    lot_id: 'word',
    kind: 'word',
    mass_kg: 'number',
    reserved_kg: 'number',
    on_hand_after_kg: 'number',
    reserved_after_kg: 'number',
    batch_id: 'word',
    other_lot_id: 'word',
    reverses: 'number',
    reason: 'text',
    entered: 'digits',
    entered_unit: 'word',
    boxes: 'number',
    packs: 'number',
    pieces: 'number',
    to: 'text',
    document: 'text',
    person: 'text',
  }),
  mayCut: true,
  rows: (books) =>
    inPages(
      books,
      (db, after: MovementRow | undefined, limit) =>
        listMovements(db, { ...(after && { afterSeq: after.seq }), limit }),
      async (db, rows) => {
        const personOf = await personsOf(
          db,
          rows.map(({ entry }) => entry),
        );
        return rows.map((row) => movementCells(row, personOf(row.entry)));
      },
    ),
};

function movementCells(row: MovementRow, person: string): WrittenCell[] {
  const { entered, boxes, packs, pieces, to, document } = parsed<MovementDetails>(row.details);
  return [
    row.seq,
    row.at,
    row.day,
    row.lotId,
    row.kind,
    kgOf(row.massUg),
    kgOf(row.reservedUg),
    kgOf(row.onHandAfterUg),
    kgOf(row.reservedAfterUg),
    row.batchId ?? undefined,
    row.otherLotId ?? undefined,
    row.reverses ?? undefined,
    row.reason ?? undefined,
    entered?.value,
    entered?.unit,
    boxes,
    packs,
    pieces,
    to,
    document,
    person,
  ];
}

const shipments: ExportedTable = {
  name: 'shipments',
  columns: columnsOf({
    seq: 'number',
    day: 'date',
    kind: 'word',
    to: 'text',
    document: 'text',
    lot_id: 'word',
    mass_kg: 'number',
    packs: 'number',
    pieces: 'number',
    taken_back: 'word',
    person: 'text',
  }),
  mayCut: true,
  rows: (books) =>
    inPages(
      books,
      (db, after: MovementRow | undefined, limit) =>
        listMovements(db, { kinds: ['sold', 'shipped'], ...(after && { afterSeq: after.seq }), limit }),
      async (db, rows) => {
        const personOf = await personsOf(
          db,
          rows.map(({ entry }) => entry),
        );
        return rows.map((row) => {
          const { to, document, packs, pieces } = parsed<MovementDetails>(row.details);
          const takesBack = row.reverses === null ? undefined : `takes back ${row.reverses}`;
          return [
            row.seq,
            row.day,
            row.kind,
            to,
            document,
            row.lotId,
            kgOf(-row.massUg),
            packs,
            pieces,
            takesBack,
            personOf(row.entry),
          ];
        });
      },
    ),
};

const fatTests: ExportedTable = {
  name: 'fat-tests',
  columns: columnsOf({
    seq: 'number',
    date: 'date',
    supplier_establishment: 'text',
    material_id: 'word',
    lot_id: 'word',
    batch_id: 'word',
    load: 'number',
    fat_percent: 'percent',
    method: 'text',
    sd_points: 'percent',
    withdrawn: 'text',
    at: 'word',
    person: 'text',
  }),
  mayCut: true,
  rows: (books) =>
    inPages(
      books,
      (db, after: TestRow | undefined, limit) =>
        db
          .selectFrom('tests')
          .selectAll()
          .where('subjectKind', '!=', WITHDRAWAL)
          .where('seq', '>', after?.seq ?? 0)
          .orderBy('seq')
          .limit(limit)
          .execute(),
      async (db, rows) => {
        const withdrawn = await withdrawalsOf(db, rows);
        const personOf = await personsOf(
          db,
          rows.map(({ entry }) => entry),
        );
        return rows.map((row) => {
          const test = parsed<FatTest & { readonly load: number }>(row.body);
          const isLot = row.subjectKind === 'lot';
          const withdrawal = withdrawn.get(row.seq);
          return [
            row.seq,
            test.date ?? row.day,
            test.supplierEstablishment,
            test.materialId,
            isLot ? row.subjectId : undefined,
            isLot ? undefined : row.subjectId,
            test.load,
            percentCellOf(test.fatFraction),
            test.method,
            percentCellOf(test.sdFraction),
            withdrawal && parsed<{ readonly reason: string }>(withdrawal.body).reason,
            row.at,
            personOf(row.entry),
          ];
        });
      },
    ),
};

export const LEDGER_TABLES = [movements, shipments, fatTests] as const;
