import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button, Go } from '../parts/button.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { MassField } from '../parts/number-field.tsx';
import { Read } from '../parts/states.tsx';
import { TextArea } from '../parts/text-area.tsx';
import { useTell } from '../parts/told.tsx';
import { type Reading, useAnswer } from '../service/answers.ts';
import { Refused } from '../service/ask.ts';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { type PlantAnswer, useMay } from '../shell/plant.ts';
import type { Beginning } from '../start/start-types.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { MarketFields, WhoFields } from './market-fields.tsx';
import type { PlantSettings } from './plant-types.ts';
import { PrintingFields } from './printing-fields.tsx';
import { ScalesEditor } from './scales-editor.tsx';
import { differing, replacedSettings, type TypedPlant, typedPlant } from './typed-plant.ts';
import { PLANT } from './words.ts';

/** What the plant is, and how it weighs and prints. */
export function Settings() {
  const reading = useAnswer<PlantAnswer>('/plant');
  return <Read of={reading}>{(plant) => <SettingsForm plant={plant} reading={reading} />}</Read>;
}

interface Typed extends TypedPlant {
  /** The state of the plant that the typing began on. */
  readonly version: number;
}

/** Fields that have a pointer of their own, as the service names them. */
const SHOWN =
  /^\/(name|establishment|address|jurisdiction|currency|units|timeZone|mixerCapacity|scales|printing)(\/|$)/;

function SettingsForm({
  plant,
  reading,
}: {
  readonly plant: PlantAnswer;
  readonly reading: Reading<PlantAnswer>;
}) {
  const t = useWords(PLANT);
  const common = useWords(COMMON);
  const { mark } = useDevice();
  const tell = useTell();
  const mayManage = useMay()('manage');
  const settings = plant.settings as PlantSettings;
  const stands = typedPlant(settings, mark);
  const draft = useDraft<Typed>('plant', { ...stands, version: plant.version });
  const [before, setBefore] = useState<TypedPlant>();
  const { version, ...typed } = draft.value;
  const { send, isSending, error, forget } = useSending('plant');
  const fault = useFieldFault(error);
  const set = (change: Partial<TypedPlant>) => draft.set({ ...change, version });
  const isConflict = error instanceof Refused && error.kind === 'changed-meanwhile';
  useEffect(() => {
    if (!isConflict) return;
    setBefore(stands);
    reading.again();
  }, [error]);
  // Whoever has read what the other wrote sends again, over that.
  useEffect(() => {
    if (isConflict && plant.version !== version) draft.set({ version: plant.version });
  }, [plant.version, isConflict]);
  const submit = async (event: Event) => {
    event.preventDefault();
    setBefore(undefined);
    const body = replacedSettings(settings, typed, mark);
    if (!(await send({ method: 'PUT', path: '/plant', body, version }))) return;
    draft.clear();
    tell({ says: t.saved });
  };
  const fields = { typed, set, fault, disabled: !mayManage };
  const theirs = isConflict && before ? differing(before, stands) : [];
  const shown = error instanceof Refused ? (error.problem.errors ?? []).map(({ pointer }) => pointer) : [];
  return (
    <form class="form" onSubmit={submit}>
      {!mayManage && <Notice kind="note">{t.readOnly}</Notice>}
      {mayManage && settings.demoDate !== undefined && <BeginHere day={settings.demoDate} />}
      <Part title={t.who}>
        <WhoFields {...fields} />
        <TextArea
          label={t.fields.address}
          hint={t.addressSays}
          isOptional
          error={addressFault(fault)}
          disabled={!mayManage}
          value={typed.address}
          onValue={(address) => set({ address })}
        />
      </Part>
      <Part title={t.market}>
        <MarketFields {...fields} />
      </Part>
      <Part title={t.weighing}>
        <fieldset disabled={!mayManage} class="plant-mixer">
          <MassField
            label={t.fields.mixer}
            hint={t.mixerSays}
            units={['lb', 'kg']}
            value={typed.mixer}
            onValue={(mixer) => set({ mixer })}
            {...faultOf(fault('/mixerCapacity', '/mixerCapacity/value', '/mixerCapacity/unit'))}
          />
        </fieldset>
        <h3>{t.fields.scales}</h3>
        <ScalesEditor
          scales={typed.scales}
          onScales={(scales) => set({ scales })}
          fault={(...below) => fault(...below.map((each) => `/scales${each}`))}
          disabled={!mayManage}
        />
      </Part>
      <Part title={t.printing}>
        <PrintingFields {...fields} />
      </Part>
      {mayManage && (
        <div class={`plant-foot ${draft.isTouched ? 'on' : ''}`}>
          <ProblemNotice error={error} shownPointers={shown.filter((pointer) => SHOWN.test(pointer))} />
          {theirs.length > 0 && (
            <Notice kind="note">
              {t.changed(theirs.map((field) => t.fields[field] + theirText(stands[field])).join(', '))}
            </Notice>
          )}
          <div class="actions">
            {draft.isTouched && (
              <>
                <span class="hint">{t.unsaved}</span>
                <Button
                  onClick={() => {
                    draft.clear();
                    forget();
                  }}
                >
                  {common.startOver}
                </Button>
              </>
            )}
            <Button kind="main" type="submit" isBusy={isSending} disabled={!draft.isTouched}>
              {t.save}
            </Button>
          </div>
        </div>
      )}
    </form>
  );
}

/** A demonstration can become a plant of one's own as long as nobody has worked in it. */
function BeginHere({ day }: { readonly day: string }) {
  const t = useWords(PLANT);
  const show = useShow();
  const beginning = useAnswer<Beginning>('/beginning').body;
  if (!beginning?.isPossible) return null;
  return (
    <Notice kind="note">
      <p>{t.standsStill(show.day(day))}</p>
      <p>
        <Go href="#/start/plant">{t.begin}</Go>
      </p>
    </Notice>
  );
}

function Part({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  return (
    <section class="card stack">
      <h2>{title}</h2>
      {children}
    </section>
  );
}

/** What somebody else wrote into a field of text. */
const theirText = (value: unknown): string =>
  typeof value === 'string' && value !== '' ? ` (${value})` : '';

const faultOf = (error: string | undefined) => (error === undefined ? {} : { error });

const addressFault = (fault: PlantFault): string | undefined =>
  fault('/address', ...[0, 1, 2, 3, 4, 5].map((line) => `/address/${line}`));
type PlantFault = (...pointers: string[]) => string | undefined;
