import { readFileSync } from 'node:fs';
import type { Caller } from '../api/access/caller.ts';
import type { ImportAnswer } from '../api/exchange/contract.ts';
import { ALL, exportContent } from '../api/exchange/export.ts';
import { importTable } from '../api/exchange/import.ts';
import { PROGRAM } from '../api/found-plant.ts';
import { fromWhereCalled } from '../api/settings.ts';
import { connect } from '../store/open.ts';
import { openStore, type Store, storeOn } from '../store/store.ts';
import type { StoreUrl } from '../store/store-url.ts';
import { DATASETS, type Dataset } from '../tables/sheets/read-dataset.ts';
import { booksHere } from './books-here.ts';
import { writeWholeInPieces } from './whole-file.ts';

/** Spreadsheets in and out of a live store, from a terminal. */

export interface ExchangeOptions {
  readonly storeUrl: StoreUrl;
  readonly tablesFolder: string;
}

/** Whoever is at the machine itself may do what an admin may; the books say that it was done there. */
const AT_THE_MACHINE: Caller = { ...PROGRAM, role: 'admin', via: 'session' };

/**
 * Takes a spreadsheet into the store: all of it, or nothing.
 * @throws Problem naming every cell that is wrong, where it is no dry run; RangeError for what cannot be taken in.
 */
export async function importCommand(
  dataset: string,
  file: string,
  { dryRun, ...options }: ExchangeOptions & { readonly dryRun: boolean },
): Promise<ImportAnswer> {
  const known = DATASETS.find((name) => name === dataset);
  if (!known) throw new RangeError(`"${dataset}" cannot be imported; write one of ${DATASETS.join(', ')}.`);
  const bytes = readFileSync(fromWhereCalled(file, process.env));
  const store = await openStore(options.storeUrl);
  try {
    const { body } = await importInto(store, known, options.tablesFolder, { bytes, dryRun });
    return body as ImportAnswer;
  } finally {
    await store.close();
  }
}

function importInto(
  store: Store,
  dataset: Dataset,
  tablesFolder: string,
  given: Parameters<typeof importTable>[2],
): ReturnType<typeof importTable> {
  return importTable(booksHere(store, tablesFolder), dataset, given, { caller: AT_THE_MACHINE });
}

/**
 * Writes a table, or all of them as one workbook, into a file: whole, or not at all.
 * @returns the size of the file.
 * @throws Problem for a table that there is not, RangeError for a file of another ending.
 */
export async function exportCommand(
  dataset: string,
  file: string,
  { decimal, ...options }: ExchangeOptions & { readonly decimal: 'point' | 'comma' },
): Promise<{ file: string; bytes: number }> {
  const path = fromWhereCalled(file, process.env);
  const kind = (['csv', 'xlsx'] as const).find((ending) => path.toLowerCase().endsWith(`.${ending}`));
  if (kind === 'csv' && dataset === ALL)
    throw new RangeError(`All tables together are one workbook; write ${file} with the ending .xlsx.`);
  if (!kind) throw new RangeError(`${file}: the form follows from the ending; write .csv or .xlsx.`);
  // Only looks: the service may be running on the same store.
  const store = storeOn(await connect(options.storeUrl, { readOnly: true }), options.storeUrl);
  try {
    const books = booksHere(store, options.tablesFolder);
    const pieces = exportContent(books, dataset, kind, { decimal });
    return { file: path, bytes: await writeWholeInPieces(path, pieces) };
  } finally {
    await store.close();
  }
}

/** What an import did or would do, for people. */
export function importText({
  dataset,
  dryRun,
  written,
  file,
  rows,
  counts,
  changes,
  faults,
}: ImportAnswer): string {
  const form = file.sheet === undefined ? file.form : `${file.form}, sheet "${file.sheet}"`;
  const outcome = written ? 'TAKEN IN' : dryRun ? 'DRY RUN, nothing written' : 'NOTHING TO DO';
  return [
    `${outcome}: ${dataset}, ${rows} rows (${form})`,
    `${counts.new} new, ${counts.changed} changed, ${counts.unchanged} unchanged, ${counts.faults} faults`,
    ...changes.slice(0, MOST_SHOWN).map(({ row, id, what, says }) => `  row ${row}  ${what}  ${id}: ${says}`),
    ...more(counts.new + counts.changed),
    ...faults
      .slice(0, MOST_SHOWN)
      .map(
        ({ row, address, field, value, message }) =>
          `  ${address ?? (row === undefined ? 'header' : `row ${row}`)}  ${field}${value === undefined ? '' : ` "${value}"`}: ${message}`,
      ),
    ...more(counts.faults),
  ].join('\n');
}

/** More would scroll the first ones off the screen. */
const MOST_SHOWN = 40;

function more(count: number): string[] {
  return count > MOST_SHOWN ? [`  … and ${count - MOST_SHOWN} more; --json lists more`] : [];
}
