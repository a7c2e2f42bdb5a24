import { fixed } from '../units.ts';

interface BothUnits {
  readonly kg: number;
  readonly lb: number;
}

interface Place {
  readonly lotId?: string | undefined;
  readonly batchId?: string | undefined;
}

/** A trace as far as its text needs it. */
export interface TraceSheet {
  readonly direction: 'forward' | 'back';
  readonly start: { readonly says: string };
  readonly asOf: { readonly shown: string };
  readonly units: 'lb' | 'kg';
  readonly levels: readonly {
    readonly steps: number;
    readonly lots: readonly {
      readonly lotId: string;
      readonly kind: string;
      readonly of: { readonly name: string };
      readonly batchId?: string | undefined;
      readonly supplierEstablishment?: string | undefined;
      readonly supplierLot?: string | undefined;
      readonly packedDate?: string | undefined;
      readonly came: BothUnits;
      readonly onHand: BothUnits;
      readonly held: boolean;
      readonly share: number;
    }[];
    readonly batches: readonly {
      readonly batchId: string;
      readonly product?: { readonly name: string } | undefined;
      readonly date?: string | undefined;
      readonly state?: string | undefined;
      readonly weighed: BothUnits;
      readonly share: number;
    }[];
  }[];
  readonly flows: readonly { readonly from: Place; readonly to: Place; readonly mass: BothUnits }[];
  readonly consignees: readonly {
    readonly to?: string | undefined;
    readonly kind: string;
    readonly document?: string | undefined;
    readonly day: string;
    readonly lotId: string;
    readonly mass: BothUnits;
  }[];
  readonly suppliers: readonly {
    readonly supplierEstablishment?: string | undefined;
    readonly supplierLot?: string | undefined;
    readonly lotIds: readonly string[];
    readonly materials: readonly string[];
  }[];
  readonly withoutLot: readonly {
    readonly batchId: string;
    readonly material: string;
    readonly mass: BothUnits;
  }[];
  readonly sameGrinder: readonly {
    readonly batchId: string;
    readonly product: string;
    readonly date: string;
    readonly beside: readonly string[];
  }[];
  readonly notes: readonly string[];
}

type Level = TraceSheet['levels'][number];

/** The trace level by level, to be read aloud on the floor or sent to a printer. */
export function traceText(trace: TraceSheet): string {
  const { direction, start, asOf, levels, consignees, suppliers, withoutLot, sameGrinder, notes } = trace;
  const mass = (both: BothUnits) => `${fixed(both[trace.units], 2)} ${trace.units}`;
  const near = edgesOf(trace, mass);
  return [
    `TRACE ${direction === 'forward' ? 'FORWARD' : 'BACK'} from ${start.says}`,
    `As the books stood on ${asOf.shown}`,
    ...levels.flatMap((level) => levelLines(trace, level, mass, near)),
    ...section(
      'WHO GOT SOME OF IT',
      consignees.map(
        ({ to = 'over the counter, to whom is not known', kind, document, day, lotId, mass: much }) =>
          `${to}: ${mass(much)} of ${lotId} ${kind} on ${day}${document === undefined ? '' : `, document ${document}`}`,
      ),
    ),
    ...section(
      'WHOSE LOTS IT MAY BE MADE OF',
      suppliers.map(
        ({ supplierEstablishment = 'unknown', supplierLot = 'unknown', lotIds, materials }) =>
          `Est. ${supplierEstablishment}, supplier's lot ${supplierLot}: ${materials.join(', ')}, here ${lotIds.join(', ')}`,
      ),
    ),
    ...section(
      'WITHOUT A LOT (the trace ends here)',
      withoutLot.map(
        ({ batchId, material, mass: much }) => `${mass(much)} of ${material} in batch ${batchId}`,
      ),
    ),
    ...section(
      'GROUND WITH THEM, THE GRINDER NOT CLEANED BETWEEN (may hold some; trace each of them)',
      sameGrinder.map(
        ({ batchId, product, date, beside }) =>
          `Batch ${batchId}, ${product} of ${date}, beside ${beside.join(', ')}`,
      ),
    ),
    ...section('MIND', notes),
  ].join('\n');
}

type Text = (both: BothUnits) => string;

function levelLines(
  trace: TraceSheet,
  { steps, lots, batches }: Level,
  mass: Text,
  near: (place: Place) => string,
): string[] {
  const title =
    steps === 0
      ? 'WHERE IT STARTS'
      : `${steps} STEP${steps === 1 ? '' : 'S'} ${trace.direction === 'forward' ? 'ON' : 'BACK'}`;
  const share = (part: number) =>
    steps === 0
      ? ''
      : `, ${trace.direction === 'forward' ? 'may contain it' : 'may be in it'}, ${shareText(part)}`;
  return section(title, [
    ...batches.map(
      ({ batchId, product, date, state, weighed, share: part }) =>
        `Batch ${batchId}, ${product?.name ?? 'product unknown'}${date === undefined ? '' : ` of ${date}`}${state === undefined ? '' : `, ${state}`}: ${mass(weighed)} weighed in${share(part)}${near({ batchId })}`,
    ),
    ...lots.map(
      (lot) =>
        `${kindText(lot.kind)} ${lot.lotId}, ${lot.of.name}${supplierText(lot)}: ${mass(lot.came)}, ${mass(lot.onHand)} on hand${lot.held ? ' (on hold)' : ''}${share(lot.share)}${near({ lotId: lot.lotId })}`,
    ),
  ]);
}

const KINDS: Readonly<Record<string, string>> = { material: 'Lot', bulk: 'Bulk', pack: 'Packs' };
const kindText = (kind: string) => KINDS[kind] ?? kind;

function supplierText({ supplierEstablishment, supplierLot, packedDate }: Level['lots'][number]): string {
  return [
    ...(supplierEstablishment === undefined ? [] : [`, Est. ${supplierEstablishment}`]),
    ...(supplierLot === undefined ? [] : [`, supplier's lot ${supplierLot}`]),
    ...(packedDate === undefined ? [] : [`, packed ${packedDate}`]),
  ].join('');
}

function shareText(share: number): string {
  return share > 0 && share < 0.0005
    ? 'less than 0.1 % by estimate'
    : `${fixed(share * 100, 1)} % by estimate`;
}

/** What came from the traced places before each, or went into those after it. */
function edgesOf({ flows, direction }: TraceSheet, mass: Text): (place: Place) => string {
  const edges = new Map<string, string[]>();
  for (const { from, to, mass: much } of flows) {
    const [here, text] =
      direction === 'forward'
        ? [to, `${mass(much)} from ${nameOf(from)}`]
        : [from, `${mass(much)} into ${nameOf(to)}`];
    const known = edges.get(keyOf(here));
    if (known) known.push(text);
    else edges.set(keyOf(here), [text]);
  }
  return (place) => {
    const own = edges.get(keyOf(place)) ?? [];
    return own.length === 0 ? '' : ` (${own.join(', ')})`;
  };
}

const keyOf = ({ lotId, batchId }: Place) => (lotId === undefined ? `batch ${batchId}` : `lot ${lotId}`);
const nameOf = ({ lotId, batchId }: Place) => lotId ?? `batch ${batchId}`;

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)];
}
