import { useShow } from '../figures/show.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { BOUND_AT, byRoom, gaugeFill, isIdle, type Limit } from './batch.ts';
import { BATCHES } from './words.ts';

/** Limits as small gauges: how far each is filled towards its bound. The words beside them have the same figures. */
export function Limits({ limits }: { readonly limits: readonly Limit[] }) {
  const t = useWords(BATCHES);
  const sorted = byRoom(limits);
  const still = sorted.filter(isIdle);
  const moved = sorted.filter((limit) => !isIdle(limit));
  return (
    <>
      <ul class="batch-limits">
        {moved.map((limit) => (
          <Gauge key={`${limit.limitId} ${limit.load}`} limit={limit} />
        ))}
      </ul>
      {still.length > 0 && (
        <details>
          <summary>{t.othersHold(still.length)}</summary>
          <Still limits={still} />
        </details>
      )}
    </>
  );
}

function Still({ limits }: { readonly limits: readonly Limit[] }) {
  const say = useSay();
  return (
    <ul>
      {limits.map(({ limitId, says, citation }) => (
        <li key={limitId}>
          {say(says)}{' '}
          <span class="aside">
            <Said text={citation} />
          </span>
        </li>
      ))}
    </ul>
  );
}

const WIDTH = 120;

function Gauge({ limit }: { readonly limit: Limit }) {
  const t = useWords(BATCHES);
  const say = useSay();
  const figures = useLimitFigures(limit);
  const { holds, what, basis, load, authority, citation, sense } = limit;
  const bound = WIDTH * BOUND_AT;
  return (
    <li class={holds ? 'holds' : 'missed'}>
      <span class="sign" aria-hidden="true">
        {holds ? '✓' : '✕'}
      </span>
      <strong class="what">
        {say(what)}
        {load !== undefined && ` · ${t.load(load)}`}
      </strong>
      <strong class="figures">{figures.value}</strong>
      <svg viewBox={`0 0 ${WIDTH} 18`} preserveAspectRatio="none" aria-hidden="true">
        <rect class="track" x="0" y="5" width={WIDTH} height="8" rx="4" />
        <rect class="fill" x="0" y="5" width={Math.max(2, gaugeFill(limit) * WIDTH)} height="8" rx="4" />
        <path class="bound" d={`M${bound} 0v18${sense === 'min' ? 'm0-9h6' : 'm0-9h-6'}`} />
      </svg>
      <span class="aside bound-text">
        {figures.bound}
        {holds ? '' : ` · ${t.missed}`}
      </span>
      <span class="aside basis">
        {say(basis)} · {authority === 'law' ? <Said text={citation} /> : t.house}
      </span>
    </li>
  );
}

/** A limit's figures as a person reads them. */
export function useLimitFigures({ value, bound, unit, sense, holds }: Limit) {
  const t = useWords(BATCHES);
  const show = useShow();
  const sign = unit === 'percent' ? ' %' : ` ${unit}`;
  const digits = [4, 5, 6, 7, 8, 9, 10, 11, 12].find((n) => holds || Number(value.toPrecision(n)) !== bound);
  const figure = (of: number) => `${show.digits(String(Number(of.toPrecision(digits ?? 12))))}${sign}`;
  const word = sense === 'max' || sense === 'min' || sense === 'present' ? t.sense[sense] : sense;
  return { value: figure(value), bound: sense === 'present' ? word : `${word} ${figure(bound)}` };
}
