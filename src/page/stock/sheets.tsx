import { useState } from 'preact/hooks';
import { Button } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { Field } from '../parts/field.tsx';
import { Notice, ProblemNotice } from '../parts/notice.tsx';
import { Table } from '../parts/table.tsx';
import { ask, newKey, Refused, Unreached } from '../service/ask.ts';
import { usePapers } from '../service/papers.ts';
import { tellWritten } from '../service/written.ts';
import { useDevice } from '../shell/device.ts';
import { useHere, useMay } from '../shell/plant.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { SHEET } from './sheet-words.ts';
import type { ImportAnswer } from './stock-types.ts';
import { STOCK } from './words.ts';

const IN = ['lots', 'materials', 'prices', 'products'] as const;
const OUT = [
  ...IN,
  'packs',
  'house-rules',
  'movements',
  'shipments',
  'fat-tests',
  'batches',
  'weighings',
  'records',
  'cleanings',
  'entries',
] as const;

/** Tables out to spreadsheets, and in again once it was shown what they would change. */
export function Sheets({ onTaken }: { readonly onTaken: () => void }) {
  const t = useWords(SHEET);
  const may = useMay();
  return (
    <>
      <h1>{t.sheets}</h1>
      <Save />
      {may('work') && <TakeIn onTaken={onTaken} />}
    </>
  );
}

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

function Save() {
  const t = useWords(SHEET);
  const { mark } = useDevice();
  const { today } = useHere().plant;
  const papers = usePapers();
  const [table, setTable] = useState<string>('lots');
  const save = (form: 'csv' | 'xlsx', name = table) =>
    void papers.show({
      path: `/exports/${name}?form=${form}${form === 'csv' && mark === ',' ? '&decimal=comma' : ''}`,
      type: form === 'csv' ? 'text/csv' : XLSX,
      saveAs: `${name}-${today}.${form}`,
    });
  return (
    <section class="card form stock-form">
      <h2>{t.saveTables}</h2>
      <Choice
        label={t.table}
        value={table}
        onValue={setTable}
        options={OUT.map((value) => ({ value, says: t.tables[value] }))}
      />
      <div class="row wrap">
        <Button isBusy={papers.isFetching} onClick={() => save('xlsx')}>
          {t.asWorkbook}
        </Button>
        <Button isBusy={papers.isFetching} onClick={() => save('csv')}>
          {t.asCsv}
        </Button>
        <Button kind="quiet" isBusy={papers.isFetching} onClick={() => save('xlsx', 'all')}>
          {t.allTables}
        </Button>
      </div>
      <ProblemNotice error={papers.error} />
    </section>
  );
}

interface Chosen {
  readonly file: File;
  /** The same for every try to take the file in: it is taken in once. */
  readonly key: string;
}

function TakeIn({ onTaken }: { readonly onTaken: () => void }) {
  const t = useWords(SHEET);
  const may = useMay();
  const tables = IN.filter((name) => name === 'lots' || may('plan'));
  const [table, setTable] = useState<(typeof IN)[number]>('lots');
  const [chosen, setChosen] = useState<Chosen>();
  const [answer, setAnswer] = useState<ImportAnswer>();
  const [error, setError] = useState<Refused | Unreached>();
  const [isBusy, setBusy] = useState(false);
  const send = async (to: string, { file, key }: Chosen, dryRun: boolean) => {
    setBusy(true);
    setError(undefined);
    try {
      const { body } = await ask<ImportAnswer>({
        method: 'POST',
        path: `/imports/${to}?dryRun=${dryRun}`,
        file,
        ...(!dryRun && { key }),
      });
      setAnswer(body);
      if (dryRun) return;
      setChosen(undefined);
      tellWritten();
      onTaken();
    } catch (caught) {
      if (!(caught instanceof Refused || caught instanceof Unreached)) throw caught;
      setError(caught);
    } finally {
      setBusy(false);
    }
  };
  const look = (to: string, next: Chosen | undefined) => {
    setChosen(next);
    setAnswer(undefined);
    setError(undefined);
    if (next) void send(to, next, true);
  };
  return (
    <section class="card form stock-form">
      <h2>{t.takeIn}</h2>
      <p class="hint">{t.takeInHint}</p>
      <div class="pair">
        <Choice
          label={t.table}
          value={table}
          onValue={(value) => {
            const next = value as typeof table;
            setTable(next);
            look(next, chosen);
          }}
          options={tables.map((value) => ({ value, says: t.tables[value] }))}
        />
        <Field label={t.file}>
          {(bound) => (
            <input
              type="file"
              accept=".csv,.xlsx,.txt"
              {...bound}
              // The same file, put right meanwhile, can be chosen again.
              onClick={(event) => {
                event.currentTarget.value = '';
              }}
              onChange={(event) => {
                const file = event.currentTarget.files?.[0];
                look(table, file && { file, key: newKey() });
              }}
            />
          )}
        </Field>
      </div>
      <ProblemNotice error={error} />
      {answer && <Outcome answer={answer} />}
      {chosen && answer && answer.counts.faults === 0 && answer.changes.length > 0 && (
        <div class="actions">
          <Button kind="main" isBusy={isBusy} onClick={() => void send(table, chosen, false)}>
            {t.takeNow(answer.counts.new + answer.counts.changed)}
          </Button>
        </div>
      )}
    </section>
  );
}

/** What a file would change or did, and by its cells what is wrong with it. */
function Outcome({
  answer: { counts, changes, faults, rows, dryRun, written },
}: {
  readonly answer: ImportAnswer;
}) {
  const t = useWords(STOCK);
  const w = useWords(SHEET);
  const say = useSay();
  const kind = counts.faults > 0 ? 'bad' : written ? 'good' : 'note';
  return (
    <div class="stack" role="status">
      <Notice kind={kind}>
        <strong>
          {counts.faults > 0
            ? w.cellsWrong(counts.faults)
            : written
              ? w.taken
              : dryRun && changes.length > 0
                ? w.wouldBe
                : w.nothingNew}
        </strong>{' '}
        {w.counts(rows, counts.new, counts.changed, counts.unchanged)}
      </Notice>
      {faults.length > 0 && (
        <Table
          caption={w.faultsOf}
          rows={faults}
          keyOf={(_, index) => index}
          columns={[
            { says: w.cell, isName: true, of: ({ address, row }) => address ?? row ?? w.header },
            { says: w.column, of: ({ field }) => field },
            { says: w.stands, of: ({ value }) => value ?? '–' },
            { says: w.wrong, of: ({ message }) => say(message) },
          ]}
        />
      )}
      {faults.length === 0 && changes.length > 0 && (
        <Table
          caption={w.changes}
          rows={changes}
          keyOf={({ row }) => row}
          columns={[
            { says: w.row, isName: true, of: ({ row }) => row },
            { says: t.what, of: ({ what }) => (what === 'new' ? w.isNew : w.isChanged) },
            { says: w.which, of: ({ id }) => id },
            { says: w.how, of: ({ says }) => say(says) },
          ]}
        />
      )}
    </div>
  );
}
