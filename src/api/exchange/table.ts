import type { Exact } from '../../exact.ts';
import type { Db } from '../../store/open.ts';
import type { Column } from '../../tables/sheets/columns.ts';
import type { WrittenCell } from '../../tables/sheets/write-csv.ts';
import type { Books } from '../books.ts';

/** What the plant has of one kind, as a table. */
export interface ExportedTable {
  readonly name: string;
  readonly columns: readonly Column[];
  /** Whether a text that no cell of a workbook holds may be cut there: not where the table is taken in again. */
  readonly mayCut: boolean;
  /** Whether a text that may not be cut can be too long for a cell. */
  readonly hasLongTexts?: true;
  readonly rows: (books: Books) => AsyncIterable<WrittenCell[]>;
}

/** Rows that are read at once. Between two pages others come to read and write. */
export const PAGE_ROWS = 500;

/**
 * Rows page by page, each page after the last row of the one before; no page waits for whoever is slow to fetch it. What
 * is written meanwhile shows where it falls behind the page that is read.
 * @param page at most `limit` rows after one, in their order.
 */
export async function* inPages<Row>(
  { store }: Books,
  page: (db: Db, after: Row | undefined, limit: number) => Promise<readonly Row[]>,
  cells: (db: Db, rows: readonly Row[]) => Promise<WrittenCell[][]> | WrittenCell[][],
): AsyncGenerator<WrittenCell[]> {
  let last: Row | undefined;
  do {
    const { rows, written } = await store.read(async (db) => {
      const found = await page(db, last, PAGE_ROWS);
      return { rows: found, written: found.length === 0 ? [] : await cells(db, found) };
    });
    yield* written;
    // SQLite answers without waiting for anything: others get their turn here.
    await new Promise((resolve) => setImmediate(resolve));
    last = rows.length === PAGE_ROWS ? rows.at(-1) : undefined;
  } while (last !== undefined);
}

/** A JSON text of the books, of which nothing may be there. */
export function parsed<Body>(body: string | null): Partial<Body> {
  return body === null ? {} : (JSON.parse(body) as Partial<Body>);
}

/** Micrograms as kilograms, to every digit. */
export function kgOf(massUg: number): Exact {
  return { digits: BigInt(massUg), scale: 9 };
}
