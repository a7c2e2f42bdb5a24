import { useShow } from '../figures/show.ts';
import { Facts } from '../parts/facts.tsx';
import { Notice } from '../parts/notice.tsx';
import type { Column } from '../parts/table.tsx';
import { Figure } from '../pictures/figure.tsx';
import { useWidth } from '../pictures/width.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { type ChartLayout, chartLayout } from './chart-layout.ts';
import { CHART } from './chart-words.ts';
import { type ChartPoint, EARLY_BELOW } from './control-chart.ts';
import { LotLink } from './lot-link.tsx';
import type { Trim } from './trim.ts';
import { RECORDS } from './words.ts';

const HEIGHT = 400;

type Row = Trim['lots'][number] & { readonly point: ChartPoint | undefined; readonly at: number };

/** The lots of one supplier's trim in the order of their tests, with what they vary by on their own. */
export function FatChart({ trim }: { readonly trim: Trim }) {
  const t = useWords(RECORDS);
  const w = useWords(CHART);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const [width, own] = useWidth();
  const isNarrow = width < 560;
  const frame = { width, height: HEIGHT, left: 46, right: isNarrow ? 98 : 186, top: 28, bottom: 34 };
  const layout = chartLayout(
    trim.lots.map(({ fatFraction }) => fatFraction * 100),
    { class: trim.classMeanFraction * 100, learned: trim.meanFraction * 100 },
    frame,
  );
  const { chart } = layout;
  const rows: Row[] = trim.lots.map((lot, at) => ({ ...lot, point: chart.points[at], at }));
  const standing = ({ point }: Row) => standingSays(w, point);
  const odd = rows.filter(({ point }) => point && (point.standing === 'outside' || point.inRun));
  const columns: Column<Row>[] = [
    { says: c.date, of: ({ date }) => show.day(date), isName: true },
    {
      says: c.lot,
      of: ({ lotId }) => <LotLink id={lotId} />,
    },
    { says: c.fat, of: ({ fatFraction }) => show.percent(fatFraction, 2), isNumber: true },
    { says: t.method, of: ({ methods }) => methods.map(say).join(', '), isExtra: true },
    { says: t.standing, of: standing },
  ];
  const title = `${trim.material}, ${t.est(trim.supplierEstablishment)}`;
  return (
    <section class="stack">
      {odd.length > 0 ? (
        <Notice kind="caution">
          <strong>{w.toLookAt(odd.length)}.</strong> {w.lookWhy}
        </Notice>
      ) : (
        <Notice kind="good">{w.nothingOddSays}</Notice>
      )}
      <Figure title={title} caption={w.chartSays} columns={columns} rows={rows} keyOf={({ at }) => at}>
        <div ref={own}>
          <svg
            class="chart large"
            role="img"
            aria-label={`${title}: ${w.chartLabel(rows.length, odd.length)}`}
            viewBox={`0 0 ${width} ${HEIGHT}`}
          >
            <Scale layout={layout} frame={frame} isNarrow={isNarrow} />
            <polyline class="trail" points={layout.points.map(({ x, y }) => `${x},${y}`).join(' ')} />
            {rows.map((row) => (
              <Point
                key={row.at}
                row={row}
                at={layout.points[row.at] ?? { x: 0, y: 0 }}
                says={standing(row)}
              />
            ))}
            <Dates rows={rows} layout={layout} y={HEIGHT - 10} />
          </svg>
        </div>
      </Figure>
      <Spread trim={trim} layout={layout} />
    </section>
  );
}

type Words = (typeof CHART)['en'];

function standingSays(t: Words, point: ChartPoint | undefined): string {
  if (!point) return '';
  const said = [
    ...(point.standing === 'outside' ? [`✕ ${t.outside}`] : []),
    ...(point.standing === 'warned' ? [`! ${t.warned}`] : []),
    ...(point.inRun ? [`▲ ${t.inRun}`] : []),
  ];
  return said.length === 0 ? `✓ ${t.within}` : said.join('; ');
}

