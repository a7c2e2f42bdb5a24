import { MEAT_KINDS, SPECIES } from '../../batch/material.ts';
import { Button } from '../parts/button.tsx';
import { Tick } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice } from '../parts/notice.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { newPart, type PartDraft } from './draft.ts';
import { changedAt, type PartProps, toggled, without } from './form.ts';
import { MaterialSearch } from './material-search.tsx';
import { MEAT_WORDS } from './meat-words.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PRODUCTS } from './words.ts';

type Word = keyof (typeof MEAT_WORDS)['en'];

/** Which meat goes in, part by part, with the share of each in the green weight. */
export function MeatBlock({ form }: PartProps) {
  const t = useWords(PRODUCTS);
  const { value, set, fault } = form;
  const { meatBlock } = value;
  const wholeFault = fault('/meatBlock');
  return (
    <PartOfForm title={t.meatBlock} says={t.meatBlockSays}>
      {meatBlock.map((part, at) => (
        <MeatPart
          key={at}
          form={form}
          part={part}
          at={at}
          {...(meatBlock.length > 1 && { onRemove: () => set({ meatBlock: without(meatBlock, at) }) })}
        />
      ))}
      {wholeFault && <Notice kind="bad">{wholeFault}</Notice>}
      <div>
        <Button
          onClick={() => set({ meatBlock: [...meatBlock, newPart(`${t.newPart} ${meatBlock.length + 1}`)] })}
        >
          {t.addPart}
        </Button>
      </div>
    </PartOfForm>
  );
}

function MeatPart({
  form,
  part,
  at,
  onRemove,
}: PartProps & { readonly part: PartDraft; readonly at: number; readonly onRemove?: () => void }) {
  const t = useWords(PRODUCTS);
  const say = useSay();
  const meat = useWords(MEAT_WORDS);
  const { value, set, fault, materials } = form;
  const change = (of: Partial<PartDraft>) => set({ meatBlock: changedAt(value.meatBlock, at, of) });
  const pointer = `/meatBlock/${at}`;
  const words = (list: readonly string[]) => list.map((word) => meat[word as Word] ?? word).join(', ');
  const partFault = fault(pointer, `${pointer}/kinds`, `${pointer}/species`, `${pointer}/materialIds`);
  const meats = [...materials.values()].filter(({ kind }) =>
    (MEAT_KINDS as readonly string[]).includes(kind),
  );
  return (
    <fieldset class="products-part">
      <legend class="unseen">{part.name || t.partName}</legend>
      <div class="products-part-head">
        <TextField
          label={t.partName}
          value={part.name}
          onValue={(name) => change({ name })}
          error={fault(`${pointer}/name`)}
        />
        <NumberField
          label={t.least}
          after="%"
          value={part.min}
          onValue={(min) => change({ min })}
          error={fault(`${pointer}/minFraction`)}
        />
        <NumberField
          label={t.most}
          after="%"
          value={part.max}
          onValue={(max) => change({ max })}
          error={fault(`${pointer}/maxFraction`)}
        />
        {onRemove && (
          <Button kind="quiet" label={t.removePart(part.name)} onClick={onRemove}>
            ✕
          </Button>
        )}
      </div>
      <details>
        <summary>
          {part.materialIds.length > 0
            ? part.materialIds.map((id) => say(materials.get(id)?.name ?? id)).join(', ')
            : `${words(part.kinds)} · ${part.species.length > 0 ? words(part.species) : t.anySpecies}`}
        </summary>
        <Ticks label={t.kinds} words={MEAT_KINDS} on={part.kinds} onChange={(kinds) => change({ kinds })} />
        <Ticks
          label={t.species}
          words={SPECIES}
          on={part.species}
          onChange={(species) => change({ species })}
        />
        {part.materialIds.map((id) => (
          <Tick
            key={id}
            label={say(materials.get(id)?.name ?? id)}
            isOn
            onChange={() => change({ materialIds: toggled(part.materialIds, id, false) })}
          />
        ))}
        <MaterialSearch
          label={t.only}
          materials={meats.filter(({ id }) => !part.materialIds.includes(id))}
          onPick={(id) => change({ materialIds: [...part.materialIds, id] })}
        />
      </details>
      {partFault && <p class="error">{partFault}</p>}
    </fieldset>
  );
}

function Ticks({
  label,
  words,
  on,
  onChange,
}: {
  readonly label: string;
  readonly words: readonly Word[];
  readonly on: readonly string[];
  readonly onChange: (on: readonly string[]) => void;
}) {
  const meat = useWords(MEAT_WORDS);
  return (
    <fieldset>
      <legend>{label}</legend>
      <div class="products-ticks">
        {words.map((word) => (
          <Tick
            key={word}
            label={meat[word]}
            isOn={on.includes(word)}
            onChange={(isOn) => onChange(toggled(on, word, isOn))}
          />
        ))}
      </div>
    </fieldset>
  );
}
