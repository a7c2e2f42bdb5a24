import { fixed } from '../units.ts';
import { printedPage } from './printed-page.ts';
import type { Report, ReportPart, ReportTable } from './report.ts';

interface BothUnits {
  readonly kg: number;
  readonly lb: number;
}

interface Whereabouts {
  readonly affected: BothUnits;
  readonly onHand: { readonly material: BothUnits; readonly bulk: BothUnits; readonly packs: BothUnits };
  readonly inProcess: BothUnits;
  readonly shipped: readonly { readonly to: string; readonly mass: BothUnits }[];
  readonly sold: readonly { readonly to: string; readonly mass: BothUnits }[];
  readonly soldAtCounter: BothUnits;
  readonly discarded: BothUnits;
  readonly samples: BothUnits;
  readonly lossInProcess: BothUnits;
  readonly countedShort: BothUnits;
  readonly accounted: BothUnits;
  readonly percentAccounted: number;
}

/** A recall drill as its page shows it. */
export interface RecallDrill {
  readonly id: string;
  readonly state: string;
  readonly plant: string;
  readonly establishment: string;
  readonly units: 'lb' | 'kg';
  readonly timeZone: string;
  readonly reason: string;
  readonly start: { readonly says: string };
  readonly started: { readonly shown: string };
  readonly startedBy: string;
  readonly batches: readonly string[];
  readonly lots: readonly {
    readonly lotId: string;
    readonly kind: string;
    readonly of: string;
    readonly onHand: BothUnits;
    readonly held: boolean;
  }[];
  readonly consignees: readonly {
    readonly to?: string | undefined;
    readonly kind: string;
    readonly document?: string | undefined;
    readonly day: string;
    readonly lotId: string;
    readonly mass: BothUnits;
  }[];
  /** Absent from drills that were recorded before it was looked for. */
  readonly sameGrinder?:
    | readonly {
        readonly batchId: string;
        readonly product: string;
        readonly date: string;
        readonly beside: readonly string[];
      }[]
    | undefined;
  readonly whereabouts: Whereabouts;
  readonly finished?:
    | {
        readonly time: { readonly shown: string };
        readonly by: string;
        readonly minutes: number;
        readonly counted: readonly {
          readonly lotId: string;
          readonly books: BothUnits;
          readonly found: BothUnits;
          readonly difference: BothUnits;
          readonly note?: string | undefined;
        }[];
        /** Absent from drills that were recorded before it was asked for. */
        readonly contacted?:
          | readonly { readonly to: string; readonly note?: string | undefined }[]
          | undefined;
        readonly whereabouts: Whereabouts;
        readonly percentAccounted: number;
        readonly note?: string | undefined;
      }
    | undefined;
  readonly counts: readonly string[];
}

export function recallDrillPage(drill: RecallDrill): string {
  return printedPage(recallDrillReport(drill));
}

/** The drill to print, sign and keep; before its finish also the list to count by. */
export function recallDrillReport(drill: RecallDrill): Report {
  const { id, plant, establishment, finished, counts, whereabouts, units } = drill;
  const mass = (both: BothUnits) => `${fixed(both[units], 2)} ${units}`;
  return {
    title: `Recall drill ${id}`,
    plant,
    establishment,
    lines: linesOf(drill),
    parts: [
      {
        title: `What became of it${finished ? ', as the books stood at the finish' : ''}`,
        table: tableOf(['State', 'Weight'], whereaboutsRows(finished?.whereabouts ?? whereabouts, mass)),
      },
      {
        title: 'Batches that it may be in',
        lines: [drill.batches.length === 0 ? 'none' : drill.batches.join(', ')],
      },
      ...sameGrinderPart(drill),
      { title: 'On hand', table: finished ? countedTable(finished, mass) : toCountTable(drill, mass) },
      { title: 'Who got some of it', table: consigneeTable(drill, mass) },
    ],
    notes: counts,
  };
}

