import type { ComponentChildren } from 'preact';
import { useShow } from '../figures/show.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Limit } from './find-limits.ts';
import { useLimitFigures } from './limit-figure.ts';
import { LIMIT_WORDS } from './limit-words.ts';
import { RULES } from './words.ts';

/** Where a rule stands, since when, and how it was read; what nobody has read yet says so loudly. */
export function Source({ of }: { readonly of: Pick<Limit, 'citation' | 'read' | 'inForce' | 'note'> }) {
  const t = useWords(RULES);
  const l = useWords(LIMIT_WORDS);
  const { day } = useShow();
  const { citation, read, inForce, note } = of;
  return (
    <>
      <p class="rules-source">
        <span class="rules-citation">
          <Said text={citation} />
        </span>
        <span class={`rules-read ${read.replace(' ', '-')}`}>{l.reads[read]}</span>
        {inForce?.from && <span>{t.from(day(inForce.from))}</span>}
        {inForce?.until && <span>{t.until(day(inForce.until))}</span>}
      </p>
      {note && (
        <p class="hint">
          <Said text={note} />
        </p>
      )}
    </>
  );
}

/** One limit, to be read. */
export function LimitCard({
  limit,
  children,
}: {
  readonly limit: Limit;
  readonly children?: ComponentChildren;
}) {
  const t = useWords(RULES);
  const say = useSay();
  const show = useShow();
  const { bound } = useLimitFigures();
  return (
    <li class="rules-limit">
      <p class="rules-says">{say(limit.says)}</p>
      <p class="rules-bound">
        <strong>{bound(limit)}</strong>
        <span class="aside">
          {say(limit.numerator)} / {say(limit.basis)}
          {limit.within !== undefined && `; ${t.within(show.percent(limit.within, 0))}`}
        </span>
      </p>
      <Source of={limit} />
      {children}
    </li>
  );
}
