import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Confirm } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import type { Batch } from './batch.ts';
import { BATCHES } from './words.ts';

/** Gives a plan up, as long as nothing is in the mixer. */
export function Cancel({ batch }: { readonly batch: Batch }) {
  const t = useWords(BATCHES);
  const may = useMay();
  const [isOpen, setOpen] = useState(false);
  const name = `cancel batch ${batch.id}`;
  const draft = useDraft(name, { reason: '' });
  const { send, isSending, error } = useSending(name);
  const fault = useFieldFault(error);
  if (!may('plan') || !batch.next.includes('cancelled')) return null;
  const cancel = async () => {
    const body = { reason: draft.value.reason };
    const done = await send({ path: `/batches/${batch.id}/cancellation`, body, version: batch.version });
    if (!done) return;
    draft.clear();
    setOpen(false);
  };
  return (
    <div>
      <Button kind="grave" onClick={() => setOpen(true)}>
        {t.cancel}
      </Button>
      {isOpen && (
        <Confirm
          title={t.cancel}
          says={t.cancelSays}
          does={t.cancel}
          isBusy={isSending}
          onYes={() => void cancel()}
          onClose={() => setOpen(false)}
        >
          <TextField
            label={t.whyCancel}
            value={draft.value.reason}
            onValue={(reason) => draft.set({ reason })}
            error={fault('/reason')}
          />
          <ProblemNotice error={error} shownPointers={['/reason']} />
        </Confirm>
      )}
    </div>
  );
}
