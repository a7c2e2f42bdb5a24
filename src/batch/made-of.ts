import { type Exact, exact, multiply, ONE } from '../exact.ts';
import { atFat, type Composition } from './composition.ts';
import { isMeat, type MadeOf, type Material } from './material.ts';

/** Computed shares are kept to 12 decimals: a fat no further than this from the sum of its parts is that sum. */
const SAME_FAT = 1e-9;
const DIGITS = 12;

/**
 * The parts of a material that is made of others, as its fat says: where a test of the whole found another fat than the
 * parts add up to, the difference lies in their meat. Each meat gives way by the same share of what it can: toward all
 * fat when there is more, toward none when there is less. Water and protein follow along the line of the trim.
 * @param composition of the whole: of its lot, as measured, or of the material.
 * @returns nothing for a material that is made of nothing else.
 */
export function partsOf(
  { madeOf = [] }: Pick<Material, 'madeOf'>,
  { fatFraction }: Pick<Composition, 'fatFraction'>,
): readonly MadeOf[] {
  const more = fatFraction - total(madeOf, ({ material }) => material.composition.fatFraction);
  if (Math.abs(more) < SAME_FAT) return madeOf;
  const meat = madeOf.filter(({ material }) => isMeat(material));
  const room = total(meat, ({ material: { composition } }) =>
    more > 0 ? 1 - composition.fatFraction : composition.fatFraction,
  );
  const share = room > 0 ? Math.min(1, Math.abs(more) / room) : 0;
  return madeOf.map((part) =>
    isMeat(part.material) ? { ...part, material: moved(part.material, share, more) } : part,
  );
}

function moved(material: Material, share: number, more: number): Material {
  const { fatFraction } = material.composition;
  const fat = more > 0 ? fatFraction + share * (1 - fatFraction) : fatFraction * (1 - share);
  return { ...material, composition: atFat(material, Number(fat.toFixed(DIGITS))) };
}

/** An ingredient that was weighed in, perhaps for a batch before this one. */
export interface Ingredient {
  readonly material: Material;
  /** Kilograms of it for a kilogram of what it was looked for in; more than 1 where the process lost some of the whole. */
  readonly perKg: Exact;
}

/** What went into a material as it was weighed: itself, or for rework its ingredients, without what the process lost. */
export function ingredientsOf(material: Material): Ingredient[] {
  if (!material.madeOf) return [{ material, perKg: ONE }];
  return material.madeOf
    .filter(({ material: { kind } }) => kind !== 'process loss')
    .flatMap((part) =>
      ingredientsOf(part.material).map((inner) => ({
        ...inner,
        perKg: multiply(inner.perKg, exact(part.fraction)),
      })),
    );
}

function total(parts: readonly MadeOf[], of: (part: MadeOf) => number): number {
  return parts.reduce((sum, part) => sum + Number(part.fraction) * of(part), 0);
}
