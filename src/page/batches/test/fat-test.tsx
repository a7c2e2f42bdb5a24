import { useState } from 'preact/hooks';
import { fractionOfPercent } from '../../../units.ts';
import { parseNumber } from '../../figures/number.ts';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { OneOf } from '../../parts/choice.tsx';
import { ProblemNotice, useFieldFault } from '../../parts/notice.tsx';
import { NumberField } from '../../parts/number-field.tsx';
import { Nothing } from '../../parts/states.tsx';
import { useDraft } from '../../service/draft.ts';
import { useSending } from '../../service/sending.ts';
import { useDevice } from '../../shell/device.ts';
import { useMay } from '../../shell/plant.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { type Batch, loadsOf } from '../batch.ts';
import { Cautions } from '../part.tsx';
import { BATCHES } from '../words.ts';
import { Proposals } from './proposals.tsx';
import { TEST } from './words.ts';

const ALL = 'all';

/** What the mix was found to hold, and what can be done about it. */
export function FatTest({ batch }: { readonly batch: Batch }) {
  const t = useWords(TEST);
  const b = useWords(BATCHES);
  const say = useSay();
  const show = useShow();
  const [again, setAgain] = useState(false);
  const last = batch.tests.at(-1);
  if (!batch.next.includes('tested') && !last) return <Nothing>{t.none}</Nothing>;
  const isOpen = batch.next.includes('tested') && (!batch.next.includes('corrected') || again);
  return (
    <div class="stack">
      <Cautions batch={batch} />
      {last && (
        <p class="batch-next">
          <strong>
            {t.latest(show.percent(last.fatFraction), say(last.method))}
            {last.load !== undefined && ` · ${b.load(last.load)}`}
          </strong>
          {!isOpen && batch.next.includes('tested') && (
            <Button onClick={() => setAgain(true)}>{t.again}</Button>
          )}
        </p>
      )}
      {isOpen && <Enter batch={batch} onTaken={() => setAgain(false)} />}
      {!isOpen && batch.next.includes('corrected') && <Proposals key={last?.step} batch={batch} />}
    </div>
  );
}

/** Loads that are all in. */
function ready(batch: Batch): number[] {
  return loadsOf(batch).filter((load) =>
    batch.lines.every(({ loads }) => loads.every((at) => at.load !== load || at.rest.kg === 0)),
  );
}

function Enter({ batch, onTaken }: { readonly batch: Batch; readonly onTaken: () => void }) {
  const t = useWords(TEST);
  const b = useWords(BATCHES);
  const may = useMay();
  const { mark } = useDevice();
  const all = loadsOf(batch);
  const loads = batch.state === 'weighed' ? all : ready(batch);
  const mayAll = all.length === loads.length;
  const name = `fat test ${batch.id}`;
  const draft = useDraft(name, {
    fat: '',
    method: 'NIR',
    load: mayAll ? ALL : String(loads.at(-1) ?? 1),
  });
  const { send, isSending, error } = useSending(name);
  const fault = useFieldFault(error);
  if (!may('work')) return null;
  const { fat, method, load } = draft.value;
  const parsed = parseNumber(fat, mark);
  const take = async () => {
    if (parsed.kind !== 'number') return;
    const body = {
      fatFraction: fractionOfPercent(parsed.text),
      method,
      ...(load !== ALL && { load: Number(load) }),
    };
    if (!(await send({ path: `/batches/${batch.id}/tests`, body, version: batch.version }))) return;
    draft.clear();
    onTaken();
  };
  return (
    <form
      class="card form"
      onSubmit={(event) => {
        event.preventDefault();
        void take();
      }}
    >
      <h2>{t.enter}</h2>
      {all.length > 1 && (
        <OneOf
          label={t.what}
          value={load}
          onValue={(taken) => draft.set({ load: taken })}
          options={[
            ...(mayAll ? [{ value: ALL, says: b.wholeBatch }] : []),
            ...loads.map((one) => ({ value: String(one), says: b.load(one) })),
          ]}
        />
      )}
      <NumberField
        label={t.fat}
        after="%"
        value={fat}
        onValue={(typed) => draft.set({ fat: typed })}
        error={fault('/fatFraction')}
      />
      <OneOf
        label={t.method}
        value={method}
        onValue={(taken) => draft.set({ method: taken })}
        options={[
          { value: 'NIR', says: t.methods.nir },
          { value: 'X-ray', says: t.methods.xray },
          { value: 'microwave', says: t.methods.microwave },
          { value: 'solvent extraction', says: t.methods.solvent },
        ]}
      />
      <ProblemNotice error={error} shownPointers={['/fatFraction']} />
      <div class="actions">
        <Button kind="main" type="submit" isBusy={isSending} disabled={parsed.kind !== 'number'}>
          {t.save}
        </Button>
      </div>
    </form>
  );
}
