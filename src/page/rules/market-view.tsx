import { useMemo } from 'preact/hooks';
import type { RulesAnswer } from '../../api/contract/resources.ts';
import { matching } from '../figures/search.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { limitsOnce, searched } from './find-limits.ts';
import { LimitCard } from './limit-card.tsx';
import { RULES } from './words.ts';

const MOST_SHOWN = 40;

type AddressOf = (productClass: string) => string;

/** The classes of a market; or, once something is typed, the classes of that name and every limit that says it. */
export function MarketView({
  rules,
  typed,
  addressOf,
}: {
  readonly rules: RulesAnswer;
  readonly typed: string;
  readonly addressOf: AddressOf;
}) {
  const t = useWords(RULES);
  const say = useSay();
  const { standards } = rules;
  const all = useMemo(() => limitsOnce(standards), [standards]);
  const found = useMemo(() => searched(all, typed, say), [all, typed, say]);
  if (typed.trim() === '') return <Classes standards={standards} addressOf={addressOf} />;
  const named = matching(
    standards,
    typed,
    ({ says, productClass }) => `${say(says)} ${says} ${productClass}`,
  );
  return (
    <>
      {named.length > 0 && <Classes standards={named} addressOf={addressOf} />}
      <section>
        <h2>
          <span role="status">{found.length === 0 ? t.notFound : t.found(found.length)}</span>
        </h2>
        <ul class="rules-limits">
          {found.slice(0, MOST_SHOWN).map(({ limit, classes }) => (
            <LimitCard key={limit.id} limit={limit}>
              <details>
                <summary>{t.inClasses(classes.length)}</summary>
                <ul>
                  {classes.map(({ productClass, says }) => (
                    <li key={productClass}>
                      <a class="rules-link" href={addressOf(productClass)}>
                        {say(says)}
                      </a>
                    </li>
                  ))}
                </ul>
              </details>
            </LimitCard>
          ))}
        </ul>
        {found.length > MOST_SHOWN && <p>{t.more(found.length - MOST_SHOWN)}</p>}
      </section>
    </>
  );
}

function Classes({
  standards,
  addressOf,
}: {
  readonly standards: readonly RulesAnswer['standards'][number][];
  readonly addressOf: AddressOf;
}) {
  const t = useWords(RULES);
  const say = useSay();
  return (
    <section>
      <h2>{t.classes}</h2>
      <ul class="rules-classes">
        {standards.map(({ productClass, says, citation, limits }) => (
          <li key={productClass}>
            <a href={addressOf(productClass)}>
              <strong>{say(says)}</strong>
              <span class="aside">
                <Said text={citation} /> · {t.limits(limits.length)}
              </span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
