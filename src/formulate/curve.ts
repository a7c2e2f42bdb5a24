import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { type Form, formsOf } from '../rules/form.ts';
import { FORMS } from '../rules/forms.ts';
import { fromShownUnit, type Limit } from '../rules/limit.ts';
import { ends } from '../rules/row.ts';
import { type KeptModel, keepOpen } from '../solver/keep-open.ts';
import { type CurvePoint, corners } from '../solver/parametric.ts';
import type { solvePriced } from '../solver/prices.ts';
import { fatPercentOf } from '../units.ts';
import { solveSurely } from './certainty.ts';
import { nearestRatio } from './least-change.ts';
import { type Problem, prepare, problemOf, type Ready } from './prepare.ts';
import type { FormulationRequest, Issue } from './request.ts';

/** Along what the least cost is followed: a bound in the unit people read it in, a price per kg, or the lean point. */
export type Along =
  | { readonly limitId: string; readonly from: number; readonly to: number }
  | { readonly supplyId: string; readonly from: number; readonly to: number }
  /** The lean percent of the finished product: every fat target of the house gives way to it. */
  | { readonly leanFrom: number; readonly leanTo: number };

/** The least cost of the batch, before rounding, at one place. */
export interface CostAt {
  /** A fraction along a limit, a price per kg along a supply. */
  readonly at: number;
  readonly cost: number;
  /** Raw weight of the batch, to turn the cost into a price per kg. */
  readonly batchKg: number;
  /** Kilograms of each supply in the blend there, by id; those not used are left out. */
  readonly massesKg: ReadonlyMap<string, number>;
}

export type CostCurve =
  | {
      readonly outcome: 'curve';
      /** In order. Straight from one to the next where corners is true; otherwise samples of a curve between them. */
      readonly points: readonly CostAt[];
      readonly corners: boolean;
      /** The limit that is followed, where it is one. */
      readonly limit?: Limit;
      /** The place of the request itself: its bound or its price. */
      readonly today: number;
      /** The range in which a blend exists, where it does not reach both ends. */
      readonly feasible: { readonly from: number; readonly to: number };
    }
  | { readonly outcome: 'no blend'; readonly message: string }
  | { readonly outcome: 'refused'; readonly issues: readonly Issue[] };

/** Places at which a curve without corners is looked at. */
const SAMPLES = 41;

/**
 * How the least cost moves with one bound or one price, before rounding to scales. Along a bound the cost is made of
 * straight lines where the basis of the limit is fixed by the size of the batch (all of a batch of given weight, or its
 * finished weight); along a price it always is. There every corner is found. Elsewhere, and where a margin is
 * asked, the curve is sampled.
 */
export function costCurve(request: FormulationRequest, along: Along): CostCurve {
  const prepared = prepare(request);
  if (!prepared.ok) return { outcome: 'refused', issues: prepared.issues };
  const { ready } = prepared;
  if ('leanFrom' in along) return alongLean(request, ready, along);
  const problem = problemOf(request, ready);
  return 'limitId' in along
    ? alongLimit(request, ready, problem, along)
    : alongPrice(request, ready, problem, along);
}

/**
 * Along the lean point only one most of fat counts, that which is to be sure of or else the lowest; the other fat
 * targets of the house, a least of fat among them, are set aside, as they would only hold the curve flat. The law
 * stays.
 */
function alongLean(
  request: FormulationRequest,
  { limits, certain }: Ready,
  { leanFrom, leanTo }: Extract<Along, { leanFrom: number }>,
): CostCurve {
  const targets = limits.filter(({ id }) => FAT_TARGETS.includes(id));
  const isSure = ({ id }: Limit) => certain.some(({ limitId }) => limitId === id);
  const [followed] = targets
    .filter(({ sense }) => sense === 'max')
    .sort((a, b) => Number(isSure(b)) - Number(isSure(a)) || a.bound - b.bound);
  if (!followed) {
    return refuse(
      'leanFrom',
      'The product has no fat target and no lean percent on its label. Give it one of the two.',
    );
  }
  const insteadOf = targets
    .filter((target) => target !== followed)
    .map(({ id, sense }) => ({ limitId: id, bound: sense === 'max' ? 1 : 0 }));
  const [from, to] = [fatPercentOf(leanTo), fatPercentOf(leanFrom)];
  return costCurve({ ...request, insteadOf }, { limitId: followed.id, from, to });
}

