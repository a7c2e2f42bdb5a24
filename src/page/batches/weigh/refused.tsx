import { useState } from 'preact/hooks';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { Tick } from '../../parts/choice.tsx';
import { Confirm } from '../../parts/dialog.tsx';
import { Notice } from '../../parts/notice.tsx';
import { giveUp, putRight, useOutbox, type Waiting } from '../../service/outbox.ts';
import { useHere } from '../../shell/plant.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { Why } from '../why.tsx';
import type { Weighing } from './spots.ts';
import { subjectOf } from './unsent.ts';
import { WEIGH } from './words.ts';

/** What becomes of a weighing that is taken out of the way; absent where nothing can be weighed any more. */
type OnAnew = ((weighing: Weighing) => void) | undefined;

/** Weighings of this device that the service did not take: each is put right with a reason, or weighed anew. */
export function RefusedWeighings({
  refused,
  ofOthers = [],
  onAnew,
}: {
  readonly refused: readonly Waiting[];
  readonly ofOthers?: readonly Waiting[];
  readonly onAnew?: OnAnew;
}) {
  return (
    <>
      {refused.map((one) => (
        <RefusedWeighing key={one.key} refused={one} onAnew={onAnew} />
      ))}
      {ofOthers.map((one) => (
        <WeighingOfAnother key={one.key} waiting={one} onAnew={onAnew} />
      ))}
    </>
  );
}

/** Those of a batch that cannot be shown: it is not in these books, say. */
export function RefusedOf({ batchId }: { readonly batchId: string }) {
  const waiting = useOutbox(subjectOf(batchId));
  return <RefusedWeighings refused={waiting.filter(({ refusal }) => refusal)} />;
}

/** Somebody else weighed it on this device and has logged out before it could be sent. */
function WeighingOfAnother({
  waiting: { key, body, by },
  onAnew,
}: {
  readonly waiting: Waiting;
  readonly onAnew: OnAnew;
}) {
  const t = useWords(WEIGH);
  const weighing = body as Weighing;
  const [isAsked, setAsked] = useState(false);
  const text = useWeighingText(weighing);
  return (
    <Notice kind="caution">
      <p>
        <strong>{t.ofAnother(text, by.name)}</strong>
      </p>
      <p>{t.ofAnotherSays(by.name)}</p>
      <Button onClick={() => setAsked(true)}>{t.drop}</Button>
      {isAsked && (
        <Confirm
          title={t.drop}
          says={t.dropSays(text)}
          does={t.drop}
          onYes={() => {
            giveUp(key);
            onAnew?.(weighing);
          }}
          onClose={() => setAsked(false)}
        />
      )}
    </Notice>
  );
}

function useWeighingText({ line, load, weight: { value, unit } }: Weighing): string {
  const t = useWords(WEIGH);
  const show = useShow();
  return t.oneWeighing(line, load, `${show.digits(value)} ${unit}`);
}

function RefusedWeighing({
  refused: { key, body, refusal },
  onAnew,
}: {
  readonly refused: Waiting;
  readonly onAnew: OnAnew;
}) {
  const t = useWords(WEIGH);
  const say = useSay();
  const { session } = useHere();
  const weighing = body as Weighing;
  const text = useWeighingText(weighing);
  const [reason, setReason] = useState(weighing.reason ?? '');
  const [isMeant, setMeant] = useState(false);
  if (!refusal) return null;
  const asksReason = refusal.type.endsWith('/needs-a-reason');
  const asksMeant = refusal.errors?.some(({ pointer }) => pointer === '/meant') ?? false;
  return (
    <Notice kind="bad" isUrgent>
      <p>
        <strong>{t.refused(text)}</strong>
      </p>
      {(refusal.type.endsWith('/invalid-request') ? (refusal.errors ?? []) : []).map(
        ({ pointer, message }) => (
          <p key={pointer}>{say(message)}</p>
        ),
      )}
      <p>{say(refusal.detail)}</p>
      {asksReason && <Why label={t.needsReason} value={reason} onValue={setReason} />}
      {asksMeant && <Tick label={t.meant} isOn={isMeant} onChange={setMeant} />}
      <div class="row wrap">
        {asksReason && (
          <Button
            kind="main"
            disabled={reason.trim() === '' || (asksMeant && !isMeant)}
            onClick={() => {
              const { caller } = session;
              if (caller) putRight(key, { ...weighing, reason, ...(isMeant && { meant: true }) }, caller);
            }}
          >
            {t.sendAgain}
          </Button>
        )}
        <Button
          onClick={() => {
            giveUp(key);
            onAnew?.(weighing);
          }}
        >
          {onAnew ? t.anew : t.drop}
        </Button>
      </div>
    </Notice>
  );
}
