import type { z } from 'zod';
import type { Material } from '../../batch/material.ts';
import type { Db } from '../../store/open.ts';
import { lastRevision } from '../../store/revisions.ts';
import type { Dataset } from '../../tables/sheets/read-dataset.ts';
import { type CellFault, inOrder } from '../../tables/sheets/read-sheet.ts';
import { type Books, change, momentOf } from '../books.ts';
import type { Answer, Call } from '../endpoint.ts';
import { materialsOf } from '../plant-of-store.ts';
import { jsonPointer, Problem } from '../problem.ts';
import { type ImportAnswer, type importQuery, MOST_NAMED } from './contract.ts';
import { planLots } from './import-lots.ts';
import { planMaterials, planPrices, planProducts } from './import-states.ts';
import type { Importing, ImportPlan, Planner } from './plan.ts';
import type { ReadFile } from './read-file.ts';

const PLANNERS: { readonly [Name in Dataset]: Planner<Name> } = {
  lots: planLots,
  materials: planMaterials,
  prices: planPrices,
  products: planProducts,
};

/**
 * Takes a spreadsheet in: all of it, as one change to the books, or nothing.
 * @throws Problem 'cannot-be-used' naming the cells, where anything is wrong and it was no dry run.
 */
export function importFile(books: Books, dataset: Dataset, call: Call): Promise<Answer> {
  const { dryRun } = call.query as z.output<typeof importQuery>;
  return importTable(books, dataset, { bytes: call.body as Uint8Array, dryRun: dryRun === 'true' }, call);
}

export interface GivenTable {
  readonly bytes: Uint8Array;
  /** Whether only to say what would be. */
  readonly dryRun: boolean;
}

/** The same for whoever calls; the body of the answer is an ImportAnswer. @throws Problem 'cannot-be-used', as above. */
export async function importTable(
  books: Books,
  dataset: Dataset,
  { bytes, dryRun }: GivenTable,
  call: Pick<Call, 'caller' | 'idempotency'>,
): Promise<Answer> {
  const data = await books.plant();
  const { day } = momentOf(data, books.now());
  const read = await readFile(books, dataset, bytes);
  const importing: Importing<Dataset> = { books, data, day, role: call.caller.role, read };
  const planner = PLANNERS[dataset] as Planner<Dataset>;
  const answer = (plan: ImportPlan, written: boolean) => ({
    body: answerOf(dataset, read, plan, { dryRun, written }),
  });
  if (dryRun || read.faults.length > 0) {
    const plan = withReadFaults(read, await books.store.read((db) => planner(db, importing)));
    if (!dryRun) refuseFaults(plan.faults);
    return answer(plan, false);
  }
  const what = { action: `${dataset} imported`, subject: { kind: 'import', id: dataset } };
  const writing = change(books, call, what, async (trx) => {
    const plan = await planner(trx.db, importing);
    refuseFaults(plan.faults);
    if (plan.changes.length === 0) throw new NothingNew(answer(plan, false));
    await plan.write(trx);
    return { says: `${dataset} imported from a table: ${countText(plan)}`, result: answer(plan, true) };
  });
  return writing.catch((error: unknown) => {
    if (error instanceof NothingNew) return error.answer;
    throw error;
  });
}

/** Ends a write that would write nothing: the books get no entry of it. */
class NothingNew extends Error {
  readonly answer: Answer;

  constructor(answer: Answer) {
    super('everything stands as it is in the file');
    this.answer = answer;
  }
}

async function readFile(books: Books, dataset: Dataset, bytes: Uint8Array): Promise<ReadFile<Dataset>> {
  const { tables } = await books.plant();
  const materials = await books.store.read(async (db) => {
    const known = await materialsOf(db, tables);
    return dataset === 'lots' ? new Map([...(await withdrawnOfLots(db, known)), ...known]) : known;
  });
  const done = await books.work('read file', { dataset, bytes, known: { materials } });
  if ('read' in done) return done.read;
  throw new Problem('cannot-be-used', done.refused);
}

/** Lots that are used up may be of a material that was withdrawn since; they stand in a table as they are. */
async function withdrawnOfLots(db: Db, known: ReadonlyMap<string, Material>): Promise<Map<string, Material>> {
  const rows = await db
    .selectFrom('lots')
    .select('ofId')
    .distinct()
    .where('kind', '=', 'material')
    .where('batchId', 'is', null)
    .execute();
  const withdrawn = new Map<string, Material>();
  for (const { ofId } of rows) {
    const last = known.has(ofId) ? undefined : await lastRevision(db, 'material', ofId);
    if (last) withdrawn.set(ofId, JSON.parse(last.body) as Material);
  }
  return withdrawn;
}

function withReadFaults({ faults }: ReadFile<Dataset>, plan: ImportPlan): ImportPlan {
  return { ...plan, faults: inOrder([...faults, ...plan.faults]) };
}

function refuseFaults(faults: readonly CellFault[]): void {
  if (faults.length === 0) return;
  const more = faults.length > MOST_NAMED ? ` The first ${MOST_NAMED} are named.` : '';
  const count = faults.length === 1 ? 'One cell is' : `${faults.length} cells are`;
  throw new Problem('cannot-be-used', `${count} wrong in the file; nothing was taken in.${more}`, {
    errors: faults.slice(0, MOST_NAMED).map(({ row, field, address, value, message }) => ({
      pointer: jsonPointer(row === undefined ? [field] : [row, field]),
      message: `${address ?? (row === undefined ? 'header' : `row ${row}`)}${field === '' ? '' : `, ${field}`}${value === undefined ? '' : `, "${value}"`}: ${message}`,
    })),
  });
}

function answerOf(
  dataset: Dataset,
  { file, rowCount }: ReadFile<Dataset>,
  { changes, unchanged, faults }: ImportPlan,
  { dryRun, written }: { readonly dryRun: boolean; readonly written: boolean },
): ImportAnswer {
  return {
    dataset,
    dryRun,
    written,
    file,
    rows: rowCount,
    counts: { ...counted(changes), unchanged, faults: faults.length },
    changes: changes.slice(0, MOST_NAMED),
    faults: faults.slice(0, MOST_NAMED),
  };
}

function counted(changes: ImportPlan['changes']): { new: number; changed: number } {
  const isNew = changes.filter(({ what }) => what === 'new').length;
  return { new: isNew, changed: changes.length - isNew };
}

function countText({ changes, unchanged }: ImportPlan): string {
  const counts = counted(changes);
  return `${counts.new} new, ${counts.changed} changed, ${unchanged} unchanged`;
}
