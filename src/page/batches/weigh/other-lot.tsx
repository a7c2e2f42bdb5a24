import type { ComponentProps } from 'preact';
import { useState } from 'preact/hooks';
import type { z } from 'zod';
import type { lotsAnswer } from '../../../api/contract/lots.ts';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { Dialog } from '../../parts/dialog.tsx';
import { Read } from '../../parts/states.tsx';
import { useAnswer } from '../../service/answers.ts';
import { queryOf } from '../../service/ask.ts';
import { COMMON } from '../../words/common.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import type { Line } from '../batch.ts';
import { WEIGH } from './words.ts';

interface Props {
  readonly line: Line;
  readonly day: string;
  /** The one that was taken; empty for the planned one. */
  readonly lotId: string;
  readonly onTake: (lotId: string) => void;
}

/** The planned lot is empty, or not there: another one of the material. */
export function OtherLot(props: Props) {
  const t = useWords(WEIGH);
  const [isOpen, setOpen] = useState(false);
  const { line, lotId, onTake } = props;
  return (
    <div class="row wrap">
      <Button onClick={() => setOpen(true)}>{t.otherLot}</Button>
      {lotId !== '' && <Button onClick={() => onTake('')}>{t.plannedLot(line.lotId ?? '')}</Button>}
      {isOpen && <Lots {...props} onClose={() => setOpen(false)} />}
    </div>
  );
}

function Lots({ line, day, onTake, onClose }: Props & Pick<ComponentProps<typeof Dialog>, 'onClose'>) {
  const t = useWords(WEIGH);
  const common = useWords(COMMON);
  const show = useShow();
  const say = useSay();
  const lots = useAnswer<z.output<typeof lotsAnswer>>(
    `/lots${queryOf({ materialId: line.materialId, held: false, usableOn: day })}`,
  );
  return (
    <Dialog title={t.otherLotFor(say(line.material))} onClose={onClose}>
      <Read of={lots}>
        {({ items }) => {
          const free = items.filter((lot) => lot.id !== line.lotId && lot.free.kg > 0);
          if (free.length === 0) return <p>{t.noOther}</p>;
          return (
            <ul class="weigh-lots">
              {free.map(({ id, free: there, location, useByDate }) => (
                <li key={id}>
                  <Button
                    label={t.take(id)}
                    onClick={() => {
                      onTake(id);
                      onClose();
                    }}
                  >
                    {id}
                  </Button>
                  <span>
                    {t.free(show.mass(there.kg, 1))} · {location}{' '}
                    {useByDate !== undefined && (
                      <span class="aside">{t.useBy(show.shortDay(useByDate))}</span>
                    )}
                  </span>
                </li>
              ))}
            </ul>
          );
        }}
      </Read>
      <div class="actions">
        <Button onClick={onClose}>{common.close}</Button>
      </div>
    </Dialog>
  );
}
