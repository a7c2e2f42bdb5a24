import { useShow } from '../figures/show.ts';
import { useWords } from '../words/words.ts';
import type { Blend } from './asking.ts';
import { BLEND } from './words.ts';

/** What each new blend costs, read out to whoever does not see the figures change. @param blend once it is worked out. */
export function Spoken({ blend }: { readonly blend: Blend | undefined }) {
  const t = useWords(BLEND);
  const show = useShow();
  const perUnit = blend && (show.units === 'lb' ? blend.costPerLb : blend.costPerKg);
  return (
    <p class="unseen" role="status">
      {blend &&
        perUnit !== undefined &&
        `${show.money(perUnit)} ${t.costPer(show.units)}, ${show.percent(blend.finishedMakeup.fatFraction)} ${t.fatOf}`}
    </p>
  );
}
