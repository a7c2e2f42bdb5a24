/**
 * Rows as CSV after RFC 4180: lines end with CR LF, the first line names the columns, a cell is quoted where it must be.
 * A cell that a spreadsheet would take for a formula gets an apostrophe before it.
 */
export function csvOf(titles: readonly string[], rows: readonly (readonly string[])[]): string {
  return [titles, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

const LOOKS_LIKE_FORMULA = /^[=+\-@\t\r]/;
const NEEDS_QUOTES = /[",\r\n]/;

function cell(text: string): string {
  const safe = LOOKS_LIKE_FORMULA.test(text) ? `'${text}` : text;
  return NEEDS_QUOTES.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
