import { useState } from 'preact/hooks';
import type {
  CleaningsAnswer,
  FatTestsAnswer,
  GrindingAnswer,
  RestrictedAnswer,
} from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { Tabs } from '../parts/tabs.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { CleaningForm } from './cleaning-form.tsx';
import { DayFields, daysAsked, useDays } from './days.tsx';
import { CleaningTable, FatTestTable, GrindingLots, RestrictedTable } from './log-tables.tsx';
import { LOG } from './log-words.ts';
import { PaperButtons } from './papers.tsx';
import { WhatCounts } from './what-counts.tsx';
import { RECORDS } from './words.ts';

export const LOGS = ['grinding', 'fat-tests', 'restricted-ingredients', 'cleanings'] as const;
type LogName = (typeof LOGS)[number];
type Log = GrindingAnswer | FatTestsAnswer | RestrictedAnswer | CleaningsAnswer;

/** The logs that an inspector asks for. */
export function LogsPlace({ which }: { readonly which: string | undefined }) {
  const t = useWords(RECORDS);
  const w = useWords(LOG);
  const show = useShow();
  const may = useMay();
  const name: LogName = LOGS.find((each) => each === which) ?? 'grinding';
  const days = useDays(6);
  const path = `/logs/${name}${queryOf(daysAsked(days))}`;
  const reading = useAnswer<Log>(path);
  const [isWriting, setWriting] = useState(false);
  return (
    <>
      <h1>{w.logs[name]}</h1>
      <Tabs
        label={t.tabs.logs}
        tabs={LOGS.map((each) => ({
          address: to('records', 'logs', each),
          says: w.logs[each],
          isHere: each === name,
        }))}
      />
      <div class="filters">
        <DayFields days={days} />
        <PaperButtons path={path} csv={`${name}-${days.fromDay}-${days.toDay}`} />
      </div>
      {name === 'cleanings' &&
        may('work') &&
        (isWriting ? (
          <CleaningForm onDone={() => setWriting(false)} />
        ) : (
          <div class="row">
            <Button kind="main" onClick={() => setWriting(true)}>
              {w.writeCleaning}
            </Button>
          </div>
        ))}
      <Read of={reading}>
        {(log) => (
          <>
            <p class="hint">{w.logOf(show.day(log.fromDay), show.day(log.toDay), log.timeZone)}</p>
            {log.items.length === 0 ? (
              <Nothing>
                <p>{w.noLog[name]}</p>
              </Nothing>
            ) : (
              <LogSeen name={name} log={log} />
            )}
            <WhatCounts notes={log.notes} />
          </>
        )}
      </Read>
    </>
  );
}

function LogSeen({ name, log }: { readonly name: LogName; readonly log: Log }) {
  if (name === 'grinding') return <GrindingLots items={(log as GrindingAnswer).items} />;
  if (name === 'fat-tests') return <FatTestTable items={(log as FatTestsAnswer).items} />;
  if (name === 'cleanings') return <CleaningTable items={(log as CleaningsAnswer).items} />;
  return <RestrictedTable items={(log as RestrictedAnswer).items} />;
}