/** Targets of the house on the fat of the finished product. */
const FAT_TARGETS: readonly string[] = ['house-fat-max', 'house-fat-min', 'house-label-lean-max'];

function alongLimit(
  request: FormulationRequest,
  ready: Ready,
  problem: Problem,
  along: Extract<Along, { limitId: string }>,
): CostCurve {
  const { engines } = request;
  const { model, coefficients, size } = problem;
  const limit = ready.limits.find(({ id }) => id === along.limitId);
  const side = limit && ends(limit)[0]?.sense;
  if (!limit || !side || limit.sense === 'target') {
    const known = ready.limits.filter(({ sense }) => sense === 'max' || sense === 'min').map(({ id }) => id);
    return refuse(
      'limitId',
      `"${along.limitId}" is no maximum or minimum of this product. Choose one of ${known.join(', ')}.`,
    );
  }
  const reached = nearestRatio(model, limit, coefficients, engines);
  if (reached === undefined) return noBlend();
  const [first, last] = [along.from, along.to].map((shown) => fromShownUnit(shown, limit.unit)) as [
    number,
    number,
  ];
  // A limit of the law is never followed past the law.
  const isLaw = limit.authority === 'law';
  const [least, most] = [
    isLaw && side === 'min' ? Math.max(first, limit.bound) : first,
    isLaw && side === 'max' ? Math.min(last, limit.bound) : last,
  ];
  const from = side === 'max' ? Math.max(least, reached) : least;
  const to = side === 'min' ? Math.min(most, reached) : most;
  if (from > to) return noBlend();
  const basisKg = fixedBasisKg(limit.basis, size.form, size.massKg, coefficients);
  const rows = [...model.limitOfRow].filter(([, { id }]) => id === limit.id).map(([row]) => row);
  const isPlain =
    basisKg !== undefined && problem.chances.length === 0 && formsOf(limit.numerator).length === 1;
  const today = limit.bound;
  if (!isPlain) {
    const points = sampled(
      from,
      to,
      (bound) => {
        const limits = ready.limits.map((other) => (other.id === limit.id ? { ...other, bound } : other));
        const at = problemOf(request, { ...ready, limits });
        return solveSurely(at.model, at.chances, engines).outcome;
      },
      coefficients,
    );
    return points.length === 0 ? noBlend() : { ...sampledCurve(points, today), limit };
  }
  const [row] = rows;
  if (row === undefined) {
    return refuse(
      'limitId',
      `"${limit.id}" counts nothing that may go into this batch: the cost does not move with it.`,
    );
  }
  return keepOpen(model, engines, (kept) => {
    const ask = (bound: number): Solved | undefined => {
      // (numerator − limit × basis) may go past 0 by what the other bound allows more, as the basis is fixed.
      const room = (bound - limit.bound) * basisKg;
      const [lower, upper] =
        side === 'max' ? [Number.NEGATIVE_INFINITY, room] : [room, Number.POSITIVE_INFINITY];
      kept.setRow(row, lower, upper);
      return solvedAt(kept, bound, (outcome) => (outcome.rowPrices[row] ?? 0) * basisKg);
    };
    return {
      outcome: 'curve',
      points: follow(ask, from, to, 1, coefficients),
      corners: true,
      today,
      feasible: { from, to },
      limit,
    };
  });
}

function alongPrice(
  request: FormulationRequest,
  ready: Ready,
  { model, coefficients, chances }: Problem,
  along: Extract<Along, { supplyId: string }>,
): CostCurve {
  const column = coefficients.supplies.findIndex(({ id }) => id === along.supplyId);
  const supply = coefficients.supplies[column];
  if (!supply) {
    const known = coefficients.supplies.map(({ id }) => id).join(', ');
    return refuse('supplyId', `"${along.supplyId}" cannot go into this batch. Choose one of ${known}.`);
  }
  const { engines } = request;
  const { from, to } = along;
  const today = supply.costPerKg;
  // A target on the cost of a kilogram holds the price itself: then the rows move with it and the cost bends.
  const isPlain = chances.length === 0 && !ready.limits.some(({ unit }) => unit === 'price per kg');
  if (!isPlain) {
    const points = sampled(
      from,
      to,
      (costPerKg) => {
        const usable = ready.usable.map((each) => (each.id === supply.id ? { ...each, costPerKg } : each));
        const at = problemOf(request, { ...ready, usable });
        return solveSurely(at.model, at.chances, engines).outcome;
      },
      coefficients,
    );
    return points.length === 0 ? noBlend() : sampledCurve(points, today);
  }
  return keepOpen(model, engines, (kept) => {
    const ask = (price: number): Solved | undefined => {
      kept.setCost(column, price);
      return solvedAt(kept, price, (outcome) => outcome.values[column] ?? 0);
    };
    const points = follow(ask, from, to, -1, coefficients);
    if (points.length === 0) return noBlend();
    return { outcome: 'curve', points, corners: true, today, feasible: { from, to } };
  });
}

