import type { LotAnswer } from '../../../api/contract/lots.ts';
import { useShow } from '../../figures/show.ts';
import { Facts } from '../../parts/facts.tsx';
import { Notice } from '../../parts/notice.tsx';
import { useAnswer } from '../../service/answers.ts';
import { useSay } from '../../words/say.ts';
import { useWords } from '../../words/words.ts';
import { BATCHES } from '../words.ts';
import type { Spot } from './spots.ts';
import { WEIGH } from './words.ts';

/** Which line it is; a cure says what a cure asks for. */
export function NameOfLine({ spot: { line, load } }: { readonly spot: Spot }) {
  const t = useWords(WEIGH);
  const b = useWords(BATCHES);
  const say = useSay();
  return (
    <>
      <h2>
        <span class="aside">{`${t.line(line.number)} · ${b.load(load)}`}</span>
        {say(line.material)}
      </h2>
      {line.cure && (
        <Notice kind="caution">
          <strong>{t.cureCaution}</strong>
        </Notice>
      )}
    </>
  );
}

/** What to fetch, from where, and on which scale it is weighed; of another lot the place is looked up. */
export function WhatToFetch({ spot: { line }, lotId }: { readonly spot: Spot; readonly lotId: string }) {
  const t = useWords(WEIGH);
  const say = useSay();
  const show = useShow();
  const { boxes, drafts = 1, perLoad } = line;
  const isLarge = perLoad.unit === 'lb' || perLoad.unit === 'kg';
  const boxText = () => {
    if (!boxes || !isLarge) return undefined;
    const rest = boxes.rest.kg > 0.0005 ? show.mass(boxes.rest.kg, 1) : undefined;
    if (rest === undefined) return t.wholeBoxes(boxes.full);
    return boxes.full === 0 ? t.part(rest) : t.boxesOf(boxes.full, rest);
  };
  const isPlanned = lotId === '';
  const other = useAnswer<LotAnswer>(isPlanned ? undefined : `/lots/${lotId}`);
  return (
    <Facts
      look="weigh-facts"
      facts={[
        [t.lot, isPlanned ? (line.lotId ?? t.noLot) : t.instead(lotId)],
        [t.where, isPlanned ? line.location : other.body?.location],
        [t.boxes, isPlanned && boxText()],
        [t.scale, drafts > 1 ? `${say(line.scale)}, ${t.drafts(drafts)}` : say(line.scale)],
      ]}
    />
  );
}
