import { idOf } from '../figures/id-of.ts';
import { Choice } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice } from '../parts/notice.tsx';
import { to } from '../shell/place.ts';
import { useHere } from '../shell/plant.ts';
import { Said } from '../words/said.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { PartProps } from './form.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PRODUCTS } from './words.ts';

/** What it is called, and which standard of identity it stands under. */
export function Identity({ form, isNew }: PartProps & { readonly isNew: boolean }) {
  const t = useWords(PRODUCTS);
  const say = useSay();
  const { plant } = useHere();
  const { value, set, fault, ruleSets } = form;
  const { jurisdiction, productClass } = value;
  const classes = ruleSets.find((set) => set.jurisdiction === jurisdiction)?.classes ?? [];
  const chosen = classes.find((each) => each.productClass === productClass);
  const named = (name: string) => set({ name, ...(value.id === idOf(value.name) && { id: idOf(name) }) });
  return (
    <PartOfForm title={t.identity}>
      <div class="pair">
        <TextField
          label={t.name}
          value={value.name}
          onValue={isNew ? named : (name) => set({ name })}
          error={fault('/name')}
        />
        {isNew && (
          <TextField
            label={t.id}
            hint={t.idSays}
            value={value.id}
            onValue={(id) => set({ id })}
            error={fault('/id')}
          />
        )}
      </div>
      <div class="pair">
        <Choice
          label={t.market}
          value={jurisdiction}
          onValue={(next) => set({ jurisdiction: next, productClass: '' })}
          options={ruleSets.map((each) => ({ value: each.jurisdiction, says: say(each.says) }))}
          error={fault('/standard/jurisdiction')}
        />
        <Choice
          label={t.class}
          value={productClass}
          onValue={(next) => {
            const cooking = classes.find((each) => each.productClass === next)?.cooking ?? [];
            const [only] = cooking;
            set({
              productClass: next,
              ...(only && !cooking.includes(value.cooking) && { cooking: only }),
            });
          }}
          options={[
            ...(productClass === '' ? [{ value: '', says: t.chooseClass }] : []),
            ...classes.map((each) => ({ value: each.productClass, says: say(each.says) })),
          ]}
          error={fault('/standard/productClass', '/standard')}
        />
      </div>
      {jurisdiction !== plant.jurisdiction && <Notice kind="caution">{t.otherMarket}</Notice>}
      {chosen && (
        <p>
          <strong>{say(chosen.says)}</strong>{' '}
          <span class="aside">
            <Said text={chosen.citation} />
          </span>{' '}
          <a href={to('rules', jurisdiction, productClass)}>{t.allRules}</a>
        </p>
      )}
    </PartOfForm>
  );
}