function Scale({
  layout: { lines, ticks },
  frame: { width, left, right },
  isNarrow,
}: {
  readonly layout: ChartLayout;
  readonly frame: { readonly width: number; readonly left: number; readonly right: number };
  readonly isNarrow: boolean;
}) {
  const t = useWords(CHART);
  const show = useShow();
  const end = width - right;
  return (
    <>
      {ticks.map(({ value, y }) => (
        <g key={value} class="tick">
          <line x1={left} x2={end} y1={y} y2={y} />
          <text x={left - 6} y={y + 5} text-anchor="end">
            {show.number(value, value % 1 === 0 ? 0 : 1)}
          </text>
        </g>
      ))}
      <text x="2" y="12" class="unit">
        %
      </text>
      {lines.map(({ name, value, y, labelY }) => (
        <g key={name} class={`line ${name}`}>
          <line x1={left} x2={end} y1={y} y2={y} />
          <polyline class="lead" points={`${end},${y} ${end + 8},${labelY}`} />
          <text x={end + 11} y={labelY + 5}>
            {isNarrow ? t.lineShort[name] : t.lines[name]} {show.number(value, 1)}
          </text>
        </g>
      ))}
    </>
  );
}

/** A lot: a disk within the limits, a square in a run, a cross beyond three standard deviations, with its word. */
function Point({
  row,
  at: { x, y },
  says,
}: {
  readonly row: Row;
  readonly at: { readonly x: number; readonly y: number };
  readonly says: string;
}) {
  const t = useWords(CHART);
  const show = useShow();
  const { point, lotId, date, fatFraction } = row;
  const title = <title>{`${show.day(date)} ${lotId ?? ''}: ${show.percent(fatFraction, 2)}. ${says}`}</title>;
  if (point?.standing === 'outside') {
    return (
      <g class="point outside">
        {title}
        <path d={`M${x - 7} ${y - 7}l14 14m0-14l-14 14`} />
        <text x={x} y={y - 12} text-anchor="middle">
          {t.outsideShort}
        </text>
      </g>
    );
  }
  return (
    <g class={`point ${point?.standing ?? ''} ${point?.inRun ? 'run' : ''}`}>
      {title}
      {point?.inRun ? <rect x={x - 5} y={y - 5} width="10" height="10" /> : <circle cx={x} cy={y} r="5" />}
      {point?.standing === 'warned' && (
        <text x={x} y={y - 10} text-anchor="middle">
          !
        </text>
      )}
    </g>
  );
}

/** The first day, the last, and those between that have room. */
function Dates({
  rows,
  layout,
  y,
}: {
  readonly rows: readonly Row[];
  readonly layout: ChartLayout;
  readonly y: number;
}) {
  const show = useShow();
  let free = -Infinity;
  return (
    <g class="tick">
      {rows.map(({ date, at }) => {
        const x = layout.points[at]?.x ?? 0;
        if (x < free) return null;
        free = x + 76;
        return (
          <text key={at} x={x} y={y} text-anchor="middle">
            {show.shortDay(date)}
          </text>
        );
      })}
    </g>
  );
}

/** Which standard deviation is which. */
function Spread({ trim, layout: { chart } }: { readonly trim: Trim; readonly layout: ChartLayout }) {
  const t = useWords(RECORDS);
  const w = useWords(CHART);
  const show = useShow();
  const points = (fraction: number) => w.points(show.number(fraction, 2));
  const { limits } = chart;
  return (
    <section class="card stack wide">
      <h2>{w.whichSpread}</h2>
      {limits && chart.points.length <= EARLY_BELOW && (
        <Notice kind="note">{w.early(chart.points.length)}</Notice>
      )}
      {!limits && <Notice kind="note">{w.noLimits}</Notice>}
      <Facts
        facts={[
          [w.chartSd, limits && `${points(limits.sd)}. ${w.chartSdSays(points(limits.meanMovingRange))}`],
          [
            w.learnedSd,
            `${points(trim.sdFraction * 100)}. ${w.learnedSdSays(show.percent(trim.shrinkage, 0))}`,
          ],
          [w.classSd, `${points(trim.classSdFraction * 100)}. ${w.classSdSays}`],
          [t.source, w.chartSource],
        ]}
      />
    </section>
  );
}
