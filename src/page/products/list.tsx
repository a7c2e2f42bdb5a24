import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { ProductInput } from '../../api/contract/line-limits.ts';
import type { RuleSetsAnswer } from '../../api/contract/resources.ts';
import { useShow } from '../figures/show.ts';
import { Button, Go } from '../parts/button.tsx';
import { Confirm } from '../parts/dialog.tsx';
import { ProblemNotice } from '../parts/notice.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { Table } from '../parts/table.tsx';
import { useTell } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { keptNames } from '../service/kept.ts';
import { sendOnce, useSending } from '../service/sending.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { PRODUCTS } from './words.ts';

/** What the plant makes. */
export function ProductList() {
  const t = useWords(PRODUCTS);
  const say = useSay();
  const may = useMay();
  const products = useAnswer<{ items: readonly ProductInput[] }>('/products?limit=500');
  const ruleSets = useAnswer<RuleSetsAnswer>('/rule-sets');
  const [leaving, setLeaving] = useState<ProductInput>();
  const aim = useAim();
  const drafts = keptNames('draft.product.');
  const standardOf = ({ standard: { jurisdiction, productClass } }: ProductInput) =>
    ruleSets.body?.items
      .find((set) => set.jurisdiction === jurisdiction)
      ?.classes.find((each) => each.productClass === productClass)?.says ?? productClass;
  return (
    <>
      <div class="row wrap products-top">
        <h1>{t.title}</h1>
        {may('plan') && (
          <Go kind="main" href="#/products/new">
            {t.add}
          </Go>
        )}
      </div>
      <Read of={products}>
        {({ items }) =>
          items.length === 0 ? (
            <Nothing>
              <p>{t.none}</p>
            </Nothing>
          ) : (
            <Table
              caption={t.title}
              rows={items}
              keyOf={({ id }) => id}
              columns={[
                {
                  says: t.name,
                  isName: true,
                  of: ({ id, name }) => (
                    <>
                      <a class="products-link" href={to('products', id)}>
                        {name}
                      </a>
                      {drafts.includes(`draft.product.${id}`) && <span class="aside"> ● {t.unsaved}</span>}
                    </>
                  ),
                },
                { says: t.standard, isExtra: true, of: (product) => say(standardOf(product)) },
                { says: t.form, isExtra: true, of: ({ form }) => t.shapes[form.shape] },
                { says: t.aim, of: aim },
                { says: t.lines, isNumber: true, isExtra: true, of: ({ seasoning }) => seasoning.length },
                ...(may('plan')
                  ? [
                      {
                        says: <span class="unseen">{t.copy}</span>,
                        of: (product: ProductInput) => (
                          <div class="row products-acts">
                            <a
                              class="button quiet"
                              href={`#/products/new?from=${encodeURIComponent(product.id)}`}
                              aria-label={t.copyOf(product.name)}
                            >
                              {t.copy}
                            </a>
                            <Button
                              kind="quiet"
                              label={t.withdrawOf(product.name)}
                              onClick={() => setLeaving(product)}
                            >
                              {t.withdraw}
                            </Button>
                          </div>
                        ),
                      },
                    ]
                  : []),
              ]}
            />
          )
        }
      </Read>
      {leaving && <Withdraw product={leaving} onClose={() => setLeaving(undefined)} />}
    </>
  );
}

/** The fat that a product aims at, and the lean point it carries: '80/20 · 18–20 %'. */
function useAim(): (product: ProductInput) => ComponentChildren {
  const show = useShow();
  const t = useWords(PRODUCTS);
  return ({ targets, label: { leanPercent } }) => {
    const { min, max } = targets.find(({ measure }) => measure === 'fat') ?? {};
    const percent = (fraction: number) => show.digits(String(Number((fraction * 100).toFixed(4))));
    const fat =
      min !== undefined && max !== undefined
        ? `${percent(min)}–${percent(max)} %`
        : min !== undefined
          ? `≥ ${percent(min)} %`
          : max !== undefined
            ? `≤ ${percent(max)} %`
            : undefined;
    const lean =
      leanPercent === undefined
        ? undefined
        : `${leanPercent}/${show.digits(String(Number((100 - leanPercent).toFixed(4))))}`;
    const parts = [lean, fat && `${fat} ${t.measures.fat.toLowerCase()}`].filter(Boolean);
    return parts.length === 0
      ? '–'
      : parts.map((part) => (
          <span key={part} class="products-aim">
            {part}
          </span>
        ));
  };
}

function Withdraw({ product, onClose }: { readonly product: ProductInput; readonly onClose: () => void }) {
  const t = useWords(PRODUCTS);
  const tell = useTell();
  const { send, isSending, error } = useSending(`withdraw ${product.id}`);
  const say = useSay();
  const withdraw = async () => {
    if (!(await send({ method: 'DELETE', path: `/products/${encodeURIComponent(product.id)}` }))) return;
    onClose();
    tell({
      says: t.withdrawn(product.name),
      // What was withdrawn is written again, and stands as it did.
      undo: () =>
        sendOnce(`withdraw ${product.id} back`, { path: '/products', body: product }).catch((failed: Error) =>
          tell({ says: say(failed.message) }),
        ),
    });
  };
  return (
    <Confirm
      title={t.withdrawOf(product.name)}
      says={t.withdrawSays}
      does={t.withdraw}
      isBusy={isSending}
      onYes={withdraw}
      onClose={onClose}
    >
      <ProblemNotice error={error} />
    </Confirm>
  );
}
