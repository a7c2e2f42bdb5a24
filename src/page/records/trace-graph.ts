import type { TraceAnswer } from '../../api/records/contract.ts';

/** What a trace says, as places with weight flowing between them from left to right: supplier, lot, batch, receiver. */

export type NodeKind = 'supplier' | 'lot' | 'batch' | 'receiver';

export interface TraceNode {
  readonly key: string;
  readonly kind: NodeKind;
  /** Of a lot or a batch; the name of a supplier or receiver, '' where that is not known. */
  readonly id: string;
  /** What it is of. */
  readonly name: string;
  /** Of a lot: material, bulk or pack. */
  readonly lotKind?: string;
  readonly massKg: number;
  readonly isStart: boolean;
  readonly isHeld: boolean;
  /** How many flows it is from where everything begins. */
  readonly column: number;
}

export interface TraceFlow {
  readonly from: string;
  readonly to: string;
  readonly massKg: number;
}

export interface TraceGraph {
  readonly nodes: readonly TraceNode[];
  readonly flows: readonly TraceFlow[];
}

const lotKey = (id: string) => `lot ${id}`;
const batchKey = (id: string) => `batch ${id}`;
const placeKey = ({ lotId, batchId }: { lotId?: string | undefined; batchId?: string | undefined }) =>
  lotId === undefined ? batchKey(batchId ?? '') : lotKey(lotId);

type Bare = Omit<TraceNode, 'column'>;

/** The graph of a trace, in either direction; weight always flows to the right. */
export function graphOf(trace: TraceAnswer): TraceGraph {
  const nodes = new Map<string, Bare>(
    [...insideOf(trace), ...outsideOf(trace)].map((node) => [node.key, node]),
  );
  const flows = [
    ...trace.flows.map(({ from, to, mass }) => ({ from: placeKey(from), to: placeKey(to), massKg: mass.kg })),
    ...summed(leavingsOf(trace)),
    ...arrivalsOf(trace),
  ].filter(({ from, to }) => nodes.has(from) && nodes.has(to));
  const columns = columnsOf([...nodes.keys()], flows);
  const last = Math.max(0, ...columns.values());
  return {
    nodes: [...nodes.values()].map((node) => ({
      ...node,
      column: node.kind === 'receiver' ? last : (columns.get(node.key) ?? 0),
    })),
    flows,
  };
}

function insideOf({ levels, start }: TraceAnswer): Bare[] {
  return levels.flatMap(({ lots, batches }) => [
    ...lots.map(
      (lot): Bare => ({
        key: lotKey(lot.lotId),
        kind: 'lot',
        id: lot.lotId,
        name: lot.of.name,
        lotKind: lot.kind,
        massKg: lot.came.kg,
        isStart: start.lotIds.includes(lot.lotId),
        isHeld: lot.held,
      }),
    ),
    ...batches.map(
      (batch): Bare => ({
        key: batchKey(batch.batchId),
        kind: 'batch',
        id: batch.batchId,
        name: batch.product?.name ?? '',
        massKg: batch.weighed.kg,
        isStart: start.batchIds.includes(batch.batchId),
        isHeld: false,
      }),
    ),
  ]);
}

/** Suppliers and receivers, with what came from them or went to them. */
function outsideOf(trace: TraceAnswer): Bare[] {
  const end = (kind: 'supplier' | 'receiver', id: string, flows: readonly TraceFlow[]): Bare => {
    const key = `${kind} ${id}`;
    const massKg = flows
      .filter(({ from, to }) => from === key || to === key)
      .reduce((sum, flow) => sum + flow.massKg, 0);
    return { key, kind, id, name: '', massKg, isStart: false, isHeld: false };
  };
  const arrivals = arrivalsOf(trace);
  const leavings = leavingsOf(trace);
  return [
    ...unique(trace.suppliers.map(({ supplierEstablishment = '' }) => supplierEstablishment)).map((id) =>
      end('supplier', id, arrivals),
    ),
    ...unique(trace.consignees.map(({ to = '' }) => to)).map((id) => end('receiver', id, leavings)),
  ];
}

function leavingsOf({ consignees }: TraceAnswer): TraceFlow[] {
  return consignees.map(({ lotId, to = '', mass }) => ({
    from: lotKey(lotId),
    to: `receiver ${to}`,
    massKg: mass.kg,
  }));
}

function arrivalsOf({ suppliers, levels }: TraceAnswer): TraceFlow[] {
  const came = new Map(levels.flatMap(({ lots }) => lots.map((lot) => [lot.lotId, lot.came.kg] as const)));
  return suppliers.flatMap(({ supplierEstablishment = '', lotIds }) =>
    lotIds.map((id) => ({
      from: `supplier ${supplierEstablishment}`,
      to: lotKey(id),
      massKg: came.get(id) ?? 0,
    })),
  );
}

/** Flows between the same two places as one. */
function summed(flows: readonly TraceFlow[]): TraceFlow[] {
  const found = new Map<string, TraceFlow>();
  for (const flow of flows) {
    const key = JSON.stringify([flow.from, flow.to]);
    found.set(key, { ...flow, massKg: flow.massKg + (found.get(key)?.massKg ?? 0) });
  }
  return [...found.values()];
}

const unique = (names: readonly string[]) => [...new Set(names)];

/** Each place to the right of all that flows into it. Rework that came back in a circle is not followed round again. */
function columnsOf(keys: readonly string[], flows: readonly TraceFlow[]): Map<string, number> {
  const columns = new Map(keys.map((key) => [key, 0]));
  for (let round = 0; round < keys.length; round += 1) {
    let isMoved = false;
    for (const { from, to } of flows) {
      const next = (columns.get(from) ?? 0) + 1;
      if (next > (columns.get(to) ?? 0) && next < keys.length) {
        columns.set(to, next);
        isMoved = true;
      }
    }
    if (!isMoved) break;
  }
  return columns;
}
