import { useEffect, useRef, useState } from 'preact/hooks';
import type { WeighingCheck } from '../../../api/batches/contract.ts';
import { parseNumber } from '../../figures/number.ts';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { Tick } from '../../parts/choice.tsx';
import { Confirm } from '../../parts/dialog.tsx';
import { Notice } from '../../parts/notice.tsx';
import { useNumberFault } from '../../parts/number-field.tsx';
import { useWork } from '../../service/answers.ts';
import { Refused } from '../../service/ask.ts';
import { useConnection } from '../../service/connection.ts';
import { useDraft } from '../../service/draft.ts';
import { putOut } from '../../service/outbox.ts';
import { useDevice } from '../../shell/device.ts';
import { to } from '../../shell/place.ts';
import { useHere, useMay } from '../../shell/plant.ts';
import { useWords } from '../../words/words.ts';
import type { Batch } from '../batch.ts';
import { Why } from '../why.tsx';
import { NameOfLine, WhatToFetch } from './about-line.tsx';
import { Bar } from './bar.tsx';
import { Keypad } from './keypad.tsx';
import { OtherLot } from './other-lot.tsx';
import { betweenSteps } from './scale-steps.ts';
import { asOnScale, kgOf, type Spot, type Weighing } from './spots.ts';
import { subjectOf } from './unsent.ts';
import { MissedLimits, Warnings } from './warnings.tsx';
import { Weighings } from './weighings.tsx';
import { WEIGH } from './words.ts';

/** As short as the service takes a reason. */
const SAYS_WHY = /\S.{2,}\S/;
/** Reception in a cold room comes and goes: so long the limits are waited for. */
const CHECKED_WITHIN_MS = 5_000;
/** The second tap of a double tap would fall on the next line, and book it. */
const SETTLES_MS = 600;
const UNTYPED = { text: '', lotId: '', reason: '', isMeant: false, keeps: '' };

