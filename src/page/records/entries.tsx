import { useState } from 'preact/hooks';
import type { z } from 'zod';
import type { entriesAnswer } from '../../api/access/contract.ts';
import { useShow } from '../figures/show.ts';
import { TextField } from '../parts/field.tsx';
import { Nothing, Read } from '../parts/states.tsx';
import { type Column, Table } from '../parts/table.tsx';
import { useAnswer } from '../service/answers.ts';
import { queryOf } from '../service/ask.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { DayFields, daysAsked, useDays } from './days.tsx';
import { PageButtons, usePages } from './pages.tsx';
import { RECORDS } from './words.ts';

type EntriesAnswer = z.output<typeof entriesAnswer>;
type Entry = EntriesAnswer['items'][number];

const AT_ONCE = 50;

/** Who did what and when. */
export function EntriesPlace({ query }: { readonly query: URLSearchParams }) {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const days = useDays();
  const [wanted, setWanted] = useState({
    person: query.get('person') ?? '',
    subjectId: query.get('subject') ?? '',
  });
  const asked = {
    ...daysAsked(days),
    person: wanted.person.trim() || undefined,
    subjectId: wanted.subjectId.trim() || undefined,
  };
  const question = queryOf(asked);
  const pages = usePages(question);
  const reading = useAnswer<EntriesAnswer>(
    `/entries${queryOf({ ...asked, limit: AT_ONCE, after: pages.after })}`,
  );
  const [met, setMet] = useState<readonly string[]>([]);
  const names = [...new Set([...met, ...(reading.body?.items.map(({ person }) => person.name) ?? [])])];
  if (names.length > met.length) setMet(names);
  return (
    <>
      <h1>{t.tabs.entries}</h1>
      <p class="hint">{t.entriesHint}</p>
      <search class="filters" aria-label={t.tabs.entries}>
        <DayFields days={days} />
        <TextField
          label={c.who}
          type="search"
          list="records-persons"
          value={wanted.person}
          onValue={(person) => setWanted({ ...wanted, person })}
        />
        <datalist id="records-persons">
          {names.map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
        <TextField
          label={t.about}
          type="search"
          placeholder={t.subjectExample}
          value={wanted.subjectId}
          onValue={(subjectId) => setWanted({ ...wanted, subjectId })}
        />
      </search>
      <Read of={reading}>
        {({ items, next }) => (
          <>
            {items.length === 0 ? (
              <Nothing>
                <p>{question === '' ? t.noEntries : t.noneFound}</p>
              </Nothing>
            ) : (
              <EntryTable items={items} />
            )}
            <PageButtons pages={pages} next={next} />
          </>
        )}
      </Read>
    </>
  );
}

function EntryTable({ items }: { readonly items: readonly Entry[] }) {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const columns: Column<Entry>[] = [
    { says: t.entry, of: ({ seq }) => seq, isName: true },
    { says: t.when, of: ({ at }) => <span class="nowrap">{show.instant(at)}</span> },
    { says: c.who, of: ({ person }) => person.name },
    { says: t.act, of: ({ action }) => say(action) },
    { says: t.about, of: ({ subject }) => `${say(subject.kind)} ${subject.id}` },
    { says: t.what, of: ({ says }) => say(says) },
    {
      says: t.hash,
      of: ({ hash, previousHash }) => (
        <code title={`${t.hash} ${hash}; ${t.previousHash} ${previousHash}`}>{hash.slice(0, 10)}</code>
      ),
      isExtra: true,
    },
  ];
  return <Table caption={t.tabs.entries} columns={columns} rows={items} keyOf={({ seq }) => seq} />;
}
