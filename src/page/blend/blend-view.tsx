import { fixed } from '../../units.ts';
import { useShow } from '../figures/show.ts';
import { Notice } from '../parts/notice.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { Blend } from './asking.ts';
import { BlendBar } from './blend-bar.tsx';
import { Curve } from './curve.tsx';
import { Lines } from './lines.tsx';
import { NearBest } from './near-best.tsx';
import { PriceRanges } from './price-ranges.tsx';
import { Rooms } from './rooms.tsx';
import { Targets } from './targets.tsx';
import type { Viewed } from './viewed.ts';
import { BLEND } from './words.ts';

/** A blend in pictures: what goes in, what it costs, how near the limits are, and what would change it. */
export function BlendView(viewed: Viewed) {
  const { blend, worth, product, asking, onAsk, body } = viewed;
  const t = useWords(BLEND);
  const say = useSay();
  return (
    <>
      <Headline blend={blend} />
      <div class="blend-columns">
        <div class="stack">
          <BlendBar blend={blend} />
          <Lines blend={blend} worth={worth} asking={asking} onAsk={onAsk} />
          {blend.cautions.length > 0 && (
            <Notice kind="caution">
              <p>
                <strong>{t.cautions}</strong>
              </p>
              <ul>
                {blend.cautions.map((caution) => (
                  <li key={caution}>{say(caution)}</li>
                ))}
              </ul>
            </Notice>
          )}
          <PriceRanges blend={blend} worth={worth} />
          <NearBest body={body} blend={blend} onAsk={onAsk} asking={asking} />
        </div>
        <div class="stack">
          <Targets product={product} asking={asking} onAsk={onAsk} />
          <Curve product={product} asking={asking} onAsk={onAsk} body={body} />
          <Rooms blend={blend} worth={worth} />
        </div>
      </div>
    </>
  );
}

function Headline({ blend }: { readonly blend: Blend }) {
  const t = useWords(BLEND);
  const show = useShow();
  const say = useSay();
  const perUnit = show.units === 'lb' ? blend.costPerLb : blend.costPerKg;
  const fat = blend.finishedMakeup.fatFraction;
  const leastSure = blend.certainty.reduce<number | undefined>(
    (least, { probability }) => Math.min(least ?? 1, probability),
    undefined,
  );
  return (
    <section class="blend-headline" aria-label={t.batchCost(show.money(blend.cost))}>
      <p class="blend-figure">
        <strong>{show.money(perUnit)}</strong> <span>{t.costPer(show.units)}</span>
        <small>{t.batchCost(show.money(blend.cost))}</small>
      </p>
      <p class="blend-figure">
        <strong>{show.percent(fat)}</strong> <span>{t.fatOf}</span>
        <small>
          {show.percent(1 - fat)} {t.leanOf}
          {leastSure !== undefined && <> · {t.sureToHold(`${fixed(leastSure * 100, 0)} %`)}</>}
        </small>
      </p>
      <p class="blend-figure">
        <strong>{show.mass(blend.batch.kg)}</strong>
        <small>
          {t.loads(blend.loads, show.mass(blend.load.kg))} · {t.meat(show.mass(blend.greenWeight.kg))}
          {blend.finished.kg !== blend.batch.kg && <> · {t.finished(show.mass(blend.finished.kg))}</>}
        </small>
      </p>
      <details class="blend-proof">
        <summary>{t.proof}</summary>
        <p>{say(blend.proof.says)}</p>
        {leastSure !== undefined && leastSure < 0.9 && <p>{t.notSure(`${fixed(leastSure * 100, 0)} %`)}</p>}
        {blend.certainty.map(({ limitId, says, probability }) => (
          <p key={limitId}>
            {say(says)} {t.surely(`${fixed(probability * 100, 1)} %`)}
          </p>
        ))}
      </details>
    </section>
  );
}
