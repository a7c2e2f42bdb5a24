import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { Field, type FieldProps } from './field.tsx';

export interface Option {
  readonly value: string;
  readonly says: string;
}

interface ChoiceProps extends FieldProps {
  readonly disabled?: boolean;
  readonly required?: boolean;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly options: readonly Option[];
}

export function Choice({
  label,
  hint,
  error,
  isOptional,
  isLabelHidden,
  value,
  onValue,
  options,
  ...rest
}: ChoiceProps) {
  return (
    <Field {...{ label, hint, error, isOptional, isLabelHidden }}>
      {(bound) => (
        <select {...rest} {...bound} value={value} onChange={(event) => onValue(event.currentTarget.value)}>
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.says}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

/** Few choices side by side, one of them taken. */
export function OneOf({
  label,
  value,
  onValue,
  options,
}: {
  readonly label: string;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly options: readonly Option[];
}) {
  const name = useId();
  return (
    <fieldset class="one-of">
      <legend>{label}</legend>
      <div class="row">
        {options.map((option) => (
          <label key={option.value} class="pick">
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => onValue(option.value)}
            />
            <span>{option.says}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** One thing that is so or not. */
export function Tick({
  label,
  isOn,
  onChange,
  disabled = false,
}: {
  readonly label: ComponentChildren;
  readonly isOn: boolean;
  readonly onChange: (isOn: boolean) => void;
  readonly disabled?: boolean;
}) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        disabled={disabled}
        checked={isOn}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
      <span>{label}</span>
    </label>
  );
}
