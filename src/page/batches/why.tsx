import { TextField } from '../parts/field.tsx';
import { useWords } from '../words/words.ts';
import { BATCHES } from './words.ts';

/** A reason: written, or taken with one tap from those that are often used. */
export function Why({
  label,
  value,
  onValue,
  error,
  often,
}: {
  readonly label: string;
  readonly value: string;
  readonly onValue: (reason: string) => void;
  readonly error?: string | undefined;
  /** Reasons that are often right here; those of a departure from the plan when absent. */
  readonly often?: readonly string[];
}) {
  const t = useWords(BATCHES);
  return (
    <div class="batch-why">
      <TextField label={label} value={value} onValue={onValue} error={error} maxLength={300} />
      <fieldset class="row wrap">
        <legend class="unseen">
          {t.commonReasons}: {label}
        </legend>
        {(often ?? Object.values(t.reasons)).map((reason) => (
          <button key={reason} type="button" class="chip" onClick={() => onValue(reason)}>
            {reason}
          </button>
        ))}
      </fieldset>
    </div>
  );
}
