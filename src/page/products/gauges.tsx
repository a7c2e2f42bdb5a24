import { Figure } from '../pictures/figure.tsx';
import { useLimitFigures } from '../rules/limit-figure.ts';
import { LIMIT_WORDS } from '../rules/limit-words.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Standing } from './standing.ts';
import { TRIAL } from './trial-words.ts';

/** From which share of its bound on a limit is called tight. */
const TIGHT = 0.9;
/** Where the bound stands on a gauge of 100. */
const BOUND_AT = 80;

/** Every limit that counts something in the batch: its value, its bound, and the room between them. */
export function Gauges({
  standings,
  nameOf,
}: {
  readonly standings: readonly Standing[];
  readonly nameOf: (materialId: string) => string;
}) {
  const t = useWords(TRIAL);
  const l = useWords(LIMIT_WORDS);
  const say = useSay();
  const { value, bound } = useLimitFigures();
  const authority = ({ check }: Standing) => (check.limit.authority === 'law' ? l.law : l.house);
  return (
    <Figure
      title={t.gauges}
      rows={standings}
      keyOf={({ check }) => check.limit.id}
      columns={[
        { says: t.limit, isName: true, of: ({ check }) => say(check.limit.says) },
        { says: t.value, isNumber: true, of: ({ check }) => value(check.value, check.limit.unit) },
        { says: t.bound, isNumber: true, of: ({ check }) => bound(check.limit) },
        { says: t.room, isNumber: true, of: ({ check }) => value(check.room, check.limit.unit) },
        { says: t.source, of: ({ check }) => <Said text={check.limit.citation} /> },
      ]}
    >
      <ul class="products-gauges">
        {standings.map((standing) => {
          const { check, used, pressedBy } = standing;
          const { limit, holds } = check;
          const state = holds ? (used > TIGHT ? 'tight' : 'wide') : 'over';
          return (
            <li key={limit.id} class={state}>
              <p class="products-gauge-head">
                <span>
                  <strong aria-hidden="true">{holds ? '✓' : '✕'}</strong> {say(limit.numerator)}
                  <span class="aside"> / {say(limit.basis)}</span>
                </span>
                <span class="number">
                  <strong>{value(check.value, limit.unit)}</strong>
                </span>
              </p>
              <Gauge
                used={used}
                isMin={limit.sense === 'min'}
                label={`${say(limit.says)} ${value(check.value, limit.unit)}`}
              />
              <p class="products-quiet">
                {authority(standing)}: {bound(limit)} · {t.room} {value(check.room, limit.unit)}
                {pressedBy !== undefined && ` · ${t.pressedBy(nameOf(pressedBy))}`} ·{' '}
                <Said text={limit.citation} />
              </p>
            </li>
          );
        })}
      </ul>
    </Figure>
  );
}

/** How much of a limit is used up; the mark is its bound. A minimum fills from the other side. */
function Gauge({
  used,
  isMin,
  label,
}: {
  readonly used: number;
  readonly isMin: boolean;
  readonly label: string;
}) {
  const filled = isMin ? BOUND_AT / Math.max(used, 0.8) : Math.min(Math.max(used, 0), 1.25) * BOUND_AT;
  return (
    <svg viewBox="0 0 100 8" preserveAspectRatio="none" role="img" aria-label={label}>
      <rect class="track" width="100" height="8" />
      <rect class="filled" width={Math.min(100, filled)} height="8" />
      <rect class="bound" x={BOUND_AT - 0.5} width="1" height="8" />
    </svg>
  );
}
