/** What is held together or dropped together: rows, and single ends of columns that can be let go. */
export interface Group {
  readonly rows: readonly FreeRow[];
  readonly ends: readonly FreeEnd[];
}

/** A row with the widest bounds it can be given. */
export interface FreeRow {
  readonly row: number;
  readonly lower: number;
  readonly upper: number;
}

/** One end of a column with how far it can be moved. */
export interface FreeEnd {
  readonly column: number;
  readonly end: 'lower' | 'upper';
  readonly to: number;
}
