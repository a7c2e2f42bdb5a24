import type { Ref } from 'preact';
import { useDevice } from '../../shell/device.ts';
import { useWords } from '../../words/words.ts';
import { KEYS, pressed } from './keys.ts';
import { WEIGH } from './words.ts';

/** A figure with big keys of our own below it, for wet gloves; a keyboard writes into it too. */
export function Keypad({
  text,
  unit,
  placeholder,
  onText,
  error,
  inputRef,
}: {
  readonly text: string;
  readonly unit: string;
  readonly placeholder: string;
  readonly onText: (text: string) => void;
  readonly error?: string | undefined;
  readonly inputRef: Ref<HTMLInputElement>;
}) {
  const t = useWords(WEIGH);
  const { mark } = useDevice();
  return (
    <div class="keypad">
      <label for="weigh-figure">{t.figure}</label>
      <span class="with-unit">
        <input
          id="weigh-figure"
          ref={inputRef}
          inputMode="none"
          autocomplete="off"
          value={text}
          placeholder={placeholder}
          aria-invalid={error !== undefined}
          aria-describedby={error === undefined ? 'weigh-target' : 'weigh-figure-error'}
          onInput={(event) => onText(event.currentTarget.value)}
        />
        <span class="unit">{unit}</span>
      </span>
      {error !== undefined && (
        <p class="error" id="weigh-figure-error">
          {error}
        </p>
      )}
      <fieldset class="keys">
        <legend class="unseen">{t.keys}</legend>
        {KEYS.map((key) => (
          <button
            key={key}
            type="button"
            aria-label={key === 'back' ? t.backspace : key === 'mark' ? t.mark : undefined}
            onClick={() => onText(pressed(text, key, mark))}
          >
            {key === 'back' ? '⌫' : key === 'mark' ? mark : key}
          </button>
        ))}
      </fieldset>
    </div>
  );
}
