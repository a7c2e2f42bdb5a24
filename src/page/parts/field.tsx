import type { ComponentChildren, Ref } from 'preact';
import { useId, useState } from 'preact/hooks';
import { MASS_UNITS, type MassUnit } from '../../units.ts';
import { parseMass } from '../figures/mass.ts';
import { type Parsed, parseNumber } from '../figures/number.ts';
import { useDevice } from '../shell/device.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';

interface FieldProps {
  readonly label: string;
  /** One line below the label: what to write, or what it means. */
  readonly hint?: ComponentChildren;
  /** What is wrong with it; it is read out with the field. */
  readonly error?: string | undefined;
  readonly isOptional?: boolean;
  /** The label is there for screen readers alone: where a heading or a table says it to the eye. */
  readonly isLabelHidden?: boolean;
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

interface InputProps {
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
function Input({
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

interface TextProps extends FieldProps, InputProps {
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
    <Field {...fieldOf({ label, hint, error, isOptional, isLabelHidden })}>
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

/** Fields as Field takes them, without what is undefined. */
function fieldOf(
  given: { [Name in keyof FieldProps]: FieldProps[Name] | undefined } & { label: string },
): FieldProps {
  return Object.fromEntries(
    Object.entries(given).filter(([, value]) => value !== undefined),
  ) as unknown as FieldProps;
}

/** What is wrong with a number as typed, in words; undefined while there is nothing to say. */
export function useNumberFault(): (
  parsed: Exclude<Parsed, { kind: 'number' }> | { kind: 'number' | 'mass' },
) => string | undefined {
  const t = useWords(COMMON);
  return (parsed) => {
    if (parsed.kind === 'wrong') return t.notANumber;
    return parsed.kind === 'unclear'
      ? t.whichNumber(`${parsed.whole}`, parsed.whole, parsed.part)
      : undefined;
  };
}

/** The keys of a phone that has no point, or no comma, still write numbers. */
const DECIMAL = { type: 'text', inputMode: 'decimal', autocomplete: 'off' };

/** A number as a text, comma or point; what cannot be read is said when the field is left. */
export function NumberField({ after, ...props }: TextProps & { readonly after?: string }) {
  const { mark } = useDevice();
  const fault = useNumberFault();
  const [isLeft, setLeft] = useState(false);
  const { label, hint, error, isOptional, isLabelHidden, value, onValue, ...rest } = props;
  const said = error ?? (isLeft ? fault(parseNumber(value, mark)) : undefined);
  return (
    <Field {...fieldOf({ label, hint, error: said, isOptional, isLabelHidden })}>
      {(bound) => (
        <span class="with-unit">
          <Input
            attributes={{
              ...DECIMAL,
              ...rest,
              ...bound,
              value,
              onBlur: () => setLeft(true),
              onFocus: () => setLeft(false),
            }}
            onValue={onValue}
          />
          {after && <span class="unit">{after}</span>}
        </span>
      )}
    </Field>
  );
}

export interface TypedMass {
  readonly text: string;
  readonly unit: MassUnit;
}

interface MassProps extends FieldProps {
  readonly value: TypedMass;
  readonly onValue: (value: TypedMass) => void;
  /** Units to choose from; all when absent. */
  readonly units?: readonly MassUnit[];
  /** A price: 'per lb'. */
  readonly isPer?: boolean;
  readonly before?: string;
  readonly inputRef?: Ref<HTMLInputElement>;
}

/** A weight or a price by weight: a number and its unit, never a number alone. '3 lb 4 oz' can be typed as it is said. */
export function MassField({
  value,
  onValue,
  units = MASS_UNITS,
  isPer = false,
  before,
  inputRef,
  ...field
}: MassProps) {
  const { mark } = useDevice();
  const t = useWords(COMMON);
  const fault = useNumberFault();
  const [isLeft, setLeft] = useState(false);
  const parsed = parseMass(value.text, value.unit, mark);
  const said =
    field.error ?? (isLeft ? (parsed.kind === 'wrong' && !isPer ? t.notAMass : fault(parsed)) : undefined);
  return (
    <Field {...fieldOf({ ...field, error: said } as FieldProps & { error: string | undefined })}>
      {(bound) => (
        <span class="with-unit">
          {before && <span class="unit">{before}</span>}
          <Input
            attributes={{
              ...DECIMAL,
              ...bound,
              ...(inputRef && { inputRef }),
              value: value.text,
              onBlur: () => setLeft(true),
              onFocus: () => setLeft(false),
            }}
            onValue={(text) => onValue({ ...value, text })}
          />
          <select
            aria-label={`${field.label}: ${isPer ? '/' : ''}${value.unit}`}
            value={value.unit}
            onChange={(event) => onValue({ ...value, unit: event.currentTarget.value as MassUnit })}
          >
            {units.map((unit) => (
              <option key={unit} value={unit}>
                {isPer ? `/ ${unit}` : unit}
              </option>
            ))}
          </select>
        </span>
      )}
    </Field>
  );
}

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
    <Field {...fieldOf({ label, hint, error, isOptional, isLabelHidden })}>
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
