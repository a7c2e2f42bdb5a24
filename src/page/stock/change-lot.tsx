import { LOT_STATES } from '../../batch/lot.ts';
import { fixed, pricePerUnit } from '../../units.ts';
import { withMark } from '../figures/number.ts';
import { useShow } from '../figures/show.ts';
import { Choice } from '../parts/choice.tsx';
import { DayField, TextField } from '../parts/field.tsx';
import { MassField } from '../parts/number-field.tsx';
import { useTell } from '../parts/told.tsx';
import { useDevice } from '../shell/device.ts';
import { useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { ActDialog, type Filling } from './act-dialog.tsx';
import { lotChange, type TypedLot, typedLot } from './lot-change.ts';
import { LOT } from './lot-words.ts';
import { OriginFields } from './origin-fields.tsx';
import type { WholeLotAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

/**
 * What is known of a lot is changed. Somebody else may do the same meanwhile: what was typed stays, and beside it stands
 * what the books have by now.
 */
export function ChangeLot({
  lot,
  version,
  again,
  onClose,
}: {
  readonly lot: WholeLotAnswer;
  readonly version: number | undefined;
  readonly again: () => void;
  readonly onClose: () => void;
}) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const tell = useTell();
  const { units } = useShow();
  const { mark } = useDevice();
  const digits = withMark(String(Number(fixed(pricePerUnit(lot.costPerKg, units), 4))), mark);
  const now = typedLot(lot, { text: digits, unit: units });
  return (
    <ActDialog<TypedLot, WholeLotAnswer>
      title={w.changeLot(lot.id)}
      name={`lot ${lot.id}`}
      initial={now}
      does={t.saveChange}
      act={(typed) => {
        const body = lotChange(typed, now, mark);
        return (
          body && {
            method: 'PATCH',
            path: `/lots/${encodeURIComponent(lot.id)}`,
            body,
            ...(version !== undefined && { version }),
          }
        );
      }}
      onRefused={again}
      onDone={() => tell({ says: t.changed(lot.id) })}
      onClose={onClose}
    >
      {(filling) => <Fields filling={filling} now={now} isBought={lot.kind === 'material'} />}
    </ActDialog>
  );
}

function Fields({
  filling: { typed, set, fault },
  now,
  isBought,
}: {
  readonly filling: Filling<TypedLot>;
  readonly now: TypedLot;
  readonly isBought: boolean;
}) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const show = useShow();
  const may = useMay();
  const text = (field: 'location' | 'supplierEstablishment' | 'supplierLot', label: string) => (
    <TextField
      label={label}
      hint={typed[field] === now[field] ? undefined : t.inTheBooks(now[field])}
      error={fault([`/${field}`])}
      value={typed[field]}
      onValue={(value) => set({ [field]: value })}
    />
  );
  const day = (field: 'useByDate' | 'packedDate', label: string) => (
    <DayField
      label={label}
      hint={typed[field] === now[field] ? undefined : t.inTheBooks(now[field] && show.day(now[field]))}
      error={fault([`/${field}`])}
      value={typed[field]}
      onValue={(value) => set({ [field]: value })}
    />
  );
  return (
    <>
      <div class="pair">
        {text('location', t.location)}
        {day('useByDate', t.useBy)}
      </div>
      <div class="pair">
        <Choice
          label={t.state}
          value={typed.state}
          error={fault(['/state'])}
          onValue={(state) => set({ state })}
          options={LOT_STATES.map((value) => ({ value, says: t.states[value] }))}
        />
        {typed.state !== now.state && (
          <TextField
            label={w.whyState}
            error={fault(['/note'])}
            value={typed.note}
            onValue={(note) => set({ note })}
          />
        )}
      </div>
      {may('plan') && (
        <MassField
          label={t.price}
          isPer
          units={['lb', 'kg']}
          error={fault(['/cost/amount', '/cost'])}
          value={typed.price}
          onValue={(price) => set({ price })}
        />
      )}
      {isBought && (
        <>
          <div class="pair">
            {day('packedDate', t.packedDay)}
            {text('supplierEstablishment', t.supplier)}
            {text('supplierLot', t.supplierLot)}
          </div>
          <div class="pair">
            <OriginFields typed={typed} set={set} faultOf={(name) => fault([`/origin/${name}In`])} />
          </div>
        </>
      )}
    </>
  );
}
