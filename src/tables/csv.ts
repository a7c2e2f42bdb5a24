import { parse } from 'csv-parse/sync';
import type { z } from 'zod';

/** One thing wrong in a table, with the place a person can go to. */
export interface TableProblem {
  readonly file: string;
  /** Line in the file as a person counts: the header is 1. Absent when the whole file is meant. */
  readonly row?: number;
  readonly column?: string;
  readonly message: string;
}

/** Everything wrong in the tables, at once: nothing of a faulty table is used. */
export class TableError extends Error {
  readonly problems: readonly TableProblem[];

  constructor(problems: readonly TableProblem[]) {
    super(problems.map(describeProblem).join('\n'));
    this.name = 'TableError';
    this.problems = problems;
  }
}

export function describeProblem({ file, row, column, message }: TableProblem): string {
  return [file, row && `row ${row}`, column, message].filter(Boolean).join(', ');
}

/**
 * Reads a CSV text whose header must hold exactly the keys of the row schema; each row is parsed by it.
 * Optional columns may be left out of the header.
 * @throws TableError naming file, row and column of every fault.
 */
export function readTable<Shape extends z.ZodRawShape>(
  file: string,
  text: string,
  rowSchema: z.ZodObject<Shape>,
): z.output<z.ZodObject<Shape>>[] {
  return readNumberedTable(file, text, rowSchema).map(({ cells }) => cells);
}

/** A parsed row together with its line in the file, for rules that compare rows with each other. */
export interface NumberedRow<Cells> {
  readonly row: number;
  readonly cells: Cells;
}

/** Like readTable, each row with its line in the file. */
export function readNumberedTable<Shape extends z.ZodRawShape>(
  file: string,
  text: string,
  rowSchema: z.ZodObject<Shape>,
): NumberedRow<z.output<z.ZodObject<Shape>>>[] {
  const records = parseRecords(file, text);
  const header = records[0]?.record ?? [];
  const problems = headerProblems(header, rowSchema).map((problem) => ({ file, row: 1, ...problem }));
  if (problems.length > 0) throw new TableError(problems);

  const { rows, faults } = parseRows(
    records.slice(1).map(({ record, line }) => ({
      row: line,
      cells: Object.fromEntries(header.map((name, index) => [name, record[index] ?? ''])),
    })),
    rowSchema,
  );
  if (faults.length === 0) return rows;
  throw new TableError(
    faults.map(({ row, column, value, message }) => ({
      file,
      row,
      ...(column && { column }),
      message: value === undefined ? message : `"${value}": ${message}`,
    })),
  );
}

/** One thing wrong in a row: the column by its name, empty where the row as a whole is meant, and the text in its cell. */
export interface RowFault {
  readonly row: number;
  readonly column: string;
  readonly value?: string;
  readonly message: string;
}

/** Rows that the schema takes, and every fault of the others. */
export function parseRows<Shape extends z.ZodRawShape>(
  rows: readonly NumberedRow<Readonly<Record<string, string>>>[],
  rowSchema: z.ZodObject<Shape>,
): {
  readonly rows: NumberedRow<z.output<z.ZodObject<Shape>>>[];
  readonly faults: RowFault[];
} {
  const taken: NumberedRow<z.output<z.ZodObject<Shape>>>[] = [];
  const faults: RowFault[] = [];
  for (const { row, cells } of rows) {
    const parsed = rowSchema.safeParse(cells);
    if (parsed.success) {
      taken.push({ row, cells: parsed.data });
      continue;
    }
    for (const issue of parsed.error.issues) {
      const column = String(issue.path[0] ?? '');
      const value = cells[column];
      faults.push({ row, column, ...(value !== undefined && { value }), message: issue.message });
    }
  }
  return { rows: taken, faults };
}

function parseRecords(file: string, text: string): { record: string[]; line: number }[] {
  try {
    const parsed = parse(text, { bom: true, info: true, skip_empty_lines: true, trim: true }) as unknown as {
      record: string[];
      info: { lines: number };
    }[];
    return parsed.map(({ record, info }) => ({ record, line: info.lines }));
  } catch (error) {
    const { message, lines } = error as Error & { lines?: number };
    throw new TableError([{ file, ...(lines !== undefined && { row: lines }), message }]);
  }
}

/** What is wrong with the names of columns: each must be one of the schema, once, and those that it needs must be there. */
export function headerProblems(
  header: readonly string[],
  schema: z.ZodObject,
): { readonly column: string; readonly message: string }[] {
  const known = Object.keys(schema.shape);
  const required = known.filter((key) => !schema.shape[key]?.safeParse(undefined).success);
  return [
    ...header
      .filter((name, index) => header.indexOf(name) !== index)
      .map((column) => ({ column, message: 'this column stands twice; keep one' })),
    ...header
      .filter((name) => !known.includes(name))
      .map((column) => ({ column, message: `unknown column; the columns are ${known.join(', ')}` })),
    ...required
      .filter((name) => !header.includes(name))
      .map((column) => ({ column, message: 'this column is missing; add it' })),
  ];
}
