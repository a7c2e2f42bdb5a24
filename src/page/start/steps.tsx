import { Button } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice } from '../parts/notice.tsx';
import { MassField } from '../parts/number-field.tsx';
import { MarketFields, WhoFields } from '../plant/market-fields.tsx';
import { ScalesEditor } from '../plant/scales-editor.tsx';
import { PLANT } from '../plant/words.ts';
import { Password } from '../shell/entrance.tsx';
import { ENTRANCE } from '../shell/entrance-words.ts';
import { useHere } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import type { Start } from './use-start.ts';
import { START } from './words.ts';

/** The fields of the first three steps. `fault`: what the service says of a field of the beginning. */

export interface StepProps {
  readonly start: Start;
  readonly fault: (...pointers: string[]) => string | undefined;
}

const below =
  (fault: StepProps['fault'], place: string) =>
  (...pointers: string[]) =>
    fault(...pointers.map((pointer) => `${place}${pointer}`));

export function PlantStep({ start: { plant, setPlant }, fault }: StepProps) {
  const fields = { typed: plant, set: setPlant, fault: below(fault, '/plant') };
  return (
    <>
      <section class="card stack">
        <WhoFields {...fields} />
      </section>
      <section class="card stack">
        <MarketFields {...fields} />
      </section>
    </>
  );
}

export function ScalesStep({ start: { draft, plant, setPlant }, fault }: StepProps) {
  const t = useWords(START).scales;
  const words = useWords(PLANT);
  const error = fault('/plant/mixerCapacity', '/plant/mixerCapacity/value');
  const { scales: own, ...rest } = draft.value.plant;
  return (
    <>
      <section class="card plant-mixer">
        <MassField
          label={words.fields.mixer}
          hint={words.mixerSays}
          units={['lb', 'kg']}
          value={plant.mixer}
          onValue={(mixer) => setPlant({ mixer })}
          {...(error !== undefined && { error })}
        />
      </section>
      <section class="card stack">
        <h2>{words.fields.scales}</h2>
        <Notice kind="note">{t.usual}</Notice>
        <ScalesEditor
          scales={plant.scales}
          onScales={(scales) => setPlant({ scales })}
          fault={below(fault, '/plant/scales')}
        />
        {own && (
          <div>
            <Button kind="quiet" onClick={() => draft.set({ plant: rest })}>
              {t.again}
            </Button>
          </div>
        )}
      </section>
    </>
  );
}

export function PeopleStep({
  start: { draft },
  fault,
  needsAdmin,
  password,
  onPassword,
}: StepProps & {
  readonly needsAdmin: boolean;
  readonly password: string;
  readonly onPassword: (password: string) => void;
}) {
  const t = useWords(START).people;
  const { session } = useHere();
  if (!needsAdmin) return <Notice kind="good">{t.there(session.caller?.name ?? '')}</Notice>;
  return (
    <section class="card start-person">
      <TextField
        label={t.name}
        value={draft.value.person}
        onValue={(person) => draft.set({ person })}
        autocomplete="username"
        error={fault('/admin/name')}
        required
      />
      <NewPasswordField password={password} onPassword={onPassword} error={fault('/admin/password')} />
    </section>
  );
}

function NewPasswordField({
  password,
  onPassword,
  error,
}: {
  readonly password: string;
  readonly onPassword: (password: string) => void;
  readonly error: string | undefined;
}) {
  const t = useWords(ENTRANCE);
  return <Password isNew hint={t.passwordSays} value={password} onValue={onPassword} error={error} />;
}
