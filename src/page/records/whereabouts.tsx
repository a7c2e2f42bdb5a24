import type { WhereaboutsAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Figure } from '../pictures/figure.tsx';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { type Part, partsOf } from './drill-count.ts';
import { DRILL } from './drill-words.ts';
import { RECORDS } from './words.ts';

/** Where everything is that was made of the lot: one bar, as wide as all that is affected. */
export function Whereabouts({
  where,
  percent = where.percentAccounted,
}: {
  readonly where: WhereaboutsAnswer;
  readonly percent?: number | undefined;
}) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const c = useWords(COMMON);
  const show = useShow();
  const parts = partsOf(where);
  const wholeKg = parts.reduce((sum, { massKg }) => sum + Math.max(0, massKg), 0);
  const named = ({ name, to }: Part) => (to === undefined ? w.parts[name] : `${w.parts[name]} ${to}`);
  let x = 0;
  const summary = w.accountedOf(show.number(percent, 1), show.mass(where.affected.kg));
  return (
    <Figure
      title={w.whereItIs}
      caption={summary}
      columns={[
        { says: t.part, of: named, isName: true },
        { says: c.weight, of: ({ massKg }) => show.mass(massKg), isNumber: true },
        {
          says: t.standing,
          of: ({ isAccounted }) => (isAccounted ? `✓ ${w.accounted}` : `✕ ${w.unaccounted}`),
        },
      ]}
      rows={parts}
      keyOf={named}
    >
      <svg
        class="where"
        role="img"
        aria-label={`${w.whereItIs}: ${summary}`}
        viewBox="0 0 1000 36"
        preserveAspectRatio="none"
      >
        {parts.map((part) => {
          const width = wholeKg === 0 ? 0 : (Math.max(0, part.massKg) / wholeKg) * 1000;
          const at = x;
          x += width;
          return (
            <rect key={named(part)} class={`part ${part.name}`} x={at} y="0" width={width} height="36">
              <title>{`${named(part)}: ${show.mass(part.massKg)}`}</title>
            </rect>
          );
        })}
      </svg>
      <ul class="legend">
        {parts.map((part) => (
          <li key={named(part)}>
            <span class={`key ${part.name}`} aria-hidden="true" />
            <span>
              {part.isAccounted ? '' : '✕ '}
              {named(part)}
            </span>
            <span class="number">{show.mass(part.massKg)}</span>
          </li>
        ))}
      </ul>
    </Figure>
  );
}
