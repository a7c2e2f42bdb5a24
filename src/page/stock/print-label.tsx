import { parseMass } from '../figures/mass.ts';
import { parseNumber } from '../figures/number.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { Dialog } from '../parts/dialog.tsx';
import { ProblemNotice, useFieldFault } from '../parts/notice.tsx';
import { MassField, NumberField, type TypedMass } from '../parts/number-field.tsx';
import { queryOf } from '../service/ask.ts';
import { useDraft } from '../service/draft.ts';
import { usePapers } from '../service/papers.ts';
import { useDevice } from '../shell/device.ts';
import { COMMON } from '../words/common.ts';
import { useWords } from '../words/words.ts';
import { LOT } from './lot-words.ts';
import type { LotAnswer } from './stock-types.ts';

/** Labels of a lot of packs, as a PDF in a tab of its own. */
export function PrintLabel({ lot, onClose }: { readonly lot: LotAnswer; readonly onClose: () => void }) {
  const t = useWords(LOT);
  const c = useWords(COMMON);
  const show = useShow();
  const { mark } = useDevice();
  const net: TypedMass = { text: '', unit: show.units };
  const draft = useDraft(`label ${lot.id}`, { copies: '1', net });
  const papers = usePapers();
  const fault = useFieldFault(papers.error);
  const print = () => {
    const { copies, net: typed } = draft.value;
    const [count, weighed] = [parseNumber(copies, mark), parseMass(typed.text, typed.unit, mark)];
    const query = queryOf({
      copies: count.kind === 'number' ? count.text : copies,
      ...(weighed.kind === 'mass' && { net: weighed.text, unit: weighed.unit }),
    });
    void papers.show({ path: `/lots/${encodeURIComponent(lot.id)}/label${query}` });
  };
  return (
    <Dialog title={t.labelOf(lot.id)} onClose={onClose}>
      <form
        class="form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          print();
        }}
      >
        <div class="pair">
          <NumberField
            label={t.copies}
            error={fault('/copies')}
            value={draft.value.copies}
            onValue={(copies) => draft.set({ copies })}
          />
          <MassField
            label={t.weighedNet}
            isOptional
            hint={t.weighedNetHint}
            error={fault('/net', '/unit')}
            value={draft.value.net}
            onValue={(typed) => draft.set({ net: typed })}
          />
        </div>
        <ProblemNotice error={papers.error} shownPointers={['/copies', '/net', '/unit']} />
        <div class="actions">
          <Button onClick={onClose}>{c.close}</Button>
          <Button kind="main" type="submit" isBusy={papers.isFetching}>
            {c.print}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
