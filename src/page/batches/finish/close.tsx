import { useState } from 'preact/hooks';
import { Button, Go } from '../../parts/button.tsx';
import { Confirm } from '../../parts/dialog.tsx';
import { TextField } from '../../parts/field.tsx';
import { Notice, ProblemNotice } from '../../parts/notice.tsx';
import { useDraft } from '../../service/draft.ts';
import { useSending } from '../../service/sending.ts';
import { to } from '../../shell/place.ts';
import { useMay } from '../../shell/plant.ts';
import { useWords } from '../../words/words.ts';
import type { Batch } from '../batch.ts';
import { BATCHES } from '../words.ts';
import { FINISH } from './words.ts';

/** The end: the record is sealed by somebody who reviews it. */
export function Close({ batch }: { readonly batch: Batch }) {
  const t = useWords(FINISH);
  const b = useWords(BATCHES);
  const may = useMay();
  const [isOpen, setOpen] = useState(false);
  const name = `close ${batch.id}`;
  const draft = useDraft(name, { note: '' });
  const { send, isSending, error } = useSending(name);
  if (batch.record !== undefined) {
    return (
      <Notice kind="good">
        <p>{b.recordSealed}</p>
        <Go kind="main" href={to('records', batch.record)}>
          {t.toRecord(batch.record)}
        </Go>
      </Notice>
    );
  }
  if (!batch.next.includes('closed')) return null;
  if (!may('plan')) return <Notice kind="note">{t.onlyPlan}</Notice>;
  const close = async () => {
    const note = draft.value.note.trim();
    const body = note === '' ? {} : { note };
    if (!(await send({ path: `/batches/${batch.id}/closing`, body, version: batch.version }))) return;
    draft.clear();
    setOpen(false);
  };
  return (
    <section class="card stack" aria-label={t.close}>
      {batch.finished?.hold !== undefined && (
        <Notice kind="caution">
          <p>{t.hold}</p>
          <Go href={to('stock', batch.id)}>{t.toLot(batch.id)}</Go>
        </Notice>
      )}
      <Button kind="main" onClick={() => setOpen(true)}>
        {t.close}
      </Button>
      {isOpen && (
        <Confirm
          title={t.close}
          says={t.closeSays}
          does={t.closeDo}
          isGrave={false}
          isBusy={isSending}
          onYes={() => void close()}
          onClose={() => setOpen(false)}
        >
          <TextField
            label={t.note}
            isOptional
            value={draft.value.note}
            onValue={(note) => draft.set({ note })}
          />
          <ProblemNotice error={error} />
        </Confirm>
      )}
    </section>
  );
}
