import { useState } from 'preact/hooks';
import type { CostAnswer } from '../../api/reports/contract.ts';
import { useShow } from '../figures/show.ts';
import { OneOf } from '../parts/choice.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { type Column, Table } from '../parts/table.tsx';
import { Figure } from '../pictures/figure.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { to } from '../shell/place.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { CHART } from './chart-words.ts';
import { type CostRow, type CostsBy, costRows } from './cost-bars.ts';
import { DayFields, daysAsked, useDays } from './days.tsx';
import { PaperButtons } from './papers.tsx';
import { WhatCounts } from './what-counts.tsx';
import { RECORDS } from './words.ts';

/** What the batches of some days cost: planned, weighed, finished, lost and given away. */
export function CostsPlace() {
  const t = useWords(RECORDS);
  const w = useWords(CHART);
  const days = useDays(27);
  const path = `/reports/costs${queryOf(daysAsked(days))}`;
  const reading = useAnswer<CostAnswer>(path);
  return (
    <>
      <h1>{t.tabs.costs}</h1>
      <div class="filters">
        <DayFields days={days} />
        <PaperButtons path={path} csv={`costs-${days.fromDay}-${days.toDay}`} />
      </div>
      <Read of={reading}>
        {(report) =>
          report.batches.length === 0 ? (
            <Nothing>
              <p>{w.noCosts}</p>
            </Nothing>
          ) : (
            <>
              <CostPicture report={report} />
              <BatchCosts batches={report.batches} />
              <MaterialCosts materials={report.materials} />
              <WhatCounts notes={report.notes} />
            </>
          )
        }
      </Read>
    </>
  );
}

/** Money of the plant's own currency as it is written here, of another with its code. */
function useMoney(): (amount: number, currency: string) => string {
  const show = useShow();
  return (amount, currency) =>
    currency === show.currency ? show.money(amount) : `${currency} ${show.number(amount, 2)}`;
}

const BARS = ['planned', 'weighed', 'lost', 'givenAway'] as const;

function CostPicture({ report }: { readonly report: CostAnswer }) {
  const t = useWords(RECORDS);
  const w = useWords(CHART);
  const show = useShow();
  const money = useMoney();
  const [by, setBy] = useState<CostsBy>('product');
  const rows = costRows(report, by);
  const most = Math.max(...rows.flatMap((row) => BARS.map((bar) => row[bar])));
  const named = ({ name }: CostRow) => (by === 'day' ? show.day(name) : name);
  const columns: Column<CostRow>[] = [
    { says: w.costsBy[by], of: named, isName: true },
    { says: t.batches, of: ({ batches }) => batches, isNumber: true },
    ...BARS.map((bar) => ({
      says: w.costs[bar],
      of: (row: CostRow) => money(row[bar], row.currency),
      isNumber: true,
    })),
  ];
  const keyOf = ({ name, currency }: CostRow) => `${name} ${currency}`;
  return (
    <>
      <OneOf
        label={w.shownBy}
        value={by}
        onValue={(next) => setBy(next as CostsBy)}
        options={[
          { value: 'product', says: w.costsBy.product },
          { value: 'day', says: w.costsBy.day },
        ]}
      />
      <Figure title={w.costPicture} caption={w.costSays} columns={columns} rows={rows} keyOf={keyOf}>
        <div class="bars card">
          {rows.map((row) => (
            <div key={keyOf(row)} class="bar-row">
              <strong>{named(row)}</strong>
              {BARS.filter((bar) => row[bar] > 0 || bar === 'weighed').map((bar) => (
                <div key={bar} class="bar-line">
                  <span>{w.costs[bar]}</span>
                  <svg
                    role="img"
                    aria-label={`${named(row)}, ${w.costs[bar]}: ${money(row[bar], row.currency)}`}
                    viewBox="0 0 100 10"
                    preserveAspectRatio="none"
                  >
                    <rect
                      class={`bar ${bar}`}
                      x="0"
                      y="0"
                      height="10"
                      width={most === 0 ? 0 : (row[bar] / most) * 100}
                    />
                  </svg>
                  <span class="number">{money(row[bar], row.currency)}</span>
                </div>
              ))}
            </div>
          ))}
        </div>
      </Figure>
    </>
  );
}

type Batch = CostAnswer['batches'][number];

function BatchCosts({ batches }: { readonly batches: readonly Batch[] }) {
  const t = useWords(RECORDS);
  const w = useWords(CHART);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const money = useMoney();
  const columns: Column<Batch>[] = [
    {
      says: t.batch,
      of: ({ batchId }) => (
        <a class="tap" href={to('batches', batchId)}>
          {batchId}
        </a>
      ),
      isName: true,
    },
    { says: c.product, of: ({ product }) => product },
    { says: c.date, of: ({ date }) => show.shortDay(date), isExtra: true },
    { says: t.standing, of: ({ state }) => say(state), isExtra: true },
    { says: w.costs.planned, of: ({ planned, currency }) => money(planned.cost, currency), isNumber: true },
    { says: w.costs.weighed, of: ({ weighed, currency }) => money(weighed.cost, currency), isNumber: true },
    {
      says: w.finishedEach,
      of: ({ finished }) => (finished ? show.price(finished.each.perKg) : '–'),
      isNumber: true,
    },
    {
      says: t.yield,
      of: ({ finished }) => (finished ? show.percent(finished.yieldFraction) : '–'),
      isNumber: true,
      isExtra: true,
    },
    {
      says: w.costs.lost,
      of: ({ finished, currency }) =>
        finished ? money(finished.discarded.cost + finished.lossBeyondYield.cost, currency) : '–',
      isNumber: true,
    },
    {
      says: w.costs.givenAway,
      of: ({ givenAway, currency }) =>
        givenAway?.cost === undefined ? '–' : money(givenAway.cost, currency),
      isNumber: true,
    },
  ];
  return (
    <section class="stack">
      <h2>{t.batches}</h2>
      <Table caption={t.batches} columns={columns} rows={batches} keyOf={({ batchId }) => batchId} />
    </section>
  );
}

function MaterialCosts({ materials }: { readonly materials: CostAnswer['materials'] }) {
  const t = useWords(CHART);
  const c = useWords(COMMON);
  const show = useShow();
  const money = useMoney();
  return (
    <section class="stack">
      <h2>{t.materialsIn}</h2>
      <Table
        caption={t.materialsIn}
        columns={[
          { says: c.material, of: ({ material }) => material, isName: true },
          { says: c.weight, of: ({ mass }) => show.mass(mass.kg), isNumber: true },
          { says: c.cost, of: ({ cost, currency }) => money(cost, currency), isNumber: true },
          { says: c.price, of: ({ each }) => show.price(each.perKg), isNumber: true },
        ]}
        rows={materials}
        keyOf={({ materialId, currency }) => `${materialId} ${currency}`}
      />
    </section>
  );
}
