import { carries, RESTRICTED } from '../batch/carries.ts';
import { availableKg, type Supply } from '../batch/lot.ts';
import type { Product } from '../batch/product.ts';
import { type Exact, exact, toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import type { Limit } from '../rules/limit.ts';
import { solveKept } from '../solver/chance.ts';
import { type KeptModel, keepOpen } from '../solver/keep-open.ts';
import type { Engine } from '../solver/model.ts';
import { type Priced, type PricedOutcome, reducedCosts } from '../solver/prices.ts';
import { costRanges } from '../solver/ranging.ts';
import type { BatchModel } from './batch-model.ts';
import type { LimitWorth, LineWorth, NotUsedWorth, UsedWorth, Worth } from './blend.ts';
import { NONE_KG } from './choose-lots.ts';
import { basisForm } from './house-limits.ts';
import type { Problem } from './prepare.ts';

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

/** What worth is told of: the least-cost blend of a problem, and the model that it was found on. */
export interface Valued {
  readonly problem: Problem;
  /** The problem's model with the planes that its margins needed. */
  readonly model: BatchModel;
  readonly optimum: Priced;
  readonly product: Product;
  /** Kilograms of the unit that the plant thinks in: more of a lot or of the batch is told of one such unit. */
  readonly unitKg: number;
  readonly engines: readonly Engine[];
}

/**
 * What limits, lines and lots are worth at the least-cost blend. With margins the model is round where they hold it:
 * then prices are read from the row prices, which are right at the blend itself.
 */
export function worthOf(valued: Valued): Worth {
  const { problem, model, optimum, engines } = valued;
  const { coefficients, chances, size } = problem;
  const at = optimum.values.map((massKg) => exact(massKg));
  const batchKg = toNumber(coefficients.total(FORMS.formula, at));
  return keepOpen(model, engines, (kept) => {
    const costs = costOfNextUnit(valued, kept);
    const limits = limitWorths(model, optimum, coefficients, at, batchKg);
    const isRound = chances.length > 0;
    return {
      limits: isRound ? limits : loosened(valued, limits, at, batchKg, kept),
      ...(costs !== undefined && { nextUnit: { of: size.form.says, costs } }),
      ...(isRound ? worthsByRowPrices(valued, kept) : supplyWorths(valued, kept)),
      // Last, because the rows that it tries stay in the model, let go.
      lines: isRound ? [] : lineWorths(valued, batchKg, kept),
    };
  });
}

/** Solved anew at one unit more: a price of a row says it only up to the next corner. */
function costOfNextUnit(valued: Valued, kept: KeptModel): number | undefined {
  const { problem, model, optimum, unitKg } = valued;
  const [size] = model.rows;
  if (!size) return undefined;
  const more = Number((problem.size.massKg + unitKg).toPrecision(12));
  kept.setRow(0, more, more);
  const outcome = solvedSurely(valued, kept);
  kept.setRow(0, size.lower, size.upper);
  return outcome.status === 'optimal' ? outcome.cost - optimum.cost : undefined;
}

/** What one unit more of a lot saves, solved anew. */
function savedByMore(valued: Valued, column: number, kept: KeptModel): number {
  const { model, optimum, unitKg } = valued;
  const { lower = 0, upper = 0 } = model.columns[column] ?? {};
  kept.setColumn(column, lower, upper + unitKg);
  const outcome = solvedSurely(valued, kept);
  kept.setColumn(column, lower, upper);
  return outcome.status === 'optimal' ? Math.max(0, optimum.cost - outcome.cost) : 0;
}

function solvedSurely({ problem, model }: Valued, kept: KeptModel): PricedOutcome {
  return solveKept(kept, model.exact, problem.chances).outcome;
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
  { model, optimum, problem: { coefficients } }: Valued,
  named: readonly LimitWorth[],
  at: readonly Exact[],
  batchKg: number,
  kept: KeptModel,
): LimitWorth[] {
  const tight = tightLimits(model, optimum.values);
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

/** Solved anew at a tenth of a point more of each line; a line whose limits leave no room for it has no price. */
function lineWorths(
  { problem: { coefficients }, model, optimum, product }: Valued,
  batchKg: number,
  kept: KeptModel,
): LineWorth[] {
  const perKg = coefficients.of(FORMS.formula).map(toNumber);
  return product.seasoning.flatMap(({ materialId, basis }) => {
    // Nobody is told what more cure would save.
    const supply = coefficients.supplies.find(({ material }) => material.id === materialId);
    const place = model.rows.findIndex(({ name }) => name === `line ${materialId}`);
    const row = model.rows[place];
    if (!row || !supply || carries(supply.material, RESTRICTED)) return [];
    const raised = new Map(row.terms.map(({ column, coefficient }) => [column, coefficient]));
    coefficients.of(basisForm(basis, product)).forEach((each, column) => {
      raised.set(column, (raised.get(column) ?? 0) - LINE_STEP * toNumber(each));
    });
    const terms = [...raised].map(([column, coefficient]) => ({ column, coefficient }));
    kept.setRow(place, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
    const added = kept.addRow({ ...row, terms });
    const outcome = kept.solve();
    kept.setRow(added, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
    kept.setRow(place, row.lower, row.upper);
    if (outcome.status !== 'optimal') return [];
    const kg = outcome.values.reduce((sum, massKg, column) => sum + massKg * (perKg[column] ?? 0), 0);
    const costsPerKg = outcome.cost / kg - optimum.cost / batchKg;
    return Math.abs(costsPerKg) <= SEEN ? [] : [{ materialId, stepFraction: LINE_STEP, costsPerKg }];
  });
}

function supplyWorths(valued: Valued, kept: KeptModel): Pick<Worth, 'notUsed' | 'used'> {
  const { problem, optimum, engines } = valued;
  const ranges = costRanges(kept, optimum, engines);
  const notUsed: NotUsedWorth[] = [];
  const used: UsedWorth[] = [];
  problem.coefficients.supplies.forEach((supply, column) => {
    const { from, to } = ranges[column] ?? {};
    if ((optimum.values[column] ?? 0) > NONE_KG) {
      const best = { fromPerKg: from ?? 0, ...(to !== undefined && { toPerKg: to }) };
      used.push({ supply, best, ...moreOf(valued, supply, column, kept) });
    } else {
      notUsed.push({ supply, ...(from !== undefined && { wouldEnterBelowPerKg: from }) });
    }
  });
  return { notUsed, used };
}

/** Told of a lot that is used up. */
function moreOf(
  valued: Valued,
  supply: Supply,
  column: number,
  kept: KeptModel,
): Pick<UsedWorth, 'oneUnitMoreSaves'> {
  const massKg = valued.optimum.values[column] ?? 0;
  return massKg >= availableKg(supply) - NONE_KG
    ? { oneUnitMoreSaves: savedByMore(valued, column, kept) }
    : {};
}

function worthsByRowPrices(valued: Valued, kept: KeptModel): Pick<Worth, 'notUsed' | 'used'> {
  const { problem, model, optimum } = valued;
  const left = reducedCosts(model, optimum.rowPrices);
  const notUsed: NotUsedWorth[] = [];
  const used: UsedWorth[] = [];
  problem.coefficients.supplies.forEach((supply, column) => {
    if ((optimum.values[column] ?? 0) > NONE_KG) {
      used.push({ supply, ...moreOf(valued, supply, column, kept) });
      return;
    }
    const below = supply.costPerKg - (left[column] ?? 0);
    notUsed.push({ supply, ...(below > 0 && { wouldEnterBelowPerKg: Math.min(below, supply.costPerKg) }) });
  });
  return { notUsed, used };
}
