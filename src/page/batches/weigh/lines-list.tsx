import { useEffect, useRef } from 'preact/hooks';
import { useShow } from '../../figures/show.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { BATCHES } from '../words.ts';
import type { Spot } from './spots.ts';
import { WEIGH } from './words.ts';

/** Lines of a load: what is in, what is being weighed, what is to come. Any of them can be tapped. */
export function LinesList({
  spots,
  now,
  onPick,
}: {
  readonly spots: readonly Spot[];
  readonly now: number | undefined;
  readonly onPick: (line: number) => void;
}) {
  const t = useWords(WEIGH);
  const list = useRef<HTMLElement>(null);
  // The line that is weighed stays in sight: the list is moved, never the page.
  useEffect(() => {
    const button = list.current?.querySelector<HTMLElement>('[aria-current]');
    if (!list.current || !button) return;
    const { top, height } = list.current.getBoundingClientRect();
    const at = button.getBoundingClientRect();
    list.current.scrollTop += at.top - top - (height - at.height) / 2;
  }, [now]);
  return (
    <nav class="weigh-lines" aria-label={t.lines} ref={list}>
      <ol>
        {spots.map((spot) => (
          <li key={spot.line.number}>
            <LineButton spot={spot} isNow={spot.line.number === now} onPick={onPick} />
          </li>
        ))}
      </ol>
    </nav>
  );
}

function LineButton({
  spot,
  isNow,
  onPick,
}: {
  readonly spot: Spot;
  readonly isNow: boolean;
  readonly onPick: (line: number) => void;
}) {
  const t = useWords(WEIGH);
  const b = useWords(BATCHES);
  const say = useSay();
  const show = useShow();
  const { line, restKg, isBegun, isUnsent } = spot;
  const isDone = restKg === 0;
  const state = isDone ? t.done : isBegun ? t.begun : t.toCome;
  return (
    <button
      type="button"
      class={isDone ? 'done' : ''}
      aria-current={isNow ? 'step' : undefined}
      onClick={() => onPick(line.number)}
    >
      <span class="sign" aria-hidden="true">
        {isDone ? '✓' : isNow ? '▸' : line.number}
      </span>
      <span class="what">
        {say(line.material)} {line.cure && <b class="batch-cure">{b.cure}</b>}
        <span class="aside">
          <b>
            {show.digits(line.perLoad.value)} {line.perLoad.unit}
          </b>{' '}
          · {isNow ? t.now : state}
          {isUnsent && <b class="weigh-unsent"> · {t.unsent}</b>}
        </span>
      </span>
    </button>
  );
}
