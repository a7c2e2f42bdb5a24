import type { Db } from '../../store/open.ts';
import type { Writing } from '../../store/store.ts';
import type { Dataset, ReadDataset } from '../../tables/sheets/read-dataset.ts';
import type { CellFault } from '../../tables/sheets/read-sheet.ts';
import type { Role } from '../access/roles.ts';
import type { Books } from '../books.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import type { ReadFile } from './read-file.ts';

/** What an import would do, worked out against the books as they stand. */
export interface ImportPlan {
  /** New and changed rows, in the order of the file. */
  readonly changes: readonly RowChange[];
  readonly unchanged: number;
  readonly faults: readonly CellFault[];
  readonly write: (writing: Writing) => Promise<void>;
}

export interface RowChange {
  readonly row: number;
  readonly id: string;
  readonly what: 'new' | 'changed';
  readonly says: string;
}

/** What a plan is made from. */
export interface Importing<Name extends Dataset> {
  readonly books: Books;
  readonly data: PlantBooks;
  /** The day at the plant. */
  readonly day: string;
  readonly role: Role;
  readonly read: ReadFile<Name>;
}

export type Planner<Name extends Dataset> = (db: Db, importing: Importing<Name>) => Promise<ImportPlan>;

/** The cell of a column in a row. */
export function cellFault(
  { columns }: Pick<ReadDataset<Dataset>, 'columns'>,
  row: number,
  field: string,
  message: string,
): CellFault {
  const column = columns[field];
  return { row, ...(column !== undefined && { column, address: `${column}${row}` }), field, message };
}
