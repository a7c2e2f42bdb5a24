import type { LogTable, Time } from './log.ts';

/** One weighing of something whose amount the law limits: a cure, a phosphate, a binder. */
export interface RestrictedEntry {
  readonly batchId: string;
  readonly product: string;
  readonly load: number;
  readonly material: string;
  readonly lotId?: string | undefined;
  readonly substances: readonly string[];
  /** As the sheet asked for it, with its unit. */
  readonly planned?: string | undefined;
  readonly weighed: string;
  /** Why the weighing does not count any more. */
  readonly takenBack?: string | undefined;
  /** How the limits on these substances stand with all that was weighed in; empty until it is. */
  readonly standing: readonly {
    readonly says: string;
    readonly value: number;
    readonly bound: number;
    readonly unit: string;
    readonly holds: boolean;
    readonly citation: string;
    readonly load?: number | undefined;
  }[];
  readonly weighedAt: Time;
  readonly by: string;
}

export const RESTRICTED_TITLE = 'Restricted ingredient log';
export const RESTRICTED_NOTES = [
  'Every weighing of a material that carries a restricted substance, with how the limits on it stood once everything was weighed in.',
  'Too much nitrite is poisonous: hold a batch with a limit that is not met, and ask the inspector and your process authority.',
];

export const RESTRICTED_TABLE: LogTable<RestrictedEntry, RestrictedEntry> = {
  rowsOf: (entry) => [entry],
  columns: [
    { title: 'Batch', of: ({ batchId }) => batchId, inHead: true },
    { title: 'Product', of: ({ product }) => product, inHead: true },
    { title: 'Load', of: ({ load }) => String(load) },
    { title: 'Material', of: ({ material }) => material },
    { title: 'Lot', of: ({ lotId }) => lotId ?? 'no lot kept' },
    { title: 'Carries', of: ({ substances }) => substances.join(', ') },
    { title: 'Planned', of: ({ planned }) => planned },
    { title: 'Weighed', of: ({ weighed }) => weighed },
    { title: 'Taken back', of: ({ takenBack }) => takenBack },
    { title: 'Limits', of: limitsText },
    { title: 'When', of: ({ weighedAt }) => weighedAt.shown },
    { title: 'By', of: ({ by }) => by },
  ],
  section: ({ batchId, product }) => ({ title: `Batch ${batchId}, ${product}`, lines: [] }),
};

function limitsText({ standing, takenBack }: RestrictedEntry): string {
  if (standing.length > 0) return standing.map(standingText).join('; ');
  return takenBack === undefined ? 'not all weighed in yet, or no limit counts it' : '';
}

function standingText({ says, value, unit, holds, citation, load }: RestrictedEntry['standing'][number]) {
  const where = load === undefined ? '' : ` in load ${load}`;
  const measure = unit === 'percent' ? '%' : unit;
  return `${Number(value.toPrecision(6))} ${measure}${where}, ${holds ? 'met' : 'NOT MET'}: ${says.replace(/\.$/, '')} (${citation})`;
}
