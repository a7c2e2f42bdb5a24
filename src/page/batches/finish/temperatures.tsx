import { Button } from '../../parts/button.tsx';
import { Choice } from '../../parts/choice.tsx';
import { TextField } from '../../parts/field.tsx';
import { NumberField } from '../../parts/number-field.tsx';
import { useWords } from '../../words/words.ts';
import type { TypedTemperature } from './form.ts';
import { FINISH } from './words.ts';

/** Temperatures with their times, as many as were read. */
export function Temperatures({
  rows,
  onRows,
}: {
  readonly rows: readonly TypedTemperature[];
  readonly onRows: (rows: readonly TypedTemperature[]) => void;
}) {
  const t = useWords(FINISH);
  const set = (index: number, change: Partial<TypedTemperature>) =>
    onRows(rows.map((row, at) => (at === index ? { ...row, ...change } : row)));
  const last = rows.at(-1);
  return (
    <>
      <h2>{t.temperatures}</h2>
      <p class="hint">{t.temperatureHint}</p>
      {rows.map((row, index) => (
        <div key={index} class="finish-temperature">
          <TextField label={t.measured} value={row.what} onValue={(what) => set(index, { what })} />
          <NumberField label={t.degrees} value={row.value} onValue={(value) => set(index, { value })} />
          <Choice
            label={t.unit}
            value={row.unit}
            onValue={(unit) => set(index, { unit: unit as 'F' | 'C' })}
            options={[
              { value: 'F', says: '°F' },
              { value: 'C', says: '°C' },
            ]}
          />
          <TextField label={t.time} type="time" value={row.time} onValue={(time) => set(index, { time })} />
        </div>
      ))}
      <Button
        onClick={() =>
          onRows([...rows, { what: last?.what ?? '', value: '', unit: last?.unit ?? 'F', time: '' }])
        }
      >
        {t.addTemperature}
      </Button>
    </>
  );
}
