import { supplyOfMaterial } from '../batch/lot.ts';
import type { Material } from '../batch/material.ts';
import type { Product, SeasoningBasis } from '../batch/product.ts';
import { add, compare, type Exact, exact, multiply, ONE, ratio, subtract, sum, ZERO } from '../exact.ts';
import { coefficient, type Form, formsOf, MissingFigure } from './form.ts';
import type { Limit } from './limit.ts';

/** How one seasoning line stands to one limit, as far as the recipe alone can say it, before any meat is chosen. */
export interface LineLimit {
  readonly limit: Limit;
  /** Numerator over basis that the seasonings bring, this line at its highest rate, as a fraction. */
  readonly valueFraction: number;
  /** The highest rate of this line that the limit leaves room for, as a fraction of the line's own basis. */
  readonly atMostFraction: number;
  /** Whether the highest rate of the line is within it, exactly. */
  readonly holds: boolean;
  /** Whether no other line brings more of what is counted. */
  readonly bringsMost: boolean;
}

/** Masses for one kilogram of green weight, all times the same number, so that no division is needed. */
type Bases = Readonly<Record<SeasoningBasis, Exact>>;

const BASIS_OF_FORM: Readonly<Record<string, SeasoningBasis>> = {
  greenWeight: 'green weight',
  formula: 'batch',
  finished: 'finished weight',
};

/**
 * What the limits of a product leave of each of its seasoning lines. Said only where it needs no meat to be known: of
 * maximums on green weight, batch or finished weight whose numerator nothing takes away from, and of materials that may
 * not go in at all. Meat can only bring more; other lines count at the end of their range that leaves the most room. Where
 * rework may go in, only what is not allowed at all is said: it thins the seasonings.
 * @returns for each line its limits, the tightest first.
 */
export function lineLimits(
  product: Product,
  materials: ReadonlyMap<string, Material>,
  limits: readonly Limit[],
): readonly (readonly LineLimit[])[] {
  return product.seasoning.map((_line, index) =>
    limits
      .filter(({ sense }) => sense === 'max')
      .flatMap((limit) => {
        const found = formsOf(limit.numerator).flatMap((form) =>
          standing(limit, form, index, product, materials),
        );
        const tightest = found.sort((one, other) => one.atMostFraction - other.atMostFraction)[0];
        return tightest ? [tightest] : [];
      })
      .sort((one, other) => one.atMostFraction - other.atMostFraction),
  );
}

function standing(
  limit: Limit,
  form: Form,
  index: number,
  product: Product,
  materials: ReadonlyMap<string, Material>,
): LineLimit[] {
  const perKg = product.seasoning.map(({ materialId }) => counted(form, materials.get(materialId), product));
  const own = perKg[index];
  const line = product.seasoning[index];
  if (!own || !line || compare(own, ZERO) <= 0) return [];
  if (limit.bound === 0) {
    const holds = line.maxFraction === 0;
    return [{ limit, valueFraction: line.maxFraction, atMostFraction: 0, holds, bringsMost: true }];
  }
  const basis = BASIS_OF_FORM[limit.basis.id];
  if (!basis || product.rework || form.terms.some(({ times }) => times < 0)) return [];
  const rates = product.seasoning.map(({ minFraction, maxFraction }, at) =>
    exact(compare(perKg[at] ?? ZERO, ZERO) > 0 || basis === 'green weight' ? minFraction : maxFraction),
  );
  /** Numerator and basis of the limit with this line at a rate; both are linear in it. */
  const at = (rate: Exact) => {
    const all = rates.map((other, place) => (place === index ? rate : other));
    const bases = basesOf(product, all);
    const parts = product.seasoning.map(({ basis: of }, place) =>
      multiply(multiply(perKg[place] ?? ZERO, all[place] ?? ZERO), bases[of]),
    );
    return { parts, numerator: sum(parts), basis: bases[basis] };
  };
  const over = ({ numerator, basis: of }: { readonly numerator: Exact; readonly basis: Exact }) =>
    subtract(numerator, multiply(exact(limit.bound), of));
  const highest = at(exact(line.maxFraction));
  const [without, alone] = [over(at(ZERO)), over(at(ONE))];
  const slope = subtract(alone, without);
  if (compare(slope, ZERO) <= 0 || compare(highest.basis, ZERO) <= 0) return [];
  const ownPart = highest.parts[index] ?? ZERO;
  const room = compare(without, ZERO) < 0 ? ratio(subtract(ZERO, without), slope) : 0;
  if (room > 1) return [];
  return [
    {
      limit,
      valueFraction: ratio(highest.numerator, highest.basis),
      atMostFraction: room,
      holds: compare(over(highest), ZERO) <= 0,
      bringsMost: highest.parts.every((part) => compare(part, ownPart) <= 0),
    },
  ];
}

/**
 * Green weight, batch and finished weight of one kilogram of meat with these lines, times (1 - Σ batch rates - yield ×
 * Σ finished rates): the batch is (1 + Σ green rates) over that number.
 */
function basesOf({ seasoning, process }: Product, rates: readonly Exact[]): Bases {
  const onBasis = (wanted: SeasoningBasis) =>
    sum(rates.filter((_rate, at) => seasoning[at]?.basis === wanted));
  const yielded = exact(process.yieldFraction);
  const batch = add(ONE, onBasis('green weight'));
  return {
    'green weight': subtract(subtract(ONE, onBasis('batch')), multiply(yielded, onBasis('finished weight'))),
    batch,
    'finished weight': multiply(yielded, batch),
  };
}

/** Kilograms of the form per kilogram of a material; nothing where a figure is missing, which the blend will say. */
function counted(form: Form, material: Material | undefined, { process }: Product): Exact {
  if (!material) return ZERO;
  try {
    return coefficient(form, supplyOfMaterial(material, 0), process);
  } catch (error) {
    if (error instanceof MissingFigure) return ZERO;
    throw error;
  }
}
