import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TraceAnswer } from '../../../src/api/records/contract.ts';
import { graphOf, type TraceGraph, type TraceNode } from '../../../src/page/records/trace-graph.ts';
import { layoutOf, NARROW_BELOW } from '../../../src/page/records/trace-layout.ts';

const mass = (kg: number) => ({ kg, lb: kg / 0.45359237 });
const time = { at: '2026-11-25T12:00:00Z', shown: '2026-11-25 06:00' };

const lot = (lotId: string, kind = 'material') => ({
  lotId,
  kind,
  of: { id: 'm', name: 'Trim' },
  receivedDate: '2026-11-25',
  came: mass(100),
  onHand: mass(10),
  held: false,
  mayContain: true as const,
  share: 1,
});

const batch = (batchId: string) => ({ batchId, weighed: mass(90), mayContain: true as const, share: 1 });

const got = (to: string | undefined, lotId: string, kg: number, movement: number) => ({
  ...(to !== undefined && { to }),
  kind: 'shipped' as const,
  day: '2026-11-25',
  lotId,
  movement,
  mass: mass(kg),
  mayContain: true as const,
  share: 1,
  estimate: mass(kg),
});

const flow = (from: object, to: object, kg: number) => ({ from, to, mass: mass(kg) });

/** Rework of the first batch goes into the second, which the lot went into too. */
const FORWARD: TraceAnswer = {
  direction: 'forward',
  start: { says: 'lot L', lotIds: ['L'], batchIds: [] },
  asOf: time,
  units: 'kg',
  levels: [
    { steps: 0, lots: [lot('L')], batches: [] },
    { steps: 1, lots: [], batches: [batch('1'), batch('2')] },
    { steps: 2, lots: [lot('R', 'material'), lot('P', 'pack')], batches: [] },
  ],
  flows: [
    flow({ lotId: 'L' }, { batchId: '1' }, 60),
    flow({ lotId: 'L' }, { batchId: '2' }, 30),
    flow({ batchId: '1' }, { lotId: 'R' }, 5),
    flow({ lotId: 'R' }, { batchId: '2' }, 5),
    flow({ batchId: '2' }, { lotId: 'P' }, 35),
  ],
  consignees: [got('Grocery', 'P', 10, 1), got('Grocery', 'P', 5, 2), got(undefined, 'P', 2, 3)],
  suppliers: [],
  withoutLot: [],
  sameGrinder: [],
  notes: [],
};

const columnOf = (graph: TraceGraph, key: string) => graph.nodes.find((node) => node.key === key)?.column;

describe('the graph of a trace', () => {
  it('puts each place to the right of all that flows into it, and who got it last', () => {
    const graph = graphOf(FORWARD);
    const columns = ['lot L', 'batch 1', 'lot R', 'batch 2', 'lot P', 'receiver Grocery', 'receiver '];
    expect(columns.map((key) => columnOf(graph, key))).toEqual([0, 1, 2, 3, 4, 5, 5]);
  });

  it('adds up what one receiver got in several deliveries', () => {
    const { flows, nodes } = graphOf(FORWARD);
    expect(flows.filter(({ to }) => to === 'receiver Grocery')).toEqual([
      { from: 'lot P', to: 'receiver Grocery', massKg: 15 },
    ]);
    expect(nodes.find(({ key }) => key === 'receiver Grocery')?.massKg).toBe(15);
  });

  it('goes back to suppliers, still from left to right', () => {
    const graph = graphOf({
      ...FORWARD,
      direction: 'back',
      start: { says: 'lot P', lotIds: ['P'], batchIds: [] },
      consignees: [],
      suppliers: [{ supplierEstablishment: '00001', lotIds: ['L'], materials: ['Trim'], share: 1 }],
    });
    expect(columnOf(graph, 'supplier 00001')).toBe(0);
    expect(columnOf(graph, 'lot L')).toBe(1);
    expect(columnOf(graph, 'lot P')).toBe(5);
    expect(graph.nodes.find(({ isStart }) => isStart)?.key).toBe('lot P');
  });

  it('ends, also where rework went round in a circle', () => {
    const graph = graphOf({
      ...FORWARD,
      flows: [...FORWARD.flows, flow({ batchId: '2' }, { lotId: 'R' }, 1)],
    });
    expect(graph.nodes).toHaveLength(7);
    for (const { column } of graph.nodes) expect(column).toBeLessThan(7);
  });
});

/** Any graph of up to fifty places whose flows lead to later ones. */
const graphs = fc
  .array(fc.tuple(fc.nat(5), fc.double({ min: 0.1, max: 900, noNaN: true })), { minLength: 1, maxLength: 50 })
  .map((drawn): TraceGraph => {
    const nodes = drawn.map(
      ([column], at): TraceNode => ({
        key: `lot ${at}`,
        kind: 'lot',
        id: String(at),
        name: '',
        massKg: 1,
        isStart: false,
        isHeld: false,
        column,
      }),
    );
    const flows = nodes.flatMap((from, at) => {
      const later = nodes.find(({ column }) => column > from.column);
      return later ? [{ from: from.key, to: later.key, massKg: drawn[at]?.[1] ?? 1 }] : [];
    });
    return { nodes, flows };
  });

describe('the picture of a trace', () => {
  it.each([900, NARROW_BELOW - 200])('at a width of %i keeps places apart, big enough to tap', (width) => {
    fc.assert(
      fc.property(graphs, (graph) => {
        const { boxes, bands, height, ...layout } = layoutOf(graph, width);
        expect(boxes).toHaveLength(graph.nodes.length);
        expect(bands).toHaveLength(graph.flows.length);
        boxes.forEach((one, at) => {
          expect(one.height).toBeGreaterThanOrEqual(44);
          expect(one.width).toBeGreaterThanOrEqual(100);
          expect(one.y + one.height).toBeLessThanOrEqual(height + 0.01);
          expect(one.x + one.width).toBeLessThanOrEqual(layout.width + 0.01);
          for (const other of boxes.slice(at + 1)) {
            const isApart =
              one.x + one.width <= other.x + 0.01 ||
              other.x + other.width <= one.x + 0.01 ||
              one.y + one.height <= other.y + 0.01 ||
              other.y + other.height <= one.y + 0.01;
            expect(isApart).toBe(true);
          }
        });
        if (width < NARROW_BELOW) expect(layout.width).toBe(width);
      }),
      { numRuns: 60 },
    );
  });

  it('draws bands in proportion to their weights', () => {
    const { bands } = layoutOf(graphOf(FORWARD), 900);
    const widthOf = (from: string, to: string) =>
      bands.find(({ flow: one }) => one.from === from && one.to === to)?.width ?? 0;
    expect(widthOf('lot L', 'batch 1') / widthOf('lot L', 'batch 2')).toBeCloseTo(2, 10);
  });
});
