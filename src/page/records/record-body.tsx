import type { BatchAnswer } from '../../api/batches/contract.ts';
import type { DrillAnswer, RecordAnswer, WhereaboutsAnswer } from '../../api/records/contract.ts';
import { useShow } from '../figures/show.ts';
import { Facts } from '../parts/facts.tsx';
import { to } from '../shell/place.ts';
import { COMMON } from '../words/common.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import { BatchRecord } from './batch-record.tsx';
import { Whereabouts } from './whereabouts.tsx';
import { RECORDS } from './words.ts';

interface CleaningBody {
  readonly equipment: readonly string[];
  readonly what: 'cleaned' | 'cleaned and sanitized';
  readonly at: string;
  readonly note?: string;
}

interface CorrectionBody {
  readonly reason: string;
  readonly corrects: string;
}

type DrillBody = { readonly whereabouts: WhereaboutsAnswer; readonly units: 'lb' | 'kg' } & Partial<
  DrillAnswer & NonNullable<DrillAnswer['finished']> & { readonly part: 'start' | 'finish' }
>;

/** What a record says, by what it is of. */
export function RecordBody({ record: { kind, body, subjectId } }: { readonly record: RecordAnswer }) {
  if (kind === 'batch') {
    return (
      <BatchRecord batch={body as BatchAnswer & { readonly reviewedBy: string; readonly note?: string }} />
    );
  }
  if (kind === 'cleaning') return <CleaningSeen body={body as CleaningBody} />;
  if (kind === 'recall drill') return <DrillSeen body={body as DrillBody} id={subjectId} />;
  return <CorrectionText body={body as CorrectionBody} />;
}

function CleaningSeen({ body: { equipment, what, at, note } }: { readonly body: CleaningBody }) {
  const t = useWords(RECORDS);
  const show = useShow();
  return (
    <Facts
      facts={[
        [t.equipment, equipment.join(', ')],
        [t.what, what === 'cleaned' ? t.cleaned : t.sanitized],
        [t.when, show.instant(at)],
        [t.note, note],
      ]}
    />
  );
}

function CorrectionText({ body: { reason, corrects } }: { readonly body: CorrectionBody }) {
  const c = useWords(COMMON);
  return (
    <>
      <p class="asis">{corrects}</p>
      <Facts facts={[[c.reason, reason]]} />
    </>
  );
}

function DrillSeen({ body, id }: { readonly body: DrillBody; readonly id: string }) {
  const t = useWords(RECORDS);
  const c = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  return (
    <>
      <Facts
        facts={[
          [t.part, body.part === 'finish' ? t.drillEnd : t.drillStart],
          [t.startBy, body.start && say(body.start.says)],
          [c.reason, body.reason],
          [t.minutes, body.minutes === undefined ? undefined : show.number(body.minutes, 1)],
          [t.note, body.note],
        ]}
      />
      <Whereabouts where={body.whereabouts} percent={body.percentAccounted} />
      <p>
        <a class="tap" href={to('records', 'drill', id)}>
          {t.toDrill}
        </a>
      </p>
    </>
  );
}
