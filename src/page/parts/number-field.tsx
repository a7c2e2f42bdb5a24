import type { Ref } from 'preact';
import { useState } from 'preact/hooks';
import { MASS_UNITS, type MassUnit } from '../../units.ts';
import { parseMass } from '../figures/mass.ts';
import { type Parsed, parseNumber } from '../figures/number.ts';
import { useDevice } from '../shell/device.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { Field, type FieldProps, Input, type TextProps } from './field.tsx';

/** What is wrong with a number as typed, in words; undefined while there is nothing to say. */
export function useNumberFault(): (
  parsed: Exclude<Parsed, { kind: 'number' }> | { kind: 'number' | 'mass' },
) => string | undefined {
  const t = useWords(COMMON);
  return (parsed) => {
    if (parsed.kind === 'wrong') return t.notANumber;
    if (parsed.kind !== 'unclear') return undefined;
    const typed = parsed.part.replace(/[.,]/, (own) => (own === '.' ? ',' : '.'));
    return t.whichNumber(typed, parsed.whole, parsed.part);
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
    <Field {...{ label, hint, error: said, isOptional, isLabelHidden }}>
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
    <Field {...field} error={said}>
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
