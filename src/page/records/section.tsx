import { Tabs } from '../parts/tabs.tsx';
import { type Place, to } from '../shell/place.ts';
import { useWords } from '../words/words.ts';
import { CostsPlace } from './costs.tsx';
import { DrillPlace } from './drill.tsx';
import { DrillsPlace } from './drills.tsx';
import { EntriesPlace } from './entries.tsx';
import { LogsPlace } from './logs.tsx';
import { RecordPlace } from './record.tsx';
import { RecordsPlace } from './records.tsx';
import { TestsPlace } from './tests.tsx';
import { TracePlace } from './trace.tsx';
import { RECORDS } from './words.ts';
import './records.css';
import './charts.css';
import './drill.css';
import './trace.css';

const PLACES = ['', 'trace', 'drill', 'logs', 'tests', 'costs', 'entries'] as const;

/** What was written down: records, traces, drills, logs, and what they show over time. */
export default function Section({ place }: { readonly place: Place }) {
  const t = useWords(RECORDS);
  const [first = '', second] = place.parts;
  const here = PLACES.find((each) => each === first) ?? '';
  return (
    <div class="records stack">
      <Tabs
        label={t.places}
        tabs={PLACES.map((each) => ({
          address: to('records', ...(each === '' ? [] : [each])),
          says: t.tabs[each === '' ? 'records' : each],
          isHere: each === here,
        }))}
      />
      {here === '' && (first === '' ? <RecordsPlace /> : <RecordPlace key={first} seq={first} />)}
      {here === 'trace' && <TracePlace query={place.query} />}
      {here === 'drill' &&
        (second === undefined ? (
          <DrillsPlace query={place.query} />
        ) : (
          <DrillPlace key={second} id={second} />
        ))}
      {here === 'logs' && <LogsPlace which={second} />}
      {here === 'tests' && <TestsPlace query={place.query} />}
      {here === 'costs' && <CostsPlace />}
      {here === 'entries' && <EntriesPlace query={place.query} />}
    </div>
  );
}
