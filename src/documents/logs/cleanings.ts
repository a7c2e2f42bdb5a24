import type { LogTable, Time } from './log.ts';

/** One cleaning of equipment. */
export interface CleaningEntry {
  readonly record: number;
  readonly equipment: readonly string[];
  readonly what: string;
  readonly cleaned: Time;
  readonly note?: string | undefined;
  readonly by: string;
  readonly written: Time;
  /** Records that correct it; what they say is right stands here already. */
  readonly correctedBy: readonly number[];
  /** Whether a correction says that it never was. */
  readonly withdrawn: boolean;
}

export const CLEANINGS_TITLE = 'Cleaning log';
export const CLEANINGS_NOTES = [
  'What was wrong when it was written down stands in the record itself; its correction names it.',
];

export const CLEANINGS_TABLE: LogTable<CleaningEntry, CleaningEntry> = {
  rowsOf: (entry) => [entry],
  columns: [
    { title: 'Record', of: ({ record }) => String(record) },
    { title: 'Equipment', of: ({ equipment }) => equipment.join(', ') },
    { title: 'What was done', of: ({ what, withdrawn }) => (withdrawn ? 'withdrawn' : what) },
    { title: 'When', of: ({ cleaned }) => cleaned.shown },
    { title: 'Note', of: ({ note }) => note },
    { title: 'By', of: ({ by }) => by },
    { title: 'Written down', of: ({ written }) => written.shown },
    { title: 'Corrected by record', of: ({ correctedBy }) => correctedBy.join(' ') },
  ],
};
