import { ingredientsOf } from '../../batch/made-of.ts';
import type { Material } from '../../batch/material.ts';
import type { Product } from '../../batch/product.ts';

/** Which batches are raw ground beef, and which of them are one lot of the grinding log. */

/** Classes that are ground by their name, whatever the plant wrote down of its plates. */
const GROUND_CLASSES = ['ground-beef', 'hamburger', 'beef-patties', 'fabricated-steak', 'fresh-beef-sausage'];
/** Shapes that only ground meat takes. */
const GROUND_SHAPES: readonly Product['form']['shape'][] = ['chub', 'link', 'patty'];

/**
 * Whether a batch counts: it is sold raw, it is ground, and beef went in, in rework too. Veal counts with beef, and so does
 * a mix with other meat: own judgement, so that no lot is missing.
 * @param materials everything that was weighed in.
 */
export function isRawGroundBeef(
  { standard, process, form }: Pick<Product, 'standard' | 'process' | 'form'>,
  materials: readonly Material[],
): boolean {
  const isGround =
    process.grindPlates.length > 0 ||
    GROUND_CLASSES.includes(standard.productClass) ||
    GROUND_SHAPES.includes(form.shape);
  return process.cooking === 'raw' && isGround && materials.some(hasBeef);
}

function hasBeef(material: Material): boolean {
  return ingredientsOf(material).some(
    ({ material: { species } }) => species === 'beef' || species === 'veal',
  );
}

/** A batch that was ground; instants are ISO 8601 in UTC. */
export interface Ground {
  readonly batchId: string;
  /** When the first of it was weighed. */
  readonly from: string;
  /** When all of it was in. */
  readonly weighedAt: string;
  /** When the product was weighed; when all was in, as long as it is not finished. */
  readonly until: string;
  /** What it was made of: lots, and materials without one. */
  readonly sourceIds: readonly string[];
}

/** Batches of one lot. */
export interface GrindLotBatches {
  readonly batches: readonly Ground[];
  readonly from: string;
  readonly until: string;
  readonly cleanedBefore?: string;
  readonly cleanedAfter?: string;
}

/** Lots from one cleaning to the next with the same source materials, in the order of time. @param cleanings instants, in order. */
export function grindLots(ground: readonly Ground[], cleanings: readonly string[]): GrindLotBatches[] {
  const lots = new Map<string, Ground[]>();
  const inOrder = [...ground].sort((one, other) => compareText(one.weighedAt, other.weighedAt));
  for (const batch of inOrder) {
    const before = cleanings.filter((at) => at <= batch.weighedAt).length;
    const key = JSON.stringify([before, ...new Set(batch.sourceIds)].sort());
    const lot = lots.get(key);
    if (lot) lot.push(batch);
    else lots.set(key, [batch]);
  }
  return [...lots.values()].map((batches) => {
    const at = batches[0]?.weighedAt ?? '';
    const cleanedBefore = cleanings.filter((one) => one <= at).at(-1);
    const cleanedAfter = cleanings.find((one) => one > at);
    return {
      batches,
      from: least(batches.map(({ from }) => from)),
      until: least(
        batches.map(({ until }) => until),
        -1,
      ),
      ...(cleanedBefore !== undefined && { cleanedBefore }),
      ...(cleanedAfter !== undefined && { cleanedAfter }),
    };
  });
}

function least(texts: readonly string[], sign: 1 | -1 = 1): string {
  return [...texts].sort((one, other) => sign * compareText(one, other))[0] ?? '';
}

function compareText(one: string, other: string): number {
  return one < other ? -1 : Number(one > other);
}
