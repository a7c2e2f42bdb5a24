import type { LogTable, Time } from './log.ts';

/** One fat test of a lot or of a batch in the mixer. */
export interface FatTestEntry {
  readonly seq: number;
  /** Day of the sample. */
  readonly date: string;
  readonly written: Time;
  readonly lotId?: string | undefined;
  readonly batchId?: string | undefined;
  readonly load?: number | undefined;
  /** The material or the product. */
  readonly of?: string | undefined;
  readonly supplierEstablishment?: string | undefined;
  readonly fatPercent: string;
  readonly method: string;
  /** Standard deviation of the method, in percent of fat. */
  readonly sdPercent?: string | undefined;
  /** Limits that the mix did not meet with this fat. */
  readonly notMet: readonly string[];
  readonly by: string;
  /** Why it was wrong, and who said so. */
  readonly withdrawn?: string | undefined;
}

export const FAT_TESTS_TITLE = 'Fat test log';
export const FAT_TESTS_NOTES = [
  'A test of the mix says what the batch was then; a correction may follow it.',
];

export const FAT_TESTS_TABLE: LogTable<FatTestEntry, FatTestEntry> = {
  rowsOf: (test) => [test],
  columns: [
    { title: 'Test', of: ({ seq }) => String(seq) },
    { title: 'Sampled', of: ({ date }) => date },
    { title: 'Written down', of: ({ written }) => written.shown },
    { title: 'Lot', of: ({ lotId }) => lotId },
    { title: 'Batch', of: ({ batchId }) => batchId },
    { title: 'Load', of: ({ load }) => (load === undefined ? undefined : String(load)) },
    { title: 'Material or product', of: ({ of }) => of },
    { title: 'Supplier Est.', of: ({ supplierEstablishment }) => supplierEstablishment },
    { title: 'Fat %', of: ({ fatPercent }) => fatPercent },
    { title: 'Method', of: ({ method }) => method },
    { title: 'Sd of method, %', of: ({ sdPercent }) => sdPercent },
    { title: 'Limits not met', of: ({ notMet }) => notMet.join('; ') },
    { title: 'By', of: ({ by }) => by },
    { title: 'Withdrawn', of: ({ withdrawn }) => withdrawn },
  ],
};
