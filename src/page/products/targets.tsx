import { TARGET_MEASURES } from '../../batch/product.ts';
import { parseNumber, withMark } from '../figures/number.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useDevice } from '../shell/device.ts';
import { useWords } from '../words/words.ts';
import type { Measure, TargetDraft } from './draft.ts';
import type { PartProps } from './form.ts';
import { PartOfForm } from './part-of-form.tsx';
import { fatWindow } from './rates.ts';
import { PRODUCTS } from './words.ts';

/** What the plant aims at. */
export function Targets({ form }: PartProps) {
  const t = useWords(PRODUCTS);
  const { mark } = useDevice();
  const { value, set, fault } = form;
  const change = (measure: Measure, of: Partial<TargetDraft>) =>
    set({ targets: withTarget(value.targets, measure, of) });
  const lean = parseNumber(value.leanPercent, mark);
  const fat = lean.kind === 'number' ? fatWindow(lean.text) : undefined;
  const window = fat && { min: withMark(fat.min, mark), max: withMark(fat.max, mark) };
  return (
    <PartOfForm title={t.targets} says={t.targetsSays}>
      <div class="pair">
        <NumberField
          label={t.lean}
          hint={window ? t.leanSays(value.leanPercent, window.max) : t.leanHint}
          after="%"
          value={value.leanPercent}
          onValue={(leanPercent) => set({ leanPercent })}
          error={fault('/label/leanPercent')}
        />
        {window && (
          <div class="products-foot">
            <Button onClick={() => change('fat', window)}>{t.leanAim(window.min, window.max)}</Button>
          </div>
        )}
      </div>
      {TARGET_MEASURES.map((measure) => (
        <Target key={measure} form={form} measure={measure} onChange={(of) => change(measure, of)} />
      ))}
    </PartOfForm>
  );
}

function Target({
  form,
  measure,
  onChange,
}: PartProps & { readonly measure: Measure; readonly onChange: (of: Partial<TargetDraft>) => void }) {
  const t = useWords(PRODUCTS);
  const { currency } = useShow();
  const { targets } = form.value;
  // Targets without a figure are not sent, and so have no place.
  const at = targets.filter((one) => one.min || one.max).findIndex((one) => one.measure === measure);
  const { min = '', max = '', per = 'kg' } = targets.find((one) => one.measure === measure) ?? {};
  const name = t.measures[measure];
  const isCost = measure === 'cost per kg';
  // The heads of the columns stand above the first row.
  const isLabelHidden = measure !== TARGET_MEASURES[0];
  const after = isCost ? currency : '%';
  return (
    <fieldset class="products-target">
      <legend>{name}</legend>
      <NumberField
        label={t.least}
        isLabelHidden={isLabelHidden}
        after={after}
        value={min}
        onValue={(text) => onChange({ min: text })}
        error={form.fault(`/targets/${at}/min`, `/targets/${at}`)}
      />
      <NumberField
        label={t.most}
        isLabelHidden={isLabelHidden}
        after={after}
        value={max}
        onValue={(text) => onChange({ max: text })}
        error={form.fault(`/targets/${at}/max`)}
      />
      {isCost && (
        <Choice
          label={t.unit}
          isLabelHidden
          value={per}
          onValue={(next) => onChange({ per: next as 'lb' | 'kg' })}
          options={[
            { value: 'kg', says: '/ kg' },
            { value: 'lb', says: '/ lb' },
          ]}
        />
      )}
    </fieldset>
  );
}

function withTarget(
  targets: readonly TargetDraft[],
  measure: Measure,
  of: Partial<TargetDraft>,
): TargetDraft[] {
  const isThere = targets.some((target) => target.measure === measure);
  return isThere
    ? targets.map((target) => (target.measure === measure ? { ...target, ...of } : target))
    : [...targets, { measure, min: '', max: '', per: 'kg', ...of }];
}
