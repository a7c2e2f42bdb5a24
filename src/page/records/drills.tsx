import type { DrillAnswer, DrillsAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { TextField, Tick } from '../parts/field.tsx';
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
import { PageButtons, usePages } from './pages.tsx';
import { START_POINTERS, type Start, startAsked, startOfQuery } from './start.ts';
import { StartFields } from './start-fields.tsx';
import { RECORDS } from './words.ts';

const AT_ONCE = 20;
const NAME = 'recall drill';

/** Recall drills that were held, and how to start one. */
export function DrillsPlace({ query }: { readonly query: URLSearchParams }) {
  const t = useWords(RECORDS);
  const may = useMay();
  const pages = usePages('');
  const reading = useAnswer<DrillsAnswer>(
    `/recall-drills${queryOf({ order: 'newest', limit: AT_ONCE, after: pages.after })}`,
  );
  return (
    <>
      <h1>{t.tabs.drill}</h1>
      <p class="hint">{t.drillSays}</p>
      {may('work') && <StartDrill given={startOfQuery(query)} />}
      <h2>{t.pastDrills}</h2>
      <Read of={reading}>
        {({ items, next }) => (
          <>
            {items.length === 0 ? (
              <Nothing>
                <p>{t.noDrills}</p>
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
  const c = useWords(COMMON);
  const show = useShow();
  return (
    <Table
      caption={t.pastDrills}
      columns={[
        {
          says: t.drill,
          of: ({ id }) => (
            <a class="tap" href={to('records', 'drill', id)}>
              {id}
            </a>
          ),
          isName: true,
        },
        { says: t.started, of: ({ started }) => show.instant(started.at) },
        { says: c.reason, of: ({ reason }) => reason },
        { says: c.who, of: ({ startedBy }) => startedBy, isExtra: true },
        {
          says: t.standing,
          of: ({ state, minutes }) =>
            state === 'finished' ? `✓ ${t.tookMinutes(show.number(minutes ?? 0, 1))}` : `… ${t.running}`,
        },
        {
          says: t.accounted,
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
        hint={t.reasonExample}
        value={value.reason}
        onValue={(reason) => set({ reason })}
        error={fault('/reason')}
        required
      />
      {may('plan') && (
        <>
          <Tick label={t.holdAll} isOn={value.hold} onChange={(hold) => set({ hold })} />
          {value.hold && <Notice kind="caution">{t.holdSays}</Notice>}
        </>
      )}
      <div class="row">
        <Button kind="main" type="submit" isBusy={isSending}>
          {t.startClock}
        </Button>
      </div>
    </form>
  );
}
