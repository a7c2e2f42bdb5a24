import { useMemo, useRef, useState } from 'preact/hooks';
import type { ProductInput } from '../../api/contract/line-limits.ts';
import { Button } from '../parts/button.tsx';
import { Notice, useFieldFault } from '../parts/notice.tsx';
import { useTell } from '../parts/told.tsx';
import { useDraft } from '../service/draft.ts';
import { keep, kept } from '../service/kept.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { go, to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import type { ProductDraft } from './draft.ts';
import type { Known, ProductForm } from './form.ts';
import { Identity } from './identity.tsx';
import { LabelPart } from './label-part.tsx';
import { Live } from './live.tsx';
import { State } from './live-state.tsx';
import { MeatBlock } from './meat-block.tsx';
import { useOnLeave } from './on-leave.ts';
import { FormPart, ProcessPart } from './process-and-form.tsx';
import { ReworkPart } from './rework-part.tsx';
import { SaveBar } from './save-bar.tsx';
import { Seasonings } from './seasonings.tsx';
import { differing } from './standing.ts';
import { Targets } from './targets.tsx';
import { productOf } from './to-product.ts';
import { useTrial } from './use-trial.ts';
import { PRODUCTS } from './words.ts';

interface Props {
  /** Of the draft. */
  readonly name: string;
  readonly initial: ProductDraft;
  readonly known: Known;
  /** The product as it stands, with its version; none for a new one. */
  readonly saved?: ProductInput;
  readonly version?: number;
  /** Reads anew what stands: someone else may have written it. */
  readonly again: () => void;
}

export function EditorForm({ name, initial, known, saved, version, again }: Props) {
  const t = useWords(PRODUCTS);
  const c = useWords(COMMON);
  const { mark } = useDevice();
  const may = useMay();
  const tell = useTell();
  const draft = useDraft<ProductDraft>(name, initial);
  const { value } = draft;
  const typed = useMemo(() => productOf(value, mark), [value, mark]);
  const trial = useTrial(typed);
  const sending = useSending(name);
  const [isTried, setTried] = useState(false);
  const isNew = saved === undefined;
  const isSaved = useRef(false);
  useOnLeave(() => {
    if (draft.isTouched && !isSaved.current) tell({ says: t.keptDraft });
  });
  const ofSaving = useFieldFault(sending.error);
  const ofTrial = useFieldFault(trial.work.error);
  const form: ProductForm = {
    value,
    set: (change) => {
      isSaved.current = false;
      draft.set(draft.isTouched || version === undefined ? change : { ...change, begunFrom: version });
    },
    fault: (...pointers) =>
      ofSaving(...pointers) ??
      (trial.waits ? undefined : ofTrial(...pointers.map((pointer) => `/product${pointer}`))),
    materials: known.materials,
    ruleSets: known.ruleSets,
  };
  const isOvertaken =
    draft.isTouched && value.begunFrom !== undefined && version !== undefined && value.begunFrom !== version;
  const save = async () => {
    setTried(true);
    if (typed.unreadable.length > 0) return;
    const { product } = typed;
    const done = await sending.send(
      isNew
        ? { path: '/products', body: product }
        : {
            method: 'PUT',
            path: `/products/${encodeURIComponent(value.id)}`,
            body: product,
            version: value.begunFrom ?? version ?? 0,
          },
    );
    if (!done) {
      again();
      return;
    }
    isSaved.current = true;
    tell({ says: t.saved(product.name) });
    draft.clear();
    if (isNew) go(to('products', product.id));
  };
  return (
    <div class="products-editor">
      <div class="stack">
        <div class="row wrap products-top">
          <h1>{value.name || t.add}</h1>
          {!isNew && <Button onClick={() => blendIt(value.id)}>{t.blendIt}</Button>}
        </div>
        {!may('plan') && <Notice kind="note">{t.mayNot}</Notice>}
        <Identity form={form} isNew={isNew} />
        <MeatBlock form={form} />
        <Targets form={form} />
        <Seasonings form={form} limits={trial.limits} />
        <ProcessPart form={form} />
        <FormPart form={form} />
        <LabelPart form={form} stocks={known.stocks} />
        <ReworkPart form={form} known={known.products} />
      </div>
      <Live form={form} trial={trial} />
      <SaveBar
        draft={draft}
        sending={sending}
        conflict={
          isOvertaken &&
          saved &&
          `${t.conflict} ${differing(saved, typed.product)
            .map((part) => t.parts[part])
            .join(', ')}`
        }
        isUnreadable={isTried && typed.unreadable.length > 0}
        back={isNew ? c.startOver : t.backToSaved}
        onMine={() => version !== undefined && form.set({ begunFrom: version })}
        onSave={may('plan') && save}
      >
        <State trial={trial} />
      </SaveBar>
    </div>
  );
}

/** Goes to the blend, with this product chosen there. */
function blendIt(productId: string): void {
  keep('draft.blend', { ...kept<object>('draft.blend'), productId });
  go(to('blend'));
}
