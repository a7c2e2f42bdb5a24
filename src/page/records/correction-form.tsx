import { useState } from 'preact/hooks';
import type { RecordAnswer } from '../../api/records/contract.ts';
import { Button } from '../parts/button.tsx';
import { Choice, Tick } from '../parts/choice.tsx';
import { Confirm } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { TextArea } from '../parts/text-area.tsx';
import { useTell } from '../parts/told.tsx';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { correctionBody, NO_CORRECTION } from './correction.ts';
import { RECORDS } from './words.ts';

const SHOWN = ['/reason', '/corrects', '/fields/equipment', '/fields/at'];

/** Says what was wrong in a record and what is right; the record itself stays as it is. */
export function CorrectionForm({ record }: { readonly record: RecordAnswer }) {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const tell = useTell();
  const name = `correction ${record.seq}`;
  const { value, set, clear, isTouched } = useDraft(name, NO_CORRECTION);
  const { send, isSending, error } = useSending(name);
  const fault = useFieldFault(error);
  const [isAsked, setAsked] = useState(false);
  const [isChecked, setChecked] = useState(false);
  const isCleaning = record.kind === 'cleaning';
  const body = correctionBody(value, isCleaning, t.wasAndIs);
  const lacks = (text: string) => (isChecked && text.trim() === '' ? t.sayIt : undefined);
  const seal = async () => {
    setAsked(false);
    const sent = await send({ path: `/records/${record.seq}/corrections`, body });
    if (!sent) return;
    clear();
    setChecked(false);
    tell({ says: t.correctionSealed });
  };
  return (
    <form
      class="card form noprint"
      onSubmit={(event) => {
        event.preventDefault();
        setChecked(true);
        if (body && value.reason.trim() !== '') setAsked(true);
      }}
    >
      <h2>{t.correct}</h2>
      <p class="hint">{t.correctSays}</p>
      <ProblemNotice error={error} shownPointers={SHOWN} />
      {isTouched && <Notice kind="note">{c.restored}</Notice>}
      <div class="pair">
        <TextArea
          label={t.wasWrong}
          value={value.wrong}
          onValue={(wrong) => set({ wrong })}
          error={lacks(value.wrong) ?? fault('/corrects')}
        />
        <TextArea
          label={t.isRight}
          value={value.right}
          onValue={(right) => set({ right })}
          error={lacks(value.right)}
        />
      </div>
      <TextField
        label={c.reason}
        value={value.reason}
        onValue={(reason) => set({ reason })}
        error={lacks(value.reason) ?? fault('/reason')}
      />
      {isCleaning && (
        <fieldset class="form">
          <legend>{t.rightFields}</legend>
          <div class="pair">
            <TextField
              label={t.equipment}
              isOptional
              value={value.equipment}
              onValue={(equipment) => set({ equipment })}
              error={fault('/fields/equipment')}
            />
            <Choice
              label={t.what}
              value={value.what}
              onValue={(what) => set({ what: what as typeof value.what })}
              options={[
                { value: '', says: t.asItWas },
                { value: 'cleaned', says: t.cleaned },
                { value: 'cleaned and sanitized', says: t.sanitized },
              ]}
            />
            <TextField
              label={t.when}
              isOptional
              placeholder={t.timeExample}
              value={value.at.replace('T', ' ')}
              onValue={(at) => set({ at: at.trim().replace(' ', 'T') })}
              error={fault('/fields/at')}
            />
          </div>
          <Tick
            label={t.neverDone}
            isOn={value.isWithdrawn}
            onChange={(isWithdrawn) => set({ isWithdrawn })}
          />
        </fieldset>
      )}
      <div class="actions">
        {isTouched && <Button onClick={clear}>{c.startOver}</Button>}
        <Button kind="main" type="submit" isBusy={isSending}>
          {t.sealCorrection}
        </Button>
      </div>
      {isAsked && body && (
        <Confirm
          title={t.correct}
          says={<p class="asis">{body.corrects}</p>}
          does={t.sealCorrection}
          isGrave={false}
          onYes={() => void seal()}
          onClose={() => setAsked(false)}
        >
          <p class="hint">{t.sealedForGood}</p>
        </Confirm>
      )}
    </form>
  );
}
