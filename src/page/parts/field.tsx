import type { ComponentChildren, Ref } from 'preact';
import { useId } from 'preact/hooks';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';

export interface FieldProps {
  readonly label: string;
  /** One line below the label: what to write, or what it means. */
  readonly hint?: ComponentChildren;
  /** What is wrong with it; it is read out with the field. */
  readonly error?: string | undefined;
  readonly isOptional?: boolean | undefined;
  /** The label is there for screen readers alone: where a heading or a table says it to the eye. */
  readonly isLabelHidden?: boolean | undefined;
}

interface Bound {
  readonly id: string;
  readonly 'aria-describedby'?: string;
  readonly 'aria-invalid'?: boolean;
}

/** A label, a hint and an error around a control of any kind. */
export function Field({
  label,
  hint,
  error,
  isOptional = false,
  isLabelHidden = false,
  children,
}: FieldProps & { readonly children: (bound: Bound) => ComponentChildren }) {
  const id = useId();
  const t = useWords(COMMON);
  const described = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(' ');
  return (
    <div class={`field ${error ? 'wrong' : ''}`}>
      <label for={id} class={isLabelHidden ? 'unseen' : ''}>
        {label}
        {isOptional && <span class="aside"> ({t.optional})</span>}
      </label>
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {children({
        id,
        ...(described && { 'aria-describedby': described }),
        ...(error && { 'aria-invalid': true }),
      })}
      {error && (
        <p class="error" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}

export interface InputProps {
  readonly type?: 'text' | 'password' | 'date' | 'search' | 'email' | 'time';
  readonly autocomplete?: 'off' | 'username' | 'current-password' | 'new-password';
  readonly required?: boolean;
  readonly disabled?: boolean;
  readonly readOnly?: boolean;
  readonly maxLength?: number;
  readonly min?: string;
  readonly max?: string;
  readonly placeholder?: string;
  /** Id of a datalist. */
  readonly list?: string;
  readonly onBlur?: () => void;
  readonly inputRef?: Ref<HTMLInputElement>;
}

/** The one input element: its attributes are checked above, where their types are ours. */
export function Input({
  attributes,
  onValue,
}: {
  readonly attributes: Readonly<Record<string, unknown>> & { readonly inputRef?: Ref<HTMLInputElement> };
  readonly onValue: (value: string) => void;
}) {
  const { inputRef, ...rest } = attributes;
  return (
    <input
      {...(rest as object)}
      {...(inputRef && { ref: inputRef })}
      onInput={(event) => onValue(event.currentTarget.value)}
    />
  );
}

export interface TextProps extends FieldProps, InputProps {
  readonly value: string;
  readonly onValue: (value: string) => void;
}

export function TextField({
  label,
  hint,
  error,
  isOptional,
  isLabelHidden,
  value,
  onValue,
  ...rest
}: TextProps) {
  return (
    <Field {...{ label, hint, error, isOptional, isLabelHidden }}>
      {(bound) => (
        <Input
          attributes={{ type: 'text', autocomplete: 'off', ...rest, ...bound, value }}
          onValue={onValue}
        />
      )}
    </Field>
  );
}

export function DayField(props: TextProps) {
  return <TextField {...props} type="date" />;
}
