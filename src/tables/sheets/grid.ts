/** What a spreadsheet holds, whatever its form: texts in rows, each row with the number that a person sees beside it. */
export interface Grid {
  /** The sheet it was read from; absent for a file of text. */
  readonly sheet?: string;
  readonly rows: readonly GridRow[];
  /** Between cells; absent for a workbook. */
  readonly delimiter?: Delimiter;
  /** Cells that hold no value that could be read, with why. */
  readonly unreadable: readonly Unreadable[];
  /** Day 0 of dates that stand as bare numbers, as a workbook counts them. */
  readonly dayZero?: string;
}

export interface GridRow {
  /** 1 for the first row of the sheet. */
  readonly row: number;
  /** From column A on; cells that are not there at the end are empty. */
  readonly cells: readonly string[];
}

export interface Unreadable {
  readonly row: number;
  /** 0 for column A. */
  readonly column: number;
  readonly message: string;
}

export const DELIMITERS = [',', ';', '\t'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

/** More than any plant keeps in one table; a file with more is a slip or meant to do harm. */
export const MOST_ROWS = 100_000;
export const MOST_COLUMNS = 200;

/** A file that is no table at all, with what to do about it. */
export class SheetError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'SheetError';
  }
}

/** 0 as 'A', 26 as 'AA'. */
export function columnLetters(column: number): string {
  const letter = String.fromCharCode(65 + (column % 26));
  return column < 26 ? letter : `${columnLetters(Math.floor(column / 26) - 1)}${letter}`;
}

/** 'A' as 0, 'AA' as 26. */
export function columnNumber(letters: string): number {
  return [...letters].reduce((number, letter) => number * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}