function tableOf(
  titles: readonly string[],
  rows: readonly (readonly string[])[],
  none = 'Nothing.',
): ReportTable {
  return { titles, rows, none };
}

type Text = (both: BothUnits) => string;

function linesOf({ start, reason, started, startedBy, timeZone, finished }: RecallDrill): string[] {
  return [
    `From ${start.says}. Reason: ${reason}`,
    `Started ${started.shown} by ${startedBy} (${timeZone})`,
    ...(finished
      ? [
          `Finished ${finished.time.shown} by ${finished.by}: ${fixed(finished.minutes, 1)} minutes, ${fixed(finished.percentAccounted, 1)} % of the weight accounted for`,
          ...(finished.note === undefined ? [] : [`Note: ${finished.note}`]),
        ]
      : ['Not finished']),
  ];
}

function whereaboutsRows(where: Whereabouts, mass: Text): string[][] {
  return [
    ['On hand, materials and rework', mass(where.onHand.material)],
    ['On hand, bulk', mass(where.onHand.bulk)],
    ['On hand, packs', mass(where.onHand.packs)],
    ['In process', mass(where.inProcess)],
    ...where.shipped.map(({ to, mass: much }) => [`Shipped to ${to}`, mass(much)]),
    ...where.sold.map(({ to, mass: much }) => [`Sold to ${to}`, mass(much)]),
    ['Discarded', mass(where.discarded)],
    ['Samples for tests', mass(where.samples)],
    ['Lost in process, as recorded', mass(where.lossInProcess)],
    [`ACCOUNTED FOR IN THE BOOKS, ${fixed(where.percentAccounted, 1)} %`, mass(where.accounted)],
    ['Sold over the counter, not accounted for', mass(where.soldAtCounter)],
    ['Counted short, not accounted for', mass(where.countedShort)],
    ['AFFECTED, ALL OF IT', mass(where.affected)],
  ];
}

function sameGrinderPart({ sameGrinder = [] }: RecallDrill): ReportPart[] {
  if (sameGrinder.length === 0) return [];
  return [
    {
      title: 'Ground with them, the grinder not cleaned between',
      lines: ['These may hold some too. They are in no figure here: trace each of them.'],
      table: tableOf(
        ['Batch', 'Product', 'Day', 'Ground with batch'],
        sameGrinder.map(({ batchId, product, date, beside }) => [batchId, product, date, beside.join(', ')]),
      ),
    },
  ];
}

function toCountTable({ lots }: RecallDrill, mass: Text): ReportTable {
  return tableOf(
    ['Lot', 'Kind', 'Of', 'Books', 'On hold', 'Found'],
    lots.map(({ lotId, kind, of, onHand, held }) => [lotId, kind, of, mass(onHand), held ? 'yes' : 'no', '']),
  );
}

function countedTable({ counted }: NonNullable<RecallDrill['finished']>, mass: Text): ReportTable {
  return tableOf(
    ['Lot', 'Books', 'Found', 'Difference', 'Note'],
    counted.map(({ lotId, books, found, difference, note = '' }) => [
      lotId,
      mass(books),
      mass(found),
      mass(difference),
      note,
    ]),
  );
}

function consigneeTable({ consignees, finished }: RecallDrill, mass: Text): ReportTable {
  const contacted =
    finished?.contacted && new Map(finished.contacted.map(({ to, note }) => [to, note ?? 'yes']));
  const isAsked = !finished || contacted;
  const answerOf = (to: string | undefined) =>
    (to !== undefined && contacted?.get(to)) || (contacted ? 'no' : '');
  return tableOf(
    ['To', 'Lot', 'Weight', 'How', 'Day', 'Document', ...(isAsked ? ['Contacted'] : [])],
    consignees.map(({ to, lotId, mass: much, kind, day, document = '' }) => [
      to ?? 'not known',
      lotId,
      mass(much),
      kind,
      day,
      document,
      ...(isAsked ? [answerOf(to)] : []),
    ]),
    'Nobody.',
  );
}
