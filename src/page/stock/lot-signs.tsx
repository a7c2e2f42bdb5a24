import { useWords } from '../words/words.ts';
import { isPast, isSoon, type LotFacts } from './lot-facts.ts';
import { STOCK } from './words.ts';

/** What stands in the way of a lot, or hurries it, in a word with its sign. */
export function LotSigns({ facts }: { readonly facts: LotFacts }) {
  const t = useWords(STOCK);
  const { lot, daysLeft } = facts;
  return (
    <>
      {lot.held !== undefined && (
        <span class="stock-sign bad" title={lot.held}>
          ✕ {t.onHold}
        </span>
      )}
      {isPast(facts) && <span class="stock-sign bad">✕ {t.pastUseBy}</span>}
      {isSoon(facts) && <span class="stock-sign care">! {t.leftSpan(daysLeft, daysLeft)}</span>}
      {lot.state === 'frozen' && <span class="stock-sign">❄ {t.states.frozen}</span>}
    </>
  );
}
