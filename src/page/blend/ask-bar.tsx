import { useState } from 'preact/hooks';
import type { BatchAnswer } from '../../api/batches/contract.ts';
import { Button } from '../parts/button.tsx';
import { Choice } from '../parts/choice.tsx';
import { DayField } from '../parts/field.tsx';
import { Notice, ProblemNotice } from '../parts/notice.tsx';
import { MassField, NumberField } from '../parts/number-field.tsx';
import { useTell } from '../parts/told.tsx';
import { Refused } from '../service/ask.ts';
import { sendOnce, useSending } from '../service/sending.ts';
import { go, to } from '../shell/place.ts';
import { useHere, useMay } from '../shell/plant.ts';
import { useSay } from '../words/say.ts';
import { useWords } from '../words/words.ts';
import {
  type Asking,
  type Blend,
  type BlendBody,
  isTrial,
  NOT_TRIED,
  planOf,
  SIZE_BYS,
  type SizeBy,
} from './asking.ts';
import { KeepTrial } from './keep-trial.tsx';
import { fatLimitIds, type ProductSeen, type ProductsSeen } from './product-seen.ts';
import { BLEND } from './words.ts';

/** What is asked: product, size, and what else somebody wants of the choice of lots; and the button that plans it. */
export function AskBar({
  products,
  product,
  asking,
  onAsk,
  body,
  blend,
  onStale,
}: {
  readonly products: ProductsSeen;
  readonly product: ProductSeen;
  readonly asking: Asking;
  readonly onAsk: (change: Partial<Asking>) => void;
  readonly body: BlendBody | undefined;
  /** The blend of exactly what is asked, once it is there. */
  readonly blend: Blend | undefined;
  readonly onStale: () => void;
}) {
  const t = useWords(BLEND);
  const may = useMay();
  const trial = isTrial(asking);
  return (
    <section class="blend-ask card" aria-label={t.asked}>
      <div class="blend-asked">
        <Choice
          label={t.product}
          value={product.id}
          onValue={(productId) => onAsk({ productId, ...NOT_TRIED, excluded: [] })}
          options={products.items.map(({ id, name }) => ({ value: id, says: name }))}
        />
        <Size asking={asking} onAsk={onAsk} hasPieces={product.form.pieceMass !== undefined} />
        {may('plan') && <Plan body={body} blend={blend} isTrial={trial} onStale={onStale} />}
      </div>
      <Wishes product={product} asking={asking} onAsk={onAsk} />
      {trial && (
        <Notice kind="caution">
          <p>{t.trialSays}</p>
          <div class="row wrap">
            <Button onClick={() => onAsk(NOT_TRIED)}>{t.trialOff}</Button>
            <KeepTrial
              product={product}
              version={products.versions[product.id]}
              asking={asking}
              onAsk={onAsk}
            />
          </div>
        </Notice>
      )}
    </section>
  );
}

function Size({
  asking,
  onAsk,
  hasPieces,
}: {
  readonly asking: Asking;
  readonly onAsk: (change: Partial<Asking>) => void;
  readonly hasPieces: boolean;
}) {
  const t = useWords(BLEND);
  const bys = SIZE_BYS.filter((by) => by !== 'pieces' || hasPieces);
  return (
    <>
      {asking.sizeBy === 'pieces' ? (
        <NumberField
          label={t.size}
          value={asking.sizeText}
          onValue={(sizeText) => onAsk({ sizeText })}
          after={t.pieces}
        />
      ) : (
        <MassField
          label={t.size}
          value={{ text: asking.sizeText, unit: asking.sizeUnit }}
          onValue={({ text, unit }) => onAsk({ sizeText: text, sizeUnit: unit })}
          units={['lb', 'kg']}
        />
      )}
      <Choice
        label={t.by}
        value={asking.sizeBy}
        onValue={(sizeBy) => onAsk({ sizeBy: sizeBy as SizeBy })}
        options={bys.map((by) => ({ value: by, says: t.bys[by] }))}
      />
    </>
  );
}

function Wishes({
  product,
  asking,
  onAsk,
}: {
  readonly product: ProductSeen;
  readonly asking: Asking;
  readonly onAsk: (change: Partial<Asking>) => void;
}) {
  const t = useWords(BLEND);
  const { plant } = useHere();
  const options = (of: Readonly<Record<string, string>>) =>
    Object.entries(of)
      .map(([value, says]) => ({ value, says }))
      .sort((a, b) => Number(b.value === 'none') - Number(a.value === 'none'));
  return (
    <details class="blend-wishes">
      <summary>{t.more}</summary>
      <div class="form">
        <div class="pair">
          <DayField
            label={t.day}
            value={asking.day || plant.today}
            onValue={(day) => onAsk({ day: day === plant.today ? '' : day })}
          />
          {fatLimitIds(product).length > 0 && (
            <Choice
              label={t.sure}
              value={asking.sure}
              onValue={(sure) => onAsk({ sure: sure as Asking['sure'] })}
              options={options(t.sureOf)}
            />
          )}
          <Choice
            label={t.boxes}
            value={asking.boxes}
            onValue={(boxes) => onAsk({ boxes: boxes as Asking['boxes'] })}
            options={options(t.boxesOf)}
          />
          <Choice
            label={t.older}
            value={asking.older}
            onValue={(older) => onAsk({ older: older as Asking['older'] })}
            options={options(t.olderOf)}
          />
        </div>
      </div>
    </details>
  );
}

function Plan({
  body,
  blend,
  isTrial: trial,
  onStale,
}: {
  readonly body: BlendBody | undefined;
  readonly blend: Blend | undefined;
  readonly isTrial: boolean;
  readonly onStale: () => void;
}) {
  const t = useWords(BLEND);
  const tell = useTell();
  const say = useSay();
  const [isStale, setStale] = useState(false);
  const { send, isSending, error } = useSending('plan');
  const plan = async () => {
    if (!body || !blend) return;
    setStale(false);
    const answered = await send<BatchAnswer>({ path: '/batches', body: planOf(body, blend.fingerprint) });
    if (!answered) return setStale(true);
    const { id } = answered.body;
    tell({
      says: t.planned(id),
      undo: () =>
        cancel(id).catch((failed: unknown) => tell({ says: say(String((failed as Error).message)) })),
    });
    go(to('batches', id));
  };
  return (
    <div class="blend-plan">
      <Button kind="main" onClick={plan} isBusy={isSending} disabled={!blend || trial}>
        {t.plan}
      </Button>
      {isStale && error && (
        <>
          <ProblemNotice error={error} />
          {error instanceof Refused && error.problem.status === 409 && (
            <Button
              onClick={() => {
                setStale(false);
                onStale();
              }}
            >
              {t.newBlend}
            </Button>
          )}
        </>
      )}
    </div>
  );
}

/** Takes a plan back that was just made. */
async function cancel(id: string): Promise<void> {
  await sendOnce(`cancel ${id}`, {
    path: `/batches/${id}/cancellation`,
    body: { reason: 'taken back at once' },
  });
  go(to('blend'));
}
