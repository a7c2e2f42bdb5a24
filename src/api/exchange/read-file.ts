import { SheetError } from '../../tables/sheets/grid.ts';
import {
  type Dataset,
  type Known,
  type ReadDataset,
  type ReadItem,
  readDataset,
} from '../../tables/sheets/read-dataset.ts';
import { lotFormIssues } from './lot-form.ts';

/** A spreadsheet to be read. */
export interface ReadFileTask {
  readonly dataset: Dataset;
  readonly bytes: Uint8Array;
  readonly known: Known;
}

/** What was read, or why the file is no table: between threads an error keeps no more than its message. */
export type ReadFileDone = { readonly read: ReadFile<Dataset> } | { readonly refused: string };

export interface ReadFile<Name extends Dataset> extends Omit<ReadDataset<Name>, 'items'> {
  readonly items: readonly FileItem<Name>[];
}

export interface FileItem<Name extends Dataset> extends ReadItem<Name> {
  /** What could not be written by hand either, by column; it stands in the way of what is new or changed. */
  readonly unfit?: readonly { readonly field: string; readonly message: string }[];
}

/** Reads a spreadsheet, for a thread of its own: many rows take a while. */
export async function readFileOrRefuse({ dataset, bytes, known }: ReadFileTask): Promise<ReadFileDone> {
  try {
    if (dataset !== 'lots') return { read: await readDataset(dataset, bytes, known) };
    const read = await readDataset('lots', bytes, known);
    const items = read.items.map((item) => {
      const unfit = lotFormIssues(item.value);
      return unfit.length > 0 ? { ...item, unfit } : item;
    });
    return { read: { ...read, items } };
  } catch (error) {
    if (error instanceof SheetError) return { refused: error.message };
    throw error;
  }
}
