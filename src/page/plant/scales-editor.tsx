import { MASS_UNITS, type MassUnit } from '../../units.ts';
import { Button } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useWords } from '../words/words.ts';
import type { TypedScale } from './typed-plant.ts';
import { PLANT } from './words.ts';

const UNITS = MASS_UNITS.map((unit) => ({ value: unit, says: unit }));

/** The scales of the plant, each with the smallest step it shows and what it can carry. */
export function ScalesEditor({
  scales,
  onScales,
  fault,
  disabled = false,
}: {
  readonly scales: readonly TypedScale[];
  readonly onScales: (scales: readonly TypedScale[]) => void;
  /** What the service says of a field, by its pointer below the scales: '/0/division'. */
  readonly fault: (...pointers: string[]) => string | undefined;
  readonly disabled?: boolean;
}) {
  const t = useWords(PLANT).scales;
  const set = (at: number, change: Partial<TypedScale>) =>
    onScales(scales.map((scale, index) => (index === at ? { ...scale, ...change } : scale)));
  const whole = fault('');
  return (
    <div class="stack">
      <p class="hint">
        {t.says} {t.order}
      </p>
      {whole && <p class="error">{whole}</p>}
      <ul class="plant-scales">
        {scales.map((scale, at) => (
          <li key={at}>
            <fieldset disabled={disabled}>
              <legend class="unseen">{t.scale(scale.name, at + 1)}</legend>
              <TextField
                label={t.name}
                value={scale.name}
                onValue={(name) => set(at, { name })}
                error={fault(`/${at}/name`, `/${at}/id`)}
              />
              <NumberField
                label={t.division}
                value={scale.division}
                onValue={(division) => set(at, { division })}
                error={fault(`/${at}/division`)}
              />
              <NumberField
                label={t.capacity}
                value={scale.capacity}
                onValue={(capacity) => set(at, { capacity })}
                error={fault(`/${at}/capacity`)}
              />
              <Choice
                label={t.unit}
                value={scale.unit}
                onValue={(unit) => set(at, { unit: unit as MassUnit })}
                options={UNITS}
                error={fault(`/${at}/unit`)}
              />
              <Button
                label={t.remove(scale.name)}
                title={t.remove(scale.name)}
                disabled={disabled || scales.length === 1}
                onClick={() => onScales(scales.filter((_, index) => index !== at))}
              >
                ✕
              </Button>
            </fieldset>
          </li>
        ))}
      </ul>
      {!disabled && (
        <div>
          <Button
            onClick={() =>
              onScales([
                ...scales,
                { id: '', name: '', unit: scales.at(-1)?.unit ?? 'lb', division: '', capacity: '' },
              ])
            }
          >
            {t.add}
          </Button>
        </div>
      )}
    </div>
  );
}
