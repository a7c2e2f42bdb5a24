import { Button } from '../parts/button.tsx';
import { OneOf } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { useTell } from '../parts/told.tsx';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { equipmentOf } from './correction.ts';
import { LOG } from './log-words.ts';
import { RECORDS } from './words.ts';

const NAME = 'cleaning';
const EMPTY = { equipment: '', what: 'cleaned and sanitized', day: '', time: '', note: '' };

/** Writes a cleaning down, as soon as it is done or later. */
export function CleaningForm({ onDone }: { readonly onDone: () => void }) {
  const t = useWords(RECORDS);
  const w = useWords(LOG);
  const c = useWords(COMMON);
  const tell = useTell();
  const { value, set, clear } = useDraft(NAME, EMPTY);
  const { send, isSending, error } = useSending(NAME);
  const fault = useFieldFault(error);
  const save = async (event: Event) => {
    event.preventDefault();
    const { what, day, time, note } = value;
    const body = {
      equipment: equipmentOf(value.equipment),
      what,
      ...((day !== '' || time !== '') && { at: `${day}T${time}` }),
      ...(note.trim() !== '' && { note: note.trim() }),
    };
    if (!(await send({ path: '/cleanings', body }))) return;
    clear();
    tell({ says: w.cleaningWritten });
    onDone();
  };
  return (
    <form class="card form" onSubmit={save} noValidate>
      <h2>{w.writeCleaning}</h2>
      <ProblemNotice error={error} shownPointers={['/equipment', '/at', '/note']} />
      <TextField
        label={t.equipment}
        hint={w.equipmentExample}
        value={value.equipment}
        onValue={(equipment) => set({ equipment })}
        error={fault('/equipment', '/equipment/0')}
        required
      />
      <OneOf
        label={t.what}
        value={value.what}
        onValue={(what) => set({ what })}
        options={[
          { value: 'cleaned and sanitized', says: t.sanitized },
          { value: 'cleaned', says: t.cleaned },
        ]}
      />
      <div class="pair">
        <TextField
          label={c.date}
          type="date"
          hint={w.nowWhenEmpty}
          value={value.day}
          onValue={(day) => set({ day })}
          error={fault('/at')}
        />
        <TextField
          label={c.time}
          type="time"
          hint={w.plantClock}
          value={value.time}
          onValue={(time) => set({ time })}
        />
      </div>
      <TextField
        label={t.note}
        isOptional
        value={value.note}
        onValue={(note) => set({ note })}
        error={fault('/note')}
      />
      <div class="actions">
        <Button onClick={onDone}>{c.cancel}</Button>
        <Button kind="main" type="submit" isBusy={isSending}>
          {w.sealCleaning}
        </Button>
      </div>
    </form>
  );
}
