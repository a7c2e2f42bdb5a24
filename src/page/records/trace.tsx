import { useState } from 'preact/hooks';
import type { TraceAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Button, Go } from '../parts/button.tsx';
import { OneOf } from '../parts/choice.tsx';
import { Notice } from '../parts/notice.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf, Refused } from '../service/ask.ts';
import { go, to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { type Direction, type Start, startAsked, startInQuery, startOfQuery, traceOf } from './start.ts';
import { StartFields } from './start-fields.tsx';
import { TracePicture } from './trace-picture.tsx';
import { TraceTables } from './trace-tables.tsx';
import { TRACE } from './trace-words.ts';
import { WhatCounts } from './what-counts.tsx';
import { RECORDS } from './words.ts';

/** Where something went and who got it, or what it was made of. */
export function TracePlace({ query }: { readonly query: URLSearchParams }) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const asked = startOfQuery(query);
  const direction: Direction = query.get('direction') === 'back' ? 'back' : 'forward';
  return (
    <>
      <h1>{t.tabs.trace}</h1>
      <TraceForm key={query.toString()} asked={asked} direction={direction} />
      {asked ? (
        <Traced start={asked} direction={direction} />
      ) : (
        <Nothing>
          <p>{w.noTrace}</p>
        </Nothing>
      )}
    </>
  );
}

function TraceForm({ asked, direction: given }: { asked: Start | undefined; direction: Direction }) {
  const t = useWords(TRACE);
  const [start, setStart] = useState<Start>(asked ?? { by: 'lot', id: '', supplier: '' });
  const [direction, setDirection] = useState<Direction>(given);
  return (
    <form
      class="card form trace-form noprint"
      onSubmit={(event) => {
        event.preventDefault();
        go(traceOf(start, direction));
      }}
    >
      <StartFields start={start} onStart={setStart} />
      <OneOf
        label={t.direction}
        value={direction}
        onValue={(next) => setDirection(next as Direction)}
        options={[
          { value: 'forward', says: t.forward },
          { value: 'back', says: t.backward },
        ]}
      />
      <div class="row">
        <Button kind="main" type="submit">
          {t.doTrace}
        </Button>
      </div>
    </form>
  );
}

function Traced({ start, direction }: { readonly start: Start; readonly direction: Direction }) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const reading = useAnswer<TraceAnswer>(`/trace${queryOf({ ...startAsked(start), direction })}`);
  if (reading.error instanceof Refused && reading.error.problem.status === 404) {
    return (
      <Notice kind="bad" isUrgent>
        <p>
          <strong>{w.notInBooks(t.starts[start.by], start.id)}</strong>
        </p>
        <p>{w.lookAgain}</p>
      </Notice>
    );
  }
  return <Read of={reading}>{(trace) => <TraceSeen trace={trace} start={start} />}</Read>;
}

function TraceSeen({ trace, start }: { readonly trace: TraceAnswer; readonly start: Start }) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const show = useShow();
  const say = useSay();
  const may = useMay();
  const isForward = trace.direction === 'forward';
  return (
    <>
      <div class="row wrap between">
        <p>
          {isForward ? w.forwardFrom : w.backFrom} <strong>{say(trace.start.says)}</strong>,{' '}
          {w.asOf(show.instant(trace.asOf.at))}
        </p>
        <div class="row wrap">
          <Go href={traceOf(start, isForward ? 'back' : 'forward')}>{isForward ? w.backward : w.forward}</Go>
          {may('work') && isForward && (
            <Go href={to('records', 'drill') + queryOf(startInQuery(start))}>{t.startDrill}</Go>
          )}
        </div>
      </div>
      <TracePicture trace={trace} />
      <TraceTables trace={trace} />
      <WhatCounts notes={trace.notes} />
    </>
  );
}
