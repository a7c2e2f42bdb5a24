import type { Plant } from '../batch/plant.ts';
import { divisionKg } from '../batch/scale.ts';
import { toNumber } from '../exact.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import type { Limit } from '../rules/limit.ts';
import { keepsMargin } from '../solver/chance.ts';
import type { Priced } from '../solver/prices.ts';
import type { BatchModel } from './batch-model.ts';
import { solveSurely, withCutsAt } from './certainty.ts';
import { loadSize, loadsOf } from './load-size.ts';
import type { Problem } from './prepare.ts';
import type { FormulationRequest } from './request.ts';
import { roundingOf } from './round.ts';
import { chooseScale } from './scales.ts';
import { type SettledLoad, settle } from './settle.ts';
import { type Slip, weighable } from './weighable.ts';

/** Rounds of laying a plane where a margin is missed; one or two are usual. */
const MOST_ROUNDS = 8;

/** How much more margin each round asks for, as a share of it, where rounding to the scales eats into it. */
const MORE_MARGIN = 0.002;

/**
 * Weights on the scales that keep every limit and every margin, exactly. A margin is round and planes are not: where
 * the weights miss one, a plane is laid there, with a little more margin each time, and the blend is solved again.
 */
export function settleSurely(
  request: FormulationRequest,
  start: BatchModel,
  optimum: Priced,
  work: Problem,
  limits: readonly Limit[],
): Settled {
  const { engines } = request;
  let model = start;
  let outcome = optimum;
  for (let round = 1; ; round++) {
    const settled = settleOnce(request, model, outcome.values, work, limits);
    if (settled.isSure || round === MOST_ROUNDS) return settled;
    const stricter = work.chances.map((chance) => ({
      ...chance,
      z: Number((chance.z * (1 + MORE_MARGIN * round)).toPrecision(12)),
    }));
    const cut = withCutsAt(
      withCutsAt(model, stricter, settled.masses.map(toNumber)),
      stricter,
      settled.heldBack,
    );
    const again = solveSurely(cut, work.chances, engines);
    if (again.outcome.status !== 'optimal') return settled;
    model = again.model;
    outcome = again.outcome;
  }
}

/** A settled load with what it was settled from. */
export interface Settled extends SettledLoad {
  readonly loads: number;
  readonly heldBack: readonly number[];
}

function settleOnce(
  { plant, engines }: FormulationRequest,
  model: BatchModel,
  optimum: readonly number[],
  { coefficients, size, chances, model: { exact, rows } }: Problem,
  limits: readonly Limit[],
): Settled {
  const heldBackFor = (count: number) =>
    weighable(model, optimum, slips(coefficients, count, plant), engines);
  // Where only the meat is fixed, holding back for rounding may make a heavier batch than the optimum.
  const fewest = loadsOf(optimum, plant);
  const heldBackInFewest = heldBackFor(fewest);
  const loads = Math.max(fewest, loadsOf(heldBackInFewest, plant));
  const heldBack = loads === fewest ? heldBackInFewest : heldBackFor(loads);
  const settled = settle(optimum, heldBack, {
    loads,
    size: loadSize(size, loads, coefficients),
    scales: plant.scales,
    coefficients,
    limits,
    planes: model.rows.filter((_, row) => row >= rows.length && model.limitOfRow.has(row)),
    keepsMargins: (masses) => chances.every((chance) => keepsMargin(exact, chance, masses)),
  });
  return { ...settled, loads, heldBack };
}

/** What rounding to the scales may do to each line in the whole batch. */
export function slips({ supplies }: Coefficients, loads: number, { scales }: Plant) {
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
