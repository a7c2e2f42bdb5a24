import { useMemo, useState } from 'preact/hooks';
import type { TraceAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Figure } from '../pictures/figure.tsx';
import { useWidth } from '../pictures/width.ts';
import { to } from '../shell/place.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { graphOf, type TraceNode } from './trace-graph.ts';
import { type Box, layoutOf } from './trace-layout.ts';
import { TRACE } from './trace-words.ts';
import { RECORDS } from './words.ts';

/** Room around the picture for the mark of what has the focus. */
const EDGE = 8;

/** Weight from lots through batches to packs and receivers: bands as wide as the weights, places as links. */
export function TracePicture({ trace }: { readonly trace: TraceAnswer }) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const c = useWords(COMMON);
  const show = useShow();
  const [width, own] = useWidth();
  const graph = useMemo(() => graphOf(trace), [trace]);
  const { width: whole, height, boxes, bands } = useMemo(() => layoutOf(graph, width - EDGE), [graph, width]);
  const nameOf = useNodeName();
  const [lit, setLit] = useState<string>();
  const byKey = new Map(graph.nodes.map((node) => [node.key, node]));
  const named = (key: string) => {
    const node = byKey.get(key);
    return node ? `${t.nodes[kindOf(node)]} ${nameOf(node)}` : key;
  };
  return (
    <Figure
      title={trace.direction === 'forward' ? t.whereItWent : w.whatItIsOf}
      caption={w.bandsSay}
      columns={[
        { says: w.from, of: ({ from }) => named(from), isName: true },
        { says: t.to, of: ({ to: target }) => named(target) },
        { says: c.weight, of: ({ massKg }) => show.mass(massKg), isNumber: true },
      ]}
      rows={graph.flows}
      keyOf={({ from, to: target }) => `${from} ${target}`}
    >
      <div ref={own} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard. */}
      <section class="trace-picture" tabIndex={0} aria-label={w.tracePicture}>
        <div style={{ position: 'relative', width: `${whole}px`, height: `${height}px` }}>
          <svg
            role="img"
            aria-label={w.traceSays(graph.nodes.length, graph.flows.length)}
            viewBox={`0 0 ${whole} ${height}`}
            width={whole}
            height={height}
          >
            {bands.map(({ flow, path, isOutline, width: thick }) => (
              <path
                key={`${flow.from} ${flow.to}`}
                class={`band ${isOutline ? 'outline' : ''} ${lit === flow.from || lit === flow.to ? 'lit' : ''}`}
                d={path}
                stroke-width={isOutline ? 0 : thick}
              >
                <title>{`${named(flow.from)} → ${named(flow.to)}: ${show.mass(flow.massKg)}`}</title>
              </path>
            ))}
          </svg>
          {boxes.map((box) => (
            <Place key={box.node.key} box={box} onLit={setLit} />
          ))}
        </div>
      </section>
    </Figure>
  );
}

/** The name of a place; whoever is not known is called that. */
function useNodeName(): (node: TraceNode) => string {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  return ({ kind, id }) => {
    if (id !== '') return kind === 'supplier' ? t.est(id) : id;
    return kind === 'receiver' ? w.overCounter : t.notKnown;
  };
}

const kindOf = ({ kind, lotKind }: TraceNode) =>
  kind === 'lot' && (lotKind === 'bulk' || lotKind === 'pack') ? lotKind : kind;

function Place({
  box: { node, x, y, width, height },
  onLit,
}: {
  readonly box: Box;
  /** Its flows stand out while it is pointed at or has the focus. */
  readonly onLit: (key: string | undefined) => void;
}) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const show = useShow();
  const nameOf = useNodeName();
  const style = { left: `${x}px`, top: `${y}px`, width: `${width}px`, height: `${height}px` };
  const looks = `place of-${kindOf(node)} ${node.isStart ? 'starts' : ''}`;
  const lights = {
    onMouseEnter: () => onLit(node.key),
    onMouseLeave: () => onLit(undefined),
    onFocus: () => onLit(node.key),
    onBlur: () => onLit(undefined),
  };
  const inside = (
    <>
      <strong>
        {node.isStart && '◆ '}
        {nameOf(node)}
      </strong>
      <span>
        {[t.nodes[kindOf(node)], node.isStart ? w.startHere : '', node.isHeld ? t.onHold : '', node.name]
          .filter((part) => part !== '')
          .join(' · ')}
      </span>
      <span>{show.mass(node.massKg, 1)}</span>
    </>
  );
  if (node.kind === 'lot' || node.kind === 'batch') {
    return (
      <a
        class={looks}
        style={style}
        {...lights}
        href={to(node.kind === 'lot' ? 'stock' : 'batches', node.id)}
      >
        {inside}
      </a>
    );
  }
  return (
    <div class={looks} style={style} {...lights}>
      {inside}
    </div>
  );
}
