import type { z } from 'zod';
import { headerProblems, type NumberedRow, parseRows, type RowFault } from '../csv.ts';
import type { Column } from './columns.ts';
import { decodeText } from './decode.ts';
import { readDelimited } from './delimited.ts';
import { columnLetters, type Delimiter, type Grid, type GridRow, SheetError } from './grid.ts';
import { readWorkbook } from './read-workbook.ts';
import { readNumber } from './written-number.ts';

/** One thing wrong in a spreadsheet, with the cell that a person can go to. */
export interface CellFault {
  /** The number beside the row; absent where the whole table is meant. */
  readonly row?: number;
  /** Letters above the column. */
  readonly column?: string;
  /** Such as D12. */
  readonly address?: string;
  /** Name of the column. */
  readonly field: string;
  /** What stands there, shortened. */
  readonly value?: string;
  readonly message: string;
}

/** What a file was found to be. */
export interface FileForm {
  readonly form: 'csv' | 'xlsx';
  readonly sheet?: string;
  readonly delimiter?: Delimiter;
}

/** A table out of a spreadsheet: its rows by the names of the columns, and all that is wrong so far. */
export interface SheetTable {
  readonly file: FileForm;
  readonly rows: readonly NumberedRow<Readonly<Record<string, string>>>[];
  readonly faults: readonly CellFault[];
  /** A fault of a cell with its place. */
  readonly at: (fault: RowFault) => CellFault;
}

const LONGEST_SHOWN = 60;

/** What no store keeps: NUL and halves of surrogate pairs. */
const UNKEEPABLE = /\0|\p{Surrogate}/u;

/**
 * Reads a table out of a CSV file or a workbook. Names of columns may stand in any order and case, with spaces for
 * underscores; blank rows and columns do not count.
 * @param wanted name of the sheet, where there are several.
 * @param schema of a row; its keys are the columns.
 * @throws SheetError for a file that is no table.
 */
export async function readSheetTable(
  bytes: Uint8Array,
  wanted: string,
  columns: readonly Column[],
  schema: z.ZodObject,
): Promise<SheetTable> {
  const isWorkbook = bytes[0] === 0x50 && bytes[1] === 0x4b;
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf)
    throw new SheetError('The file is a workbook of the old kind (.xls). Save it as .xlsx or CSV.');
  const grid = isWorkbook ? await readWorkbook(bytes, wanted) : readDelimited(decodeText(bytes));
  return tableOf(grid, columns, schema);
}

function tableOf(grid: Grid, columns: readonly Column[], schema: z.ZodObject): SheetTable {
  const [header, ...below] = grid.rows.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  if (!header) throw new SheetError('The file is empty. Its first row must have the names of the columns.');
  const names = header.cells.map(columnName);
  const places = new Map(names.flatMap((name, index) => (name === '' ? [] : [[name, index] as const])));
  const at = placing(places);
  const kinds = new Map(columns.map(({ name, kind }) => [name, kind]));
  const faults = headerFaults(header, names, schema);
  const pointIsDecimal = grid.delimiter !== ';';
  const unreadable = new Map(
    grid.unreadable.map(({ row, column, message }) => [`${row}/${column}`, message] as const),
  );
  const rows = below.map(({ row, cells }): NumberedRow<Record<string, string>> => {
    faults.push(...strayCells(cells, names, grid, row));
    const read: Record<string, string> = {};
    for (const [name, index] of places) {
      const cell = readCell(cells[index] ?? '', kinds.get(name), pointIsDecimal, grid.dayZero);
      const message = unreadable.get(`${row}/${index}`) ?? cell.fault;
      if (message !== undefined) faults.push(at({ row, column: name, value: cell.text, message }));
      read[name] = cell.text;
    }
    return { row, cells: read };
  });
  return {
    file: {
      form: grid.delimiter === undefined ? 'xlsx' : 'csv',
      ...(grid.sheet !== undefined && { sheet: grid.sheet }),
      ...(grid.delimiter !== undefined && { delimiter: grid.delimiter }),
    },
    rows,
    faults,
    at,
  };
}

/** 'Use by date' as 'use_by_date'. */
function columnName(heading: string): string {
  return heading
    .trim()
    .toLowerCase()
    .replaceAll(/[\s-]+/g, '_');
}

