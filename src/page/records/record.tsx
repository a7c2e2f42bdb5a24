import type { RecordAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Facts } from '../parts/facts.tsx';
import { Notice } from '../parts/notice.tsx';
import { Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import { to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { CorrectionForm } from './correction-form.tsx';
import { Everything } from './everything.tsx';
import { PaperButtons } from './papers.tsx';
import { RecordBody } from './record-body.tsx';
import { RECORDS } from './words.ts';

/** One sealed record with everything in it, what seals it and what sets it right. */
export function RecordPlace({ seq }: { readonly seq: string }) {
  const t = useWords(RECORDS);
  const reading = useAnswer<RecordAnswer>(`/records/${encodeURIComponent(seq)}`);
  return (
    <>
      {!reading.body && <h1>{t.number(seq)}</h1>}
      <Read of={reading}>{(record) => <RecordSeen record={record} />}</Read>
    </>
  );
}

function RecordSeen({ record }: { readonly record: RecordAnswer }) {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const may = useMay();
  const { seq, kind, subjectId, day, sealed, by, corrects, correctedBy, entry, body } = record;
  const paper = { batch: `/batches/${subjectId}/sheet`, 'recall drill': `/recall-drills/${subjectId}` }[kind];
  const known = t.kinds[kind as keyof typeof t.kinds] ?? kind;
  return (
    <>
      <h1>
        {t.number(seq)}: {known} {kind === 'correction' ? '' : subjectId}
      </h1>
      <div class="row wrap noprint">
        <Button onClick={() => print()}>{c.print}</Button>
        {paper !== undefined && <PaperButtons path={paper} {...(kind === 'batch' && { says: t.sheetPdf })} />}
      </div>
      {correctedBy.length > 0 && (
        <Notice kind="caution">
          <p>
            <strong>{t.corrected}</strong>
          </p>
          {correctedBy.map((one) => (
            <CorrectionSeen key={one} seq={one} />
          ))}
        </Notice>
      )}
      <section class="card stack">
        <Facts
          facts={[
            [c.date, show.day(day)],
            [t.sealed, show.instant(sealed.at)],
            [c.who, by],
            [t.about, <Subject key="subject" kind={kind} id={subjectId} />],
            [
              t.corrects,
              corrects === undefined ? undefined : (
                <a class="tap" href={to('records', corrects)}>
                  {t.number(corrects)}
                </a>
              ),
            ],
          ]}
        />
        <RecordBody record={record} />
      </section>
      <Everything body={body} />
      {entry && (
        <section class="card stack">
          <h2>{t.seal}</h2>
          <p class="hint">{t.sealSays}</p>
          <Facts
            facts={[
              [t.entry, `${entry.seq}: ${say(entry.says)}`],
              [t.recordHash, <Hash key="row" of={entry.rowHash} />],
              [t.hash, <Hash key="hash" of={entry.hash} />],
              [t.previousHash, <Hash key="before" of={entry.previousHash} />],
            ]}
          />
        </section>
      )}
      {may('plan') && <CorrectionForm record={record} />}
    </>
  );
}

const Hash = ({ of }: { readonly of: string }) => <code class="hash">{of}</code>;

function Subject({ kind, id }: { readonly kind: string; readonly id: string }) {
  if (kind === 'batch')
    return (
      <a class="tap" href={to('batches', id)}>
        {id}
      </a>
    );
  if (kind === 'recall drill')
    return (
      <a class="tap" href={to('records', 'drill', id)}>
        {id}
      </a>
    );
  return <>{id}</>;
}

/** A correction as it stands beside what it sets right. */
function CorrectionSeen({ seq }: { readonly seq: number }) {
  const t = useWords(RECORDS);
  const reading = useAnswer<RecordAnswer>(`/records/${seq}`);
  return (
    <Read of={reading}>
      {({ body, by, sealed }) => {
        const { reason, corrects } = body as { readonly reason: string; readonly corrects: string };
        return (
          <div class="correction">
            <p class="asis">{corrects}</p>
            <p>
              {reason} ({by}, {sealed.shown}){' '}
              <a class="tap" href={to('records', seq)}>
                {t.number(seq)}
              </a>
            </p>
          </div>
        );
      }}
    </Read>
  );
}
