import type { TraceFlow, TraceGraph, TraceNode } from './trace-graph.ts';

/** Where the places of a trace stand in its picture and how the bands between them run. Figures are CSS pixels. */

export interface Box {
  readonly node: TraceNode;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Band {
  readonly flow: TraceFlow;
  /** Its outline where it runs sideways, its middle line where it runs in the margin. */
  readonly path: string;
  readonly isOutline: boolean;
  readonly width: number;
}

export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly Box[];
  readonly bands: readonly Band[];
}

/** Room for two or three lines of text, and for a finger. */
const LEAST_HEIGHT = 64;
const GAP = 12;
const WIDEST_BAND = 72;
const THINNEST_BAND = 2;
const LEAST_COLUMN = 204;
const BOX_SHARE = 0.75;
/** Below this the picture runs from top to bottom. */
export const NARROW_BELOW = 560;
const GUTTER = 96;
const WIDEST_NARROW_BAND = 16;

/** @param width that there is; the picture is wider where the columns need it. */
export function layoutOf(graph: TraceGraph, width: number): Layout {
  return width < NARROW_BELOW ? downwards(graph, width) : sideways(graph, width);
}

function sideways(graph: TraceGraph, width: number): Layout {
  const columns = inColumns(graph);
  const step = Math.max(LEAST_COLUMN, width / (columns.length - 1 + BOX_SHARE || 1));
  const boxWidth = Math.min(step * BOX_SHARE, 240);
  const scale = scaleOf(graph.flows, WIDEST_BAND);
  const sums = sumsOf(graph.flows, scale);
  const heightOf = (node: TraceNode) =>
    Math.max(LEAST_HEIGHT, sums.into.get(node.key) ?? 0, sums.out.get(node.key) ?? 0);
  const heights = columns.map((column) => column.reduce((sum, node) => sum + heightOf(node) + GAP, -GAP));
  const height = Math.max(0, ...heights);
  const boxes = columns.flatMap((column, at) => {
    let y = (height - (heights[at] ?? 0)) / 2;
    return column.map((node): Box => {
      const box = { node, x: at * step, y, width: boxWidth, height: heightOf(node) };
      y += box.height + GAP;
      return box;
    });
  });
  return {
    width: (columns.length - 1) * step + boxWidth,
    height,
    boxes,
    bands: bandsBetween(graph.flows, boxes, scale, sums),
  };
}

/** One place below the other, the bands in a margin to the left of them. */
function downwards(graph: TraceGraph, width: number): Layout {
  const scale = scaleOf(graph.flows, WIDEST_NARROW_BAND);
  const boxes = inColumns(graph)
    .flat()
    .map((node, at) => ({
      node,
      x: GUTTER,
      y: at * (LEAST_HEIGHT + GAP),
      width: width - GUTTER,
      height: LEAST_HEIGHT,
    }));
  const order = new Map(boxes.map(({ node }, at) => [node.key, at]));
  const bands = graph.flows.map((flow) => {
    const [from = 0, to = 0] = [order.get(flow.from), order.get(flow.to)];
    const [start, end] = [from, to].map((at) => at * (LEAST_HEIGHT + GAP) + LEAST_HEIGHT / 2);
    const out = GUTTER - Math.min(GUTTER - 10, 24 + Math.abs(to - from) * 14) * 1.3;
    const [one = 0, other = 0] = [(start ?? 0) + 10, (end ?? 0) - 10];
    return {
      flow,
      width: scale(flow.massKg),
      isOutline: false,
      path: `M${GUTTER} ${one}C${out} ${one} ${out} ${other} ${GUTTER} ${other}`,
    };
  });
  return { width, height: Math.max(0, boxes.length * (LEAST_HEIGHT + GAP) - GAP), boxes, bands };
}

/** Places by column, each near what flows into it, so that few bands cross. */
function inColumns({ nodes, flows }: TraceGraph): TraceNode[][] {
  const columns: TraceNode[][] = [];
  for (const node of nodes) {
    while (columns.length <= node.column) columns.push([]);
    columns[node.column]?.push(node);
  }
  const at = new Map<string, number>();
  for (const column of columns) {
    const wanted = new Map(
      column.map((node, index) => {
        const before = flows.flatMap(({ from, to }) => (to === node.key ? (at.get(from) ?? []) : []));
        const mean = before.reduce((sum, place) => sum + place, 0) / before.length;
        return [node.key, before.length > 0 ? mean : index] as const;
      }),
    );
    column.sort((one, other) => (wanted.get(one.key) ?? 0) - (wanted.get(other.key) ?? 0));
    column.forEach((node, index) => {
      at.set(node.key, (index + 0.5) / column.length);
    });
  }
  return columns;
}

/** Width of a band by its weight: in proportion, and never too thin to be seen. */
function scaleOf(flows: readonly TraceFlow[], widest: number): (massKg: number) => number {
  const most = Math.max(0, ...flows.map(({ massKg }) => massKg));
  return (massKg) => Math.max(THINNEST_BAND, most === 0 ? 0 : (massKg / most) * widest);
}

interface Sums {
  readonly into: ReadonlyMap<string, number>;
  readonly out: ReadonlyMap<string, number>;
}

function sumsOf(flows: readonly TraceFlow[], scale: (massKg: number) => number): Sums {
  const into = new Map<string, number>();
  const out = new Map<string, number>();
  for (const { from, to, massKg } of flows) {
    out.set(from, (out.get(from) ?? 0) + scale(massKg));
    into.set(to, (into.get(to) ?? 0) + scale(massKg));
  }
  return { into, out };
}

/** Bands leave and arrive in the order of the places at their other ends, one beside the other. */
function bandsBetween(
  flows: readonly TraceFlow[],
  boxes: readonly Box[],
  scale: (massKg: number) => number,
  sums: Sums,
): Band[] {
  const byKey = new Map(boxes.map((box) => [box.node.key, box]));
  const middle = (key: string) => {
    const box = byKey.get(key);
    return box ? box.y + box.height / 2 : 0;
  };
  const places = (side: 'from' | 'to', other: 'from' | 'to', total: ReadonlyMap<string, number>) => {
    const used = new Map<string, number>();
    const found = new Map<TraceFlow, number>();
    for (const flow of [...flows].sort((a, b) => middle(a[other]) - middle(b[other]))) {
      const key = flow[side];
      const own = scale(flow.massKg);
      const start = used.get(key) ?? middle(key) - (total.get(key) ?? 0) / 2;
      found.set(flow, start + own / 2);
      used.set(key, start + own);
    }
    return found;
  };
  const leaves = places('from', 'to', sums.out);
  const arrives = places('to', 'from', sums.into);
  return flows.flatMap((flow) => {
    const [from, to] = [byKey.get(flow.from), byKey.get(flow.to)];
    if (!from || !to) return [];
    const [x1, x2] = [from.x + from.width, to.x];
    const [y1, y2] = [leaves.get(flow) ?? 0, arrives.get(flow) ?? 0];
    const bend = (x1 + x2) / 2;
    const width = scale(flow.massKg);
    const half = width / 2;
    // As thick at every place, measured upright: a line as wide would bulge where it is steep.
    const path = `M${x1} ${y1 - half}C${bend} ${y1 - half} ${bend} ${y2 - half} ${x2} ${y2 - half}V${y2 + half}C${bend} ${y2 + half} ${bend} ${y1 + half} ${x1} ${y1 + half}Z`;
    return [{ flow, width, isOutline: true, path }];
  });
}
