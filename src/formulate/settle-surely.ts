import type { Plant } from '../batch/plant.ts';
import { divisionKg } from '../batch/scale.ts';
import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Limit } from '../rules/limit.ts';
import type { Priced } from '../solver/prices.ts';
import type { BatchModel } from './batch-model.ts';
import { solveSurely, withMissedMargins } from './certainty.ts';
import { loadSize, loadsOf } from './load-size.ts';
import type { Problem } from './prepare.ts';
import type { FormulationRequest } from './request.ts';
import { roundingOf } from './round.ts';
import { chooseScale } from './scales.ts';
import { isRight, type SettledLoad, settle } from './settle.ts';
import { type Slip, weighable } from './weighable.ts';

/** Rounds of laying a plane where a margin is missed; one or two are usual. */
const MOST_ROUNDS = 8;

/** Weights on the scales that keep every limit and every margin, exactly. */
export function settleSurely(
  request: FormulationRequest,
  start: BatchModel,
  optimum: Priced,
  work: Problem,
  limits: readonly Limit[],
): SettledLoad & { readonly loads: number; readonly isSure: boolean } {
  const { engines } = request;
  let model = start;
  let outcome = optimum;
  for (let round = 1; ; round++) {
    const settled = settleOnce(request, model, outcome.values, work, limits);
    const cut = isRight(settled) ? withMissedMargins(model, work.chances, settled.masses) : undefined;
    if (!cut) return { ...settled, isSure: true };
    const again = round < MOST_ROUNDS ? solveSurely(cut, work.chances, engines) : undefined;
    if (again?.outcome.status !== 'optimal') return { ...settled, isSure: false };
    model = again.model;
    outcome = again.outcome;
  }
}

function settleOnce(
  { product, plant, engines }: FormulationRequest,
  model: BatchModel,
  optimum: readonly number[],
  { coefficients, size }: Problem,
  limits: readonly Limit[],
): SettledLoad & { readonly loads: number } {
  const heldBackFor = (count: number) =>
    weighable(model, optimum, slips(coefficients, count, plant), engines);
  // Where only the meat is fixed, holding back for rounding may make a heavier batch than the optimum.
  const fewest = loadsOf(optimum, plant);
  const heldBackInFewest = heldBackFor(fewest);
  const loads = Math.max(fewest, loadsOf(heldBackInFewest, plant));
  const heldBack = loads === fewest ? heldBackInFewest : heldBackFor(loads);
  const settled = settle(optimum, heldBack, {
    loads,
    size: loadSize(size, loads, product.process.yieldFraction),
    scales: plant.scales,
    coefficients,
    limits,
  });
  return { ...settled, loads };
}

/** What rounding to the scales may do to each line in the whole batch. */
function slips({ supplies }: Coefficients, loads: number, { scales }: Plant) {
  return (column: number, massKg: number): Slip => {
    const supply = supplies[column];
    // Whole boxes are on their weight already.
    if (supply?.boxes !== undefined) return { underKg: 0, overKg: 0 };
    const stepKg = loads * toNumber(divisionKg(chooseScale(massKg / loads, scales)));
    const rounding = supply ? roundingOf(supply.material) : 'free';
    if (rounding === 'nearest') return { underKg: stepKg / 2, overKg: stepKg / 2 };
    return { underKg: stepKg, overKg: rounding === 'free' ? stepKg : 0 };
  };
}
