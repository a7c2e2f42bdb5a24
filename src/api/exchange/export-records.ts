import { type Step, stepsOf } from '../../making/batch.ts';
import { type CleaningBody, cleaningsWritten } from '../../store/logs.ts';
import type { Db } from '../../store/open.ts';
import { listRecords } from '../../store/records.ts';
import type { BatchRow, BatchStepRow, EntryRow, RecordRow } from '../../store/schema.ts';
import { stepsOfBatches } from '../../store/trace.ts';
import { columnsOf } from '../../tables/sheets/columns.ts';
import { percentCellOf } from '../../tables/sheets/lots-sheet.ts';
import type { WrittenCell } from '../../tables/sheets/write-csv.ts';
import { textOfWords } from '../../tables/words.ts';
import { personsOf } from '../stock/people.ts';
import { type ExportedTable, inPages, kgOf, parsed } from './table.ts';

/** What was done, as tables. */

const batches: ExportedTable = {
  name: 'batches',
  columns: columnsOf({
    batch_id: 'word',
    product_id: 'word',
    day: 'date',
    state: 'word',
    loads: 'number',
    planned_kg: 'number',
    weighed_kg: 'number',
    finished_kg: 'number',
    yield_percent: 'percent',
    planned_cost: 'number',
    finished_cost_per_kg: 'number',
    currency: 'word',
    output_lot_id: 'word',
    hold: 'text',
    record: 'number',
  }),
  mayCut: true,
  rows: (books) =>
    inPages(
      books,
      (db, after: BatchRow | undefined, limit) =>
        db
          .selectFrom('batches')
          .selectAll()
          .where('id', '>', after?.id ?? '')
          .orderBy('id')
          .limit(limit)
          .execute(),
      async (db, rows) => {
        const steps = await stepsOfBatches(
          db,
          rows.map(({ id }) => id),
          ['planned', 'weighing', 'taken back', 'finished', 'closed'],
        );
        return rows.map((row) => batchCells(row, steps.get(row.id) ?? []));
      },
    ),
};

function batchCells({ id, productId, day, state }: BatchRow, steps: readonly Step[]): WrittenCell[] {
  const plan = stepsOf(steps, 'planned')[0]?.body;
  const finished = stepsOf(steps, 'finished').at(-1)?.body;
  const takenBack = new Set(stepsOf(steps, 'taken back').map(({ body }) => body.step));
  const weighedUg = stepsOf(steps, 'weighing')
    .filter(({ number }) => !takenBack.has(number))
    .reduce((total, { body }) => total + body.massUg, 0);
  return [
    id,
    productId,
    day,
    state,
    plan?.loads,
    plan && kgOf(plan.batchUg),
    kgOf(weighedUg),
    finished && kgOf(finished.output.massUg),
    percentCellOf(finished?.yieldFraction),
    plan?.cost,
    finished?.costPerKg,
    plan?.currency,
    finished?.output.lotId,
    finished?.hold,
    stepsOf(steps, 'closed').at(-1)?.body.record,
  ];
}

const weighings: ExportedTable = {
  name: 'weighings',
  columns: columnsOf({
    batch_id: 'word',
    step: 'number',
    at: 'word',
    day: 'date',
    load: 'number',
    line: 'number',
    material_id: 'word',
    lot_id: 'word',
    weight: 'digits',
    unit: 'word',
    mass_kg: 'number',
    reason: 'text',
    taken_back: 'text',
    person: 'text',
  }),
  mayCut: true,
  rows: (books) => inPages(books, weighingsAfter, weighingRows),
};

function weighingsAfter(db: Db, after: BatchStepRow | undefined, limit: number): Promise<BatchStepRow[]> {
  let query = db
    .selectFrom('batchSteps')
    .selectAll()
    .where('kind', '=', 'weighing')
    .orderBy('batchId')
    .orderBy('number')
    .limit(limit);
  if (after) {
    query = query.where(({ or, and, eb }) =>
      or([
        eb('batchId', '>', after.batchId),
        and([eb('batchId', '=', after.batchId), eb('number', '>', after.number)]),
      ]),
    );
  }
  return query.execute();
}

