import { Button } from '../../parts/button.tsx';
import { TextField } from '../../parts/field.tsx';
import { ProblemNotice, useFieldFault } from '../../parts/notice.tsx';
import { MassField, type TypedMass } from '../../parts/number-field.tsx';
import { useDraft } from '../../service/draft.ts';
import { useSending } from '../../service/sending.ts';
import { useDevice } from '../../shell/device.ts';
import { useMay } from '../../shell/plant.ts';
import { useWords } from '../../words/words.ts';
import type { Batch } from '../batch.ts';
import { scaleWeight } from './form.ts';
import { FINISH } from './words.ts';

/** Product that goes back as rework after the batch was finished. */
export function SetAside({ batch }: { readonly batch: Batch }) {
  const t = useWords(FINISH);
  const may = useMay();
  const { mark } = useDevice();
  const name = `set aside ${batch.id}`;
  const draft = useDraft<{ weight: TypedMass; reason: string }>(name, {
    weight: { text: '', unit: batch.units },
    reason: '',
  });
  const { send, isSending, error } = useSending(name);
  const fault = useFieldFault(error);
  if (!may('work')) return null;
  const weight = scaleWeight(draft.value.weight, mark);
  const setAside = async () => {
    const body = { weight, reason: draft.value.reason };
    if (await send({ path: `/batches/${batch.id}/rework`, body })) draft.clear();
  };
  return (
    <details class="card">
      <summary>{t.aside}</summary>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void setAside();
        }}
      >
        <MassField
          label={t.weight}
          value={draft.value.weight}
          onValue={(typed) => draft.set({ weight: typed })}
          error={fault('/weight', '/weight/value')}
        />
        <TextField
          label={t.why}
          value={draft.value.reason}
          onValue={(reason) => draft.set({ reason })}
          error={fault('/reason')}
        />
        <ProblemNotice error={error} shownPointers={['/weight', '/reason']} />
        <div class="actions">
          <Button type="submit" isBusy={isSending} disabled={!weight}>
            {t.asideDo}
          </Button>
        </div>
      </form>
    </details>
  );
}
