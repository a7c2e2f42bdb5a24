import { useState } from 'preact/hooks';
import type { BlendAnswer } from '../../api/contract/blend-answer.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Waiting } from '../parts/states.tsx';
import { useWork } from '../service/answers.ts';
import { useWords } from '../words/words.ts';
import type { Viewed } from './viewed.ts';
import { BLEND } from './words.ts';

const WITHIN = 0.03;
const COUNT = 4;

/** Other choices of lots that cost little more, asked for when somebody wants them. */
export function NearBest({
  body,
  blend,
  asking,
  onAsk,
}: Pick<Viewed, 'body' | 'blend' | 'asking' | 'onAsk'>) {
  const t = useWords(BLEND);
  const show = useShow();
  const [lookedFor, setLookedFor] = useState<string>();
  const isAsked = lookedFor === blend.fingerprint;
  const { body: answer, isWaiting } = useWork<BlendAnswer>(
    '/blends',
    isAsked ? { ...body, worth: 'none', nearBest: { count: COUNT, within: WITHIN } } : undefined,
  );
  const found = isAsked && !isWaiting && answer?.outcome === 'blend' ? (answer.nearBest ?? []) : undefined;
  return (
    <section class="card stack">
      <h2>{t.nearTitle}</h2>
      <p class="hint">{t.nearSays(show.percent(WITHIN, 0))}</p>
      {!isAsked && (
        <div>
          <Button onClick={() => setLookedFor(blend.fingerprint)}>{t.nearLook}</Button>
        </div>
      )}
      {isAsked && !found && <Waiting />}
      {found?.length === 0 && <p>{t.nearNone}</p>}
      {found && found.length > 0 && (
        <ul class="blend-near">
          {found.map(({ cost, aboveFraction, without, withInstead }) => (
            <li key={cost}>
              <span>
                <strong>{show.money(cost)}</strong> (+{show.percent(aboveFraction, 2)}){' '}
                {without.length > 0 && t.without(without.join(', '))}
                {withInstead.length > 0 && <> {t.instead(withInstead.join(', '))}</>}
              </span>
              {without.length > 0 && (
                <Button onClick={() => onAsk({ excluded: [...asking.excluded, ...without] })}>{t.use}</Button>
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
