import { fixed } from '../units.ts';
import { csvOf } from './logs/csv.ts';
import { printedPage } from './printed-page.ts';
import type { Report, ReportTable } from './report.ts';

interface BothUnits {
  readonly kg: number;
  readonly lb: number;
}

interface MassAndCost {
  readonly mass: BothUnits;
  readonly cost: number;
}

/** What a kilogram and a pound cost. */
interface UnitCost {
  readonly perKg: number;
  readonly perLb: number;
}

/** What the batches of some days cost, as the report shows it. */
export interface CostReport {
  readonly plant: string;
  readonly establishment: string;
  readonly units: 'lb' | 'kg';
  readonly fromDay: string;
  readonly toDay: string;
  readonly batches: readonly {
    readonly batchId: string;
    readonly product: string;
    readonly date: string;
    readonly state: string;
    readonly currency: string;
    readonly planned: MassAndCost & { readonly each: UnitCost };
    readonly weighed: MassAndCost & { readonly each: UnitCost };
    readonly finished?:
      | {
          readonly output: MassAndCost;
          readonly each: UnitCost;
          readonly yieldFraction: number;
          readonly rework: MassAndCost;
          readonly discarded: MassAndCost;
          readonly lossBeyondYield: MassAndCost;
        }
      | undefined;
    readonly givenAway?:
      | {
          readonly mostFatFraction: number;
          readonly fatFraction: number;
          readonly points: number;
          readonly cost?: number | undefined;
        }
      | undefined;
  }[];
  readonly products: readonly ProductCosts[];
  readonly materials: readonly {
    readonly material: string;
    readonly currency: string;
    readonly mass: BothUnits;
    readonly cost: number;
    readonly each: UnitCost;
  }[];
  readonly notes: readonly string[];
}

export interface ProductCosts {
  readonly product: string;
  readonly currency: string;
  readonly batches: number;
  readonly plannedCost: number;
  readonly weighedCost: number;
  readonly weighed: BothUnits;
  readonly output: BothUnits;
  /** Of what was finished. */
  readonly each?: UnitCost | undefined;
  readonly reworkCost: number;
  readonly discardedCost: number;
  readonly lossBeyondYieldCost: number;
  readonly givenAwayCost: number;
}

export const COST_NOTES = [
  'A batch counts on the day that it is made on, once something was weighed into it. Planned: the blend as it was worked out. Weighed: what the scales showed, at what the lots cost. Materials only: no labor, energy or packaging.',
  'Finished: all that was put in and not kept as rework, divided by what came out. Discarded and lost beyond the declared yield: at what went into it; the product has borne it already. Below zero: less was lost than declared.',
  'Lean given away: points of fat below the most that the label and the targets leave, on the expected finished weight, at the difference in price between the leanest and the fattest meat of the batch for each point (own reckoning).',
];

const COLUMNS = (units: 'lb' | 'kg') => [
  'Batch',
  'Product',
  'Day',
  'State',
  `Planned ${units}`,
  'Planned cost',
  `Planned per ${units}`,
  `Weighed ${units}`,
  'Weighed cost',
  `Weighed per ${units}`,
  `Finished ${units}`,
  `Finished per ${units}`,
  'Yield %',
  `Rework ${units}`,
  'Rework cost',
  `Discarded ${units}`,
  'Discarded cost',
  `Lost beyond yield ${units}`,
  'Cost of it',
  'Most fat %',
  'Fat %',
  'Points given away',
  'Cost of lean given away',
  'Currency',
];

function batchRows({ batches, units }: CostReport): string[][] {
  const per = ({ perKg, perLb }: UnitCost) => fixed(units === 'lb' ? perLb : perKg, 4);
  const both = ({ mass, cost }: MassAndCost) => [fixed(mass[units], 2), fixed(cost, 2)];
  return batches.map(({ batchId, product, date, state, currency, planned, weighed, finished, givenAway }) => [
    batchId,
    product,
    date,
    state,
    ...both(planned),
    per(planned.each),
    ...both(weighed),
    per(weighed.each),
    ...(finished
      ? [
          fixed(finished.output.mass[units], 2),
          per(finished.each),
          fixed(finished.yieldFraction * 100, 2),
          ...both(finished.rework),
          ...both(finished.discarded),
          ...both(finished.lossBeyondYield),
        ]
      : Array.from({ length: 9 }, () => '')),
    ...(givenAway
      ? [
          fixed(givenAway.mostFatFraction * 100, 2),
          fixed(givenAway.fatFraction * 100, 2),
          fixed(givenAway.points, 2),
          givenAway.cost === undefined ? '' : fixed(givenAway.cost, 2),
        ]
      : ['', '', '', '']),
    currency,
  ]);
}

/** A row for each batch, for a spreadsheet. */
export function costCsv(report: CostReport): string {
  return csvOf(COLUMNS(report.units), batchRows(report));
}

export function costPage(report: CostReport): string {
  return printedPage(costReport(report));
}

/** The report to print: batches, products, materials. */
export function costReport(report: CostReport): Report {
  const { plant, establishment, fromDay, toDay, notes } = report;
  return {
    title: 'Cost report',
    plant,
    establishment,
    lines: [`Batches from ${fromDay} to ${toDay}.`],
    parts: [
      { title: 'By product', table: productTable(report) },
      { title: 'By material, as weighed in', table: materialTable(report) },
      { title: 'Batches: planned, weighed, finished', table: batchTable(report, 0, 13) },
      { title: 'Batches: rework, loss, lean given away', table: batchTable(report, 13, 23) },
    ],
    notes,
  };
}

const NONE = 'No batch in these days.';

/** Some of the columns of each batch, so that they fit on paper. */
function batchTable(report: CostReport, from: number, until: number): ReportTable {
  const some = (row: readonly string[]) =>
    from === 0
      ? [...row.slice(0, until), row.at(-1) ?? '']
      : [...row.slice(0, 3), ...row.slice(from, until), row.at(-1) ?? ''];
  return { titles: some(COLUMNS(report.units)), rows: batchRows(report).map(some), none: NONE };
}

function productTable({ products, units }: CostReport): ReportTable {
  return {
    titles: [
      'Product',
      'Batches',
      'Planned cost',
      'Weighed cost',
      `Weighed ${units}`,
      `Finished ${units}`,
      `Finished per ${units}`,
      'Rework cost',
      'Discarded cost',
      'Lost beyond yield, cost',
      'Lean given away, cost',
      'Currency',
    ],
    rows: products.map((one) => [
      one.product,
      String(one.batches),
      fixed(one.plannedCost, 2),
      fixed(one.weighedCost, 2),
      fixed(one.weighed[units], 2),
      fixed(one.output[units], 2),
      one.each === undefined ? '' : fixed(units === 'lb' ? one.each.perLb : one.each.perKg, 4),
      fixed(one.reworkCost, 2),
      fixed(one.discardedCost, 2),
      fixed(one.lossBeyondYieldCost, 2),
      fixed(one.givenAwayCost, 2),
      one.currency,
    ]),
    none: NONE,
  };
}

function materialTable({ materials, units }: CostReport): ReportTable {
  return {
    titles: ['Material', `Weighed ${units}`, 'Cost', `Per ${units}`, 'Currency'],
    rows: materials.map(({ material, mass, cost, each, currency }) => [
      material,
      fixed(mass[units], 2),
      fixed(cost, 2),
      fixed(units === 'lb' ? each.perLb : each.perKg, 4),
      currency,
    ]),
    none: NONE,
  };
}
