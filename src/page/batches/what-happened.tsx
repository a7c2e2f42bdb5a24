import { useShow } from '../figures/show.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Batch } from './batch.ts';
import { Part } from './part.tsx';
import { BATCHES } from './words.ts';

/** Fat tests and what was added after them. */
export function FatTests({ batch: { tests, corrections } }: { readonly batch: Batch }) {
  const t = useWords(BATCHES);
  const show = useShow();
  const say = useSay();
  if (tests.length === 0) return null;
  return (
    <Part title={t.tests}>
      <ul>
        {tests.map(({ step, load, fatFraction, method, by, at }) => (
          <li key={step}>
            <strong>{show.percent(fatFraction)}</strong> · {load === undefined ? t.wholeBatch : t.load(load)}{' '}
            <span class="aside">
              {method} · {by}, {show.instant(at)}
            </span>
          </li>
        ))}
        {corrections.map(({ step, says, by, at }) => (
          <li key={step}>
            {say(says)}{' '}
            <span class="aside">
              {by}, {show.instant(at)}
            </span>
          </li>
        ))}
      </ul>
    </Part>
  );
}

/** Every step with who took it. */
export function Done({ batch }: { readonly batch: Batch }) {
  const t = useWords(BATCHES);
  const show = useShow();
  const kinds: Readonly<Record<string, string>> = t.kinds;
  return (
    <details class="card">
      <summary>{t.steps}</summary>
      <ol>
        {batch.steps.map(({ number, kind, by, at }) => (
          <li key={number}>
            {kinds[kind] ?? kind}{' '}
            <span class="aside">
              {by}, {show.instant(at)}
            </span>
          </li>
        ))}
      </ol>
    </details>
  );
}