/** One line: what is asked, what the scale shows, and what that would do. */
export function WeighLine({
  batch,
  spot,
  takesFocus,
  onBooked,
}: {
  readonly batch: Batch;
  readonly spot: Spot;
  /** Whoever types goes on typing with the next line. */
  readonly takesFocus: boolean;
  /** @param isDone whether the line has all that it asks. */
  readonly onBooked: (isDone: boolean) => void;
}) {
  const t = useWords(WEIGH);
  const show = useShow();
  const may = useMay();
  const { session } = useHere();
  const { mark } = useDevice();
  const fault = useNumberFault();
  const figure = useRef<HTMLInputElement>(null);
  const { line, load, restKg, restText, inKg, plannedKg, underKg, overKg } = spot;
  const { unit } = line.perLoad;
  const draft = useDraft(`weigh ${batch.id} ${load} ${line.number}`, UNTYPED);
  const { text, lotId, reason, isMeant, keeps } = draft.value;
  /** The weighing that was asked to be booked, or is asked about once more: another one is not meant by it. */
  const [asked, setAsked] = useState<string>();
  const [unsure, setUnsure] = useState<string>();
  const { isSettled, settleAnew } = useSettling();
  const parsed = parseNumber(text, mark);
  const value = parsed.kind === 'empty' && restKg > 0 ? restText : 'text' in parsed ? parsed.text : undefined;
  const weighing: Weighing | undefined =
    value !== undefined && Number(value) > 0
      ? {
          line: line.number,
          load,
          weight: { value, unit },
          ...(lotId !== '' && { lotId }),
          ...(SAYS_WHY.test(reason) && { reason: reason.trim() }),
          ...(isMeant && { meant: true }),
        }
      : undefined;
  const check = useWork<WeighingCheck>(
    `/batches/${batch.id}/weighing-checks`,
    may('work') ? weighing : undefined,
    { withinMs: CHECKED_WITHIN_MS },
  );
  const wanted = JSON.stringify(weighing);
  const [isAsked, isSure] = [
    asked !== undefined && asked === wanted,
    unsure !== undefined && unsure === wanted,
  ];
  useEffect(() => {
    if (takesFocus) figure.current?.focus({ preventScroll: true });
  }, [takesFocus]);
  const isReached = useConnection();
  useEffect(() => {
    if (isReached && check.error) check.again();
  }, [isReached]);
  // What others, or this device, have put in meanwhile counts too.
  const checkedAt = useRef(batch.version);
  useEffect(() => {
    if (checkedAt.current !== batch.version) check.again();
    checkedAt.current = batch.version;
  }, [batch.version]);
  const addedKg = weighing ? kgOf(weighing.weight) : 0;
  const offKg = inKg + addedKg - plannedKg;
  const between =
    value !== undefined && line.division?.unit === unit && keeps !== value
      ? betweenSteps(value, line.division.value)
      : undefined;
  const current = !weighing || check.isWaiting || check.error ? undefined : check.body;
  const asksReason = current?.refusals.some(({ kind }) => kind === 'needs-a-reason') ?? false;
  const asksMeant = current?.refusals.some(({ pointer }) => pointer === '/meant') ?? false;
  const missed = current?.limits?.filter(({ isMissed }) => isMissed) ?? [];
  const breaks = missed.some(({ wasMissed }) => !wasMissed);
  const book = () => {
    if (!weighing || !session.caller) return;
    const { id, name } = session.caller;
    putOut({
      subject: subjectOf(batch.id),
      path: `/batches/${batch.id}/weighings`,
      body: weighing,
      by: { id, name },
      seenAt: batch.version,
      place: to('batches', batch.id, 'weigh'),
    });
    draft.clear();
    setUnsure(undefined);
    settleAnew();
    onBooked(offKg >= -underKg);
  };
  const isBlocked =
    !weighing ||
    between !== undefined ||
    check.error instanceof Refused ||
    (current?.refusals.length ?? 0) > 0;
  // Tapped while the limits are still worked out: it is booked once they are known to hold.
  useEffect(() => {
    if (asked === undefined || (isAsked && check.isWaiting)) return;
    setAsked(undefined);
    if (isBlocked || !isAsked) return;
    if (breaks) setUnsure(wanted);
    else book();
  }, [asked, wanted, check.isWaiting]);
  const inUnit = (kg: number) => `${show.digits(asOnScale(kg, line))} ${unit}`;
  const weightText = value === undefined ? '' : `${show.digits(value)} ${unit}`;
  const isTyped = text !== '';
  return (
    <div class="weigh-line">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (may('work') && isSettled) setAsked(wanted);
        }}
      >
        <div class="weigh-said">
          <NameOfLine spot={spot} />
          <p class="weigh-target" id="weigh-target">
            <span class="aside">{restKg === 0 ? t.isIn : spot.isBegun ? t.still : t.toWeigh}</span>
            <strong>
              {restKg === 0 ? show.digits(asOnScale(inKg, line)) : show.digits(restText)}
              <small> {unit}</small>
            </strong>
          </p>
          <Bar
            plannedKg={plannedKg}
            inKg={inKg}
            addedKg={isTyped ? addedKg : 0}
            overKg={overKg}
            there={inUnit(inKg + (isTyped ? addedKg : 0))}
            planned={inUnit(plannedKg)}
          />
          {isTyped && weighing && !between && (
            <Fit offKg={offKg} underKg={underKg} overKg={overKg} inUnit={inUnit} />
          )}
          {between && line.division && (
            <Notice kind="caution" isUrgent>
              <p>{t.between(show.digits(value ?? ''), `${show.digits(line.division.value)} ${unit}`)}</p>
              <div class="row wrap">
                {[between.lower, between.upper].map((each) => (
                  <Button key={each} onClick={() => draft.set({ text: show.digits(each) })}>
                    {show.digits(each)} {unit}
                  </Button>
                ))}
                <Button kind="quiet" onClick={() => draft.set({ keeps: value ?? '' })}>
                  {t.keepIt(show.digits(value ?? ''))}
                </Button>
              </div>
            </Notice>
          )}
          {may('work') && weighing && <Warnings check={check} isTyped={isTyped} />}
          {(asksReason || reason !== '') && (
            <Why label={t.needsReason} value={reason} onValue={(typed) => draft.set({ reason: typed })} />
          )}
          {(asksMeant || isMeant) && (
            <Tick label={t.meant} isOn={isMeant} onChange={(on) => draft.set({ isMeant: on })} />
          )}
          <WhatToFetch spot={spot} lotId={lotId} />
        </div>
        {may('work') && (
          <div class="weigh-entry">
            <Keypad
              text={text}
              unit={unit}
              placeholder={restKg > 0 ? show.digits(restText) : ''}
              onText={(typed) => draft.set({ text: typed, keeps: '', isMeant: false })}
              error={parsed.kind === 'number' || parsed.kind === 'empty' ? undefined : fault(parsed)}
              inputRef={figure}
            />
            <button
              type="submit"
              class={`button ${breaks ? 'grave' : 'main'} weigh-do`}
              disabled={isBlocked || !isSettled}
              aria-busy={isAsked}
            >
              {breaks ? t.bookAnyway(weightText) : isTyped ? t.book(weightText) : t.targetIn(weightText)}
            </button>
          </div>
        )}
      </form>
      <div class="weigh-more">
        {may('work') && (
          <>
            {line.lotId !== undefined && (
              <OtherLot
                line={line}
                day={batch.date}
                lotId={lotId}
                onTake={(taken) => draft.set({ lotId: taken })}
              />
            )}
            <Weighings batch={batch} spot={spot} />
          </>
        )}
      </div>
      {isSure && (
        <Confirm
          title={t.breaks}
          says={t.lawSays}
          does={t.bookAnyway(weightText)}
          onYes={book}
          onClose={() => setUnsure(undefined)}
        >
          <MissedLimits missed={missed} />
        </Confirm>
      )}
    </div>
  );
}

/** Whether a line has been in sight long enough to be meant by a tap. */
function useSettling(): { readonly isSettled: boolean; readonly settleAnew: () => void } {
  const [shown, setShown] = useState({ isSettled: false });
  useEffect(() => {
    if (shown.isSettled) return;
    const timer = setTimeout(() => setShown({ isSettled: true }), SETTLES_MS);
    return () => clearTimeout(timer);
  }, [shown]);
  return { ...shown, settleAnew: () => setShown({ isSettled: false }) };
}

/** How the weight lies to the plan, which this device knows by itself, with or without a connection. */
function Fit({
  offKg,
  underKg,
  overKg,
  inUnit,
}: {
  readonly offKg: number;
  readonly underKg: number;
  readonly overKg: number;
  readonly inUnit: (kg: number) => string;
}) {
  const t = useWords(WEIGH);
  if (offKg > overKg) return <p class="weigh-fit over">{t.over(inUnit(offKg))}</p>;
  if (-offKg > underKg) return <p class="weigh-fit">{t.thenStill(inUnit(-offKg))}</p>;
  return <p class="weigh-fit fits">{t.fits}</p>;
}
