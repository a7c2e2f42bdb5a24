import type { TargetMeasure } from '../../batch/product.ts';
import { percentOfFraction } from '../../units.ts';

/** What the blend looks at of a product, as the service gives it. */
export interface ProductSeen {
  readonly id: string;
  readonly name: string;
  readonly targets: readonly {
    readonly measure: TargetMeasure;
    readonly min?: number;
    readonly max?: number;
  }[];
  readonly label?: { readonly leanPercent?: number };
  readonly form: { readonly shape: string; readonly pieceMass?: unknown };
}

export interface ProductsSeen {
  readonly items: readonly ProductSeen[];
  readonly versions: Readonly<Record<string, number>>;
}

/** One end of a target: its limit's id, and its bound in the unit of the limit. */
export interface TargetEnd {
  readonly limitId: string;
  readonly measure: TargetMeasure;
  readonly end: 'min' | 'max';
  readonly own: number;
}

/** The ends that a product's targets have, named as the service names their limits. */
export function targetEnds({ targets }: ProductSeen): TargetEnd[] {
  return targets.flatMap(({ measure, ...ends }) =>
    (['min', 'max'] as const).flatMap((end): TargetEnd[] => {
      const bound = ends[end];
      if (bound === undefined) return [];
      const own = measure === 'cost per kg' ? bound : percentOfFraction(bound);
      return [{ limitId: `house-${measure.replaceAll(' ', '-')}-${end}`, measure, end, own }];
    }),
  );
}

export const LABEL_LEAN = 'house-label-lean-max';

/** Limits of fat that somebody may want to be sure of. */
export function fatLimitIds(product: ProductSeen | undefined): string[] {
  if (!product) return [];
  return [
    ...targetEnds(product).flatMap(({ measure, end, limitId }) =>
      measure === 'fat' && end === 'max' ? [limitId] : [],
    ),
    ...(product.label?.leanPercent === undefined ? [] : [LABEL_LEAN]),
  ];
}

/**
 * Bounds to try when one end of a target is moved. Where the ends would meet, the other end keeps the distance that it has
 * in the product; the lean of the label gives way where the fat goes beyond it. An end that is moved back to its own bound is tried no more.
 */
export function withBound(
  product: ProductSeen,
  bounds: Readonly<Record<string, number>>,
  moved: TargetEnd,
  to: number,
): Record<string, number> {
  const next: Record<string, number> = { ...bounds, [moved.limitId]: to };
  for (const other of targetEnds(product)) {
    if (other.measure !== moved.measure || other.limitId === moved.limitId) continue;
    const at = next[other.limitId] ?? other.own;
    const meets = moved.end === 'max' ? at >= to : at <= to;
    if (meets) next[other.limitId] = Math.max(0, Number((to + other.own - moved.own).toFixed(4)));
  }
  const { leanPercent } = product.label ?? {};
  if (moved.measure === 'fat' && leanPercent !== undefined) {
    const most = next['house-fat-max'] ?? to;
    if (most > 100 - leanPercent) next[LABEL_LEAN] = most;
    else delete next[LABEL_LEAN];
  }
  for (const end of targetEnds(product)) if (next[end.limitId] === end.own) delete next[end.limitId];
  return next;
}
