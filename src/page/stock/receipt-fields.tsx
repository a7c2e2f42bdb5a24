import { LOT_STATES } from '../../batch/lot.ts';
import { addDays } from '../figures/days.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Choice, Tick } from '../parts/choice.tsx';
import { DayField, TextField } from '../parts/field.tsx';
import { MassField, NumberField } from '../parts/number-field.tsx';
import { useWords } from '../words/words.ts';
import { OriginFields } from './origin-fields.tsx';
import type { ReceiptField, Suggested, TypedReceipt } from './receipt.ts';
import { RECEIPT } from './receipt-words.ts';
import type { LotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

export interface Fill {
  readonly typed: TypedReceipt;
  readonly suggested: Suggested;
  readonly set: (change: Partial<TypedReceipt>) => void;
  /** What is wrong with a field: found here, or said by the service. */
  readonly fault: (field: ReceiptField | undefined, ...pointers: string[]) => string | undefined;
}

export function PriceAndDays({ fill: { typed, suggested, set, fault } }: { readonly fill: Fill }) {
  const t = useWords(STOCK);
  const w = useWords(RECEIPT);
  const show = useShow();
  const { like, gapDays, receivedDate } = suggested;
  const usual = gapDays === undefined ? undefined : addDays(receivedDate, -gapDays);
  return (
    <>
      <div class="pair">
        <MassField
          label={t.price}
          isPer
          units={['lb', 'kg']}
          before={show.money(0, 0).replace('0', '')}
          hint={like && typed.price === undefined ? w.asLot(like.id) : undefined}
          error={fault('price', '/cost/amount', '/cost')}
          value={typed.price ?? suggested.price}
          onValue={(price) => set({ price })}
        />
        <DayField
          label={t.receivedDay}
          error={fault(undefined, '/receivedDate')}
          value={receivedDate}
          onValue={(day) => set({ receivedDate: day })}
        />
      </div>
      <div class="pair">
        <DayField
          label={t.packedDay}
          hint={
            usual !== undefined &&
            typed.packedDate !== usual && (
              <Button onClick={() => set({ packedDate: usual })}>{w.asBefore(show.shortDay(usual))}</Button>
            )
          }
          error={fault(undefined, '/packedDate')}
          value={typed.packedDate}
          onValue={(packedDate) => set({ packedDate })}
        />
        <DayField
          label={t.useBy}
          hint={typed.useByDate === undefined && suggested.useByDate !== '' ? w.useByHint : undefined}
          error={fault(undefined, '/useByDate')}
          value={typed.useByDate ?? suggested.useByDate}
          onValue={(useByDate) => set({ useByDate })}
        />
      </div>
    </>
  );
}

/** Whose it is and where it is put. */
export function WhereFrom({
  fill: { typed, suggested, set, fault },
  lots,
}: {
  readonly fill: Fill;
  readonly lots: readonly LotAnswer[];
}) {
  const t = useWords(STOCK);
  const w = useWords(RECEIPT);
  const suppliers = unique(lots.map(({ supplierEstablishment }) => supplierEstablishment));
  const places = unique(lots.map(({ location }) => location));
  return (
    <>
      <div class="pair">
        <TextField
          label={t.supplier}
          list="stock-suppliers"
          error={fault(undefined, '/supplierEstablishment')}
          value={typed.supplier ?? suggested.supplier}
          onValue={(supplier) => set({ supplier })}
        />
        <TextField
          label={t.supplierLot}
          error={fault(undefined, '/supplierLot')}
          value={typed.supplierLot}
          onValue={(supplierLot) => set({ supplierLot })}
        />
      </div>
      <div class="pair">
        <TextField
          label={t.location}
          list="stock-places"
          error={fault(undefined, '/location')}
          value={typed.location ?? suggested.location}
          onValue={(location) => set({ location })}
        />
        <Choice
          label={t.state}
          value={suggested.state}
          onValue={(state) => set({ state })}
          options={LOT_STATES.map((value) => ({ value, says: t.states[value] }))}
        />
        <TextField
          label={w.lotId}
          error={fault(undefined, '/id')}
          value={typed.id ?? suggested.id}
          onValue={(id) => set({ id })}
        />
      </div>
      <Choices id="stock-suppliers" values={suppliers} />
      <Choices id="stock-places" values={places} />
    </>
  );
}

export function Choices({ id, values }: { readonly id: string; readonly values: readonly string[] }) {
  return (
    <datalist id={id}>
      {values.map((value) => (
        <option key={value} value={value} />
      ))}
    </datalist>
  );
}

export const unique = (texts: readonly (string | undefined)[]): string[] =>
  [...new Set(texts.filter((text) => text !== undefined))].toSorted();

/** What seldom is to be written. */
export function MoreFields({ fill: { typed, set, fault } }: { readonly fill: Fill }) {
  const t = useWords(STOCK);
  const w = useWords(RECEIPT);
  return (
    <details>
      <summary>{w.moreFields}</summary>
      <div class="stack">
        <div class="pair">
          <NumberField
            label={t.fatPercent}
            after="%"
            error={fault('fat', '/measuredFat/fatFraction', '/test/fatFraction')}
            value={typed.fat}
            onValue={(fat) => set({ fat })}
          />
          <TextField
            label={t.method}
            list="stock-methods"
            error={fault('method', '/measuredFat/method', '/test/method')}
            value={typed.method}
            onValue={(method) => set({ method })}
          />
        </div>
        <Tick
          label={w.testedHere}
          isOn={typed.isTestedHere}
          onChange={(isTestedHere) => set({ isTestedHere })}
        />
        <div class="pair">
          <OriginFields
            typed={typed}
            set={set}
            faultOf={(name) => fault(typed[name] === '' ? 'origin' : undefined, `/origin/${name}In`)}
          />
        </div>
        <TextField
          label={w.holdAtOnce}
          error={fault(undefined, '/hold')}
          value={typed.hold}
          onValue={(hold) => set({ hold })}
        />
      </div>
      <Choices id="stock-methods" values={METHODS} />
    </details>
  );
}

/** Ways of finding fat that the certainty of blends knows by name. */
export const METHODS = ['NIR', 'solvent extraction', 'microwave', 'X-ray', 'supplier certificate'];
