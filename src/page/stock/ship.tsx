import { useMemo, useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button, Go } from '../parts/button.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { Nothing } from '../parts/states.tsx';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { amountOf, type TypedAmount } from './amount.ts';
import { AmountField, emptyAmount } from './amount-field.tsx';
import { found } from './arrange.ts';
import { factsOf, isPast, type Known, type LotFacts } from './lot-facts.ts';
import { LotSigns } from './lot-signs.tsx';
import { LOT } from './lot-words.ts';
import { useTellBooked } from './move-lot.tsx';
import { useLots } from './reading.ts';
import type { LotAnswer, ShipmentAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

interface TypedShipment {
  readonly to: string;
  readonly document: string;
  readonly lines: readonly { readonly lotId: string; readonly amount: TypedAmount }[];
}

const EMPTY: TypedShipment = { to: '', document: '', lines: [] };
const NONE: readonly LotAnswer[] = [];

/** Several lots leave together: all of them, or none. */
export function Ship({ known }: { readonly known: Known }) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const may = useMay();
  const { mark } = useDevice();
  const told = useTellBooked();
  const [packs, bulk, materials] = [useLots('?kind=pack'), useLots('?kind=bulk'), useLots('')];
  const lots = useMemo(
    () => [packs, bulk, materials].flatMap(({ body = NONE }) => body).map((lot) => factsOf(lot, known)),
    [packs.body, bulk.body, materials.body, known],
  );
  const draft = useDraft('shipment', EMPTY);
  const { lines } = draft.value;
  const { send, isSending, error } = useSending('shipment');
  const faultOf = useFieldFault(error);
  const [isTried, setTried] = useState(false);
  const [shipped, setShipped] = useState<ShipmentAnswer>();
  if (!may('work')) return <Notice kind="note">{t.mayNot}</Notice>;
  const shown: string[] = [];
  const fault = (pointers: readonly string[], isMissing = false) => {
    shown.push(...pointers);
    return faultOf(...pointers) ?? (isTried && isMissing ? c.needed : undefined);
  };
  const submit = async () => {
    setTried(true);
    const amounts = lines.map(({ amount }) => amountOf(amount, mark));
    if (lines.length === 0 || amounts.includes(undefined)) return;
    const answered = await send<ShipmentAnswer>({
      path: '/shipments',
      body: {
        to: draft.value.to.trim(),
        document: draft.value.document.trim(),
        lines: lines.map(({ lotId }, index) => ({ lotId, ...amounts[index] })),
      },
    });
    if (!answered) return;
    const { body } = answered;
    setShipped(body);
    setTried(false);
    draft.clear();
    told(
      body.movements.map(({ seq }) => seq),
      [w.shippedTo(show.mass(body.total.kg), body.to)],
    );
  };
  return (
    <>
      <h1>{w.shipTogether}</h1>
      {shipped && (
        <Notice kind={shipped.cautions.length > 0 ? 'caution' : 'good'}>
          <p>
            <strong>{w.shippedTo(show.mass(shipped.total.kg), shipped.to)}</strong>, {shipped.document}
          </p>
          {shipped.cautions.map((caution) => (
            <p key={caution}>{say(caution)}</p>
          ))}
        </Notice>
      )}
      <form
        class="form stock-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void submit();
        }}
      >
        <div class="pair">
          <TextField
            label={w.toWhom}
            error={fault(['/to'], draft.value.to.trim() === '')}
            value={draft.value.to}
            onValue={(whom) => draft.set({ to: whom })}
          />
          <TextField
            label={w.document}
            error={fault(['/document'], draft.value.document.trim() === '')}
            value={draft.value.document}
            onValue={(document) => draft.set({ document })}
          />
        </div>
        {lines.length === 0 && <Nothing>{isTried ? w.shipNothing : w.shipHow}</Nothing>}
        {lines.map(({ lotId, amount }, index) => (
          <Line
            key={lotId}
            lotId={lotId}
            facts={lots.find(({ lot }) => lot.id === lotId)}
            amount={amount}
            onAmount={(next) => draft.set({ lines: lines.with(index, { lotId, amount: next }) })}
            onRemove={() => draft.set({ lines: lines.toSpliced(index, 1) })}
            fault={fault(
              ['lotId', 'mass', 'mass/value', 'packs'].map((field) => `/lines/${index}/${field}`),
              !amountOf(amount, mark),
            )}
          />
        ))}
        <AddLot
          lots={lots.filter(({ lot }) => !lines.some(({ lotId }) => lotId === lot.id))}
          onAdd={({ lot }) =>
            draft.set({ lines: [...lines, { lotId: lot.id, amount: emptyAmount(lot, show.units) }] })
          }
        />
        <ProblemNotice error={error} shownPointers={shown} />
        <div class="actions">
          {draft.isTouched && (
            <Button kind="quiet" onClick={draft.clear}>
              {c.startOver}
            </Button>
          )}
          <Button kind="main" type="submit" isBusy={isSending}>
            {w.shipAll(lines.length)}
          </Button>
        </div>
      </form>
    </>
  );
}

function Line({
  lotId,
  facts,
  amount,
  onAmount,
  onRemove,
  fault,
}: {
  readonly lotId: string;
  readonly facts: LotFacts | undefined;
  readonly amount: TypedAmount;
  readonly onAmount: (amount: TypedAmount) => void;
  readonly onRemove: () => void;
  readonly fault: string | undefined;
}) {
  const t = useWords(LOT);
  const c = useWords(COMMON);
  return (
    <section class="card stack" aria-label={lotId}>
      <div class="row wrap">
        <strong class="stock-grow">
          {lotId} <span class="aside">{facts?.name}</span>
        </strong>
        {facts && <LotSigns facts={facts} />}
        <Button label={`${c.remove}: ${lotId}`} onClick={onRemove}>
          {c.remove}
        </Button>
      </div>
      {facts ? (
        <AmountField lot={facts.lot} value={amount} onValue={onAmount} fault={fault} />
      ) : (
        <p class="error">{t.lotGone}</p>
      )}
    </section>
  );
}

const MOST = 12;

/** Lots that may leave; what is on hold or past its day is not offered. */
function AddLot({
  lots,
  onAdd,
}: {
  readonly lots: readonly LotFacts[];
  readonly onAdd: (facts: LotFacts) => void;
}) {
  const t = useWords(STOCK);
  const w = useWords(LOT);
  const show = useShow();
  const [search, setSearch] = useState('');
  const may = lots.filter((facts) => facts.lot.held === undefined && !isPast(facts) && facts.lot.free.kg > 0);
  const shown = found(may, search).slice(0, MOST);
  if (may.length === 0) return <Go href={to('stock')}>{w.nothingToShip}</Go>;
  return (
    <div class="stock-picker">
      <TextField type="search" label={w.addLot} hint={t.searchLots} value={search} onValue={setSearch} />
      <ul>
        {shown.map((facts) => (
          <li key={facts.lot.id}>
            <Button onClick={() => onAdd(facts)}>
              <strong>+ {facts.lot.id}</strong>
              <span class="aside">
                {facts.name}, {show.mass(facts.lot.free.kg, 0)}
              </span>
            </Button>
          </li>
        ))}
      </ul>
    </div>
  );
}
