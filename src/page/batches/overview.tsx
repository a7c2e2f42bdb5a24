import { useShow } from '../figures/show.ts';
import { Go } from '../parts/button.tsx';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { type Batch, type NextStep, nextStepOf } from './batch.ts';
import { CameOut } from './came-out.tsx';
import { Cancel } from './cancel.tsx';
import { Limits } from './limits.tsx';
import { LinesIn } from './lines-in.tsx';
import { Papers } from './papers.tsx';
import { Cautions, Part } from './part.tsx';
import { Stage } from './stage-picture.tsx';
import { Done, FatTests } from './what-happened.tsx';
import { BATCHES } from './words.ts';

/** A batch as it stands: what is next, and everything known of it. */
export function Overview({ batch }: { readonly batch: Batch }) {
  const t = useWords(BATCHES);
  const show = useShow();
  return (
    <div class="stack">
      <div class="batch-next">
        <Stage state={batch.state} />
        <span>
          {show.day(batch.date)} · {t.loads(batch.loads)} · {t.planned} {show.mass(batch.planned.kg)} ·{' '}
          {t.weighed} <strong>{show.mass(batch.weighed.kg)}</strong> · {t.cost} {show.money(batch.cost)}
        </span>
        <Next batch={batch} />
      </div>
      <Cautions batch={batch} />
      <div class="batch-halves">
        <div class="stack">
          <Part title={t.lines}>
            <LinesIn batch={batch} />
          </Part>
          <Departures batch={batch} />
          <FatTests batch={batch} />
          <Papers id={batch.id} />
          <Done batch={batch} />
          <Cancel batch={batch} />
        </div>
        <div class="stack">
          {batch.finished && <CameOut batch={batch} finished={batch.finished} />}
          <Part title={t.limits} hint={t.limitsAre[batch.limitsAre]}>
            <Limits limits={batch.limits} />
          </Part>
        </div>
      </div>
    </div>
  );
}

const PLACE_OF: Readonly<Record<Exclude<NextStep, 'record'>, string>> = {
  weigh: 'weigh',
  'all in': 'weigh',
  correct: 'test',
  finish: 'finish',
  pack: 'finish',
};

function Next({ batch }: { readonly batch: Batch }) {
  const t = useWords(BATCHES);
  const may = useMay();
  const next = nextStepOf(batch);
  if (next === undefined) return null;
  if (next === 'record') {
    return (
      <Go kind="main" href={to('records', batch.record ?? '')}>
        {t.next.record}
      </Go>
    );
  }
  if (!may('work')) return null;
  const mayTest = next !== 'correct' && batch.next.includes('tested') && batch.tests.length === 0;
  return (
    <span class="row wrap">
      {mayTest && <Go href={to('batches', batch.id, 'test')}>{t.alsoTest}</Go>}
      <Go kind="main" href={to('batches', batch.id, PLACE_OF[next])}>
        {t.next[next]}
      </Go>
    </span>
  );
}

function Departures({ batch: { open, deviations } }: { readonly batch: Batch }) {
  const t = useWords(BATCHES);
  const say = useSay();
  const all = [...open, ...deviations.filter((one) => !open.some(({ what }) => what === one.what))];
  if (all.length === 0) return null;
  return (
    <Part title={t.departures}>
      <ul>
        {all.map(({ what, planned, found, reason }) => (
          <li key={what + found}>
            {t.foundPlanned(say(what), say(found), say(planned))} — <em>{reason ?? t.noReason}</em>
          </li>
        ))}
      </ul>
    </Part>
  );
}
