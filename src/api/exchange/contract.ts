import { z } from 'zod';
import { choiceField } from '../../tables/json.ts';
import { DATASETS } from '../../tables/sheets/read-dataset.ts';
import { query } from '../contract/pages.ts';

/** Spreadsheets as they are taken in and given out. */

export const CSV = 'text/csv';
export const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** Most faults and most rows that one answer names; more would not be read. */
export const MOST_NAMED = 1000;

export const importQuery = query({
  dryRun: choiceField(['true', 'false'])
    .default('false')
    .meta({ description: 'true: nothing is written; the answer says what would be, and every fault.' }),
});

const fault = z.object({
  row: z
    .int()
    .optional()
    .meta({ description: 'The number beside the row; absent for the table as a whole.' }),
  column: z.string().optional().meta({ description: 'Letters above the column.' }),
  address: z.string().optional().meta({ description: 'Such as D12.' }),
  field: z.string().meta({ description: 'Name of the column.' }),
  value: z.string().optional().meta({ description: 'What stands there, shortened.' }),
  message: z.string().meta({ description: 'What is wrong, and what to write.' }),
});

export const importAnswer = z
  .object({
    dataset: z.enum(DATASETS),
    dryRun: z.boolean(),
    written: z
      .boolean()
      .meta({ description: 'Whether the books changed; not where everything stood as it was.' }),
    file: z.object({
      form: z.enum(['csv', 'xlsx']),
      sheet: z.string().optional(),
      delimiter: z.string().optional(),
    }),
    rows: z.int(),
    counts: z.object({ new: z.int(), changed: z.int(), unchanged: z.int(), faults: z.int() }),
    changes: z
      .array(z.object({ row: z.int(), id: z.string(), what: z.enum(['new', 'changed']), says: z.string() }))
      .meta({ description: `New and changed rows, the first ${MOST_NAMED} of them.` }),
    faults: z.array(fault).meta({ description: `The first ${MOST_NAMED} of them.` }),
  })
  .meta({ id: 'Import' });
export type ImportAnswer = z.output<typeof importAnswer>;

export const exportQuery = query({
  form: choiceField(['csv', 'xlsx']).optional().meta({ description: 'In place of Accept.' }),
  decimal: choiceField(['point', 'comma'])
    .default('point')
    .meta({ description: 'Of CSV: comma puts semicolons between cells.' }),
});
