import { useState } from 'preact/hooks';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { Confirm } from '../../parts/dialog.tsx';
import { ProblemNotice } from '../../parts/notice.tsx';
import { useSending } from '../../service/sending.ts';
import { useWords } from '../../words/words.ts';
import type { Batch, LineInLoad } from '../batch.ts';
import { Why } from '../why.tsx';
import type { Spot } from './spots.ts';
import { WEIGH } from './words.ts';

type One = LineInLoad['weighings'][number];

/** What was weighed of a line so far; a wrong one can be taken back. */
export function Weighings({
  batch,
  spot: { weighings, line },
}: {
  readonly batch: Batch;
  readonly spot: Spot;
}) {
  const t = useWords(WEIGH);
  const show = useShow();
  const [wrong, setWrong] = useState<One>();
  if (weighings.length === 0) return null;
  const text = ({ weight: { value, unit } }: One) => `${show.digits(value)} ${unit}`;
  return (
    <section aria-label={t.weighings}>
      <h3>{t.weighings}</h3>
      <ul class="weigh-taken">
        {weighings.map((one) => (
          <li key={one.step}>
            <span>
              <strong>{text(one)}</strong> {one.lotId !== line.lotId && one.lotId}{' '}
              <span class="aside">
                {one.by}, {show.instant(one.at)}
                {one.reason !== undefined && ` · ${one.reason}`}
              </span>
            </span>
            {batch.next.includes('taken back') && (
              <Button label={t.takeBackOf(text(one))} onClick={() => setWrong(one)}>
                {t.takeBack}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {wrong && (
        <TakeBack batch={batch} step={wrong.step} weight={text(wrong)} onClose={() => setWrong(undefined)} />
      )}
    </section>
  );
}

function TakeBack({
  batch,
  step,
  weight,
  onClose,
}: {
  readonly batch: Batch;
  readonly step: number;
  readonly weight: string;
  readonly onClose: () => void;
}) {
  const t = useWords(WEIGH);
  const [reason, setReason] = useState('');
  const { send, isSending, error } = useSending(`take back ${batch.id} ${step}`);
  const path = `/batches/${batch.id}/weighings/${step}/reversal`;
  return (
    <Confirm
      title={t.takeBackOf(weight)}
      says={t.takeBackSays}
      does={t.takeBackOf(weight)}
      isBusy={isSending}
      onYes={async () => {
        if (await send({ path, body: { reason } })) onClose();
      }}
      onClose={onClose}
    >
      <Why label={t.whyBack} value={reason} onValue={setReason} often={Object.values(t.oftenWrong)} />
      <ProblemNotice error={error} />
    </Confirm>
  );
}
