import { Read } from '../parts/states.tsx';
import { useAnswer } from '../service/answers.ts';
import type { SectionProps } from '../shell/section.ts';
import { useWords } from '../words/words.ts';
import type { Batch } from './batch.ts';
import './batches.css';
import './finish/finish.css';
import './test/test.css';
import './weigh/keypad.css';
import './weigh/weigh.css';
import { Finish } from './finish/finish.tsx';
import { List } from './list.tsx';
import { Overview } from './overview.tsx';
import { FatTest } from './test/fat-test.tsx';
import { BatchPlaces } from './top.tsx';
import { RefusedOf } from './weigh/refused.tsx';
import { Weigh } from './weigh/weigh.tsx';
import { BATCHES } from './words.ts';

/** Two tablets may work on one batch: each sees within seconds what the other did. */
const AGAIN_MS = 4_000;

export default function Section({ place }: SectionProps) {
  const [id, part] = place.parts;
  if (id === undefined) return <List />;
  return <OneBatch key={id} id={id} part={part} query={place.query} />;
}

function OneBatch({
  id,
  part,
  query,
}: {
  readonly id: string;
  readonly part: string | undefined;
  readonly query: URLSearchParams;
}) {
  const t = useWords(BATCHES);
  const reading = useAnswer<Batch>(`/batches/${encodeURIComponent(id)}`, { everyMs: AGAIN_MS });
  return (
    <div class="batch">
      <div class="batch-top">
        <h1>
          {t.batch(id)}
          {reading.body && <span class="batch-product"> {reading.body.product.name}</span>}
        </h1>
        <BatchPlaces id={id} part={part} />
      </div>
      {part === 'weigh' && !reading.body && reading.error && <RefusedOf batchId={id} />}
      <Read of={reading}>
        {(batch) => {
          if (part === 'weigh') return <Weigh batch={batch} query={query} />;
          if (part === 'test') return <FatTest batch={batch} />;
          if (part === 'finish') return <Finish batch={batch} />;
          return <Overview batch={batch} />;
        }}
      </Read>
    </div>
  );
}
