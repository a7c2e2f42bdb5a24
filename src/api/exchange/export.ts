import type { z } from 'zod';
import { SheetError } from '../../tables/sheets/grid.ts';
import { type CsvForm, csvLine } from '../../tables/sheets/write-csv.ts';
import { LONGEST_TEXT, type WrittenSheet, writeWorkbook } from '../../tables/sheets/write-workbook.ts';
import { type Books, momentOf } from '../books.ts';
import type { Answer, AnsweredFile, Call } from '../endpoint.ts';
import { Problem } from '../problem.ts';
import { CSV, type exportQuery, XLSX } from './contract.ts';
import { LEDGER_TABLES } from './export-ledger.ts';
import { RECORD_TABLES } from './export-records.ts';
import { STOCK_TABLES } from './export-stock.ts';
import type { ExportedTable } from './table.ts';

/** Everything that can be given out as a table. Nothing of what proves who somebody is stands in any. */
export const EXPORTED: readonly ExportedTable[] = [...STOCK_TABLES, ...LEDGER_TABLES, ...RECORD_TABLES];

/** All of them together, a sheet each. */
export const ALL = 'all';

const TYPES = { csv: CSV, xlsx: XLSX } as const;
export type FileKind = keyof typeof TYPES;

/** A table as a file. @throws Problem for a table, or a form of it, that there is not. */
export async function exportFile(books: Books, { params, query, accepts }: Call): Promise<Answer> {
  const { dataset = '' } = params;
  const { form, decimal } = query as z.output<typeof exportQuery>;
  const kinds: readonly FileKind[] = dataset === ALL ? ['xlsx'] : ['csv', 'xlsx'];
  const tables = tablesOf(dataset);
  const accepted = accepts(kinds.map((kind) => TYPES[kind]));
  const kind = form ?? kinds.find((one) => TYPES[one] === accepted);
  if (kind === undefined || !kinds.includes(kind)) {
    const ways = kinds.map((one) => `${TYPES[one]} (?form=${one})`).join(' or ');
    throw new Problem('not-acceptable', `This comes as ${ways}; ask for one of them.`);
  }
  if (kind === 'xlsx') await refuseTooLong(books, tables);
  const { day } = momentOf(await books.plant(), books.now());
  const file: AnsweredFile = {
    type: TYPES[kind],
    name: `${dataset}-${day}.${kind}`,
    content: exportContent(books, dataset, kind, { decimal }),
  };
  return { file, headers: { 'Cache-Control': 'private, no-store' } };
}

/** What is found out while a file is sent can only break it off, so it is looked for before. */
async function refuseTooLong(books: Books, tables: readonly ExportedTable[]): Promise<void> {
  for (const { rows, name } of tables.filter(({ hasLongTexts }) => hasLongTexts)) {
    for await (const cells of rows(books)) {
      const long = cells.find((cell) => typeof cell === 'string' && cell.length > LONGEST_TEXT);
      if (long === undefined) continue;
      const message = `A text in the table ${name} is longer than the ${LONGEST_TEXT} characters that a cell of a workbook holds. Take that table as CSV.`;
      throw new Problem('cannot-be-used', message);
    }
  }
}

/** The bytes of it, made while they are read. @throws Problem for what there is not, or cannot be written so. */
export async function* exportContent(
  books: Books,
  dataset: string,
  kind: FileKind,
  form: CsvForm,
): AsyncGenerator<string | Uint8Array> {
  const tables = tablesOf(dataset);
  try {
    if (kind === 'xlsx') yield* writeWorkbook(tables.map((table) => sheetOf(books, table)));
    else for (const table of tables) yield* csvOf(books, table, form);
  } catch (error) {
    if (error instanceof SheetError) throw new Problem('cannot-be-used', error.message);
    throw error;
  }
}

function tablesOf(dataset: string): readonly ExportedTable[] {
  const tables = EXPORTED.filter(({ name }) => dataset === ALL || name === dataset);
  if (tables.length > 0) return tables;
  const known = [...EXPORTED.map(({ name }) => name), ALL].join(', ');
  throw new Problem('not-found', `There is no table "${dataset}". The tables are ${known}.`);
}

function sheetOf(books: Books, { name, columns, mayCut, rows }: ExportedTable): WrittenSheet {
  return { name, columns, mayCut, rows: rows(books) };
}

/** Rows that are sent at once. */
const ROWS_AT_ONCE = 200;

async function* csvOf(books: Books, { columns, rows }: ExportedTable, form: CsvForm): AsyncGenerator<string> {
  let lines = [
    csvLine(
      columns.map(({ name }) => name),
      form,
    ),
  ];
  for await (const cells of rows(books)) {
    lines.push(csvLine(cells, form));
    if (lines.length < ROWS_AT_ONCE) continue;
    yield lines.join('');
    lines = [];
  }
  yield lines.join('');
}
