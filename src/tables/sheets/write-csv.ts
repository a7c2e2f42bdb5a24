import { type Exact, exact, toText } from '../../exact.ts';
import { withDecimalComma } from './written-number.ts';

/** A cell to be written: a number stays a number, exactly where it must be; nothing is an empty cell. */
export type WrittenCell = string | number | Exact | undefined;

export interface CsvForm {
  /** What people there put between cells follows from what they put into numbers. */
  readonly decimal: 'point' | 'comma';
}

/**
 * One row as CSV after RFC 4180: it ends with CR LF, a cell is quoted where it must be. A text that a spreadsheet would
 * take for a formula gets an apostrophe before it.
 */
export function csvLine(cells: readonly WrittenCell[], { decimal }: CsvForm = { decimal: 'point' }): string {
  const isComma = decimal === 'comma';
  return `${cells.map((cell) => csvCell(cell, isComma)).join(isComma ? ';' : ',')}\r\n`;
}

function csvCell(cell: WrittenCell, isComma: boolean): string {
  if (cell === undefined) return '';
  if (typeof cell !== 'string') {
    const plain = toText(typeof cell === 'number' ? exact(cell) : cell);
    return isComma ? withDecimalComma(plain) : plain;
  }
  const safe = guarded(cell);
  return NEEDS_QUOTES.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Edges of white space are quoted too: outside of quotes they would be taken away. */
const NEEDS_QUOTES = /[",;\t\r\n]|^\s|\s$/;

/** A negative number is no formula, written as a text or not. */
const NEGATIVE_NUMBER = /^-\d+(?:[.,]\d+)?$/;
/** Apostrophes before the sign count too, so that taking one away gives back what there was. */
const LOOKS_LIKE_FORMULA = /^'*[=+\-@\t\r]/;
const GUARDED = /^'+[=+\-@\t\r]/;

function guarded(text: string): string {
  return LOOKS_LIKE_FORMULA.test(text) && !NEGATIVE_NUMBER.test(text) ? `'${text}` : text;
}

/** The text that was there before a guard was put in front of it. */
export function unguarded(text: string): string {
  return GUARDED.test(text) ? text.slice(1) : text;
}
