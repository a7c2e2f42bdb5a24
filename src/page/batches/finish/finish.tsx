import { Go } from '../../parts/button.tsx';
import { Nothing } from '../../parts/states.tsx';
import { to } from '../../shell/place.ts';
import { useWords } from '../../words/words.ts';
import type { Batch } from '../batch.ts';
import { CameOut } from '../came-out.tsx';
import { Cautions } from '../part.tsx';
import { BATCHES } from '../words.ts';
import { Close } from './close.tsx';
import { EnterCameOut } from './enter.tsx';
import { Packs } from './packs.tsx';
import { SetAside } from './set-aside.tsx';
import { FINISH } from './words.ts';

/** What came out of a batch, its packs, and the end of it. */
export function Finish({ batch }: { readonly batch: Batch }) {
  const t = useWords(FINISH);
  const b = useWords(BATCHES);
  const { finished, next, id } = batch;
  if (!finished) {
    if (next.includes('finished')) return <EnterCameOut batch={batch} />;
    return (
      <Nothing>
        <p>{batch.state === 'cancelled' ? b.states.cancelled : t.notYet}</p>
        {batch.state !== 'cancelled' && <Go href={to('batches', id, 'weigh')}>{t.toWeigh}</Go>}
      </Nothing>
    );
  }
  return (
    <div class="stack">
      <Cautions batch={batch} />
      <div class="batch-halves">
        <div class="stack">
          <CameOut batch={batch} finished={finished} />
          <Close batch={batch} />
        </div>
        <div class="stack">
          {next.includes('packed') && <Packs batch={batch} />}
          {next.includes('set aside') && <SetAside batch={batch} />}
        </div>
      </div>
    </div>
  );
}
