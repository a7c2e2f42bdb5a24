import { useState } from 'preact/hooks';
import type { DrillAnswer } from '../../api/records/contract.ts';
import { inUnit } from '../../units.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Tick } from '../parts/choice.tsx';
import { Confirm } from '../parts/dialog.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice, ProblemNotice } from '../parts/notice.tsx';
import { MassField } from '../parts/number-field.tsx';
import { TextArea } from '../parts/text-area.tsx';
import { useTell } from '../parts/told.tsx';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { useDevice } from '../shell/device.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import {
  countedLots,
  finishBody,
  NOTHING_FOUND,
  receiversOf,
  type TypedDrill,
  type TypedLot,
  type TypedReceiver,
  unreadable,
} from './drill-answers.ts';
import { countedNow } from './drill-count.ts';
import { DRILL } from './drill-words.ts';
import { RECORDS } from './words.ts';

/** The list to look by and to call by; what is ticked off is kept on this device until the drill is finished. */
export function DrillForm({ drill }: { readonly drill: DrillAnswer }) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const show = useShow();
  const tell = useTell();
  const { mark } = useDevice();
  const name = `recall drill ${drill.id}`;
  const { value, set, clear } = useDraft<TypedDrill>(name, NOTHING_FOUND);
  const { send, isSending, error } = useSending(name);
  const [isAsked, setAsked] = useState(false);
  const receivers = receiversOf(drill);
  const now = countedNow(drill.whereabouts, countedLots(drill.lots, value, mark));
  const wrong = unreadable(drill.lots, value, mark);
  const open = {
    lots: drill.lots.filter(({ lotId }) => !value.lots[lotId]?.isFound).length,
    receivers: receivers.filter(({ to }) => !value.contacted[to]?.isOn).length,
  };
  const finish = async () => {
    setAsked(false);
    const path = `/recall-drills/${drill.id}/finish`;
    if (!(await send({ path, body: finishBody(drill, value, mark) }))) return;
    clear();
    tell({ says: w.drillFinished });
  };
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (wrong.length === 0) setAsked(true);
      }}
    >
      <h2>{w.lookFor}</h2>
      {drill.lots.length === 0 ? (
        <p>{w.nothingOnHand}</p>
      ) : (
        <ul class="ticks">
          {drill.lots.map((lot) => (
            <LotToFind
              key={lot.lotId}
              lot={lot}
              typed={value.lots[lot.lotId] ?? { isFound: false }}
              onTyped={(typed) => set({ lots: { ...value.lots, [lot.lotId]: typed } })}
            />
          ))}
        </ul>
      )}
      <h2>{w.call}</h2>
      {receivers.length === 0 ? (
        <p>{t.nobodyGot}</p>
      ) : (
        <ul class="ticks">
          {receivers.map((receiver) => (
            <ReceiverToCall
              key={receiver.to}
              receiver={receiver}
              typed={value.contacted[receiver.to] ?? { isOn: false }}
              onTyped={(typed) => set({ contacted: { ...value.contacted, [receiver.to]: typed } })}
            />
          ))}
        </ul>
      )}
      {drill.whereabouts.soldAtCounter.kg > 0 && (
        <Notice kind="caution">{w.counterSays(show.mass(drill.whereabouts.soldAtCounter.kg))}</Notice>
      )}
      <TextArea label={t.note} isOptional value={value.note} onValue={(note) => set({ note })} />
      <ProblemNotice error={error} />
      <div class="tally card" role="status">
        <p>
          <strong>
            {show.number(now.percent, 1)} % {w.accounted}
          </strong>
        </p>
        <p>
          {w.tallySays(
            show.mass(now.foundKg),
            show.mass(now.accountedKg),
            show.mass(drill.whereabouts.affected.kg),
          )}
        </p>
        <Button kind="main" type="submit" isBusy={isSending}>
          {w.finishDrill}
        </Button>
      </div>
      {isAsked && (
        <Confirm
          title={w.finishDrill}
          says={
            <>
              <p>{w.finishSays(show.number(now.percent, 1))}</p>
              {(open.lots > 0 || open.receivers > 0) && (
                <Notice kind="caution">{w.stillOpen(open.lots, open.receivers)}</Notice>
              )}
              <p class="hint">{t.sealedForGood}</p>
            </>
          }
          does={w.finishDrill}
          isGrave={false}
          isBusy={isSending}
          onYes={() => void finish()}
          onClose={() => setAsked(false)}
        />
      )}
    </form>
  );
}

function LotToFind({
  lot,
  typed,
  onTyped,
}: {
  readonly lot: DrillAnswer['lots'][number];
  readonly typed: TypedLot;
  readonly onTyped: (typed: TypedLot) => void;
}) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const show = useShow();
  const booked = { text: show.number(inUnit(lot.onHand.kg, show.units), 2), unit: show.units };
  return (
    <li class={`card tickrow ${typed.isFound ? 'done' : ''}`}>
      <Tick
        label={
          <>
            <strong>{lot.lotId}</strong> {lot.of}{' '}
            <span class="aside">{w.booksHave(show.mass(lot.onHand.kg))}</span>
            {lot.held && <span class="sign"> ! {t.onHold}</span>}
          </>
        }
        isOn={typed.isFound}
        onChange={(isFound) => onTyped({ ...typed, isFound })}
      />
      {typed.isFound && (
        <div class="pair">
          <MassField
            label={t.found}
            value={typed.mass ?? booked}
            onValue={(mass) => onTyped({ ...typed, mass })}
          />
          <TextField
            label={t.note}
            isOptional
            value={typed.note ?? ''}
            onValue={(note) => onTyped({ ...typed, note })}
          />
        </div>
      )}
    </li>
  );
}

function ReceiverToCall({
  receiver: { to, massKg, documents },
  typed,
  onTyped,
}: {
  readonly receiver: ReturnType<typeof receiversOf>[number];
  readonly typed: TypedReceiver;
  readonly onTyped: (typed: TypedReceiver) => void;
}) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const c = useWords(COMMON);
  const show = useShow();
  return (
    <li class={`card tickrow ${typed.isOn ? 'done' : ''}`}>
      <Tick
        label={
          <>
            {w.contactedOne} <strong>{to}</strong>{' '}
            <span class="aside">
              {c.weight}: {show.mass(massKg)} {documents.join(', ')}
            </span>
          </>
        }
        isOn={typed.isOn}
        onChange={(isOn) => onTyped({ ...typed, isOn })}
      />
      {typed.isOn && (
        <TextField
          label={t.note}
          isOptional
          value={typed.note ?? ''}
          onValue={(note) => onTyped({ ...typed, note })}
        />
      )}
    </li>
  );
}
