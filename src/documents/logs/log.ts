import { printedPage } from '../printed-page.ts';
import type { Report, ReportPart } from '../report.ts';
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
  readonly columns: readonly Column<Row>[];
  /** Where all columns would make the printed page too wide: the section that an entry stands in, with all of its title. */
  readonly section?: (item: Item) => Section;
}

export interface Column<Row> {
  readonly title: string;
  readonly of: (row: Row) => string | undefined;
  /** Stands in the head of the section on the printed page, where the table has sections. */
  readonly inHead?: true;
}

/** The head of a section of the printed page, above the table of its entries. */
export interface Section {
  readonly title: string;
  readonly lines: readonly string[];
}

export function logCsv<Item, Row>(table: LogTable<Item, Row>, { items }: Log<Item>): string {
  return csvOf(titlesOf(table), cellsOf(table, items));
}

export function logPage<Item, Row>(table: LogTable<Item, Row>, log: Log<Item>): string {
  return printedPage(logReport(table, log));
}

/** A log as it is printed, on a page or on paper. */
export function logReport<Item, Row>(table: LogTable<Item, Row>, log: Log<Item>): Report {
  const { title, plant, establishment, fromDay, toDay, timeZone, notes, items } = log;
  return {
    title,
    plant,
    establishment,
    lines: [`From ${fromDay} to ${toDay}. Times are those of the plant (${timeZone}).`],
    parts: table.section && items.length > 0 ? sections(table, table.section, items) : [whole(table, items)],
    notes,
  };
}

function whole<Item, Row>(table: LogTable<Item, Row>, items: readonly Item[]): ReportPart {
  return {
    table: { titles: titlesOf(table), rows: cellsOf(table, items), none: 'Nothing in these days.' },
  };
}

function sections<Item, Row>(
  { rowsOf, columns }: LogTable<Item, Row>,
  sectionOf: (item: Item) => Section,
  items: readonly Item[],
): ReportPart[] {
  const table = { rowsOf, columns: columns.filter(({ inHead }) => !inHead) };
  const byTitle = new Map<string, Item[]>();
  for (const item of items) {
    const { title } = sectionOf(item);
    byTitle.set(title, [...(byTitle.get(title) ?? []), item]);
  }
  return [...byTitle].map(([title, own]) => ({
    title,
    lines: own.slice(0, 1).flatMap((item) => sectionOf(item).lines),
    ...whole(table, own),
  }));
}

function titlesOf<Item, Row>({ columns }: LogTable<Item, Row>): string[] {
  return columns.map(({ title }) => title);
}

function cellsOf<Item, Row>({ rowsOf, columns }: LogTable<Item, Row>, items: readonly Item[]): string[][] {
  return items.flatMap(rowsOf).map((row) => columns.map(({ of }) => of(row) ?? ''));
}
