import { COOKINGS } from '../../batch/product.ts';
import { Choice, OneOf, Tick } from '../parts/choice.tsx';
import { Notice } from '../parts/notice.tsx';
import { MassField, NumberField } from '../parts/number-field.tsx';
import { TextArea } from '../parts/text-area.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import type { ProductDraft } from './draft.ts';
import type { PartProps } from './form.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PRODUCTS } from './words.ts';

/** What happens between the mixer and the pack. */
export function ProcessPart({ form }: PartProps) {
  const t = useWords(PRODUCTS);
  const { value, set, fault, ruleSets } = form;
  const allowed = ruleSets
    .find(({ jurisdiction }) => jurisdiction === value.jurisdiction)
    ?.classes.find(({ productClass }) => productClass === value.productClass)?.cooking;
  return (
    <PartOfForm title={t.process}>
      <div class="row wrap products-spread">
        <OneOf
          label={t.cooking}
          value={value.cooking}
          onValue={(cooking) => set({ cooking: cooking as ProductDraft['cooking'] })}
          options={COOKINGS.map((cooking) => ({ value: cooking, says: t.cookings[cooking] }))}
        />
        <Tick label={t.smoked} isOn={value.smoked} onChange={(smoked) => set({ smoked })} />
      </div>
      {allowed && !allowed.includes(value.cooking) && (
        <Notice kind="bad">{t.cookingNot(allowed.map((cooking) => t.cookings[cooking]).join(', '))}</Notice>
      )}
      {value.cooking !== 'raw' && <Notice kind="caution">{t.cookCaution}</Notice>}
      <div class="pair">
        <NumberField
          label={t.yielded}
          hint={t.yieldSays}
          after="%"
          value={value.yielded}
          onValue={(yielded) => set({ yielded })}
          error={fault('/process/yieldFraction')}
        />
        <NumberField
          label={t.fatLoss}
          hint={t.fatLossSays}
          after="%"
          value={value.fatLoss}
          onValue={(fatLoss) => set({ fatLoss })}
          error={fault('/process/fatLossFraction')}
        />
      </div>
      <div class="pair">
        <TextArea
          label={t.plates}
          hint={t.oneALine}
          value={value.grindPlates}
          onValue={(grindPlates) => set({ grindPlates })}
          error={fault('/process/grindPlates')}
        />
        <TextArea
          label={t.mixing}
          hint={t.oneALine}
          value={value.mixing}
          onValue={(mixing) => set({ mixing })}
          error={fault('/process/mixing')}
        />
      </div>
    </PartOfForm>
  );
}

const SHAPES = ['bulk', 'chub', 'link', 'patty'] as const;

/** How the product leaves the stuffer or former. */
export function FormPart({ form }: PartProps) {
  const t = useWords(PRODUCTS);
  const say = useSay();
  const { value, set, fault, materials } = form;
  const casings = [...materials.values()].filter(({ kind }) => kind === 'casing');
  const pieceFault = fault('/form/pieceMass', '/form/pieceMass/value');
  return (
    <PartOfForm title={t.form}>
      <OneOf
        label={t.shape}
        value={value.shape}
        onValue={(shape) => set({ shape: shape as ProductDraft['shape'] })}
        options={SHAPES.map((shape) => ({ value: shape, says: t.shapes[shape] }))}
      />
      <div class="pair">
        {(value.shape !== 'bulk' || value.piece.text !== '') && (
          <MassField
            label={t.piece}
            value={value.piece}
            onValue={(piece) => set({ piece })}
            isOptional={value.shape !== 'patty'}
            error={pieceFault}
          />
        )}
        {(value.shape === 'link' || value.shape === 'chub' || value.casing !== '') && (
          <Choice
            label={t.casing}
            value={value.casing}
            onValue={(casing) => set({ casing })}
            options={[
              { value: '', says: t.noCasing },
              ...casings.map(({ id, name }) => ({ value: id, says: say(name) })),
            ]}
            error={fault('/form/casingMaterialId')}
          />
        )}
      </div>
    </PartOfForm>
  );
}
