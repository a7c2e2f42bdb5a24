import { NO_HOUSE_RULES } from '../batch/house-rules.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { divisionKg } from '../batch/scale.ts';
import { toNumber } from '../exact.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { missingFigures } from '../rules/eligibility.ts';
import { type Applied, applyHouseRules } from '../rules/house-rules.ts';
import { inForceOn, sourceOf } from '../rules/limit.ts';
import { MASS_BALANCE } from '../rules/mass-balance.ts';
import { solve } from '../solver/solve.ts';
import { batchModel, MOST_BATCH_KG, type SizeRow, sizeOf } from './batch-model.ts';
import type { Formulation, LeftOut } from './blend.ts';
import { checkProcess } from './check-process.ts';
import { chooseSupplies, hasPlace } from './choose-supplies.ts';
import { describeBlend } from './describe-blend.ts';
import { houseLimits } from './house-limits.ts';
import { loadSize } from './load-size.ts';
import { whyNoBlend, whyNotWeighable } from './no-blend.ts';
import type { FormulationRequest, Issue } from './request.ts';
import { roundingOf, type WeighedLine } from './round.ts';
import { chooseScale } from './scales.ts';
import { isRight, settle } from './settle.ts';
import { type Slip, weighable } from './weighable.ts';

/**
 * The least-cost blend of a product from what is on hand, rounded to what the plant's scales can weigh and
 * checked again, exactly, on those weights. Or why there is none.
 * @throws SolverFault, ModelFault when an engine or this program fails; never for what the user asked.
 */
export function formulate(request: FormulationRequest): Formulation {
  const { product, standard, date } = request;
  const { limits: held, switchedOff } = applyHouseRules(
    inForceOn(standard.limits, date),
    request.houseRules ?? NO_HOUSE_RULES,
    product,
  );
  const limits = [...held, ...MASS_BALANCE, ...houseLimits(product)];
  const processIssues = checkProcess(product, standard);
  if (processIssues.length > 0) return refused(processIssues);
  const size = sizeOf(request.size, product);
  if (!size) return refused([noPieceWeight()]);
  if (size.massKg > MOST_BATCH_KG) return refused([tooBig(size.massKg)]);
  const placed = request.supplies.filter((supply) => hasPlace(supply, product));
  const missing = missingFigures(limits, placed, product.process);
  if (missing.length > 0) return refused(missing.map(missingFigure));
  const choice = chooseSupplies(request.supplies, product, limits, date);
  if (choice.issues.length > 0) return refused(choice.issues);
  const coefficients = new Coefficients(choice.usable, product.process);
  return blendFrom(request, { limits, switchedOff }, size, coefficients, choice.leftOut);
}

function blendFrom(
  request: FormulationRequest,
  { limits, switchedOff }: Applied,
  size: SizeRow,
  coefficients: Coefficients,
  leftOut: readonly LeftOut[],
): Formulation {
  const { product, plant, engines } = request;
  const model = batchModel(coefficients, product, limits, size);
  const outcome = solve(model, engines);
  if (outcome.status !== 'optimal') {
    return {
      outcome: 'no blend',
      because: whyNoBlend(model, coefficients, size, plant.units, engines),
      leftOut,
    };
  }
  const heldBackFor = (count: number) =>
    weighable(model, outcome.values, slips(coefficients, count, plant), engines);
  // Where only the meat is fixed, holding back for rounding may make a heavier batch than the optimum.
  const fewest = loadsOf(outcome.values, plant);
  const heldBackInFewest = heldBackFor(fewest);
  const loads = Math.max(fewest, loadsOf(heldBackInFewest, plant));
  const heldBack = loads === fewest ? heldBackInFewest : heldBackFor(loads);
  const settled = settle(outcome.values, heldBack, {
    loads,
    size: loadSize(size, loads, product.process.yieldFraction),
    scales: plant.scales,
    coefficients,
    limits,
  });
  const lines = settled.lines.filter(({ divisions }) => divisions > 0);
  const unweighed = lines.length === 0 ? [nothingToWeigh()] : tooSmall(settled.lines, product);
  if (unweighed.length > 0) return refused(unweighed);
  if (!isRight(settled))
    return { outcome: 'no blend', because: whyNotWeighable(settled, size, plant.units), leftOut };
  return {
    outcome: 'blend',
    blend: describeBlend({
      request,
      coefficients,
      loads,
      leftOut,
      switchedOff,
      unroundedCost: outcome.cost,
      ...settled,
      lines,
    }),
  };
}

/** Mixer loads that a batch takes. */
function loadsOf(massesKg: readonly number[], { mixerCapacityKg }: Plant): number {
  const totalKg = massesKg.reduce((sum, massKg) => sum + massKg, 0);
  return Math.max(1, Math.ceil(totalKg / mixerCapacityKg - 1e-9));
}

/** What rounding to the scales may do to each line in the whole batch. */
function slips({ supplies }: Coefficients, loads: number, { scales }: Plant) {
  return (column: number, massKg: number): Slip => {
    const stepKg = loads * toNumber(divisionKg(chooseScale(massKg / loads, scales)));
    const supply = supplies[column];
    const rounding = supply ? roundingOf(supply.material) : 'free';
    if (rounding === 'nearest') return { underKg: stepKg / 2, overKg: stepKg / 2 };
    return { underKg: stepKg, overKg: rounding === 'free' ? stepKg : 0 };
  };
}

/** Seasonings that the product must have and that no scale of the plant can show at all. */
function tooSmall(lines: readonly WeighedLine[], { seasoning }: Product): Issue[] {
  const isAsked = ({ supply }: WeighedLine) =>
    seasoning.some(({ materialId, minFraction }) => materialId === supply.material.id && minFraction > 0);
  const isWeighed = ({ supply }: WeighedLine) =>
    lines.some((line) => line.supply.material.id === supply.material.id && line.divisions > 0);
  return lines
    .filter((line) => !isWeighed(line) && isAsked(line))
    .map(({ supply, wantedKg, scale }) => ({
      code: 'below-the-scale',
      path: ['batchSize'],
      message: `${supply.material.name} would be ${(wantedKg * 1000).toPrecision(3)} g in a load, below one division of the finest scale (${scale.division} ${scale.unit}). Make a larger batch, weigh on a finer scale, or blend the seasoning beforehand.`,
    }));
}

function nothingToWeigh(): Issue {
  return {
    code: 'below-the-scale',
    path: ['batchSize'],
    message: 'The batch is so small that no scale of the plant shows any of it. Make a larger batch.',
  };
}

function tooBig(massKg: number): Issue {
  return {
    code: 'too-big',
    path: ['batchSize'],
    message: `The batch would weigh ${massKg.toPrecision(4)} kg, beyond what a plant handles. Make at most ${MOST_BATCH_KG} kg.`,
  };
}

function refused(issues: readonly Issue[]): Formulation {
  return { outcome: 'refused', issues };
}

function noPieceWeight(): Issue {
  return {
    code: 'no-piece-weight',
    path: ['batchSize', 'pieces'],
    message:
      'The product has no weight of one piece. Give form.pieceMass in the product, or ask for a batch by weight.',
  };
}

function missingFigure({ missing, limit }: ReturnType<typeof missingFigures>[number]): Issue {
  const { materialId, constituent } = missing;
  return {
    code: 'missing-figure',
    path: ['product'],
    message: `The ${constituent} of ${materialId} is not known, and a limit needs it (${limit.says} ${sourceOf(limit)}). Add the figure to its table, or leave its lots out of the batch.`,
  };
}
