import type { ComponentChildren } from 'preact';
import { Field } from './field.tsx';

/** Several lines of text; it grows with them. */
export function TextArea({
  label,
  hint,
  error,
  isOptional = false,
  disabled = false,
  value,
  onValue,
}: {
  readonly label: string;
  readonly hint?: ComponentChildren;
  readonly error?: string | undefined;
  readonly isOptional?: boolean;
  readonly disabled?: boolean;
  readonly value: string;
  readonly onValue: (value: string) => void;
}) {
  return (
    <Field label={label} hint={hint} isOptional={isOptional} error={error}>
      {(bound) => (
        <textarea
          {...bound}
          rows={Math.max(3, value.split('\n').length)}
          disabled={disabled}
          value={value}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}
