import { useMemo, useRef, useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import type { Known } from './lot-facts.ts';
import { MaterialField } from './material-field.tsx';
import { useLots } from './reading.ts';
import { type ReceiptField, receiptOf, suggest, type TypedReceipt } from './receipt.ts';
import { type Fill, MoreFields, PriceAndDays, WhereFrom } from './receipt-fields.tsx';
import { RECEIPT } from './receipt-words.ts';
import type { LotAnswer, WholeLotAnswer } from './stock-types.ts';
import { WeightFields } from './weight-fields.tsx';
import { STOCK } from './words.ts';

function emptyReceipt(unit: 'lb' | 'kg'): TypedReceipt {
  return {
    materialId: '',
    how: 'boxes',
    total: { text: '', unit },
    count: '',
    list: '',
    listUnit: unit,
    packedDate: '',
    supplierLot: '',
    fat: '',
    method: '',
    isTestedHere: false,
    born: '',
    raised: '',
    slaughtered: '',
    hold: '',
  };
}

const NONE: readonly LotAnswer[] = [];

/** A delivery comes in, with as little typing as can be: the lots before it say what it will most likely be. */
export function Receive({ known }: { readonly known: Known }) {
  const t = useWords(STOCK);
  const w = useWords(RECEIPT);
  const c = useWords(COMMON);
  const { units } = useShow();
  const { mark } = useDevice();
  const may = useMay();
  const draft = useDraft('receipt', emptyReceipt(units));
  const typed = draft.value;
  const { materialId } = typed;
  const onHand = useLots('').body ?? NONE;
  const ofIt = useLots(materialId === '' ? undefined : `?onHand=any&materialId=${materialId}`).body ?? NONE;
  const lots = useMemo(
    () => [...new Map([...onHand, ...ofIt].map((lot) => [lot.id, lot])).values()],
    [onHand, ofIt],
  );
  const { today } = known;
  const suggested = suggest(typed, { material: known.materials.get(materialId), lots, today, units, mark });
  const { send, isSending, error, forget } = useSending('receipt');
  const faultOf = useFieldFault(error);
  const [missing, setMissing] = useState<readonly ReceiptField[]>([]);
  const sent = useRef<Record<string, unknown>>({});
  const [received, setReceived] = useState<readonly WholeLotAnswer[]>([]);
  if (!may('work')) return <Notice kind="note">{t.mayNot}</Notice>;
  const ready = receiptOf(typed, suggested, mark);
  const now: Record<string, unknown> = 'body' in ready ? { ...ready.body } : {};
  const shown: string[] = [];
  // What the service said of a field holds until the field says something else.
  const saidOf = (pointers: readonly string[]) => {
    const said = faultOf(...pointers);
    const [, field = ''] = pointers[0]?.split('/') ?? [];
    return JSON.stringify(now[field]) === JSON.stringify(sent.current[field]) ? said : undefined;
  };
  const fill: Fill = {
    typed,
    suggested,
    set: draft.set,
    fault: (field, ...pointers) => {
      shown.push(...pointers);
      return saidOf(pointers) ?? (field && missing.includes(field) ? w.faults[field] : undefined);
    },
  };
  const receive = async (isNext: boolean) => {
    setMissing('faults' in ready ? ready.faults : []);
    if ('faults' in ready) return forget();
    // What was suggested is what is sent, also when it is sent again: a new suggestion would be a second delivery.
    draft.set({ id: typed.id ?? suggested.id });
    sent.current = now;
    const answered = await send<WholeLotAnswer>({ path: '/lots', body: ready.body });
    if (!answered) return;
    setReceived((before) => [answered.body, ...before]);
    draft.clear();
    if (isNext) draft.set(nextOf(typed, suggested));
    scrollTo({ top: 0 });
  };
  return (
    <>
      <h1>{t.receive}</h1>
      <p class="hint">{w.receiveHint}</p>
      <Received lots={received} known={known} />
      <form
        class="form stock-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void receive(true);
        }}
      >
        <MaterialField
          known={known}
          lots={lots}
          supplier={typed.supplier}
          value={materialId}
          onValue={(id) => draft.set({ materialId: id })}
          error={fill.fault('material', '/materialId')}
        />
        <WeightFields fill={fill} />
        <PriceAndDays fill={fill} />
        <WhereFrom fill={fill} lots={lots} />
        <MoreFields fill={fill} />
        <ProblemNotice error={error} shownPointers={shown} />
        {missing.length > 0 && (
          <Notice kind="bad" isUrgent>
            {c.seeFields}
          </Notice>
        )}
        <div class="actions">
          {draft.isTouched && (
            <Button kind="quiet" onClick={draft.clear}>
              {c.startOver}
            </Button>
          )}
          <Button isBusy={isSending} onClick={() => void receive(false)}>
            {w.receiveOne}
          </Button>
          <Button kind="main" type="submit" isBusy={isSending}>
            {w.receiveAndNext}
          </Button>
        </div>
      </form>
    </>
  );
}

/** The next of the same delivery: supplier and days stay. */
function nextOf(
  { packedDate, receivedDate, supplier, how, listUnit }: TypedReceipt,
  suggested: { readonly supplier: string },
): Partial<TypedReceipt> {
  return {
    how,
    listUnit,
    packedDate,
    supplier: supplier ?? suggested.supplier,
    ...(receivedDate !== undefined && { receivedDate }),
  };
}

function Received({ lots, known }: { readonly lots: readonly WholeLotAnswer[]; readonly known: Known }) {
  const t = useWords(RECEIPT);
  const show = useShow();
  if (lots.length === 0) return null;
  return (
    <Notice kind="good" isUrgent>
      {lots.map(({ id, onHand, materialId = '' }) => (
        <p key={id}>
          {t.received}: <a href={to('stock', id)}>{id}</a>, {show.mass(onHand.kg)},{' '}
          {known.materials.get(materialId)?.name}
        </p>
      ))}
    </Notice>
  );
}
