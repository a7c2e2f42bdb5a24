import type { LotAnswer } from '../../../api/contract/lots.ts';
import { parseNumber } from '../../figures/number.ts';
import { useShow } from '../../figures/show.ts';
import { Button } from '../../parts/button.tsx';
import { Choice } from '../../parts/choice.tsx';
import { DayField } from '../../parts/field.tsx';
import { ProblemNotice, useFieldFault } from '../../parts/notice.tsx';
import { MassField, NumberField, type TypedMass } from '../../parts/number-field.tsx';
import { useAnswer } from '../../service/answers.ts';
import { useDraft } from '../../service/draft.ts';
import { useSending } from '../../service/sending.ts';
import { useDevice } from '../../shell/device.ts';
import { useMay } from '../../shell/plant.ts';
import { useWords } from '../../words/words.ts';
import type { Batch } from '../batch.ts';
import { scaleWeight } from './form.ts';
import { FINISH } from './words.ts';

/** The packs of a product, as far as a pack needs them. */
interface Formats {
  readonly label?: {
    readonly packs?: readonly {
      readonly id: string;
      readonly netWeight?: { readonly value: string | number; readonly unit: string };
    }[];
  };
}

const SHOWN = ['/packs/0/count', '/packs/0/net', '/packs/0/filled', '/packs/0/useByDate'];

/** Packs out of the product, a format at a time. */
export function Packs({ batch }: { readonly batch: Batch }) {
  const t = useWords(FINISH);
  const show = useShow();
  const may = useMay();
  const { mark } = useDevice();
  const product = useAnswer<Formats>(`/products/${encodeURIComponent(batch.product.id)}`);
  const bulk = useAnswer<LotAnswer>(`/lots/${encodeURIComponent(batch.id)}`);
  const formats = product.body?.label?.packs ?? [];
  const name = `pack ${batch.id}`;
  const empty: TypedMass = { text: '', unit: batch.units };
  const draft = useDraft(name, {
    format: formats[0]?.id ?? '',
    count: '',
    net: empty,
    filled: empty,
    useBy: '',
  });
  const { send, isSending, error } = useSending(name);
  const fault = useFieldFault(error);
  if (!may('work')) return null;
  const { format, count, net, filled, useBy } = draft.value;
  const chosen = formats.find(({ id }) => id === format);
  const parsed = parseNumber(count, mark);
  const filledWeight = scaleWeight(filled, mark);
  const netWeight = chosen ? undefined : scaleWeight(net, mark);
  const isFilledNeeded = chosen !== undefined && chosen.netWeight === undefined;
  const isReady =
    parsed.kind === 'number' && (chosen ? !isFilledNeeded || filledWeight : netWeight) !== undefined;
  const pack = async () => {
    if (parsed.kind !== 'number') return;
    const one = {
      count: parsed.value,
      ...(chosen && { format: chosen.id }),
      ...(netWeight && { net: netWeight }),
      ...(filledWeight && { filled: filledWeight }),
      ...(useBy !== '' && { useByDate: useBy }),
    };
    if (await send({ path: `/batches/${batch.id}/packs`, body: { packs: [one] } })) draft.clear();
  };
  return (
    <form
      class="card form"
      onSubmit={(event) => {
        event.preventDefault();
        void pack();
      }}
    >
      <h2>{t.packs}</h2>
      {bulk.body && <p>{t.left(show.mass(bulk.body.free.kg))}</p>}
      {formats.length > 0 && (
        <Choice
          label={t.format}
          value={chosen ? format : ''}
          onValue={(taken) => draft.set({ format: taken })}
          options={[
            ...formats.map(({ id, netWeight: declared }) => ({
              value: id,
              says: `${id}, ${declared ? t.each(`${show.digits(String(declared.value))} ${declared.unit}`) : t.byWeight}`,
            })),
            { value: '', says: t.other },
          ]}
        />
      )}
      <div class="pair">
        <NumberField
          label={t.count}
          value={count}
          onValue={(typed) => draft.set({ count: typed })}
          error={fault('/packs/0/count')}
        />
        {!chosen && (
          <MassField
            label={t.net}
            value={net}
            onValue={(typed) => draft.set({ net: typed })}
            error={fault('/packs/0/net', '/packs/0/net/value')}
          />
        )}
      </div>
      <div class="pair">
        <MassField
          label={t.filled}
          hint={t.filledHint}
          isOptional={!isFilledNeeded}
          value={filled}
          onValue={(typed) => draft.set({ filled: typed })}
          error={fault('/packs/0/filled', '/packs/0/filled/value')}
        />
        <DayField
          label={t.useBy}
          isOptional
          value={useBy}
          onValue={(typed) => draft.set({ useBy: typed })}
          error={fault('/packs/0/useByDate')}
        />
      </div>
      <ProblemNotice error={error} shownPointers={SHOWN} />
      <div class="actions">
        <Button kind="main" type="submit" isBusy={isSending} disabled={!isReady}>
          {t.pack}
        </Button>
      </div>
    </form>
  );
}
