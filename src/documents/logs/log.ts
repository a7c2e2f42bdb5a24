import { htmlTable, printedPage } from '../printed-page.ts';
import { csvOf } from './csv.ts';

/** What happened over some days, entry by entry. */
export interface Log<Item> {
  readonly title: string;
  readonly plant: string;
  readonly establishment: string;
  readonly fromDay: string;
  readonly toDay: string;
  readonly timeZone: string;
  readonly notes: readonly string[];
  readonly items: readonly Item[];
}

/** An instant, and what the clock of the plant showed. */
export interface Time {
  readonly at: string;
  readonly shown: string;
}

/** How a log stands in a table: a row for each line of it. */
export interface LogTable<Item, Row> {
  readonly rowsOf: (item: Item) => readonly Row[];
  readonly columns: readonly { readonly title: string; readonly of: (row: Row) => string | undefined }[];
}

export function logCsv<Item, Row>(table: LogTable<Item, Row>, { items }: Log<Item>): string {
  return csvOf(titlesOf(table), cellsOf(table, items));
}

export function logPage<Item, Row>(table: LogTable<Item, Row>, log: Log<Item>): string {
  const { title, plant, establishment, fromDay, toDay, timeZone, notes, items } = log;
  return printedPage({
    title,
    plant,
    establishment,
    lines: [`From ${fromDay} to ${toDay}. Times are those of the plant (${timeZone}).`],
    main: htmlTable(titlesOf(table), cellsOf(table, items)),
    notes,
  });
}

function titlesOf<Item, Row>({ columns }: LogTable<Item, Row>): string[] {
  return columns.map(({ title }) => title);
}

function cellsOf<Item, Row>({ rowsOf, columns }: LogTable<Item, Row>, items: readonly Item[]): string[][] {
  return items.flatMap(rowsOf).map((row) => columns.map(({ of }) => of(row) ?? ''));
}
