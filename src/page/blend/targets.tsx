import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { useWords } from '../words/words.ts';
import { type TargetEnd, targetEnds, withBound } from './product-seen.ts';
import type { Viewed } from './viewed.ts';
import { BLEND } from './words.ts';

/** How far a tap moves a target: half a point, or five hundredths of the currency. */
const STEPS = { percent: 0.5, money: 0.05 };

/** The product's own targets, each moved by a tap and tried at once. */
export function Targets({ product, asking, onAsk }: Pick<Viewed, 'product' | 'asking' | 'onAsk'>) {
  const t = useWords(BLEND);
  const show = useShow();
  const ends = targetEnds(product);
  if (ends.length === 0) return null;
  const move = (end: TargetEnd, to: number) =>
    onAsk({ bounds: withBound(product, asking.bounds, end, Number(Math.max(0, to).toFixed(4))) });
  return (
    <section class="card" aria-labelledby="blend-targets">
      <h2 id="blend-targets">{t.targetTitle}</h2>
      <ul class="blend-targets">
        {ends.map((end) => {
          const { limitId, measure, own } = end;
          const isMoney = measure === 'cost per kg';
          const at = asking.bounds[limitId] ?? own;
          const name = t.targetOf[isMoney ? 'cost-per-kg' : measure];
          const what = end.end === 'max' ? t.atMost(name) : t.atLeast(name);
          const step = isMoney ? STEPS.money : STEPS.percent;
          const text = isMoney ? show.money(at) : `${show.number(at, at % 1 === 0 ? 0 : 1)} %`;
          return (
            <li key={limitId}>
              <span>{what}</span>
              <Button label={t.less(what)} onClick={() => move(end, at - step)}>
                −
              </Button>
              <output class={at === own ? '' : 'tried'}>{text}</output>
              <Button label={t.moreOf(what)} onClick={() => move(end, at + step)}>
                +
              </Button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
