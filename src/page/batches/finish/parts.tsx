import type { MassUnit } from '../../../units.ts';
import { Button } from '../../parts/button.tsx';
import { OneOf } from '../../parts/choice.tsx';
import { TextField } from '../../parts/field.tsx';
import { MassField } from '../../parts/number-field.tsx';
import { COMMON } from '../../words/common.ts';
import { useWords } from '../../words/words.ts';
import type { TypedPart } from './form.ts';
import { FINISH } from './words.ts';

/** What went aside: rework that is used again, or what was thrown away and why. */
export function Parts({
  kind,
  unit,
  parts,
  onParts,
}: {
  readonly kind: 'rework' | 'discarded';
  readonly unit: MassUnit;
  readonly parts: readonly TypedPart[];
  readonly onParts: (parts: readonly TypedPart[]) => void;
}) {
  const t = useWords(FINISH);
  const common = useWords(COMMON);
  const set = (index: number, change: Partial<TypedPart>) =>
    onParts(parts.map((part, at) => (at === index ? { ...part, ...change } : part)));
  return (
    <section class="card form" aria-label={t[kind]}>
      <h2>{t[kind]}</h2>
      {parts.map((part, index) => (
        <div key={index} class="form finish-part">
          <MassField label={t.weight} value={part.weight} onValue={(weight) => set(index, { weight })} />
          <OneOf
            label={t.stage}
            value={part.stage}
            onValue={(stage) => set(index, { stage: stage as TypedPart['stage'] })}
            options={[
              { value: 'raw', says: t.raw },
              { value: 'finished', says: t.finished },
            ]}
          />
          {kind === 'discarded' && (
            <TextField
              label={common.reason}
              value={part.reason}
              onValue={(reason) => set(index, { reason })}
            />
          )}
          <Button onClick={() => onParts(parts.filter((_, at) => at !== index))}>{common.remove}</Button>
        </div>
      ))}
      <Button
        onClick={() => onParts([...parts, { weight: { text: '', unit }, stage: 'finished', reason: '' }])}
      >
        {kind === 'rework' ? t.addRework : t.addDiscarded}
      </Button>
    </section>
  );
}
