import { Button } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useTell } from '../parts/told.tsx';
import { useAnswer } from '../service/answers.ts';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { type PlantAnswer, useHere, useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { type Floor, type FloorDraft, floorDraftOf, floorOf } from './floor-draft.ts';
import { HOUSE } from './house-words.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PRODUCTS } from './words.ts';

type Settings = { readonly floor?: Floor };

/** What every blend asks of the choice of lots: part of the plant's own settings. */
export function FloorHabits() {
  const t = useWords(HOUSE);
  const p = useWords(PRODUCTS);
  const may = useMay();
  const tell = useTell();
  const { mark } = useDevice();
  const here = useHere();
  const { body: plant = here.plant } = useAnswer<PlantAnswer>('/plant');
  const { floor = {}, ...settings } = plant.settings as Settings;
  const draft = useDraft<FloorDraft>('house-floor', floorDraftOf(floor, mark));
  const { send, isSending, error } = useSending('house-floor');
  const fault = useFieldFault(error);
  const { value } = draft;
  const next = floorOf(value, floor, mark);
  const disabled = !may('manage');
  const save = async () => {
    if (!next) return;
    const body = { ...settings, ...(Object.keys(next).length > 0 && { floor: next }) };
    if (!(await send({ method: 'PUT', path: '/plant', body, version: plant.version }))) return;
    draft.clear();
    tell({ says: t.floorSaved });
  };
  const shares = [
    ['older', t.older, '/floor/olderFirstWithin'],
    ['simplest', t.simplest, '/floor/simplestWithin'],
    ['size', t.size, '/floor/sizeWithin'],
  ] as const;
  const boxes = ['', 'frozen', 'all'] as const;
  return (
    <PartOfForm title={t.floor} says={t.floorSays}>
      <div class="pair">
        <Choice
          label={t.boxes}
          disabled={disabled}
          value={value.boxes}
          onValue={(of) => draft.set({ boxes: of })}
          options={[
            ...boxes.map((of) => ({ value: of, says: t.boxesOf[of] })),
            ...(Array.isArray(floor.wholeBoxes)
              ? [{ value: 'named', says: t.boxesNamed(floor.wholeBoxes.length) }]
              : []),
          ]}
        />
        <NumberField
          label={t.mostLots}
          disabled={disabled}
          value={value.mostLots}
          onValue={(mostLots) => draft.set({ mostLots })}
          error={fault('/floor/mostLots')}
        />
        {shares.map(([field, label, pointer]) => (
          <NumberField
            key={field}
            label={label}
            disabled={disabled}
            after="%"
            value={value[field]}
            onValue={(typed) => draft.set({ [field]: typed })}
            error={fault(pointer)}
          />
        ))}
      </div>
      <ProblemNotice error={error} />
      {!disabled && draft.isTouched && (
        <div class="row wrap">
          <Button kind="main" isBusy={isSending} disabled={!next} onClick={save}>
            {t.saveFloor}
          </Button>
          <Button onClick={draft.clear}>{p.backToSaved}</Button>
        </div>
      )}
    </PartOfForm>
  );
}
