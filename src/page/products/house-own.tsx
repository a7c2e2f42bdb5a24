import { idOf } from '../figures/id-of.ts';
import { Button } from '../parts/button.tsx';
import { Choice, Tick } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { changedAt, toggled, without } from './form.ts';
import type { OwnDraft } from './house-draft.ts';
import type { HouseForm } from './house-form.ts';
import { HOUSE } from './house-words.ts';
import { PartOfForm } from './part-of-form.tsx';

/** Limits that only the plant has. */
export function OwnLimits({ form }: { readonly form: HouseForm }) {
  const t = useWords(HOUSE);
  const { own } = form.value;
  const add = () =>
    form.set({
      own: [
        ...own,
        {
          id: '',
          says: '',
          numerator: 'salt',
          basis: 'finished',
          sense: 'max',
          bound: '',
          unit: 'percent',
          products: [],
          productClasses: [],
        },
      ],
    });
  return (
    <PartOfForm title={t.own} says={t.ownSays}>
      {own.map((limit, at) => (
        <Own key={at} form={form} limit={limit} at={at} />
      ))}
      <div>
        <Button onClick={add}>{t.addOwn}</Button>
      </div>
    </PartOfForm>
  );
}

function Own({
  form,
  limit,
  at,
}: {
  readonly form: HouseForm;
  readonly limit: OwnDraft;
  readonly at: number;
}) {
  const t = useWords(HOUSE);
  const say = useSay();
  const { value, set, forms } = form;
  const change = (of: Partial<OwnDraft>) => set({ own: changedAt(value.own, at, of) });
  const fault = (field: string) => form.fault(`/own/${at}/${field}`);
  const named = (says: string) => change({ says, ...(limit.id === idOf(limit.says) && { id: idOf(says) }) });
  const options = (list: typeof forms) => list.map(({ name, says }) => ({ value: name, says: say(says) }));
  return (
    <fieldset class="products-rule">
      <legend class="unseen">{limit.says || t.own}</legend>
      <TextField label={t.name} value={limit.says} onValue={named} error={fault('says') ?? fault('id')} />
      <div class="pair">
        <Choice
          label={t.counted}
          value={limit.numerator}
          onValue={(numerator) => change({ numerator })}
          options={options(forms)}
          error={fault('numerator')}
        />
        <Choice
          label={t.against}
          value={limit.basis}
          onValue={(basis) => change({ basis })}
          options={options(forms.filter(({ canBeBasis }) => canBeBasis))}
          error={fault('basis')}
        />
        <Choice
          label={t.sense}
          value={limit.sense}
          onValue={(sense) => change({ sense: sense as OwnDraft['sense'] })}
          options={(['max', 'min'] as const).map((sense) => ({ value: sense, says: t.senses[sense] }))}
        />
        <div class="products-bound">
          <NumberField
            label={t.bound}
            value={limit.bound}
            onValue={(bound) => change({ bound })}
            error={fault('bound')}
          />
          <Choice
            label="%"
            isLabelHidden
            value={limit.unit}
            onValue={(unit) => change({ unit: unit as OwnDraft['unit'] })}
            options={[
              { value: 'percent', says: '%' },
              { value: 'ppm', says: 'ppm' },
            ]}
          />
        </div>
      </div>
      {limit.productClasses.length > 0 && <p class="hint">{t.onlyFor(limit.productClasses.join(', '))}</p>}
      <OnlyFor form={form} on={limit.products} onChange={(products) => change({ products })} />
      <Button kind="quiet" label={t.remove(limit.says)} onClick={() => set({ own: without(value.own, at) })}>
        ✕
      </Button>
    </fieldset>
  );
}

/** Products that a rule is about; all when none is ticked. */
export function OnlyFor({
  form,
  on,
  onChange,
}: {
  readonly form: HouseForm;
  readonly on: readonly string[];
  readonly onChange: (on: readonly string[]) => void;
}) {
  const t = useWords(HOUSE);
  return (
    <details>
      <summary>
        {t.products}
        {on.length > 0 && `: ${on.length}`}
      </summary>
      <div class="products-ticks">
        {form.products.map(({ id, name }) => (
          <Tick
            key={id}
            label={name}
            isOn={on.includes(id)}
            onChange={(isOn) => onChange(toggled(on, id, isOn))}
          />
        ))}
      </div>
    </details>
  );
}