/** Samples are where a blend was found; between the first and the last of them there is one. */
function sampledCurve(points: readonly CostAt[], today: number): Extract<CostCurve, { outcome: 'curve' }> {
  const feasible = { from: points[0]?.at ?? Number.NaN, to: points.at(-1)?.at ?? Number.NaN };
  return { outcome: 'curve', points, corners: false, today, feasible };
}

interface Solved extends CurvePoint {
  readonly values: readonly number[];
}

function solvedAt(
  kept: KeptModel,
  at: number,
  slopeOf: (outcome: Extract<ReturnType<typeof solvePriced>, { status: 'optimal' }>) => number,
): Solved | undefined {
  const outcome = kept.solve();
  if (outcome.status !== 'optimal') return undefined;
  return { at, value: outcome.cost, slope: slopeOf(outcome), values: outcome.values };
}

/** All corners. @param bend 1 where the curve bends upward, -1 where downward: then it is followed upside down. */
function follow(
  ask: (at: number) => Solved | undefined,
  from: number,
  to: number,
  bend: 1 | -1,
  coefficients: Coefficients,
): CostAt[] {
  const seen = new Map<number, Solved>();
  const found = corners(
    (at) => {
      const solved = ask(at);
      if (!solved) return undefined;
      seen.set(at, solved);
      return { at, value: bend * solved.value, slope: bend * solved.slope };
    },
    from,
    to,
  );
  return found.flatMap(({ at }) => {
    const solved = seen.get(at);
    return solved ? [costAt(at, solved.value, solved.values, coefficients)] : [];
  });
}

function sampled(
  from: number,
  to: number,
  solveAt: (at: number) => ReturnType<typeof solvePriced>,
  coefficients: Coefficients,
): CostAt[] {
  return Array.from({ length: SAMPLES }, (_, index) => from + ((to - from) * index) / (SAMPLES - 1)).flatMap(
    (at) => {
      const outcome = solveAt(Number(at.toPrecision(12)));
      return outcome.status === 'optimal' ? [costAt(at, outcome.cost, outcome.values, coefficients)] : [];
    },
  );
}

function costAt(at: number, cost: number, values: readonly number[], coefficients: Coefficients): CostAt {
  const massesKg = new Map<string, number>();
  coefficients.supplies.forEach(({ id }, column) => {
    const massKg = values[column] ?? 0;
    if (massKg > 1e-6) massesKg.set(id, massKg);
  });
  const batchKg = coefficients
    .of(FORMS.formula)
    .reduce((sum, perKg, column) => sum + toNumber(perKg) * (values[column] ?? 0), 0);
  return { at, cost, batchKg, massesKg };
}

/** Kilograms of a basis where the size of the batch fixes it: every supply counts toward both in one proportion. */
function fixedBasisKg(
  basis: Form,
  size: Form,
  sizeKg: number,
  coefficients: Coefficients,
): number | undefined {
  const ofBasis = coefficients.of(basis).map(toNumber);
  const ofSize = coefficients.of(size).map(toNumber);
  const ratio = (ofBasis[0] ?? 0) / (ofSize[0] ?? 1);
  const isFixed = ofBasis.every((each, column) => Math.abs(each - ratio * (ofSize[column] ?? 0)) <= 1e-12);
  return isFixed && Number.isFinite(ratio) && ratio > 0 ? ratio * sizeKg : undefined;
}

function refuse(field: string, message: string): CostCurve {
  return { outcome: 'refused', issues: [{ code: 'unknown-limit', path: ['along', field], message }] };
}

function noBlend(): CostCurve {
  return {
    outcome: 'no blend',
    message: 'Nowhere between these two ends is there a blend that keeps all other limits.',
  };
}
