import { ingredientsOf } from '../batch/made-of.ts';
import type { Material } from '../batch/material.ts';
import { type Exact, isZero, multiply } from '../exact.ts';
import type { BlendLine } from '../formulate/blend.ts';

/** One line of a batch, as it is planned or as it was weighed. */
export type LabelLine = Pick<BlendLine, 'supply' | 'exactMassKg'>;

/** A batch as its label needs to know it. */
export interface LabelBatch {
  readonly lines: readonly LabelLine[];
  readonly finishedKg: number;
}

/** What a label declares: an ingredient that went in, into this batch or into one that left rework. */
export interface PutIn {
  readonly material: Material;
  readonly massKg: Exact;
}

/**
 * The lines of a batch with rework opened into its ingredients, by their weight as they were put in. A line of nothing is
 * no ingredient.
 */
export function putIn(lines: readonly LabelLine[]): PutIn[] {
  const weighed = lines.filter(({ exactMassKg }) => !isZero(exactMassKg));
  return weighed.flatMap(({ supply, exactMassKg }) =>
    ingredientsOf(supply.material).map(({ material, perKg }) => ({
      material,
      massKg: multiply(exactMassKg, perKg),
    })),
  );
}
