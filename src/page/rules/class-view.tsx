import type { ProductInput } from '../../api/contract/line-limits.ts';
import type { RulesAnswer } from '../../api/contract/resources.ts';
import { to } from '../shell/place.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { LimitCard, Source } from './limit-card.tsx';
import { RULES } from './words.ts';

type Standard = RulesAnswer['standards'][number];

/** All that the law says of one class: bounds, what may not go in, what needs a laboratory, and whom it is about. */
export function ClassView({
  standard,
  jurisdiction,
  products,
}: {
  readonly standard: Standard;
  readonly jurisdiction: string;
  readonly products: readonly ProductInput[];
}) {
  const t = useWords(RULES);
  const say = useSay();
  const { limits, laboratory, cooking, productClass } = standard;
  const isForbidding = ({ sense, bound }: Standard['limits'][number]) => sense === 'max' && bound === 0;
  const under = products.filter(
    (product) =>
      product.standard.jurisdiction === jurisdiction && product.standard.productClass === productClass,
  );
  const parts = [
    [t.held, limits.filter((limit) => !isForbidding(limit))],
    [t.forbidden, limits.filter(isForbidding)],
  ] as const;
  return (
    <>
      <p>
        <Said text={standard.citation} /> · {t.sold} {cooking.map((how) => t.cookings[how]).join(', ')}
      </p>
      <p>
        {under.length === 0 ? t.noProducts : `${t.products}: `}
        {under.map(({ id, name }, at) => (
          <span key={id}>
            {at > 0 && ', '}
            <a href={to('products', id)}>{name}</a>
          </span>
        ))}
      </p>
      {parts.map(
        ([title, list]) =>
          list.length > 0 && (
            <section key={title}>
              <h2>{`${title} (${list.length})`}</h2>
              <ul class="rules-limits">
                {list.map((limit) => (
                  <LimitCard key={limit.id} limit={limit} />
                ))}
              </ul>
            </section>
          ),
      )}
      {laboratory.length > 0 && (
        <section>
          <h2>{`${t.laboratory} (${laboratory.length})`}</h2>
          <p class="hint">{t.laboratorySays}</p>
          <ul class="rules-limits">
            {laboratory.map((limit) => (
              <li key={limit.id} class="rules-limit">
                <p class="rules-says">{say(limit.says)}</p>
                <Source of={limit} />
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}
