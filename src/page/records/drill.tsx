import { useEffect, useState } from 'preact/hooks';
import type { DrillAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Go } from '../parts/button.tsx';
import { Facts } from '../parts/facts.tsx';
import { Notice } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { Table } from '../parts/table.tsx';
import { useAnswer } from '../service/answers.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { clockText } from './drill-count.ts';
import { DrillForm } from './drill-form.tsx';
import { DRILL } from './drill-words.ts';
import { PaperButtons } from './papers.tsx';
import { traceOfLot } from './start.ts';
import { SameGrinder } from './trace-tables.tsx';
import { WhatCounts } from './what-counts.tsx';
import { Whereabouts } from './whereabouts.tsx';
import { RECORDS } from './words.ts';

/** One recall drill: while it runs what to look for and whom to call, afterwards what was found. */
export function DrillPlace({ id }: { readonly id: string }) {
  const t = useWords(RECORDS);
  const reading = useAnswer<DrillAnswer>(`/recall-drills/${encodeURIComponent(id)}`);
  return (
    <>
      <h1>
        {t.tabs.drill} {id}
      </h1>
      <Read of={reading}>{(drill) => <DrillSeen drill={drill} />}</Read>
    </>
  );
}

function DrillSeen({ drill }: { readonly drill: DrillAnswer }) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const may = useMay();
  const { id, start, reason, startedBy, started, batches, putOnHold, finished, records } = drill;
  return (
    <>
      <div class="row wrap between">
        {finished ? (
          <p class="clock">✓ {w.tookMinutes(show.number(finished.minutes, 1))}</p>
        ) : (
          <Clock since={started.at} />
        )}
        <PaperButtons path={`/recall-drills/${id}`} />
      </div>
      <section class="card stack">
        <Facts
          facts={[
            [t.startBy, say(start.says)],
            [c.reason, reason],
            [w.started, `${show.instant(started.at)}, ${startedBy}`],
            [t.batches, batches.join(', ')],
            [w.putOnHold, putOnHold.join(', ')],
            [t.finishedBy, finished && `${show.instant(finished.time.at)}, ${finished.by}`],
            [t.note, finished?.note],
            [
              t.record,
              <span key="records">
                <a href={to('records', records.start)}>{t.number(records.start)}</a>
                {records.finish !== undefined && (
                  <>
                    , <a href={to('records', records.finish)}>{t.number(records.finish)}</a>
                  </>
                )}
              </span>,
            ],
          ]}
        />
        {start.lotIds[0] !== undefined && (
          <div class="row">
            <Go href={traceOfLot(start.lotIds[0])}>{t.whereItWent}</Go>
          </div>
        )}
      </section>
      <Whereabouts where={finished?.whereabouts ?? drill.whereabouts} percent={finished?.percentAccounted} />
      <SameGrinder batches={drill.sameGrinder ?? []} />
      {finished ? (
        <Found finished={finished} />
      ) : may('work') ? (
        <DrillForm drill={drill} />
      ) : (
        <Notice kind="note">{w.drillRuns}</Notice>
      )}
      <WhatCounts notes={drill.counts} />
    </>
  );
}

/** How long the drill has run. */
function Clock({ since }: { readonly since: string }) {
  const t = useWords(DRILL);
  const [now, setNow] = useState(Date.now);
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  return (
    <p class="clock" role="timer" aria-label={t.runningFor}>
      {clockText(now - Date.parse(since))} <span class="aside">{t.runningFor}</span>
    </p>
  );
}

function Found({ finished }: { readonly finished: NonNullable<DrillAnswer['finished']> }) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const isAll = finished.percentAccounted === 100;
  return (
    <>
      <Notice kind={isAll ? 'good' : 'caution'}>
        <strong>
          {w.accountedOf(
            show.number(finished.percentAccounted, 1),
            show.mass(finished.whereabouts.affected.kg),
          )}
        </strong>
      </Notice>
      <h2>{w.counted}</h2>
      <Table
        caption={w.counted}
        columns={[
          { says: c.lot, of: ({ lotId }) => lotId, isName: true },
          { says: w.inBooks, of: ({ books }) => show.mass(books.kg), isNumber: true },
          { says: t.found, of: ({ found }) => show.mass(found.kg), isNumber: true },
          {
            says: w.difference,
            of: ({ difference }) => `${difference.kg === 0 ? '✓' : '!'} ${show.mass(difference.kg)}`,
            isNumber: true,
          },
          { says: t.note, of: ({ note = '' }) => say(note) },
        ]}
        rows={finished.counted}
        keyOf={({ lotId }) => lotId}
      />
      {finished.contacted && finished.contacted.length > 0 && (
        <Table
          caption={w.contacted}
          isCaptionSeen
          columns={[
            { says: t.to, of: ({ to: whom }) => `✓ ${whom}`, isName: true },
            { says: t.note, of: ({ note = '' }) => note },
          ]}
          rows={finished.contacted}
          keyOf={({ to: whom }) => whom}
        />
      )}
    </>
  );
}
