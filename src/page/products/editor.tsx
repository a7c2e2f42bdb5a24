import { useMemo } from 'preact/hooks';
import type { ProductInput } from '../../api/contract/line-limits.ts';
import type { MaterialAnswer, RuleSetsAnswer } from '../../api/contract/resources.ts';
import { Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { useAll } from '../service/whole-list.ts';
import { useDevice } from '../shell/device.ts';
import { useHere } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { draftOf, newDraft, type ProductDraft } from './draft.ts';
import { EditorForm } from './editor-form.tsx';
import { PRODUCTS } from './words.ts';

interface Items<Item> {
  readonly items: readonly Item[];
}

/** One product in its form: one that stands, a new one, or a new one that begins as a copy. */
export function Editor({ id, from }: { readonly id?: string; readonly from?: string }) {
  const t = useWords(PRODUCTS);
  const { mark } = useDevice();
  const { plant } = useHere();
  const source = id ?? from;
  const product = useAnswer<ProductInput>(
    source === undefined ? undefined : `/products/${encodeURIComponent(source)}`,
  );
  const materials = useAll<MaterialAnswer>('/materials');
  const ruleSets = useAnswer<RuleSetsAnswer>('/rule-sets');
  const products = useAnswer<Items<ProductInput>>('/products?limit=500');
  const stocks = useAnswer<Items<{ id: string; says: string }>>('/label-stocks');
  const byId = useMemo(
    () => new Map(materials.body?.map((material) => [material.id, material])),
    [materials.body],
  );
  const form = (initial: ProductDraft, saved?: ProductInput) => (
    <Read of={materials}>
      {() => (
        <Read of={ruleSets}>
          {({ items }) => (
            <EditorForm
              name={id !== undefined ? `product.${id}` : `product.new.${from ?? ''}`}
              initial={initial}
              again={product.again}
              known={{
                materials: byId,
                ruleSets: items,
                products: products.body?.items ?? [],
                stocks: stocks.body?.items ?? [],
              }}
              {...(id !== undefined && saved && { saved, version: product.version ?? 0 })}
            />
          )}
        </Read>
      )}
    </Read>
  );
  if (source === undefined) return form(newDraft(plant.jurisdiction, plant.units, t.newPart));
  return (
    <>
      {!product.body && <h1>{source}</h1>}
      <Read of={product}>
        {(saved) => {
          const initial = draftOf(saved, mark, plant.units);
          return form(
            id === undefined ? { ...initial, id: '', name: t.copyName(saved.name), packs: [] } : initial,
            saved,
          );
        }}
      </Read>
    </>
  );
}
