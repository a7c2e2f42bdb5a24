import { Field } from '../parts/field.tsx';

/** Several lines of text. */
export function TextArea({
  label,
  hint,
  error,
  isOptional = false,
  value,
  onValue,
}: {
  readonly label: string;
  readonly hint?: string;
  readonly error?: string | undefined;
  readonly isOptional?: boolean;
  readonly value: string;
  readonly onValue: (value: string) => void;
}) {
  return (
    <Field label={label} isOptional={isOptional} error={error} {...(hint !== undefined && { hint })}>
      {(bound) => (
        <textarea {...bound} rows={3} value={value} onInput={(event) => onValue(event.currentTarget.value)} />
      )}
    </Field>
  );
}