function placing(places: ReadonlyMap<string, number>): SheetTable['at'] {
  return ({ row, column, value, message }) => {
    const index = places.get(column);
    const letters = index === undefined ? undefined : columnLetters(index);
    return {
      row,
      ...(letters !== undefined && { column: letters, address: `${letters}${row}` }),
      field: column,
      ...(value !== undefined && value !== '' && { value: shortened(value) }),
      message,
    };
  };
}

function shortened(value: string): string {
  return value.length > LONGEST_SHOWN ? `${value.slice(0, LONGEST_SHOWN)}…` : value;
}

function headerFaults(header: GridRow, names: readonly string[], schema: z.ZodObject): CellFault[] {
  const named = names.filter((name) => name !== '');
  return headerProblems(named, schema).map(({ column: field, message }) => {
    const index = names.lastIndexOf(field);
    const { row } = header;
    if (index < 0) return { field, message };
    const column = columnLetters(index);
    return { row, column, address: `${column}${row}`, field: shortened(field), message };
  });
}

/** Values in columns without a name. More cells than the header of a CSV file has are most often an unquoted comma. */
function strayCells(
  cells: readonly string[],
  names: readonly string[],
  grid: Grid,
  row: number,
): CellFault[] {
  if (grid.delimiter !== undefined && cells.length > names.length) {
    const message = `has ${cells.length} cells and the header ${names.length}; put a text or a number with a "${grid.delimiter}" in it into quotes`;
    return [{ row, field: '', message }];
  }
  return cells.flatMap((cell, index) => {
    if (cell.trim() === '' || (names[index] ?? '') !== '') return [];
    const column = columnLetters(index);
    const message = 'stands in a column without a name; name the column or take the value out';
    return [{ row, column, address: `${column}${row}`, field: '', value: shortened(cell), message }];
  });
}

function readCell(
  written: string,
  kind: Column['kind'] | undefined,
  pointIsDecimal: boolean,
  dayZero: string | undefined,
): { readonly text: string; readonly fault?: string } {
  const trimmed = written.trim();
  if (UNKEEPABLE.test(written))
    return { text: '', fault: 'holds a character that cannot be kept; write it anew' };
  if (trimmed === '' || kind === 'text') return { text: trimmed === '' ? '' : written };
  if (kind === 'date') return { text: dayZero === undefined ? trimmed : dayOfSerial(trimmed, dayZero) };
  if (kind !== 'number' && kind !== 'percent' && kind !== 'digits') return { text: trimmed };
  const read = readNumber(kind === 'percent' ? trimmed.replace(/\s*%$/, '') : trimmed, pointIsDecimal);
  return 'fault' in read ? { text: trimmed, fault: read.fault } : read;
}

/** A day that a workbook has as a bare number, from 1954 to 2118. */
function dayOfSerial(text: string, dayZero: string): string {
  const days = Number(text);
  if (!/^\d{5}$/.test(text) || days < 20_000 || days >= 80_000) return text;
  return new Date(Date.parse(`${dayZero}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/**
 * The rows of a table as the schema takes them.
 * @param unsound what no single cell can tell.
 */
export function parseTable<Shape extends z.ZodRawShape>(
  { rows, faults, at }: SheetTable,
  schema: z.ZodObject<Shape>,
  unsound: (
    cells: z.output<z.ZodObject<Shape>>,
  ) => readonly (readonly [column: string, message: string])[] = () => [],
): { readonly rows: NumberedRow<z.output<z.ZodObject<Shape>>>[]; readonly faults: CellFault[] } {
  const parsed = parseRows(rows, schema);
  const written = new Map(rows.map(({ row, cells }) => [row, cells]));
  const more = parsed.rows.flatMap(({ row, cells }) =>
    unsound(cells).map(([column, message]) => {
      const value = written.get(row)?.[column];
      return at({ row, column, ...(value !== undefined && { value }), message });
    }),
  );
  // A column that is missing is said once, and not in every row.
  const missing = new Set(faults.flatMap(({ row, field }) => (row === undefined ? [field] : [])));
  const own = parsed.faults.filter(({ column }) => !missing.has(column)).map(at);
  return { rows: parsed.rows, faults: inOrder([...faults, ...own, ...more]) };
}

/** From the top down, one for each cell: what is said of it first is the cause of the rest. */
export function inOrder(faults: readonly CellFault[]): CellFault[] {
  const first = new Map<string, CellFault>();
  for (const fault of faults) {
    const key = `${fault.row}/${fault.column}/${fault.field}`;
    if (!first.has(key)) first.set(key, fault);
  }
  return [...first.values()].sort((a, b) => (a.row ?? 0) - (b.row ?? 0));
}
