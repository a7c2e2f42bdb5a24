import type { CorrectionAnswer } from '../../../api/contract/correction.ts';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { ProblemNotice } from '../../parts/notice.tsx';
import { useSending } from '../../service/sending.ts';
import { go, to } from '../../shell/place.ts';
import { useMay } from '../../shell/plant.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import type { Batch } from '../batch.ts';
import { FatPicture } from './fat-picture.tsx';
import { fatWindow } from './fat-window.ts';
import { TEST } from './words.ts';

export interface Asking {
  readonly load: number;
  readonly confidence?: number;
  readonly excludeLots?: readonly string[];
}

/** One way to bring a load back: what is added, what it costs, and what it does. */
export function Addition({
  batch,
  title,
  asking,
  found,
}: {
  readonly batch: Batch;
  readonly title: string;
  readonly asking: Asking;
  readonly found: Extract<CorrectionAnswer, { outcome: 'additions' }>;
}) {
  const t = useWords(TEST);
  const say = useSay();
  const show = useShow();
  const may = useMay();
  const { send, isSending, error } = useSending(`correct ${batch.id} ${title}`);
  const window = fatWindow(found.before.checks, found.after.checks);
  const accept = async () => {
    const path = `/batches/${batch.id}/corrections`;
    if (!(await send({ path, body: asking, version: batch.version }))) return;
    go(`${to('batches', batch.id, 'weigh')}?load=${asking.load}`);
  };
  return (
    <section class="card stack" aria-label={title}>
      <h3>{title}</h3>
      <ul class="test-added">
        {found.lines.map(({ supplyId, weight, material, lotId, location }) => (
          <li key={supplyId}>
            <strong>{t.add(`+ ${show.digits(weight.text)} ${weight.unit}`, say(material))}</strong>{' '}
            <span class="aside">
              {lotId} {location}
            </span>
          </li>
        ))}
      </ul>
      <p>
        {t.costs} <strong>{show.money(found.cost)}</strong>;{' '}
        {t.makes(show.mass(found.after.total.kg, 1), show.mass(found.roomLeft.kg, 0))}
      </p>
      {window && <FatPicture window={window} />}
      <ProblemNotice error={error} />
      {may('work') && (
        <Button kind="main" isBusy={isSending} onClick={() => void accept()}>
          {t.accept}
        </Button>
      )}
    </section>
  );
}
