import type { DrillAnswer, DrillsAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Tick } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { Notice, ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { Table } from '../parts/table.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { useDraft } from '../service/draft.ts';
import { useSending } from '../service/sending.ts';
import { go, to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { DRILL } from './drill-words.ts';
import { PageButtons, usePages } from './pages.tsx';
import { START_POINTERS, type Start, startAsked, startOfQuery } from './start.ts';
import { StartFields } from './start-fields.tsx';
import { RECORDS } from './words.ts';

const AT_ONCE = 20;
const NAME = 'recall drill';

/** Recall drills that were held, and how to start one. */
export function DrillsPlace({ query }: { readonly query: URLSearchParams }) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const may = useMay();
  const pages = usePages('');
  const reading = useAnswer<DrillsAnswer>(
    `/recall-drills${queryOf({ order: 'newest', limit: AT_ONCE, after: pages.after })}`,
  );
  return (
    <>
      <h1>{t.tabs.drill}</h1>
      <p class="hint">{w.drillSays}</p>
      {may('work') && <StartDrill given={startOfQuery(query)} />}
      <h2>{w.pastDrills}</h2>
      <Read of={reading}>
        {({ items, next }) => (
          <>
            {items.length === 0 ? (
              <Nothing>
                <p>{w.noDrills}</p>
              </Nothing>
            ) : (
              <DrillTable items={items} />
            )}
            <PageButtons pages={pages} next={next} />
          </>
        )}
      </Read>
    </>
  );
}

function DrillTable({ items }: { readonly items: DrillsAnswer['items'] }) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const c = useWords(COMMON);
  const show = useShow();
  return (
    <Table
      caption={w.pastDrills}
      columns={[
        {
          says: w.drill,
          of: ({ id }) => (
            <a class="tap" href={to('records', 'drill', id)}>
              {id}
            </a>
          ),
          isName: true,
        },
        { says: w.started, of: ({ started }) => show.instant(started.at) },
        { says: c.reason, of: ({ reason }) => reason },
        { says: c.who, of: ({ startedBy }) => startedBy, isExtra: true },
        {
          says: t.standing,
          of: ({ state, minutes }) =>
            state === 'finished' ? `✓ ${w.tookMinutes(show.number(minutes ?? 0, 1))}` : `… ${w.running}`,
        },
        {
          says: w.accounted,
          of: ({ percentAccounted }) => `${show.number(percentAccounted, 1)} %`,
          isNumber: true,
        },
      ]}
      rows={items}
      keyOf={({ id }) => id}
    />
  );
}

function StartDrill({ given }: { readonly given: Start | undefined }) {
  const t = useWords(RECORDS);
  const w = useWords(DRILL);
  const c = useWords(COMMON);
  const may = useMay();
  const first: Start = given ?? { by: 'lot', id: '', supplier: '' };
  const { value, set, clear } = useDraft(NAME, { ...first, reason: '', hold: false });
  const { send, isSending, error } = useSending(NAME);
  const fault = useFieldFault(error);
  const start = async (event: Event) => {
    event.preventDefault();
    const body = { ...startAsked(value), reason: value.reason.trim(), ...(value.hold && { hold: true }) };
    const sent = await send<DrillAnswer>({ path: '/recall-drills', body });
    if (!sent) return;
    clear();
    go(to('records', 'drill', sent.body.id));
  };
  return (
    <form class="card form" onSubmit={start} noValidate>
      <h2>{t.startDrill}</h2>
      <ProblemNotice error={error} shownPointers={[...START_POINTERS, '/reason']} />
      <StartFields start={value} onStart={set} error={fault(...START_POINTERS)} />
      <TextField
        label={c.reason}
        hint={w.reasonExample}
        value={value.reason}
        onValue={(reason) => set({ reason })}
        error={fault('/reason')}
        required
      />
      {may('plan') && (
        <>
          <Tick label={w.holdAll} isOn={value.hold} onChange={(hold) => set({ hold })} />
          {value.hold && <Notice kind="caution">{w.holdSays}</Notice>}
        </>
      )}
      <div class="row">
        <Button kind="main" type="submit" isBusy={isSending}>
          {w.startClock}
        </Button>
      </div>
    </form>
  );
}
