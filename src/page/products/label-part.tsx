import { CLAIMS } from '../../batch/product.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Choice, OneOf, Tick } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { MassField, NumberField } from '../parts/number-field.tsx';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { newPack, type PackDraft, type ProductDraft } from './draft.ts';
import { changedAt, type PartProps, toggled, without } from './form.ts';
import { PartOfForm } from './part-of-form.tsx';
import { PRODUCTS } from './words.ts';

interface Stock {
  readonly id: string;
  readonly says: string;
}

/** What the label says beyond what it must, and how the product is packed. */
export function LabelPart({ form, stocks }: PartProps & { readonly stocks: readonly Stock[] }) {
  const t = useWords(PRODUCTS);
  const { units } = useShow();
  const { value, set, fault } = form;
  return (
    <PartOfForm title={t.label}>
      <OneOf
        label={t.storage}
        value={value.storage}
        onValue={(storage) => set({ storage: storage as ProductDraft['storage'] })}
        options={(['keep refrigerated', 'keep frozen'] as const).map((storage) => ({
          value: storage,
          says: t.storages[storage],
        }))}
      />
      <fieldset>
        <legend>
          {t.claims} <span class="aside">({t.claimsSay})</span>
        </legend>
        <div class="products-ticks">
          {CLAIMS.map((claim) => (
            <Tick
              key={claim}
              label={t.claimNames[claim]}
              isOn={value.claims.includes(claim)}
              onChange={(isOn) => set({ claims: toggled(value.claims, claim, isOn) })}
            />
          ))}
        </div>
      </fieldset>
      <TextField
        label={t.exemption}
        isOptional
        maxLength={300}
        value={value.nutritionExemption}
        onValue={(nutritionExemption) => set({ nutritionExemption })}
        error={fault('/label/nutritionExemption')}
      />
      {value.packs.map((pack, at) => (
        <Pack
          key={at}
          pack={pack}
          stocks={stocks}
          fault={(...fields) => fault(...fields.map((field) => `/label/packs/${at}${field}`))}
          onChange={(of) => set({ packs: changedAt(value.packs, at, of) })}
          onRemove={() => set({ packs: without(value.packs, at) })}
        />
      ))}
      <div>
        <Button onClick={() => set({ packs: [...value.packs, newPack(units)] })}>{t.addPack}</Button>
      </div>
    </PartOfForm>
  );
}

function Pack({
  pack,
  stocks,
  fault,
  onChange,
  onRemove,
}: {
  readonly pack: PackDraft;
  readonly stocks: readonly Stock[];
  readonly fault: (...fields: string[]) => string | undefined;
  readonly onChange: (of: Partial<PackDraft>) => void;
  readonly onRemove: () => void;
}) {
  const t = useWords(PRODUCTS);
  const say = useSay();
  const { currency } = useShow();
  return (
    <fieldset class="products-pack">
      <legend>{t.pack(pack.id)}</legend>
      <div class="pair">
        <TextField
          label={t.packId}
          value={pack.id}
          onValue={(id) => onChange({ id })}
          error={fault('/id', '')}
        />
        <MassField
          label={t.net}
          hint={t.netSays}
          value={pack.netWeight}
          onValue={(netWeight) => onChange({ netWeight })}
          error={fault('/netWeight', '/netWeight/value')}
        />
        <NumberField
          label={t.pieces}
          value={pack.pieces}
          onValue={(pieces) => onChange({ pieces })}
          error={fault('/pieces')}
        />
        <MassField
          label={t.tare}
          value={pack.tare}
          onValue={(tare) => onChange({ tare })}
          error={fault('/tare', '/tare/value')}
        />
        <MassField
          label={t.price}
          isPer
          units={['lb', 'kg']}
          before={currency}
          value={pack.price}
          onValue={(price) => onChange({ price })}
          error={fault('/price', '/price/amount')}
        />
        <TextField
          label={t.gtin}
          value={pack.gtin}
          onValue={(gtin) => onChange({ gtin })}
          error={fault('/gtin')}
        />
        <TextField
          label={t.item}
          hint={t.itemSays}
          value={pack.itemNumber}
          onValue={(itemNumber) => onChange({ itemNumber })}
          error={fault('/itemNumber')}
        />
        <Choice
          label={t.stock}
          value={pack.labelStock}
          onValue={(labelStock) => onChange({ labelStock })}
          options={[
            { value: '', says: t.plantStock },
            ...stocks.map(({ id, says }) => ({ value: id, says: say(says) })),
          ]}
          error={fault('/labelStock')}
        />
      </div>
      <Button kind="quiet" onClick={onRemove}>
        {t.removePack(pack.id)}
      </Button>
    </fieldset>
  );
}
