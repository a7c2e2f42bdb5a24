import { ingredientsOf } from '../../batch/made-of.ts';
import type { Material } from '../../batch/material.ts';
import type { Product } from '../../batch/product.ts';

/** Which batches are raw ground beef, which of them are one lot of the grinding log, and what else met the same grinder. */

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
  product: Pick<Product, 'standard' | 'process' | 'form'>,
  materials: readonly Material[],
): boolean {
  return product.process.cooking === 'raw' && isGround(product) && materials.some(hasBeef);
}

/** Whether a product goes through a grinder, of whatever meat it is and whatever becomes of it then. */
export function isGround({
  standard,
  process,
  form,
}: Pick<Product, 'standard' | 'process' | 'form'>): boolean {
  return (
    process.grindPlates.length > 0 ||
    GROUND_CLASSES.includes(standard.productClass) ||
    GROUND_SHAPES.includes(form.shape)
  );
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

/** A cleaning and sanitizing of grinders, by their names. */
export interface GrinderCleaning {
  /** ISO 8601 in UTC. */
  readonly at: string;
  readonly grinders: readonly string[];
}

/** From when to when something was at a grinder; without an end when it may be there still. */
export interface AtGrinder {
  readonly from: string;
  readonly until?: string | undefined;
}

/**
 * From the last cleaning before something was ground to the first one after it: what else was ground in between may hold
 * some of it, or it of that. No batch says which grinder it went through, so a cleaning counts once every grinder had one.
 * @param cleanings in the order of time; all grinders that they name are the grinders of the plant.
 */
export function betweenCleanings({ from, until }: AtGrinder, cleanings: readonly GrinderCleaning[]) {
  const grinders = [...new Set(cleanings.flatMap((one) => one.grinders.map(plainName)))];
  const ofEach = grinders.map((grinder) =>
    cleanings.filter((one) => one.grinders.map(plainName).includes(grinder)).map(({ at }) => at),
  );
  const before = ofEach.flatMap((times) => times.filter((at) => at <= from).at(-1) ?? []);
  const after = ofEach.flatMap((times) =>
    until === undefined ? [] : (times.find((at) => at >= until) ?? []),
  );
  const all = (found: readonly string[]) => found.length > 0 && found.length === grinders.length;
  return {
    ...(all(before) && { cleanedBefore: least(before) }),
    ...(all(after) && { cleanedAfter: least(after, -1) }),
  };
}

const plainName = (grinder: string) => grinder.trim().toLowerCase();

/** Whether something was ground while no cleaning parts it from what was ground within these. */
export function isBetween(
  { from, until }: AtGrinder,
  { cleanedBefore, cleanedAfter }: ReturnType<typeof betweenCleanings>,
): boolean {
  const begins = cleanedAfter === undefined || from < cleanedAfter;
  const ends = cleanedBefore === undefined || until === undefined || until > cleanedBefore;
  return begins && ends;
}
