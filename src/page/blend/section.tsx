import './blend.css';
import { useShow } from '../figures/show.ts';
import { Go } from '../parts/button.tsx';
import { ProblemNotice } from '../parts/notice.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { Tabs } from '../parts/tabs.tsx';
import { useAnswer } from '../service/answers.ts';
import { useDraft } from '../service/draft.ts';
import { useDevice } from '../shell/device.ts';
import { to } from '../shell/place.ts';
import type { SectionProps } from '../shell/section.ts';
import { useWords } from '../words/words.ts';
import { AskBar } from './ask-bar.tsx';
import { type Asking, askingAtFirst, bodyOf } from './asking.ts';
import { BlendView } from './blend-view.tsx';
import { NoBlendView } from './no-blend.tsx';
import { fatLimitIds, type ProductsSeen } from './product-seen.ts';
import { Spoken } from './spoken.tsx';
import { useBlend } from './use-blend.ts';
import { UseUp } from './use-up.tsx';
import { USE_UP } from './use-up-words.ts';
import { BLEND } from './words.ts';

/** A product and a size in, the least-cost blend of what is on hand out, at once and with every change. */
export default function Section({ place }: SectionProps) {
  const products = useAnswer<ProductsSeen>('/products?limit=500');
  const t = useWords(BLEND);
  const ways = useWords(USE_UP);
  const isUseUp = place.parts[0] === 'use-up';
  return (
    <div class="blend">
      <h1 class="unseen">{isUseUp ? ways.useUp : t.title}</h1>
      <Tabs
        label={ways.tabs}
        tabs={[
          { address: to('blend'), says: ways.one, isHere: !isUseUp },
          { address: to('blend', 'use-up'), says: ways.useUp, isHere: isUseUp },
        ]}
      />
      <Read of={products}>
        {(body) =>
          body.items.length === 0 ? (
            <Nothing>
              <p>{t.noProducts}</p>
              <Go kind="main" href="#/products/new">
                {t.newProduct}
              </Go>
            </Nothing>
          ) : isUseUp ? (
            <UseUp products={body} />
          ) : (
            <Desk products={body} />
          )
        }
      </Read>
    </div>
  );
}

function Desk({ products }: { readonly products: ProductsSeen }) {
  const t = useWords(BLEND);
  const { mark } = useDevice();
  const { units } = useShow();
  const draft = useDraft<Asking>('blend', askingAtFirst(units));
  const product = products.items.find(({ id }) => id === draft.value.productId) ?? products.items[0];
  const asking: Asking = { ...draft.value, productId: product?.id ?? '' };
  const body = bodyOf(asking, mark, units, fatLimitIds(product));
  const working = useBlend(body);
  const answer = body && working.body;
  if (!product) return null;
  return (
    <>
      <AskBar
        products={products}
        product={product}
        asking={asking}
        onAsk={draft.set}
        body={body}
        blend={answer?.outcome === 'blend' && !working.isWaiting && !working.error ? answer : undefined}
        onStale={working.again}
      />
      <ProblemNotice error={working.error} />
      <Spoken blend={answer?.outcome === 'blend' && !working.isWaiting ? answer : undefined} />
      {!body && <p class="hint">{t.typeSize}</p>}
      <div class={working.isWaiting ? 'blend-answer waits' : 'blend-answer'} aria-busy={working.isWaiting}>
        {answer?.outcome === 'blend' && body && (
          <BlendView
            blend={answer}
            worth={working.worth}
            product={product}
            asking={asking}
            onAsk={draft.set}
            body={body}
          />
        )}
        {answer?.outcome === 'no blend' && (
          <NoBlendView answer={answer} product={product} asking={asking} onAsk={draft.set} />
        )}
      </div>
    </>
  );
}
