import { fractionOfPercent } from '../../units.ts';
import { useShow } from '../figures/show.ts';
import { Button } from '../parts/button.tsx';
import { ProblemNotice } from '../parts/notice.tsx';
import { useTell } from '../parts/told.tsx';
import { ask, Refused, Unreached } from '../service/ask.ts';
import { useSending } from '../service/sending.ts';
import { useMay } from '../shell/plant.ts';
import { useWords } from '../words/words.ts';
import type { Asking } from './asking.ts';
import { type ProductSeen, targetEnds } from './product-seen.ts';
import { BLEND } from './words.ts';

/** Makes figures that were tried the plant's own: prices at their lots, targets in the product. */
export function KeepTrial({
  product,
  version,
  asking,
  onAsk,
}: {
  readonly product: ProductSeen;
  readonly version: number | undefined;
  readonly asking: Asking;
  readonly onAsk: (change: Partial<Asking>) => void;
}) {
  const t = useWords(BLEND);
  const show = useShow();
  const may = useMay();
  const tell = useTell();
  const { send, isSending, error } = useSending('keep trial');
  if (!may('plan')) return null;
  const keepPrice = async (lotId: string, cost: Asking['prices'][string]) => {
    const path = `/lots/${encodeURIComponent(lotId)}`;
    const lot = await ask({ path }).catch((caught: unknown) => {
      if (caught instanceof Refused || caught instanceof Unreached) return undefined;
      throw caught;
    });
    const kept = await send({
      method: 'PATCH',
      path,
      body: { cost },
      ...(lot?.version !== undefined && { version: lot.version }),
    });
    if (!kept) return;
    const { [lotId]: _, ...prices } = asking.prices;
    onAsk({ prices });
    tell({ says: t.kept });
  };
  const keepTargets = async () => {
    const kept = await send({
      method: 'PUT',
      path: `/products/${encodeURIComponent(product.id)}`,
      body: withTargets(product, asking.bounds),
      ...(version !== undefined && { version }),
    });
    if (!kept) return;
    onAsk({ bounds: {} });
    tell({ says: t.kept });
  };
  const hasTargets = targetEnds(product).some(({ limitId }) => asking.bounds[limitId] !== undefined);
  return (
    <>
      {hasTargets && (
        <Button onClick={keepTargets} isBusy={isSending}>
          {t.keepTarget}
        </Button>
      )}
      {Object.entries(asking.prices).map(([lotId, cost]) => (
        <Button key={lotId} onClick={() => void keepPrice(lotId, cost)} isBusy={isSending}>
          {t.keepPrice(lotId, `${show.money(cost.amount)}/${cost.per}`)}
        </Button>
      ))}
      <ProblemNotice error={error} />
    </>
  );
}

/** The product with the bounds that were tried in its targets. */
export function withTargets(product: ProductSeen, bounds: Asking['bounds']): ProductSeen {
  const ends = targetEnds(product);
  const targets = product.targets.map((target) => {
    const tried = ends.flatMap(({ limitId, measure, end }): [string, number][] => {
      const bound = bounds[limitId];
      if (measure !== target.measure || bound === undefined) return [];
      return [[end, measure === 'cost per kg' ? bound : fractionOfPercent(bound)]];
    });
    return { ...target, ...Object.fromEntries(tried) };
  });
  return { ...product, targets };
}