async function weighingRows(db: Db, rows: readonly BatchStepRow[]): Promise<WrittenCell[][]> {
  const ids = [...new Set(rows.map(({ batchId }) => batchId))];
  const takenBack = await stepsOfBatches(db, ids, ['taken back']);
  return rows.map(({ batchId, number, at, day, body, person }) => {
    const { load, line, materialId, lotId, weight, massUg, reason } = parsed<WeighingBody>(body);
    const back = stepsOf(takenBack.get(batchId) ?? [], 'taken back').find(
      (step) => step.body.step === number,
    );
    return [
      batchId,
      number,
      at,
      day,
      load,
      line,
      materialId,
      lotId,
      weight?.value,
      weight?.unit,
      massUg === undefined ? undefined : kgOf(massUg),
      reason,
      back?.body.reason,
      person,
    ];
  });
}
type WeighingBody = Extract<Step, { kind: 'weighing' }>['body'];

const records: ExportedTable = {
  name: 'records',
  columns: columnsOf({
    id: 'number',
    kind: 'word',
    subject: 'word',
    corrects: 'number',
    at: 'word',
    day: 'date',
    person: 'text',
    body: 'text',
  }),
  mayCut: true,
  rows: (books) =>
    inPages(
      books,
      async (db, after: RecordRow | undefined, limit) =>
        listRecords(db, { ...(after && { afterSeq: after.seq }), limit }),
      async (db, rows) => {
        const personOf = await personsOf(
          db,
          rows.map(({ entry }) => entry),
        );
        return rows.map(({ seq, kind, subjectId, corrects, at, day, entry, body }) => [
          seq,
          kind,
          subjectId,
          corrects ?? undefined,
          at,
          day,
          personOf(entry),
          body,
        ]);
      },
    ),
};

const cleanings: ExportedTable = {
  name: 'cleanings',
  columns: columnsOf({
    record: 'number',
    day: 'date',
    at: 'word',
    equipment: 'text',
    what: 'text',
    note: 'text',
    by: 'text',
    corrected_by: 'word',
    withdrawn: 'word',
  }),
  mayCut: true,
  rows: async function* ({ store }) {
    // A few a day: a year of them is no more than a page or two of movements.
    const written = await store.read((db) =>
      cleaningsWritten(db, { fromDay: '0000-01-01', toDay: '9999-12-31' }),
    );
    for (const cleaning of written) {
      const { day, at, equipment, what, note, by, withdrawn }: CleaningBody = cleaning;
      yield [
        cleaning.record.seq,
        day,
        at,
        textOfWords(equipment),
        what,
        note,
        by,
        cleaning.correctedBy.join('; '),
        withdrawn ? 'yes' : undefined,
      ];
    }
  },
};

type Entry = Omit<EntryRow, 'rowHashes' | 'personId'>;

const entries: ExportedTable = {
  name: 'entries',
  columns: columnsOf({
    seq: 'number',
    at: 'word',
    day: 'date',
    person: 'text',
    action: 'text',
    subject_kind: 'word',
    subject_id: 'word',
    says: 'text',
    previous_hash: 'word',
    hash: 'word',
  }),
  mayCut: true,
  rows: (books) =>
    inPages(
      books,
      (db, after: Entry | undefined, limit) =>
        db
          .selectFrom('entries')
          .select([
            'seq',
            'at',
            'day',
            'person',
            'action',
            'subjectKind',
            'subjectId',
            'says',
            'previousHash',
            'hash',
          ])
          .where('seq', '>', after?.seq ?? 0)
          .orderBy('seq')
          .limit(limit)
          .execute(),
      (_db, rows) =>
        rows.map((row) => [
          row.seq,
          row.at,
          row.day,
          row.person,
          row.action,
          row.subjectKind,
          row.subjectId,
          row.says,
          row.previousHash,
          row.hash,
        ]),
    ),
};

export const RECORD_TABLES = [batches, weighings, records, cleanings, entries] as const;
