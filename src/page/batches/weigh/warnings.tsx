import type { WeighingCheck } from '../../../api/batches/contract.ts';
import { Notice, ProblemNotice } from '../../parts/notice.tsx';
import type { Working } from '../../service/answers.ts';
import { Unreached } from '../../service/ask.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { useLimitFigures } from '../limits.tsx';
import { BATCHES } from '../words.ts';
import { WEIGH } from './words.ts';

type Checked = NonNullable<WeighingCheck['limits']>[number];

/** What the weight on the scale would do, said before it is booked. */
export function Warnings({
  check,
  isTyped,
}: {
  readonly check: Working<WeighingCheck>;
  readonly isTyped: boolean;
}) {
  const t = useWords(WEIGH);
  const say = useSay();
  const { body, error } = check;
  if (error instanceof Unreached) return <Notice kind="caution">{t.notChecked}</Notice>;
  if (error) return <ProblemNotice error={error} />;
  if (!body) return <p class="hint">{t.checking}</p>;
  const missed = body.limits?.filter(({ isMissed }) => isMissed) ?? [];
  if (missed.length === 0 && body.refusals.length === 0) {
    return isTyped ? (
      <p class="weigh-holds">
        <span aria-hidden="true">✓</span> {t.limitsHold}
      </p>
    ) : null;
  }
  return (
    <div role="alert" class="stack">
      {missed.length > 0 && <MissedLimits missed={missed} />}
      {body.refusals.map(({ kind, message }) => (
        <Notice key={message} kind={kind === 'needs-a-reason' ? 'caution' : 'bad'}>
          {say(message)}
        </Notice>
      ))}
    </div>
  );
}

export function MissedLimits({ missed }: { readonly missed: readonly Checked[] }) {
  const t = useWords(WEIGH);
  const isNew = missed.some(({ wasMissed }) => !wasMissed);
  return (
    <Notice kind="bad">
      <strong>{isNew ? t.breaks : t.stillMissed}</strong>
      {missed.map((limit) => (
        <MissedLimit key={`${limit.limitId} ${limit.load}`} limit={limit} />
      ))}
    </Notice>
  );
}

function MissedLimit({ limit }: { readonly limit: Checked }) {
  const t = useWords(WEIGH);
  const b = useWords(BATCHES);
  const say = useSay();
  const { value, bound } = useLimitFigures(limit);
  const where = limit.authority === 'law' ? limit.citation : b.house;
  return (
    <p>
      {t.wouldBe(say(limit.what), value, bound)} <span class="aside">({where})</span>
    </p>
  );
}
