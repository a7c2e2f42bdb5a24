import { useShow } from '../figures/show.ts';
import { Figure } from '../pictures/figure.tsx';
import { leanColor } from '../pictures/lean-color.ts';
import { useWidth } from '../pictures/width.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { type By, pictureRows, type Row, type Segment } from './age-picture.ts';
import type { LotFacts } from './lot-facts.ts';
import { STOCK } from './words.ts';

const ROW = 34;
const BAR = 26;
const LEFT = 132;
const RIGHT = 92;
/** Of a letter of an id in the segment. */
const LETTER = 7.4;

/** The stock by days: what must be used first is on top; segments are as wide as the lots weigh, as red as they are lean. */
export function StockPicture({ lots, by }: { readonly lots: readonly LotFacts[]; readonly by: By }) {
  const t = useWords(STOCK);
  const c = useWords(COMMON);
  const show = useShow();
  const [width, own] = useWidth();
  const rows = pictureRows(lots, by, width - LEFT - RIGHT);
  const says = (row: Row) => (by === 'left' ? t.leftSpan(row.from, row.to) : t.ageSpan(row.from, row.to));
  const title = by === 'left' ? t.byDaysLeft : t.byAge;
  return (
    <Figure
      title={title}
      columns={[
        { says: by === 'left' ? t.daysLeft : t.age, of: says, isName: true },
        { says: t.lots, of: ({ segments }) => segments.map(({ facts }) => facts.lot.id).join(', ') },
        { says: c.weight, of: ({ massKg }) => show.mass(massKg, 0), isNumber: true },
        { says: t.value, of: ({ value }) => show.money(value, 0), isNumber: true },
      ]}
      rows={rows}
      keyOf={says}
    >
      <div ref={own} class="stock-picture">
        <svg
          role="img"
          aria-label={`${title}: ${rows.map((row) => `${says(row)} ${show.mass(row.massKg, 0)}`).join('; ')}`}
          viewBox={`0 0 ${width} ${rows.length * ROW}`}
        >
          {rows.map((row, index) => (
            <g key={says(row)} transform={`translate(0 ${index * ROW})`}>
              <text x={0} y={22} class={`stock-days ${row.kind}`}>
                {row.kind === 'plain' || by === 'age' ? '' : row.kind === 'past' ? '✕ ' : '! '}
                {says(row)}
              </text>
              {row.segments.map((segment) => (
                <Bar key={segment.facts.lot.id} segment={segment} />
              ))}
              <text x={width} y={22} text-anchor="end" class="stock-sum">
                {show.mass(row.massKg, 0)}
              </text>
            </g>
          ))}
        </svg>
        <p class="stock-key aside">
          {[0.5, 0.35, 0.2, 0.1].map((fat) => (
            <span key={fat}>
              <svg viewBox="0 0 14 14" aria-hidden="true">
                <rect width={14} height={14} rx={3} fill={leanColor(fat).fill} class="stock-bar" />
              </svg>
              {t.leanOf(show.percent(1 - fat, 0))}
            </span>
          ))}
          <span>
            <svg viewBox="0 0 14 14" aria-hidden="true">
              <rect width={14} height={14} rx={3} class="stock-bar stock-no-meat" />
            </svg>
            {t.groups.noMeat}
          </span>
        </p>
      </div>
    </Figure>
  );
}

function Bar({ segment: { facts, x, width } }: { readonly segment: Segment }) {
  const { lot, fatFraction } = facts;
  const color = fatFraction === undefined ? undefined : leanColor(fatFraction);
  const gap = width > 3 ? 1 : 0;
  return (
    <g transform={`translate(${LEFT + x} 4)`}>
      <title>{lot.id}</title>
      <rect
        width={Math.max(1, width - gap)}
        height={BAR}
        rx={Math.min(3, width / 4)}
        class={`stock-bar ${color ? '' : 'stock-no-meat'}`}
        {...(color && { fill: color.fill })}
      />
      {width > lot.id.length * LETTER + 6 && (
        <text
          x={(width - gap) / 2}
          y={18}
          text-anchor="middle"
          class={`stock-id ${color ? '' : 'stock-no-meat'}`}
          {...(color && { fill: color.ink })}
        >
          {lot.id}
        </text>
      )}
    </g>
  );
}
