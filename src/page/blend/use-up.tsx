import type { UsePlanAnswer } from '../../api/contract/use-plan.ts';
import { useShow } from '../figures/show.ts';
import { Choice, Tick } from '../parts/choice.tsx';
import { ProblemNotice } from '../parts/notice.tsx';
import { MassField } from '../parts/number-field.tsx';
import { useWork } from '../service/answers.ts';
import { useDraft } from '../service/draft.ts';
import { useDevice } from '../shell/device.ts';
import { useWords } from '../words/words.ts';
import type { ProductsSeen } from './product-seen.ts';
import { UsePlanView } from './use-plan-view.tsx';
import { productAtFirst, type UseUpAsking, type UseUpProduct, useUpBody } from './use-up-request.ts';
import { USE_UP } from './use-up-words.ts';

const AT_FIRST: UseUpAsking = { products: {}, aim: 'margin', isSunk: false };

/** Several products out of what is on hand: which to make, and how much of each. */
export function UseUp({ products }: { readonly products: ProductsSeen }) {
  const t = useWords(USE_UP);
  const { mark } = useDevice();
  const { units } = useShow();
  const { value: asking, set } = useDraft<UseUpAsking>('use up', AT_FIRST);
  const body = useUpBody(asking, mark, units);
  const { body: answer, error, isWaiting } = useWork<UsePlanAnswer>('/use-plans', body);
  const change = (id: string, of: UseUpProduct) => set({ products: { ...asking.products, [id]: of } });
  return (
    <>
      <section class="card stack" aria-labelledby="use-up-products">
        <p>{t.intro}</p>
        <h2 id="use-up-products">{t.products}</h2>
        <ul class="blend-candidates">
          {products.items.map(({ id, name }) => (
            <li key={id}>
              <Candidate
                name={name}
                of={asking.products[id] ?? productAtFirst(units)}
                onChange={(of) => change(id, of)}
              />
            </li>
          ))}
        </ul>
        <div class="form">
          <div class="pair">
            <Choice
              label={t.aim}
              value={asking.aim}
              onValue={(aim) => set({ aim: aim as UseUpAsking['aim'] })}
              options={Object.entries(t.aims).map(([value, says]) => ({ value, says }))}
            />
            <Tick label={t.sunk} isOn={asking.isSunk} onChange={(isSunk) => set({ isSunk })} />
          </div>
        </div>
      </section>
      <ProblemNotice error={error} />
      {!body && <p class="hint">{t.pick}</p>}
      <div class="blend-answer" aria-busy={isWaiting}>
        {body && answer && <UsePlanView answer={answer} />}
      </div>
    </>
  );
}

function Candidate({
  name,
  of,
  onChange,
}: {
  readonly name: string;
  readonly of: UseUpProduct;
  readonly onChange: (of: UseUpProduct) => void;
}) {
  const t = useWords(USE_UP);
  const { currency } = useShow();
  return (
    <div class="blend-candidate">
      <Tick label={name} isOn={of.isOn} onChange={(isOn) => onChange({ ...of, isOn })} />
      {of.isOn && (
        <>
          <MassField
            label={t.sellsFor(name)}
            value={of.price}
            onValue={(price) => onChange({ ...of, price })}
            units={['lb', 'kg']}
            isPer
            before={currency}
          />
          <MassField
            label={t.most(name)}
            isOptional
            value={of.most}
            onValue={(most) => onChange({ ...of, most })}
            units={['lb', 'kg']}
          />
        </>
      )}
    </div>
  );
}
