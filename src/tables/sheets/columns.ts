/**
 * What stands in a column. text: as it is written, spaces included. word: an id, a choice, a list. number, percent: a
 * figure. digits: a figure whose digits are kept as written. date: a calendar day.
 */
export type CellKind = 'text' | 'word' | 'number' | 'percent' | 'digits' | 'date';

export interface Column {
  readonly name: string;
  readonly kind: CellKind;
}

/** Columns in the order in which they are written. */
export function columnsOf<Name extends string>(kinds: Readonly<Record<Name, CellKind>>): Column[] {
  return Object.entries<CellKind>(kinds).map(([name, kind]) => ({ name, kind }));
}
