import { csvLine } from '../../tables/sheets/write-csv.ts';

/** Rows as CSV, the first line with the names of the columns. */
export function csvOf(titles: readonly string[], rows: readonly (readonly string[])[]): string {
  return [titles, ...rows].map((row) => csvLine(row)).join('');
}
