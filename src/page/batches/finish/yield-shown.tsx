import { useShow } from '../../figures/show.ts';
import { Notice } from '../../parts/notice.tsx';
import { useWords } from '../../words/words.ts';
import { FINISH } from './words.ts';
import type { Yield } from './yield.ts';

/** The yield of what is typed, beside the declared one. */
export function YieldShown({ found, declared }: { readonly found: Yield; readonly declared: number }) {
  const t = useWords(FINISH);
  const show = useShow();
  if (found.fraction === undefined) return null;
  const { lossKg } = found;
  return (
    <Notice kind={found.isOdd ? 'caution' : 'good'}>
      <p>
        <strong>{t.yield(show.percent(found.fraction), show.percent(declared))}</strong>
      </p>
      <p>{lossKg < 0 ? t.gain(show.mass(-lossKg)) : t.loss(show.mass(lossKg))}</p>
      {found.isOdd && <p>{t.oddYield}</p>}
    </Notice>
  );
}
