import { Tick } from '../parts/choice.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useWords } from '../words/words.ts';
import { type PartProps, toggled } from './form.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PRODUCTS } from './words.ts';

/** Whose rework may go in, and how much of the batch it may be. @param known products by id, with their names. */
export function ReworkPart({
  form,
  known,
}: PartProps & { readonly known: readonly { readonly id: string; readonly name: string }[] }) {
  const t = useWords(PRODUCTS);
  const { value, set, fault } = form;
  const { rework } = value;
  const change = (of: Partial<typeof rework>) => set({ rework: { ...rework, ...of } });
  // A product that does not stand yet may take its own rework too.
  const all = known.some(({ id }) => id === value.id) || value.id === '' ? known : [...known, value];
  const listFault = fault('/rework', '/rework/productIds');
  return (
    <PartOfForm title={t.reworkTitle}>
      <Tick label={t.rework} isOn={rework.isOn} onChange={(isOn) => change({ isOn })} />
      {rework.isOn && (
        <>
          <fieldset>
            <legend>{t.reworkOf}</legend>
            <div class="products-ticks">
              {all.map(({ id, name }) => (
                <Tick
                  key={id}
                  label={name}
                  isOn={rework.productIds.includes(id)}
                  onChange={(isOn) => change({ productIds: toggled(rework.productIds, id, isOn) })}
                />
              ))}
            </div>
            {listFault && <p class="error">{listFault}</p>}
          </fieldset>
          <div class="pair">
            <NumberField
              label={t.reworkMost}
              after="%"
              value={rework.max}
              onValue={(max) => change({ max })}
              error={fault('/rework/maxFraction')}
            />
          </div>
        </>
      )}
    </PartOfForm>
  );
}
