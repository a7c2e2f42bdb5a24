import { OneOf } from '../parts/choice.tsx';
import { TextField } from '../parts/field.tsx';
import { useAnswer } from '../service/answers.ts';
import { useWords } from '../words/words.ts';
import { STARTS, type Start, type StartBy } from './start.ts';
import { TRACE } from './trace-words.ts';
import { RECORDS } from './words.ts';

interface Lots {
  readonly items: readonly { readonly id: string; readonly supplierLot?: string }[];
}

/** Asks for one of our lots, a supplier's lot or a batch; lots that the plant has had are offered. */
export function StartFields({
  start,
  onStart,
  error,
}: {
  readonly start: Start;
  readonly onStart: (start: Start) => void;
  readonly error?: string | undefined;
}) {
  const t = useWords(RECORDS);
  const w = useWords(TRACE);
  const lots = useAnswer<Lots>('/lots?onHand=any&limit=500');
  const batches = useAnswer<Lots>('/batches?limit=200');
  const offered = {
    lot: lots.body?.items.map(({ id }) => id),
    supplierLot: lots.body?.items.flatMap(({ supplierLot }) => supplierLot ?? []),
    batch: batches.body?.items.map(({ id }) => id),
  }[start.by];
  return (
    <>
      <OneOf
        label={t.startBy}
        value={start.by}
        onValue={(by) => onStart({ ...start, by: by as StartBy })}
        options={STARTS.map((by) => ({ value: by, says: t.starts[by] }))}
      />
      <div class="pair">
        <TextField
          label={t.starts[start.by]}
          value={start.id}
          onValue={(id) => onStart({ ...start, id })}
          list="records-starts"
          error={error}
          required
        />
        {start.by === 'supplierLot' && (
          <TextField
            label={w.supplierEst}
            isOptional
            value={start.supplier}
            onValue={(supplier) => onStart({ ...start, supplier })}
          />
        )}
      </div>
      <datalist id="records-starts">
        {[...new Set(offered ?? [])].map((id) => (
          <option key={id} value={id} />
        ))}
      </datalist>
    </>
  );
}
