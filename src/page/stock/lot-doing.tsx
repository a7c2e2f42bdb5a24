import { go, to } from '../shell/place.ts';
import { useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import { ChangeLot } from './change-lot.tsx';
import { ReasonDialog, TestLot } from './lot-acts.tsx';
import { LOT } from './lot-words.ts';
import { MOVES, MoveLot } from './move-lot.tsx';
import { PrintLabel } from './print-label.tsx';
import type { WholeLotAnswer } from './stock-types.ts';

/** The window of what is being done, which the address names: a reload opens it again, with what was typed. */
export function Doing({
  act,
  lot,
  version,
  again,
}: {
  readonly act: string;
  readonly lot: WholeLotAnswer;
  readonly version: number | undefined;
  readonly again: () => void;
}) {
  const t = useWords(LOT);
  const may = useMay();
  const onClose = () => go(to('stock', lot.id));
  const path = `/lots/${encodeURIComponent(lot.id)}`;
  if (act === 'label' && lot.packs) return <PrintLabel lot={lot} onClose={onClose} />;
  if (!may('work')) return null;
  const move = MOVES.find((kind) => kind === act);
  const given = { lot, version, again, onClose };
  if (move) return <MoveLot key={move} kind={move} {...given} />;
  if (act === 'change') return <ChangeLot {...given} />;
  if (act === 'test') return <TestLot lot={lot} onClose={onClose} />;
  if (act === 'hold')
    return (
      <ReasonDialog
        title={t.holdTitle(lot.id)}
        says={t.holdSays}
        does={t.hold}
        isGrave
        path={`${path}/hold`}
        told={t.heldNow(lot.id)}
        onClose={onClose}
      />
    );
  if (act === 'release' && may('plan'))
    return (
      <ReasonDialog
        title={t.releaseTitle(lot.id)}
        says={lot.held ?? ''}
        does={t.release}
        path={`${path}/release`}
        told={t.releasedNow(lot.id)}
        onClose={onClose}
      />
    );
  return null;
}
