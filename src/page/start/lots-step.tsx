import { useState } from 'preact/hooks';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { MassField, NumberField } from '../parts/number-field.tsx';
import { Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { Refused, Unreached } from '../service/ask.ts';
import { sendOnce } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { go } from '../shell/place.ts';
import { useHere } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import {
  isEmptyLot,
  type Material,
  type Materials,
  pairToBegin,
  type Recipe,
  receiptBody,
  trimFor,
} from './first-lots.ts';
import { startSeen } from './first-time.ts';
import { StepFrame } from './step-frame.tsx';
import type { TypedLot } from './typed-start.ts';
import type { Start } from './use-start.ts';
import { START } from './words.ts';

const ROWS = 2;

/** A fat and a lean lot, and the first blend is there. */
export function LotsStep({ start }: { readonly start: Start }) {
  const materials = useAnswer<Materials>('/materials?kind=skeletal%20meat&limit=500');
  const recipes = useAnswer<{ readonly items: readonly Recipe[] }>('/products?limit=500');
  return (
    <Read of={materials}>
      {({ items }) => (
        <Read of={recipes}>
          {(body) => <LotsForm start={start} trim={trimFor(items, body.items)} recipes={body.items} />}
        </Read>
      )}
    </Read>
  );
}

function LotsForm({
  start: { draft },
  trim,
  recipes,
}: {
  readonly start: Start;
  readonly trim: readonly Material[];
  readonly recipes: readonly Recipe[];
}) {
  const t = useWords(START);
  const { mark } = useDevice();
  const { plant } = useHere();
  const [failed, setFailed] = useState<{ readonly at: number; readonly error: Refused | Unreached }>();
  const [isBusy, setBusy] = useState(false);
  const [isNothing, setNothing] = useState(false);
  const pair = pairToBegin(trim, recipes);
  const empty: TypedLot = {
    mass: { text: '', unit: plant.units },
    price: { text: '', unit: plant.units },
    lean: '',
  };
  const typed = draft.value.lots;
  const lots = Array.from({ length: Math.max(ROWS, typed.length) }, (_, at) => typed[at] ?? empty);
  const materialOf = (lot: TypedLot, at: number) => lot.materialId ?? pair[at] ?? trim[0]?.id ?? '';
  const setLots = (next: readonly TypedLot[]) => draft.set({ lots: next });
  const leave = () => {
    startSeen();
    draft.clear();
    go('#/blend');
  };
  const receiveAll = async () => {
    const isFilled = lots.some((lot) => !isEmptyLot(lot));
    setNothing(!isFilled);
    if (!isFilled) return;
    setBusy(true);
    setFailed(undefined);
    let now = lots;
    for (const [at, lot] of lots.entries()) {
      if (isEmptyLot(lot) || lot.lotId !== undefined) continue;
      try {
        const body = receiptBody(lot, materialOf(lot, at), mark);
        const answered = await sendOnce<{ readonly id: string }>(`first lot ${at}`, { path: '/lots', body });
        now = now.map((each, index) => (index === at ? { ...each, lotId: answered.body.id } : each));
        setLots(now);
      } catch (error) {
        if (!(error instanceof Refused || error instanceof Unreached)) throw error;
        setFailed({ at, error });
        setBusy(false);
        return;
      }
    }
    leave();
  };
  return (
    <StepFrame
      step="lots"
      title={t.lots.title}
      says={t.lots.says}
      does={t.lots.done}
      isBusy={isBusy}
      isBegun
      onNext={() => void receiveAll()}
    >
      {isNothing && (
        <Notice kind="caution" isUrgent>
          {t.lots.none}
        </Notice>
      )}
      <ul class="start-lots">
        {lots.map((lot, at) => (
          <LotRow
            key={at}
            name={t.lots.lot(at + 1)}
            lot={lot}
            materialId={materialOf(lot, at)}
            trim={trim}
            error={failed?.at === at ? failed.error : undefined}
            onLot={(change) =>
              setLots(lots.map((each, index) => (index === at ? { ...each, ...change } : each)))
            }
          />
        ))}
      </ul>
      <div class="row wrap">
        <Button onClick={() => setLots([...lots, empty])}>{t.lots.more}</Button>
        <Button kind="quiet" onClick={leave}>
          {t.lots.skip}
        </Button>
      </div>
    </StepFrame>
  );
}

function LotRow({
  name,
  lot,
  materialId,
  trim,
  error,
  onLot,
}: {
  readonly name: string;
  readonly lot: TypedLot;
  readonly materialId: string;
  readonly trim: readonly Material[];
  readonly error: Refused | Unreached | undefined;
  readonly onLot: (change: Partial<TypedLot>) => void;
}) {
  const t = useWords(START).lots;
  const show = useShow();
  const fault = useFieldFault(error);
  const massFault = fault('/mass', '/mass/value');
  const priceFault = fault('/cost', '/cost/amount');
  if (lot.lotId !== undefined) {
    return (
      <li>
        <Notice kind="good">
          {trim.find(({ id }) => id === materialId)?.name}: {t.received(lot.lotId)}
        </Notice>
      </li>
    );
  }
  const symbol = show.money(0, 0).replace('0', '');
  return (
    <li class="card">
      <fieldset>
        <legend>{name}</legend>
        <ProblemNotice
          error={error}
          shownPointers={['/mass', '/mass/value', '/cost', '/cost/amount', '/measuredFat/fatFraction']}
        />
        <div class="start-lot">
          <Choice
            label={t.material}
            value={materialId}
            onValue={(id) => onLot({ materialId: id })}
            options={trim.map(({ id, name: says }) => ({ value: id, says }))}
            {...faultOf(fault('/materialId'))}
          />
          <MassField
            label={t.mass}
            units={['lb', 'kg']}
            value={lot.mass}
            onValue={(mass) => onLot({ mass })}
            {...faultOf(massFault)}
          />
          <MassField
            label={t.price}
            units={['lb', 'kg']}
            isPer
            before={symbol}
            value={lot.price}
            onValue={(price) => onLot({ price })}
            {...faultOf(priceFault)}
          />
          <NumberField
            label={t.lean}
            isOptional
            after="%"
            value={lot.lean}
            onValue={(lean) => onLot({ lean })}
            {...faultOf(fault('/measuredFat/fatFraction'))}
          />
        </div>
      </fieldset>
    </li>
  );
}

const faultOf = (error: string | undefined) => (error === undefined ? {} : { error });
