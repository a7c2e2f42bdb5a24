import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { Choice } from '../../parts/choice.tsx';
import { DayField, TextField } from '../../parts/field.tsx';
import { ProblemNotice, useFieldFault } from '../../parts/notice.tsx';
import { MassField } from '../../parts/number-field.tsx';
import { useDraft } from '../../service/draft.ts';
import { useSending } from '../../service/sending.ts';
import { useDevice } from '../../shell/device.ts';
import { useMay } from '../../shell/plant.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import type { Batch } from '../batch.ts';
import { Cautions } from '../part.tsx';
import { type Asked, askedIn, keyOf, reasonsOf, together } from '../reasons.ts';
import { Why } from '../why.tsx';
import { BATCHES } from '../words.ts';
import { finishRequest, kgOfTyped, type TypedFinish } from './form.ts';
import { Parts } from './parts.tsx';
import { Temperatures } from './temperatures.tsx';
import { FINISH } from './words.ts';
import { yieldOf } from './yield.ts';
import { YieldShown } from './yield-shown.tsx';

/** What came out, with the yield while it is typed and a reason for everything that is off. */
export function EnterCameOut({ batch }: { readonly batch: Batch }) {
  const t = useWords(FINISH);
  const b = useWords(BATCHES);
  const say = useSay();
  const show = useShow();
  const may = useMay();
  const { mark } = useDevice();
  const name = `finish ${batch.id}`;
  const usual = batch.process.cooking === 'cooked' ? Object.values(t.usual) : [t.usual.mixed];
  const draft = useDraft<TypedFinish>(name, {
    weight: { text: '', unit: batch.units },
    useBy: '',
    state: 'chilled',
    location: '',
    rework: [],
    discarded: [],
    temperatures: usual.map((what) => ({
      what,
      value: '',
      unit: batch.units === 'lb' ? 'F' : 'C',
      time: '',
    })),
    reasons: {},
  });
  const { send, isSending, error } = useSending(name);
  const fault = useFieldFault(error);
  const typed = draft.value;
  const massOf = ({ weight, stage }: TypedFinish['rework'][number]) => ({
    stage,
    massKg: kgOfTyped(weight, mark),
  });
  const found = yieldOf(
    {
      weighedKg: batch.weighed.kg,
      outputKg: kgOfTyped(typed.weight, mark),
      aside: [...typed.rework, ...typed.discarded].map(massOf),
    },
    batch.process.yieldFraction,
  );
  const isTyped = kgOfTyped(typed.weight, mark) > 0;
  const open: Asked[] = batch.open
    .filter(({ reason }) => reason === undefined)
    .map(({ limitId, what, found: is, planned }) => ({
      says: b.why(b.foundPlanned(say(what), say(is), say(planned))),
      ...(limitId !== undefined && { limitId }),
    }));
  const odd: Asked[] = isTyped && found.isOdd ? [{ about: 'yield', says: t.whyYield }] : [];
  const asked = together([...odd, ...open], askedIn(error));
  const request = finishRequest(typed, mark);
  const finish = async () => {
    if (!request) return;
    const body = { ...request, reasons: reasonsOf(asked, typed.reasons) };
    if (await send({ path: `/batches/${batch.id}/finish`, body, version: batch.version })) draft.clear();
  };
  if (!may('work')) return <Cautions batch={batch} />;
  return (
    <form
      class="form finish"
      onSubmit={(event) => {
        event.preventDefault();
        void finish();
      }}
    >
      <Cautions batch={batch} />
      <div class="batch-halves">
        <div class="stack">
          <section class="card form" aria-label={t.product}>
            <p>{t.weighed(show.mass(batch.weighed.kg))}</p>
            <MassField
              label={t.product}
              value={typed.weight}
              onValue={(weight) => draft.set({ weight })}
              error={fault('/output/weight', '/output/weight/value')}
            />
            {isTyped && <YieldShown found={found} declared={batch.process.yieldFraction} />}
            <div class="pair">
              <DayField
                label={t.useBy}
                isOptional
                value={typed.useBy}
                onValue={(useBy) => draft.set({ useBy })}
                error={fault('/output/useByDate')}
              />
              <Choice
                label={t.state}
                value={typed.state}
                onValue={(state) => draft.set({ state })}
                options={(['chilled', 'frozen', 'dry'] as const).map((value) => ({
                  value,
                  says: t.states[value],
                }))}
              />
            </div>
            <TextField
              label={t.where}
              isOptional
              value={typed.location}
              onValue={(location) => draft.set({ location })}
            />
          </section>
          <Parts
            kind="rework"
            unit={batch.units}
            parts={typed.rework}
            onParts={(rework) => draft.set({ rework })}
          />
          <Parts
            kind="discarded"
            unit={batch.units}
            parts={typed.discarded}
            onParts={(discarded) => draft.set({ discarded })}
          />
        </div>
        <section class="card form" aria-label={t.temperatures}>
          <Temperatures rows={typed.temperatures} onRows={(temperatures) => draft.set({ temperatures })} />
        </section>
      </div>
      {asked.map((one) => (
        <Why
          key={keyOf(one)}
          label={say(one.says)}
          value={typed.reasons[keyOf(one)] ?? ''}
          onValue={(reason) => draft.set({ reasons: { ...typed.reasons, [keyOf(one)]: reason } })}
        />
      ))}
      <ProblemNotice error={error} shownPointers={['/output/weight', '/output/useByDate']} />
      <div class="actions">
        <Button kind="main" type="submit" isBusy={isSending} disabled={!request}>
          {t.do}
        </Button>
      </div>
    </form>
  );
}
