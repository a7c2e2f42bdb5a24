import { useState } from 'preact/hooks';
import { Button, Go } from '../../parts/button.tsx';
import { Notice } from '../../parts/notice.tsx';
import { Nothing } from '../../parts/states.tsx';
import { go, to } from '../../shell/place.ts';
import { useMay } from '../../shell/plant.ts';
import { useWords } from '../../words/words.ts';
import { type Batch, loadsOf } from '../batch.ts';
import { BATCHES } from '../words.ts';
import { AllIn } from './all-in.tsx';
import { LinesList } from './lines-list.tsx';
import { RefusedWeighings } from './refused.tsx';
import { nextLoad, nextSpot, spotsOf } from './spots.ts';
import { useUnsent } from './unsent.ts';
import { WeighLine } from './weigh-line.tsx';
import { WEIGH } from './words.ts';

/** Where the batch is weighed, one line at a time. */
export function Weigh({ batch, query }: { readonly batch: Batch; readonly query: URLSearchParams }) {
  const t = useWords(WEIGH);
  const may = useMay();
  const { unsent, refused, ofOthers } = useUnsent(batch);
  const [chosen, choose] = useState<{ readonly load: number; readonly line: number }>();
  const [after, setAfter] = useState<{ readonly load: number; readonly line: number }>();
  const [isEnding, setEnding] = useState(false);
  const spots = spotsOf(batch, unsent);
  const loads = loadsOf(batch);
  // A load that is full stays in sight: it is mixed and tested before the next one.
  const [begun] = useState(() => nextLoad(spots));
  if (batch.state !== 'planned' && batch.state !== 'weighing') {
    return (
      <div class="stack">
        <RefusedWeighings refused={refused} ofOthers={ofOthers} />
        <NotNow batch={batch} />
      </div>
    );
  }
  const load = loads.find((one) => String(one) === query.get('load')) ?? begun;
  const spot =
    spots.find((one) => one.load === load && chosen?.load === load && one.line.number === chosen.line) ??
    nextSpot(spots, load, after?.load === load ? after.line : 0);
  const isFull = spots.every(({ restKg }) => restKg === 0);
  const ends = isEnding || (spot === undefined && isFull);
  const pick = (line: number) => {
    choose({ load, line });
    setEnding(false);
  };
  const weighAnew = (one: { readonly load: number; readonly line: number }) => {
    choose({ load: one.load, line: one.line });
    setEnding(false);
    if (one.load !== load) go(`${to('batches', batch.id, 'weigh')}?load=${one.load}`);
  };
  return (
    <div class="weigh">
      <div class="weigh-side">
        {loads.length > 1 && <Loads batch={batch} loads={loads} load={load} />}
        <LinesList
          spots={spots.filter((one) => one.load === load)}
          now={ends ? undefined : spot?.line.number}
          onPick={pick}
        />
        {batch.next.includes('weighed') && !ends && (
          <Button onClick={() => setEnding(true)}>{isFull ? t.allInDo : t.notAllIn}</Button>
        )}
      </div>
      <div class="weigh-work">
        <RefusedWeighings refused={refused} ofOthers={ofOthers} onAnew={weighAnew} />
        {!may('work') && <Notice kind="note">{t.mayNot}</Notice>}
        {ends ? (
          <AllIn
            batch={batch}
            spots={spots}
            isUnsent={unsent.length + refused.length > 0}
            onBack={isFull ? undefined : () => setEnding(false)}
          />
        ) : spot ? (
          <WeighLine
            key={`${load} ${spot.line.number}`}
            batch={batch}
            spot={spot}
            takesFocus={after !== undefined}
            onBooked={(isDone) => {
              choose(undefined);
              setAfter({ load, line: isDone ? spot.line.number : spot.line.number - 1 });
            }}
          />
        ) : (
          <LoadIn batch={batch} load={load} next={nextLoad(spots)} />
        )}
      </div>
    </div>
  );
}

function Loads({
  batch,
  loads,
  load,
}: {
  readonly batch: Batch;
  readonly loads: readonly number[];
  readonly load: number;
}) {
  const t = useWords(WEIGH);
  const b = useWords(BATCHES);
  return (
    <nav class="weigh-loads" aria-label={t.loads}>
      {loads.map((one) => (
        <a
          key={one}
          class="chip"
          href={`${to('batches', batch.id, 'weigh')}?load=${one}`}
          aria-current={one === load ? 'true' : undefined}
        >
          {b.load(one)}
        </a>
      ))}
    </nav>
  );
}

function LoadIn({
  batch,
  load,
  next,
}: {
  readonly batch: Batch;
  readonly load: number;
  readonly next: number;
}) {
  const t = useWords(WEIGH);
  const b = useWords(BATCHES);
  return (
    <div class="card stack weigh-end">
      <p class="weigh-big">{t.loadIn(load)}</p>
      <div class="row wrap">
        <Go kind="main" href={`${to('batches', batch.id, 'weigh')}?load=${next}`}>
          {b.load(next)}
        </Go>
        <Go href={to('batches', batch.id, 'test')}>{b.places.test}</Go>
      </div>
    </div>
  );
}

function NotNow({ batch }: { readonly batch: Batch }) {
  const t = useWords(WEIGH);
  const b = useWords(BATCHES);
  return (
    <Nothing>
      <p>
        {t.nothingNow} <strong>{b.states[batch.state]}</strong>
      </p>
      {batch.state !== 'cancelled' && (
        <div class="row wrap">
          {batch.next.includes('tested') && <Go href={to('batches', batch.id, 'test')}>{b.places.test}</Go>}
          <Go kind="main" href={to('batches', batch.id, 'finish')}>
            {t.onward}
          </Go>
        </div>
      )}
    </Nothing>
  );
}
