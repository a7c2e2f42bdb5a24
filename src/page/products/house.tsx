import { useMemo, useState } from 'preact/hooks';
import type { ProductInput } from '../../api/contract/line-limits.ts';
import type { RuleSetsAnswer, RulesAnswer } from '../../api/contract/resources.ts';
import { useFieldFault } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { useTell } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { CertainLimits } from './house-certain.tsx';
import { type HouseDraft, type HouseRules, houseDraftOf, houseRulesOf } from './house-draft.ts';
import { FloorHabits } from './house-floor.tsx';
import type { HouseForm } from './house-form.ts';
import { OwnLimits } from './house-own.tsx';
import { SwitchedOff, TighterLimits } from './house-tighter.tsx';
import { HOUSE } from './house-words.ts';
import { useOnLeave } from './on-leave.ts';
import { SaveBar } from './save-bar.tsx';
import { PRODUCTS } from './words.ts';

/** What the plant asks of itself beyond the law, and how its floor chooses lots. */
export function House() {
  const t = useWords(HOUSE);
  const rules = useAnswer<HouseRules>('/house-rules');
  const law = useAnswer<RulesAnswer>('/rules');
  const ruleSets = useAnswer<RuleSetsAnswer>('/rule-sets');
  const products = useAnswer<{ items: readonly ProductInput[] }>('/products?limit=500');
  const limits = useMemo(
    () =>
      new Map(
        law.body?.standards.flatMap((standard) => standard.limits).map((limit) => [limit.id, limit] as const),
      ),
    [law.body],
  );
  return (
    <div class="stack products-house">
      <div>
        <h1>{t.title}</h1>
        <p class="hint">{t.says}</p>
      </div>
      <Read of={rules}>
        {(saved) => (
          <Read of={law}>
            {() => (
              <RulesForm
                saved={saved}
                version={rules.version ?? 0}
                again={rules.again}
                limits={limits}
                forms={ruleSets.body?.forms ?? []}
                products={products.body?.items ?? []}
              />
            )}
          </Read>
        )}
      </Read>
      <FloorHabits />
    </div>
  );
}

function RulesForm({
  saved,
  version,
  again,
  ...known
}: { readonly saved: HouseRules; readonly version: number; readonly again: () => void } & Pick<
  HouseForm,
  'limits' | 'forms' | 'products'
>) {
  const t = useWords(HOUSE);
  const p = useWords(PRODUCTS);
  const may = useMay();
  const tell = useTell();
  const { mark } = useDevice();
  const draft = useDraft<HouseDraft>('house-rules', houseDraftOf(saved, mark));
  const sending = useSending('house-rules');
  const [isTried, setTried] = useState(false);
  useOnLeave(() => {
    if (draft.isTouched) tell({ says: p.keptDraft });
  });
  const { value } = draft;
  const body = houseRulesOf(value, mark);
  const isOvertaken = draft.isTouched && value.begunFrom !== undefined && value.begunFrom !== version;
  const form: HouseForm = {
    ...known,
    value,
    set: (change) => draft.set(draft.isTouched ? change : { ...change, begunFrom: version }),
    fault: useFieldFault(sending.error),
  };
  const save = async () => {
    setTried(true);
    if (!body) return;
    const done = await sending.send({
      method: 'PUT',
      path: '/house-rules',
      body,
      version: value.begunFrom ?? version,
    });
    if (!done) {
      again();
      return;
    }
    draft.clear();
    setTried(false);
    tell({ says: t.saved });
  };
  return (
    <>
      <SwitchedOff form={form} />
      <TighterLimits form={form} />
      <OwnLimits form={form} />
      <CertainLimits form={form} />
      {may('plan') && (
        <SaveBar
          draft={draft}
          sending={sending}
          conflict={isOvertaken && t.conflict}
          isUnreadable={isTried && !body}
          isSaveable={draft.isTouched}
          back={p.backToSaved}
          onMine={() => form.set({ begunFrom: version })}
          onSave={save}
        />
      )}
    </>
  );
}
