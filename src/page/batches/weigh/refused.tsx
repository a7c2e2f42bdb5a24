import { useState } from 'preact/hooks';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { Tick } from '../../parts/field.tsx';
import { Notice } from '../../parts/notice.tsx';
import { giveUp, putRight, type Waiting } from '../../service/outbox.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { Why } from '../why.tsx';
import type { Weighing } from './spots.ts';
import { WEIGH } from './words.ts';

/** Weighings of this device that the service did not take: each is put right with a reason, or weighed anew. */
export function RefusedWeighings({
  refused,
  onAnew,
}: {
  readonly refused: readonly Waiting[];
  readonly onAnew: (line: number) => void;
}) {
  return (
    <>
      {refused.map((one) => (
        <RefusedWeighing key={one.key} refused={one} onAnew={onAnew} />
      ))}
    </>
  );
}

function RefusedWeighing({
  refused: { key, body, refusal },
  onAnew,
}: {
  readonly refused: Waiting;
  readonly onAnew: (line: number) => void;
}) {
  const t = useWords(WEIGH);
  const say = useSay();
  const show = useShow();
  const weighing = body as Weighing;
  const [reason, setReason] = useState(weighing.reason ?? '');
  const [isMeant, setMeant] = useState(false);
  if (!refusal) return null;
  const asksReason = refusal.type.endsWith('/needs-a-reason');
  const asksMeant = refusal.errors?.some(({ pointer }) => pointer === '/meant') ?? false;
  return (
    <Notice kind="bad" isUrgent>
      <p>
        <strong>
          {t.refused(weighing.line, `${show.digits(weighing.weight.value)} ${weighing.weight.unit}`)}
        </strong>
      </p>
      <p>{say(refusal.detail)}</p>
      {asksReason && <Why label={t.needsReason} value={reason} onValue={setReason} />}
      {asksMeant && <Tick label={t.meant} isOn={isMeant} onChange={setMeant} />}
      <div class="row wrap">
        {asksReason && (
          <Button
            kind="main"
            disabled={reason.trim() === '' || (asksMeant && !isMeant)}
            onClick={() => putRight(key, { ...weighing, reason, ...(isMeant && { meant: true }) })}
          >
            {t.sendAgain}
          </Button>
        )}
        <Button
          onClick={() => {
            giveUp(key);
            onAnew(weighing.line);
          }}
        >
          {t.anew}
        </Button>
      </div>
    </Notice>
  );
}
