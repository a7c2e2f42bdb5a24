import { carries, RESTRICTED } from '../batch/carries.ts';
import { availableKg } from '../batch/lot.ts';
import type { Product } from '../batch/product.ts';
import { type Exact, exact, toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import { keepOpen } from '../solver/keep-open.ts';
import type { Engine } from '../solver/model.ts';
import { type Priced, reducedCosts } from '../solver/prices.ts';
import { costRange, entryCost, worthOfMore } from '../solver/ranging.ts';
import type { BatchModel } from './batch-model.ts';
import type { LimitWorth, LineWorth, NotUsedWorth, UsedWorth, Worth } from './blend.ts';
import { NONE_KG } from './choose-lots.ts';
import { BASIS_FORMS } from './house-limits.ts';

/** One step of a bound that people think in. */
const STEPS: Readonly<Record<Limit['unit'], number>> = {
  percent: 0.01,
  ppm: 0.00001,
  'to 1': 0.1,
  'price per kg': 0.01,
};
const LINE_STEP = 0.001;
/** A limit or line whose step is worth less than this per kilogram presses on nothing. */
const NOTHING = 1e-9;
/** The same for what is found by solving anew, which engines answer to about 1e-9 of the batch. */
const SEEN = 1e-6;

/**
 * What limits, lines and lots are worth at the least-cost blend. With margins the model is round where they hold it:
 * then prices are read from the row prices, which are right at the blend itself.
 */
export function worthOf(
  model: BatchModel,
  optimum: Priced,
  coefficients: Coefficients,
  product: Product,
  engines: readonly Engine[],
  isRound: boolean,
): Worth {
  const at = optimum.values.map((massKg) => exact(massKg));
  const batchKg = toNumber(coefficients.total(FORMS.formula, at));
  return {
    limits: isRound
      ? limitWorths(model, optimum, coefficients, at, batchKg)
      : loosened(model, optimum, coefficients, at, batchKg, engines),
    lines: lineWorths(model, optimum, coefficients, product, at, batchKg),
    nextKg: optimum.rowPrices[0] ?? 0,
    ...(isRound
      ? worthsByRowPrices(model, optimum, coefficients)
      : supplyWorths(model, optimum, coefficients, engines)),
  };
}

/** Σ over the rows of a limit of |price| × basis: moving its bound by a step moves each row by step × basis. */
function limitWorths(
  { limitOfRow }: BatchModel,
  { rowPrices }: Priced,
  coefficients: Coefficients,
  at: readonly Exact[],
  batchKg: number,
): LimitWorth[] {
  const priceOf = new Map<Limit, number>();
  for (const [row, limit] of limitOfRow) {
    const price = Math.abs(rowPrices[row] ?? 0);
    if (price > 0) priceOf.set(limit, (priceOf.get(limit) ?? 0) + price);
  }
  return [...priceOf]
    .map(([limit, price]) => {
      const stepFraction = STEPS[limit.unit];
      const basisKg = toNumber(coefficients.total(limit.basis, at));
      return {
        limit,
        stepFraction,
        savesPerKg: (price * basisKg * stepFraction) / batchKg,
        togetherWith: [],
      };
    })
    .filter(({ savesPerKg }) => savesPerKg > NOTHING)
    .sort((a, b) => b.savesPerKg - a.savesPerKg);
}

/** A share of a step small enough that the cost is still straight, and large enough to be seen. */
const SMALL = 1e-4;

/**
 * What limits save when they are loosened a little, solved anew for each. Row prices say the same where the optimum is
 * not degenerate; where two limits press at the same place, they speak of room in both at once: then the limit that a
 * row price names is tried together with each other limit that the blend sits on.
 */
function loosened(
  model: BatchModel,
  optimum: Priced,
  coefficients: Coefficients,
  at: readonly Exact[],
  batchKg: number,
  engines: readonly Engine[],
): LimitWorth[] {
  const named = limitWorths(model, optimum, coefficients, at, batchKg);
  if (named.length === 0) return named;
  const tight = tightLimits(model, optimum.values);
  return keepOpen(model, engines, (kept) => {
    const saved = (limits: readonly Limit[], stepFraction: number): number => {
      const moved = [...model.limitOfRow].filter(([, limit]) => limits.includes(limit));
      for (const [row, limit] of moved) {
        const room = SMALL * stepFraction * toNumber(coefficients.total(limit.basis, at));
        const { lower = 0, upper = 0 } = model.rows[row] ?? {};
        kept.setRow(row, lower - room, upper + room);
      }
      const outcome = kept.solve();
      for (const [row] of moved) {
        const { lower = 0, upper = 0 } = model.rows[row] ?? {};
        kept.setRow(row, lower, upper);
      }
      return outcome.status === 'optimal' ? (optimum.cost - outcome.cost) / SMALL / batchKg : 0;
    };
    const seen = new Set<Limit>();
    const found = named.flatMap((worth): LimitWorth[] => {
      const { limit, stepFraction } = worth;
      if (seen.has(limit)) return [];
      const savesPerKg = saved([limit], stepFraction);
      if (savesPerKg > SEEN) return [{ ...worth, savesPerKg }];
      for (const other of tight.filter((each) => each !== limit && each.unit === limit.unit)) {
        const together = saved([limit, other], stepFraction);
        if (together <= SEEN) continue;
        seen.add(other);
        return [{ ...worth, savesPerKg: together, togetherWith: [other] }];
      }
      return [];
    });
    return found.sort((a, b) => b.savesPerKg - a.savesPerKg);
  });
}

/** Limits that the blend sits on. */
function tightLimits({ rows, limitOfRow }: BatchModel, values: readonly number[]): Limit[] {
  const tight = [...limitOfRow].flatMap(([row, limit]) => {
    const { terms = [] } = rows[row] ?? {};
    const parts = terms.map(({ column, coefficient }) => coefficient * (values[column] ?? 0));
    const size = parts.reduce((sum, part) => sum + Math.abs(part), 0);
    const activity = parts.reduce((sum, part) => sum + part, 0);
    return size > 0 && Math.abs(activity) <= 1e-6 * size ? [limit] : [];
  });
  return [...new Set(tight)];
}

function lineWorths(
  { rows }: BatchModel,
  { rowPrices }: Priced,
  coefficients: Coefficients,
  { seasoning }: Product,
  at: readonly Exact[],
  batchKg: number,
): LineWorth[] {
  return seasoning.flatMap(({ materialId, basis }) => {
    // Nobody is told what more cure would save.
    const supply = coefficients.supplies.find(({ material }) => material.id === materialId);
    if (supply && carries(supply.material, RESTRICTED)) return [];
    const row = rows.findIndex(({ name }) => name === `line ${materialId}`);
    if (row < 0) return [];
    const basisKg = toNumber(coefficients.total(BASIS_FORMS[basis], at));
    const costsPerKg = ((rowPrices[row] ?? 0) * basisKg * LINE_STEP) / batchKg;
    return Math.abs(costsPerKg) <= NOTHING ? [] : [{ materialId, stepFraction: LINE_STEP, costsPerKg }];
  });
}

function supplyWorths(
  model: BatchModel,
  optimum: Priced,
  { supplies }: Coefficients,
  engines: readonly Engine[],
): Pick<Worth, 'notUsed' | 'used'> {
  return keepOpen(model, engines, (kept) => {
    const notUsed: NotUsedWorth[] = [];
    const used: UsedWorth[] = [];
    supplies.forEach((supply, column) => {
      const massKg = optimum.values[column] ?? 0;
      if (massKg <= NONE_KG) {
        const below = entryCost(kept, column, optimum);
        notUsed.push({ supply, ...(below !== undefined && { wouldEnterBelowPerKg: below }) });
        return;
      }
      const { from, to } = costRange(kept, column, optimum);
      const isAtItsEnd = massKg >= availableKg(supply) - NONE_KG;
      used.push({
        supply,
        best: { fromPerKg: from, ...(to !== undefined && { toPerKg: to }) },
        ...(isAtItsEnd && { oneKgMoreSaves: worthOfMore(kept, column, 1, optimum) }),
      });
    });
    return { notUsed, used };
  });
}

function worthsByRowPrices(
  model: BatchModel,
  { values, rowPrices }: Priced,
  { supplies }: Coefficients,
): Pick<Worth, 'notUsed' | 'used'> {
  const left = reducedCosts(model, rowPrices);
  const notUsed: NotUsedWorth[] = [];
  const used: UsedWorth[] = [];
  supplies.forEach((supply, column) => {
    const massKg = values[column] ?? 0;
    const rest = left[column] ?? 0;
    if (massKg <= NONE_KG) {
      const below = supply.costPerKg - rest;
      notUsed.push({ supply, ...(below > 0 && { wouldEnterBelowPerKg: below }) });
    } else {
      const isAtItsEnd = massKg >= availableKg(supply) - NONE_KG;
      used.push({ supply, ...(isAtItsEnd && { oneKgMoreSaves: Math.max(0, -rest) }) });
    }
  });
  return { notUsed, used };
}
