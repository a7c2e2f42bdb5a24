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
    limits: limitWorths(model, optimum, coefficients, at, batchKg),
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
      return { limit, stepFraction, savesPerKg: (price * basisKg * stepFraction) / batchKg };
    })
    .filter(({ savesPerKg }) => savesPerKg > NOTHING)
    .sort((a, b) => b.savesPerKg - a.savesPerKg);
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
