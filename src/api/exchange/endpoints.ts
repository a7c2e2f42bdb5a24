import { z } from 'zod';
import { takeTurns } from '../../store/turns.ts';
import type { Dataset } from '../../tables/sheets/read-dataset.ts';
import { DATASETS } from '../../tables/sheets/read-dataset.ts';
import type { Permission } from '../access/roles.ts';
import type { Books } from '../books.ts';
import type { Endpoint } from '../endpoint.ts';
import { CSV, exportQuery, importAnswer, importQuery, XLSX } from './contract.ts';
import { ALL, EXPORTED, exportFile } from './export.ts';
import { importFile } from './import.ts';

/** Spreadsheets in and out. */
export function exchangeEndpoints(books: Books): Endpoint[] {
  const tag = 'Spreadsheets';
  // A large file takes much memory while it is read: one at a time.
  const inTurn = takeTurns();
  const imports = DATASETS.map(
    (dataset): Endpoint => ({
      method: 'POST',
      path: `/imports/${dataset}`,
      tag,
      says: SAYS[dataset],
      may: MAY[dataset],
      query: importQuery,
      takesFile: [CSV, XLSX, 'application/octet-stream'],
      gives: importAnswer,
      handle: (call) => inTurn(() => importFile(books, dataset, call)),
    }),
  );
  return [
    ...imports,
    {
      method: 'GET',
      path: '/exports/:dataset',
      tag,
      says: `A table as CSV or workbook: ${EXPORTED.map(({ name }) => name).join(', ')}; or ${ALL}, a workbook with a sheet of each`,
      may: 'read',
      query: exportQuery,
      gives: z.unknown(),
      givesFile: [CSV, XLSX],
      handle: (call) => exportFile(books, call),
    },
  ];
}

const SAYS: Readonly<Record<Dataset, string>> = {
  lots: 'Receive lots out of a spreadsheet, and change what is known of those that are there: all or nothing',
  materials: "Take the plant's own materials out of a spreadsheet: all or nothing",
  prices: 'Take prices out of a spreadsheet: all or nothing',
  products: 'Take products out of a spreadsheet, a row for each part: all or nothing',
};

/** As for each of them by hand. */
const MAY: Readonly<Record<Dataset, Permission>> = {
  lots: 'work',
  materials: 'plan',
  prices: 'plan',
  products: 'plan',
};
