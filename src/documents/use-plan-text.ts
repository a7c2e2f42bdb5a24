import { fixed, percentOfFraction } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

interface BothUnits {
  readonly kg: number;
  readonly lb: number;
}

interface BothPrices {
  readonly perKg: number;
  readonly perLb: number;
}

interface Without {
  readonly notMade: readonly { readonly name: string; readonly because: readonly string[] }[];
  readonly leftOut: readonly {
    readonly supplyId: string;
    readonly material: string;
    readonly because: string;
  }[];
}

/** What the text reads of a plan; the answer of the service fits it. */
export type ReadPlan = (Without & { readonly outcome: 'nothing to make' }) | MadePlan;

interface MadePlan extends Without {
  readonly outcome: 'plan';
  readonly plant: { readonly name: string; readonly establishment: string };
  readonly date: string;
  readonly units: 'lb' | 'kg';
  readonly currency: string;
  readonly aim: 'margin' | 'oldest lots first';
  readonly lotsAreSunk: boolean;
  readonly products: readonly ReadProduct[];
  readonly lots: readonly ReadLot[];
  readonly margin: { readonly best: number; readonly planned: number; readonly weighed: number };
  readonly cautions: readonly string[];
}

interface ReadProduct {
  readonly name: string;
  readonly price: BothPrices;
  readonly planned: { readonly raw: BothUnits; readonly finished: BothUnits; readonly margin: number };
  readonly weighed?:
    | { readonly raw: BothUnits; readonly finished: BothUnits; readonly margin: number }
    | undefined;
}

interface ReadLot {
  readonly lotId: string;
  readonly material: string;
  readonly used: BothUnits;
  readonly left: BothUnits;
  readonly useByDate?: string | undefined;
  readonly daysToUseBy?: number | undefined;
  readonly oneMoreAdds: BothPrices;
}

/** A plan of what to make of the lots on hand, as plain text. */
export function usePlanText(plan: ReadPlan): string {
  if (plan.outcome === 'nothing to make') {
    return ['NOTHING TO MAKE', ...section('WHY', notMade(plan)), ...section('LEFT OUT', leftOut(plan))].join(
      '\n',
    );
  }
  return [
    `PLAN FOR THE LOTS ON HAND   ${plan.date}`,
    `${plan.plant.name}, Est. ${plan.plant.establishment}`,
    plan.aim === 'margin' ? 'For the best margin' : 'Oldest lots first',
    ...section('MAKE', products(plan)),
    ...section('LOTS', lots(plan)),
    ...section('MARGIN', margin(plan)),
    ...section('NOT MADE', notMade(plan)),
    ...section('LEFT OUT', leftOut(plan)),
    ...section(
      'CAUTIONS',
      plan.cautions.map((caution) => `! ${caution}`),
    ),
  ].join('\n');
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];
}

const mass = (both: BothUnits, units: 'lb' | 'kg') => fixed(both[units], 2);
const price = ({ perKg, perLb }: BothPrices, units: 'lb' | 'kg') => (units === 'lb' ? perLb : perKg);

/** Weights as weighed; of a batch that cannot be weighed what was planned, with the word for it. */
function products({ products: lines, units, currency }: MadePlan): string[] {
  return textTable(
    [
      left('Product'),
      right(`raw ${units}`),
      right(`finished ${units}`),
      right(`${currency} a ${units}`),
      right(`margin ${currency}`),
      left(''),
    ],
    lines.map(({ name, weighed, planned, price: sold }) => {
      const { raw, finished, margin: brings } = weighed ?? planned;
      return [
        name,
        mass(raw, units),
        mass(finished, units),
        fixed(price(sold, units), 2),
        weighed ? fixed(brings, 2) : '',
        weighed ? '' : 'planned, cannot be weighed',
      ];
    }),
  );
}

/** The lots that go in, the one to be used first before the others, then those that stay. */
function lots({ lots: lines, units, currency }: MadePlan): string[] {
  const urgency = ({ useByDate = '9999-12-31', lotId }: ReadLot) => `${useByDate} ${lotId}`;
  const inOrder = [...lines].sort((a, b) => (urgency(a) < urgency(b) ? -1 : 1));
  return textTable(
    [
      left('Lot'),
      left('Material'),
      right(`used ${units}`),
      right(`left ${units}`),
      left('use by'),
      right('days'),
      right(`a ${units} more adds ${currency}`),
    ],
    inOrder.map((line) => [
      line.lotId,
      line.material,
      mass(line.used, units),
      mass(line.left, units),
      line.useByDate ?? '',
      line.daysToUseBy === undefined ? '' : String(line.daysToUseBy),
      addsText(price(line.oneMoreAdds, units)),
    ]),
  );
}

/** Less than a hundredth of a cent is nothing. */
function addsText(amount: number): string {
  return amount < 1e-4 ? '' : fixed(amount, 2);
}

function margin({ margin: { best, planned, weighed }, currency, aim, lotsAreSunk }: MadePlan): string[] {
  const money = (amount: number) => `${fixed(amount, 2)} ${currency}`;
  const given = best > 0 ? ` (${fixed(percentOfFraction((best - planned) / best), 1)} % given up)` : '';
  return [
    `As weighed ${money(weighed)}`,
    `As planned ${money(planned)}, before rounding to the scales`,
    ...(aim === 'oldest lots first' ? [`Best of any plan ${money(best)}${given}`] : []),
    lotsAreSunk
      ? 'Sales less materials bought; the lots count nothing'
      : 'Sales less all that goes in, lots at their cost',
  ];
}

function notMade({ notMade: lines }: Without): string[] {
  return lines.map(({ name, because }) => `${name}: ${because.join(' ')}`);
}

function leftOut({ leftOut: lines }: Without): string[] {
  return lines.map(({ supplyId, material, because }) => `${supplyId}  ${material}: ${because}`);
}
