import type { LogTable, Time } from './log.ts';

/** One lot of raw ground beef: all that was ground of the same source materials from one cleaning to the next. */
export interface GrindLot {
  /** 1, 2, 3, … in the order of the days. */
  readonly number: number;
  readonly batches: readonly { readonly batchId: string; readonly product: string }[];
  readonly producedFrom: Time;
  readonly producedUntil: Time;
  readonly cleanedBefore?: Time | undefined;
  readonly cleanedAfter?: Time | undefined;
  /** Of whatever meat, ground before it without a cleaning between: the grinder carried over. */
  readonly groundBefore: readonly { readonly batchId: string; readonly product: string }[];
  readonly sources: readonly GrindSource[];
}

export interface GrindSource {
  readonly material: string;
  readonly lotId?: string | undefined;
  readonly supplierEstablishment?: string | undefined;
  readonly supplierLot?: string | undefined;
  /** Day on which the supplier packed it. */
  readonly productionDate?: string | undefined;
  /** The batch that it is left over from, for rework. */
  readonly madeIn?: string | undefined;
  /** The lot of rework that carried it over from an earlier batch. */
  readonly carriedOverBy?: string | undefined;
  /** What was weighed in; unknown for what rework carried over. */
  readonly weighed?: string | undefined;
}

interface Row {
  readonly lot: GrindLot;
  readonly source: GrindSource;
}

export const GRINDING_TITLE = 'Grinding log, raw ground beef';

/** Fields after FSIS Directive 5000.10 on 9 CFR 320.1(b)(4); the weight is more than it asks for. */
export const GRINDING_NOTES = [
  'Record of 9 CFR 320.1(b)(4), fields as FSIS Directive 5000.10 lists them. Weights are not asked for; they are kept because a recall needs them.',
  'A lot runs from one clean-up to the next with the same source materials. Only cleanings of a grinder that were entered as "cleaned and sanitized" bound it.',
  'Keep for 1 year at the place where the raw beef is ground (9 CFR 320.3(c)). Local rules and the inspector come first.',
];

export const GRINDING_TABLE: LogTable<GrindLot, Row> = {
  rowsOf: (lot) => lot.sources.map((source) => ({ lot, source })),
  columns: [
    { title: 'Grind lot', of: ({ lot }) => String(lot.number), inHead: true },
    { title: 'Batches', of: ({ lot }) => batchesText(lot), inHead: true },
    { title: 'Products', of: ({ lot }) => productsText(lot), inHead: true },
    { title: 'Produced from', of: ({ lot }) => lot.producedFrom.shown, inHead: true },
    { title: 'Produced until', of: ({ lot }) => lot.producedUntil.shown, inHead: true },
    { title: 'Cleaned before', of: ({ lot }) => cleanedBeforeText(lot), inHead: true },
    { title: 'Cleaned after', of: ({ lot }) => cleanedAfterText(lot), inHead: true },
    { title: 'Ground before it, not cleaned between', of: ({ lot }) => carriedText(lot), inHead: true },
    { title: 'Material', of: ({ source }) => source.material },
    { title: 'Lot', of: ({ source }) => source.lotId ?? 'no lot kept' },
    { title: 'Supplier Est.', of: ({ source }) => entered(source, source.supplierEstablishment) },
    { title: "Supplier's lot", of: ({ source }) => entered(source, source.supplierLot) },
    { title: 'Production date', of: ({ source }) => entered(source, source.productionDate) },
    { title: 'Carried over by', of: ({ source }) => source.carriedOverBy },
    { title: 'Weighed in', of: ({ source }) => source.weighed },
  ],
  section: (lot) => ({
    title: `Grind lot ${lot.number}: ${productsText(lot)}, batch ${batchesText(lot)}`,
    lines: [
      `Produced from ${lot.producedFrom.shown} until ${lot.producedUntil.shown}`,
      `Grinder cleaned and sanitized before: ${cleanedBeforeText(lot)}; after: ${cleanedAfterText(lot)}`,
      `Carried over on the grinder, ground before it and not cleaned between: ${carriedText(lot) || 'nothing'}`,
    ],
  }),
};

const batchesText = ({ batches }: GrindLot) => batches.map(({ batchId }) => batchId).join(' ');
const productsText = ({ batches }: GrindLot) =>
  [...new Set(batches.map(({ product }) => product))].join('; ');
const cleanedBeforeText = ({ cleanedBefore }: GrindLot) => cleanedBefore?.shown ?? 'NOT ENTERED';
const cleanedAfterText = ({ cleanedAfter }: GrindLot) => cleanedAfter?.shown ?? 'not yet';
const carriedText = ({ groundBefore }: GrindLot) =>
  groundBefore.map(({ batchId, product }) => `${batchId} (${product})`).join('; ');

/** A gap in what the rule asks for must be seen. */
function entered({ lotId, madeIn }: GrindSource, field: string | undefined): string | undefined {
  if (field !== undefined || lotId === undefined) return field;
  return madeIn === undefined ? 'NOT ENTERED' : `made here, batch ${madeIn}`;
}
