import { useState } from 'preact/hooks';
import type { BatchesAnswer } from '../../api/batches/contract.ts';
import { useShow } from '../figures/show.ts';
import { Button, Go } from '../parts/button.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { to } from '../shell/place.ts';
import { useHere, useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { byDay } from './batch.ts';
import { Stage } from './stage-picture.tsx';
import { BATCHES } from './words.ts';

type Item = BatchesAnswer['items'][number];

const AGAIN_MS = 10_000;

/** All batches: those that somebody has to go on with, and the past ones. */
export function List() {
  const t = useWords(BATCHES);
  const may = useMay();
  const open = useAnswer<BatchesAnswer>('/batches?open=true&limit=200', { everyMs: AGAIN_MS });
  return (
    <div class="stack">
      <div class="batch-top">
        <h1>{t.title}</h1>
        {may('plan') && (
          <Go kind="main" href={to('blend')}>
            {t.plan}
          </Go>
        )}
      </div>
      <section class="stack" aria-labelledby="batches-open">
        <h2 id="batches-open">{t.open}</h2>
        <Read of={open}>
          {({ items }) => (items.length > 0 ? <Days items={items} /> : <Nothing>{t.noneOpen}</Nothing>)}
        </Read>
      </section>
      <Past />
    </div>
  );
}

function Days({ items }: { readonly items: readonly Item[] }) {
  const t = useWords(BATCHES);
  const show = useShow();
  const { plant } = useHere();
  return (
    <>
      {byDay(items).map(([day, ofDay]) => (
        <section key={day} class="batch-day">
          <h3>{day === plant.today ? `${t.today}, ${show.shortDay(day)}` : show.day(day)}</h3>
          <ul>
            {ofDay.map(({ id, product, state, lines }) => (
              <li key={id}>
                <a class="card batch-card" href={to('batches', id)}>
                  <span>
                    <strong>{product}</strong> <span class="aside">{id}</span>
                  </span>
                  <Stage state={state} lines={lines} />
                </a>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}

/** The past ones a page at a time, the latest first. */
function Past() {
  const t = useWords(BATCHES);
  const [before, setBefore] = useState<readonly Item[]>([]);
  const past = useAnswer<BatchesAnswer>(
    `/batches${queryOf({ open: false, limit: 20, before: before.at(-1)?.id })}`,
  );
  return (
    <section class="stack" aria-labelledby="batches-past">
      <h2 id="batches-past">{t.past}</h2>
      <Read of={past}>
        {({ items, next }) => {
          const all = [...before, ...items];
          if (all.length === 0) return <Nothing>{t.nonePast}</Nothing>;
          return (
            <>
              <Days items={all} />
              {next !== undefined && <Button onClick={() => setBefore(all)}>{t.older}</Button>}
            </>
          );
        }}
      </Read>
    </section>
  );
}
