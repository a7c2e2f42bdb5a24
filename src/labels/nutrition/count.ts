import {
  add,
  type Exact,
  exact,
  isZero,
  multiply,
  ONE,
  ratio,
  subtract,
  sum,
  toNumber,
  ZERO,
} from '../../exact.ts';
import type { Brought, Makeup } from './brought.ts';
import type { Nutrient } from './nutrient.ts';
import type { NutrientFigure } from './nutrition.ts';
import { quotient, shareOf } from './quotient.ts';
import { type Counted, goesWithFat, mostFraction, perKg, saltOf, unitOf } from './reading.ts';

/** The finished weight over so many grams: what a total is divided by. */
const PER_100_G = exact('0.1');
const KG_PER_GRAM = exact('0.001');
const PROCESS = { material: 'what the process took', source: 'mass balance of the process' };

/** One nutrient in the whole finished batch, in its unit. */
export interface Total {
  readonly nutrient: Nutrient;
  readonly amount: Exact;
  readonly parts: readonly { readonly material: string; readonly source: string; readonly amount: Exact }[];
  readonly notKnown: readonly Lack[];
}

/** An ingredient whose table has no figure. */
interface Lack {
  readonly material: string;
  readonly massKg: Exact;
  /** The most of the nutrient that it can hold: what there is of the whole that it is a part of, or all of it. */
  readonly mostKg: Exact;
}

/**
 * A nutrient of the finished batch: what every ingredient brings, less what processes took. The parts of the fat, and
 * vitamin D in it, leave with the share of it that is lost; everything else stays, for the drip of cooking has no table.
 * As a rule that states cholesterol, sodium and potassium high; docs/nutrition-read.md has how far, held against cooked
 * rows of USDA.
 */
export function totalOf(nutrient: Counted, { brought, taken }: Makeup): Total {
  const left = new Map<Brought, Exact>();
  const lacking: Brought[] = [];
  for (const ingredient of brought) {
    const amount = perKg(nutrient, ingredient.composition);
    if (amount === undefined) lacking.push(ingredient);
    left.set(ingredient, amount === undefined ? ZERO : multiply(amount, ingredient.massKg));
  }
  const putIn = [...left];
  const lost = goesWithFat(nutrient) ? takeFat(taken, left) : ZERO;
  return {
    nutrient,
    amount: subtract(sum(putIn.map(([, amount]) => amount)), lost),
    parts: sameTogether([
      ...putIn.map(([{ material, source }, amount]) => ({ material: material.name, source, amount })),
      { ...PROCESS, amount: subtract(ZERO, lost) },
    ]),
    notKnown: lacking.map(({ material, composition, massKg }) => ({
      material: material.name,
      massKg,
      mostKg: multiply(massKg, mostFraction(nutrient, composition)),
    })),
  };
}

/** What the processes take along with the fat of what they were done to; `left` is less by it afterwards. */
function takeFat(taken: Makeup['taken'], left: Map<Brought, Exact>): Exact {
  let lost = ZERO;
  const fat = new Map(
    [...left.keys()].map((ingredient) => [
      ingredient,
      multiply(ingredient.massKg, exact(ingredient.composition.fatFraction)),
    ]),
  );
  for (const { of, fatKg } of taken) {
    const share = shareOf(fatKg, sum(of.map((ingredient) => fat.get(ingredient) ?? ZERO)));
    if (isZero(share)) continue;
    const stays = subtract(ONE, share);
    for (const ingredient of of) {
      const amount = left.get(ingredient) ?? ZERO;
      lost = add(lost, multiply(amount, share));
      left.set(ingredient, multiply(amount, stays));
      fat.set(ingredient, multiply(fat.get(ingredient) ?? ZERO, stays));
    }
  }
  return lost;
}

/** Sodium as salt. */
export function saltTotal(sodium: Total): Total {
  return {
    ...sodium,
    nutrient: 'salt',
    amount: saltOf(sodium.amount),
    parts: sodium.parts.map((part) => ({ ...part, amount: saltOf(part.amount) })),
  };
}

/** Carbohydrate without fiber, as the European Union defines it (Regulation (EU) 1169/2011, Annex I point 7). */
export function withoutFiber(carbohydrate: Total, fiber: Total): Total {
  return {
    ...carbohydrate,
    amount: subtract(carbohydrate.amount, fiber.amount),
    parts: sameTogether([
      ...carbohydrate.parts,
      ...fiber.parts.map((part) => ({ ...part, amount: subtract(ZERO, part.amount) })),
    ]),
    notKnown: [...carbohydrate.notKnown, ...fiber.notKnown],
  };
}

/** The amount in so many grams of finished product. */
export function amountIn(amount: Exact, grams: Exact, { finishedKg }: Makeup): Exact {
  return quotient(multiply(amount, multiply(grams, KG_PER_GRAM)), finishedKg);
}

/** The figure for 100 g, for people and for stored labels. */
export function figureOf(total: Total, makeup: Makeup): NutrientFigure {
  const per100g = (amount: Exact) => toNumber(quotient(multiply(amount, PER_100_G), makeup.finishedKg));
  return {
    amount: per100g(total.amount),
    unit: unitOf(total.nutrient),
    from: total.parts
      .map(({ material, source, amount }) => ({ material, amount: per100g(amount), source }))
      .filter(({ amount }) => amount !== 0)
      .sort((a, b) => b.amount - a.amount),
    notKnown: lackingTogether(total).map(({ material, massKg }) => ({
      material,
      fraction: ratio(massKg, makeup.rawKg),
    })),
  };
}

function sameTogether(parts: Total['parts']): Total['parts'] {
  const same = new Map<string, Total['parts'][number]>();
  for (const part of parts) {
    const key = `${part.material}\n${part.source}`;
    const known = same.get(key);
    same.set(key, known ? { ...known, amount: add(known.amount, part.amount) } : part);
  }
  return [...same.values()];
}

function lackingTogether({ notKnown }: Total): Pick<Lack, 'material' | 'massKg'>[] {
  const same = new Map<string, Exact>();
  for (const { material, massKg } of notKnown) {
    same.set(material, add(same.get(material) ?? ZERO, massKg));
  }
  return [...same].map(([material, massKg]) => ({ material, massKg }));
}
