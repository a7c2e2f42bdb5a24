import type { BlendAnswer } from '../../api/contract/blend-answer.ts';
import { fatPercentOf } from '../../units.ts';
import { type DecimalMark, withMark } from '../figures/number.ts';
import type { ProductDraft } from './draft.ts';
import { digitsOf, fractionOf } from './rates.ts';

type NoBlend = Extract<BlendAnswer, { outcome: 'no blend' }>;
export type Repair = NonNullable<NoBlend['wayOut']>['repairs'][number];
type Change = Repair['changes'][number];

/** What a way out writes into the form; undefined where some of it is no matter of the recipe (a purchase, the size). */
export function repaired(
  draft: ProductDraft,
  { changes }: Pick<Repair, 'changes'>,
  mark: DecimalMark,
): Partial<ProductDraft> | undefined {
  let next: ProductDraft | undefined = draft;
  for (const change of changes) next = next && withChange(next, change, mark);
  if (!next || next === draft) return undefined;
  const { meatBlock, seasoning, targets, rework, leanPercent } = next;
  return { meatBlock, seasoning, targets, rework, leanPercent };
}

function withChange(draft: ProductDraft, change: Change, mark: DecimalMark): ProductDraft | undefined {
  if ('rateTo' in change) {
    const { materialId, rateTo } = change;
    return {
      ...draft,
      seasoning: draft.seasoning.map((line) =>
        line.materialId === materialId && !line.isRange
          ? { ...line, rate: withMark(digitsOf(rateTo, line.unit), mark) }
          : line,
      ),
    };
  }
  if (!('to' in change)) return undefined;
  return withBound(draft, change.limitId, change.to, mark);
}

/** @param to in the unit of the limit: percent, but for a cost. */
function withBound(
  draft: ProductDraft,
  limitId: string,
  to: number,
  mark: DecimalMark,
): ProductDraft | undefined {
  const [, what = '', end = ''] = /^house-(.+)-(min|max)$/.exec(limitId) ?? [];
  const text = withMark(String(to), mark);
  const side = { [end]: text };
  if (what === 'label-lean') return { ...draft, leanPercent: withMark(String(fatPercentOf(to)), mark) };
  if (what === 'rework') return { ...draft, rework: { ...draft.rework, max: text } };
  if (what.startsWith('share-')) {
    const at = Number(what.slice(6)) - 1;
    return {
      ...draft,
      meatBlock: draft.meatBlock.map((part, index) => (index === at ? { ...part, ...side } : part)),
    };
  }
  if (what.startsWith('line-')) {
    const rate = (unit: ProductDraft['seasoning'][number]['unit']) =>
      withMark(digitsOf(fractionOf(String(to)), unit), mark);
    return {
      ...draft,
      seasoning: draft.seasoning.map((line) =>
        `line-${line.materialId}` === what ? { ...line, [end]: rate(line.unit) } : line,
      ),
    };
  }
  const targets = draft.targets.map((target) =>
    target.measure.replaceAll(' ', '-') === what
      ? { ...target, ...side, ...(what === 'cost-per-kg' && { per: 'kg' as const }) }
      : target,
  );
  const isKnown = draft.targets.some(({ measure }) => measure.replaceAll(' ', '-') === what);
  return isKnown ? { ...draft, targets } : undefined;
}
