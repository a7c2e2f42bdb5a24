import { useState } from 'preact/hooks';
import type { RecordAnswer, RecordsAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Choice } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { type Column, Table } from '../parts/table.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { to } from '../shell/place.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { DayFields, daysAsked, useDays } from './days.tsx';
import { PageButtons, usePages } from './pages.tsx';
import { RECORDS } from './words.ts';

const AT_ONCE = 25;
const KINDS = ['batch', 'cleaning', 'recall drill', 'correction'] as const;

interface Product {
  readonly id: string;
  readonly name: string;
}

/** Sealed records, newest first. */
export function RecordsPlace() {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const days = useDays();
  const [wanted, setWanted] = useState({ kind: '', productId: '', lotId: '' });
  const products = useAnswer<{ items: readonly Product[] }>('/products?limit=500');
  const asked = {
    ...daysAsked(days),
    kind: wanted.kind || undefined,
    productId: wanted.productId || undefined,
    lotId: wanted.lotId.trim() || undefined,
  };
  const question = queryOf(asked);
  const pages = usePages(question);
  const reading = useAnswer<RecordsAnswer>(
    `/records${queryOf({ ...asked, order: 'newest', limit: AT_ONCE, after: pages.after })}`,
  );
  const options = (products.body?.items ?? []).map(({ id, name }) => ({ value: id, says: name }));
  return (
    <>
      <h1>{t.tabs.records}</h1>
      <search class="filters" aria-label={t.tabs.records}>
        <DayFields days={days} />
        <Choice
          label={t.kind}
          value={wanted.kind}
          onValue={(kind) => setWanted({ ...wanted, kind })}
          options={[
            { value: '', says: c.all },
            ...KINDS.map((kind) => ({ value: kind, says: t.kinds[kind] })),
          ]}
        />
        <Choice
          label={c.product}
          value={wanted.productId}
          onValue={(productId) => setWanted({ ...wanted, productId })}
          options={[{ value: '', says: c.all }, ...options]}
        />
        <TextField
          label={c.lot}
          type="search"
          value={wanted.lotId}
          onValue={(lotId) => setWanted({ ...wanted, lotId })}
        />
      </search>
      <Read of={reading}>
        {({ items, next }) => (
          <>
            {items.length === 0 ? (
              <Nothing>
                <p>{question === '' ? t.noRecords : t.noneFound}</p>
              </Nothing>
            ) : (
              <RecordTable items={items} />
            )}
            <PageButtons pages={pages} next={next} />
          </>
        )}
      </Read>
    </>
  );
}

function RecordTable({ items }: { readonly items: readonly RecordAnswer[] }) {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const columns: Column<RecordAnswer>[] = [
    {
      says: t.record,
      of: ({ seq }) => (
        <a class="tap" href={to('records', seq)}>
          <span class="unseen">{t.record} </span>
          {seq}
        </a>
      ),
      isName: true,
    },
    { says: c.date, of: ({ day }) => show.day(day) },
    { says: t.kind, of: ({ kind }) => t.kinds[kind as (typeof KINDS)[number]] ?? kind, isExtra: true },
    {
      says: t.about,
      of: ({ subjectId, body }) => `${subjectId}${nameIn(body)}`,
    },
    { says: t.what, of: ({ entry }) => say(entry?.says ?? ''), isExtra: true },
    { says: c.who, of: ({ by }) => by, isExtra: true },
    {
      says: t.standing,
      of: ({ correctedBy }) => (correctedBy.length === 0 ? t.asSealed : `! ${t.corrected}`),
    },
  ];
  return <Table caption={t.tabs.records} columns={columns} rows={items} keyOf={({ seq }) => seq} />;
}

/** The product of a batch, where the record is of one. */
function nameIn(body: unknown): string {
  const { product } = (body ?? {}) as { readonly product?: { readonly name?: string } };
  return product?.name === undefined ? '' : `, ${product.name}`;
}
