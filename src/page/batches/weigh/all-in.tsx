import { Button, Go } from '../../parts/button.tsx';
import { Notice, ProblemNotice } from '../../parts/notice.tsx';
import { useDraft } from '../../service/draft.ts';
import { useSending } from '../../service/sending.ts';
import { go, to } from '../../shell/place.ts';
import { useMay } from '../../shell/plant.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { type Batch, loadsOf } from '../batch.ts';
import { type Asked, askedIn, keyOf, reasonsOf, together } from '../reasons.ts';
import { Why } from '../why.tsx';
import { BATCHES } from '../words.ts';
import type { Spot } from './spots.ts';
import { WEIGH } from './words.ts';

/** Nothing more goes in: every departure from the plan gets its reason in one form. */
export function AllIn({
  batch,
  spots,
  isUnsent,
  onBack,
}: {
  readonly batch: Batch;
  readonly spots: readonly Spot[];
  readonly isUnsent: boolean;
  readonly onBack: (() => void) | undefined;
}) {
  const t = useWords(WEIGH);
  const say = useSay();
  const may = useMay();
  const name = `all in ${batch.id}`;
  const draft = useDraft<Record<string, string>>(name, {});
  const { send, isSending, error } = useSending(name);
  const asked = together(useAsked(batch, spots), askedIn(error));
  const end = async () => {
    const body = { reasons: reasonsOf(asked, draft.value) };
    if (!(await send({ path: `/batches/${batch.id}/weighed`, body, version: batch.version }))) return;
    draft.clear();
    go(to('batches', batch.id));
  };
  return (
    <form
      class="card stack weigh-end"
      onSubmit={(event) => {
        event.preventDefault();
        void end();
      }}
    >
      <h2>{t.allInTitle}</h2>
      {asked.length === 0 ? (
        <Notice kind="good">{t.allInSays}</Notice>
      ) : (
        <>
          <p>{t.allInHint}</p>
          {asked.map((one) => (
            <Why
              key={keyOf(one)}
              label={say(one.says)}
              value={draft.value[keyOf(one)] ?? ''}
              onValue={(reason) => draft.set({ [keyOf(one)]: reason })}
            />
          ))}
        </>
      )}
      {isUnsent && <Notice kind="caution">{t.waitUnsent}</Notice>}
      <ProblemNotice error={error} />
      <div class="actions">
        {asked.some(({ limitId }) => limitId !== undefined) && batch.next.includes('corrected') && (
          <Go href={to('batches', batch.id, 'test')}>{t.correct}</Go>
        )}
        {onBack && <Button onClick={onBack}>{t.goOn}</Button>}
        {may('work') && (
          <Button kind="main" type="submit" isBusy={isSending} disabled={isUnsent}>
            {t.allInDo}
          </Button>
        )}
      </div>
    </form>
  );
}

/** What departs and has no reason yet; a load that was left out altogether is asked about once. */
function useAsked(batch: Batch, spots: readonly Spot[]): Asked[] {
  const t = useWords(WEIGH);
  const b = useWords(BATCHES);
  const say = useSay();
  const empty = loadsOf(batch).filter((load) => spots.every((spot) => spot.load !== load || !spot.isBegun));
  const open = batch.open
    .filter(({ reason }) => reason === undefined)
    .map(({ line, load, limitId, about, what, found, planned }) => ({
      says: b.foundPlanned(say(what), say(found), say(planned)),
      ...(line !== undefined && { line }),
      ...(load !== undefined && limitId === undefined && { load }),
      ...(limitId !== undefined && { limitId }),
      ...(about !== undefined && { about }),
    }));
  const unweighed = spots
    .filter(({ isBegun, load, restKg }) => !isBegun && restKg > 0 && !empty.includes(load))
    .map(({ line, load }) => ({
      line: line.number,
      load,
      says: t.notWeighed(say(line.material), line.number, load),
    }));
  return [...together([], open), ...unweighed, ...empty.map((load) => ({ load, says: t.wholeLoad(load) }))];
}
