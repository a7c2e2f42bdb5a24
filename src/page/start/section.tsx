import './start.css';
import '../plant/plant.css';
import { useEffect, useState } from 'preact/hooks';
import { Go } from '../parts/button.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { useTell } from '../parts/told.tsx';
import { Copied } from '../plant/copied.tsx';
import { useAnswer } from '../service/answers.ts';
import { Refused } from '../service/ask.ts';
import { keep, keptNames } from '../service/kept.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { go, to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import type { SectionProps } from '../shell/section.ts';
import { useWords } from '../words/words.ts';
import type { Recipe } from './first-lots.ts';
import { startSeen } from './first-time.ts';
import { LotsStep } from './lots-step.tsx';
import type { Beginning, Begun } from './start-types.ts';
import { StepFrame } from './step-frame.tsx';
import { stepOfFault } from './step-of-fault.ts';
import { PeopleStep, PlantStep, ScalesStep } from './steps.tsx';
import { beginningBody, STEPS, type Step } from './typed-start.ts';
import { useStart } from './use-start.ts';
import { Welcome } from './welcome.tsx';
import { chosenProducts, WithStep } from './with-step.tsx';
import { START } from './words.ts';

/** The first run: to try the demonstration, or from the plant to its first blend. */
export default function Section({ place }: SectionProps) {
  const t = useWords(START);
  const mayManage = useMay()('manage');
  const start = useStart();
  const beginning = useAnswer<Beginning>(mayManage ? '/beginning' : undefined);
  const [part] = place.parts;
  const step = STEPS.find((each) => each === part);
  const { at, isBegun } = start.draft.value;
  if (!step) return <Welcome resumesAt={start.draft.isTouched ? at : undefined} />;
  if (!mayManage) {
    return (
      <div class="stack">
        <h1>{t.own}</h1>
        <Notice kind="note">{t.only}</Notice>
      </div>
    );
  }
  if (step === 'lots' && isBegun) return <LotsStep start={start} />;
  return (
    <Read of={beginning}>
      {(state) =>
        state.isPossible ? (
          <Wizard step={isBegun ? 'lots' : step} start={start} beginning={state} />
        ) : (
          <Late command={state.command ?? ''} />
        )
      }
    </Read>
  );
}

/** Work is booked: the way to begin all the same. */
function Late({ command }: { readonly command: string }) {
  const t = useWords(START);
  return (
    <div class="stack start-step">
      <h1>{t.late}</h1>
      <p>{t.lateSays}</p>
      <Copied label={t.command} text={command} />
      <div>
        <Go href="#/blend">{t.toBlend}</Go>
      </div>
    </div>
  );
}

function Wizard({
  step: wanted,
  start,
  beginning,
}: {
  readonly step: Step;
  readonly start: ReturnType<typeof useStart>;
  readonly beginning: Beginning;
}) {
  const t = useWords(START);
  const tell = useTell();
  const { mark } = useDevice();
  const { draft, plant } = start;
  const typed = draft.value;
  // What is kept over a reload holds no password.
  const [password, setPassword] = useState('');
  const [isPersonMissing, setPersonMissing] = useState(false);
  const recipes = useAnswer<{ readonly items: readonly Recipe[] }>('/products?limit=500').body?.items ?? [];
  const { send, isSending, error } = useSending('beginning');
  const fault = useFieldFault(error);
  const step: Step = wanted === 'lots' && !typed.isBegun ? 'with' : wanted;
  useEffect(() => {
    if (typed.at !== step && (draft.isTouched || step !== 'plant')) draft.set({ at: step });
  }, [step]);

  const begin = async () => {
    const { needsAdmin } = beginning;
    if (needsAdmin && (password === '' || typed.person.trim() === '')) {
      setPersonMissing(true);
      go(to('start', 'people'));
      return;
    }
    const products = chosenProducts(typed.products, recipes);
    const body = beginningBody(typed, plant, products, needsAdmin ? password : undefined, mark);
    if (!(await send<Begun>({ path: '/beginning', body, isSecret: true }))) return;
    setPassword('');
    startSeen();
    tell({ says: t.with.begun });
    // Whatever was typed before was about the lots of the demonstration.
    for (const name of keptNames('draft.')) if (name !== 'draft.start') keep(name, undefined);
    if (typed.keeps === 'all') {
      draft.clear();
      go('#/blend');
      return;
    }
    draft.set({ isBegun: true, at: 'lots' });
    go(to('start', 'lots'));
  };
  // A fault is shown where its field is.
  const at = error instanceof Refused ? stepOfFault(error.problem.errors ?? []) : undefined;
  useEffect(() => {
    if (at && at !== step) go(to('start', at));
  }, [error]);

  const next = () => {
    const isMissing = password === '' || typed.person.trim() === '';
    if (step === 'people' && beginning.needsAdmin) {
      setPersonMissing(isMissing);
      if (isMissing) return;
    }
    if (step === 'with') void begin();
    else go(to('start', STEPS[STEPS.indexOf(step) + 1] ?? 'with'));
  };
  const fields = { start, fault };
  const words = step === 'lots' ? t.with : t[step];
  return (
    <StepFrame
      step={step}
      title={words.title}
      {...('says' in words && { says: words.says })}
      {...(step === 'with' && { does: t.with.begin })}
      isBusy={isSending}
      isBegun={false}
      onNext={next}
    >
      {(at === undefined || at === step) && (
        <ProblemNotice error={error} shownPointers={shownPointers(error)} />
      )}
      {step === 'people' && isPersonMissing && (
        <Notice kind="caution" isUrgent>
          {typed.person.trim() === '' ? t.people.needed : t.passwordGone}
        </Notice>
      )}
      {step === 'plant' && <PlantStep {...fields} />}
      {step === 'scales' && <ScalesStep {...fields} />}
      {step === 'people' && (
        <PeopleStep
          {...fields}
          needsAdmin={beginning.needsAdmin}
          password={password}
          onPassword={setPassword}
        />
      )}
      {step === 'with' && <WithStep {...fields} standsStillAt={beginning.standsStillAt} />}
    </StepFrame>
  );
}

/** Every fault of a field that one of the steps has. */
function shownPointers(error: unknown): string[] {
  if (!(error instanceof Refused)) return [];
  return (error.problem.errors ?? [])
    .map(({ pointer }) => pointer)
    .filter((pointer) => stepOfFault([{ pointer }]));
}
