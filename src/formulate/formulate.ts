import { isMeat } from '../batch/material.ts';
import { toNumber } from '../exact.ts';
import { checkLimits } from '../rules/check.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { FORMS, MissingFigure } from '../rules/forms.ts';
import { inForceOn, type Limit } from '../rules/limit.ts';
import { solve } from '../solver/solve.ts';
import { batchModel, type SizeRow, sizeOf } from './batch-model.ts';
import type { Formulation, LeftOut } from './blend.ts';
import { chooseSupplies } from './choose-supplies.ts';
import { describeBlend } from './describe-blend.ts';
import { houseLimits } from './house-limits.ts';
import { mend } from './mend.ts';
import { whyNoBlend, whyNotWeighable } from './no-blend.ts';
import type { FormulationRequest, Issue } from './request.ts';
import { batchMasses, roundToScale, type WeighedLine } from './round.ts';
import { chooseScale, divisionKg } from './scales.ts';
import { weighable } from './weighable.ts';

/**
 * The least-cost blend of a product from what is on hand, rounded to what the plant's scales can weigh and
 * checked again, exactly, on those weights. Or why there is none.
 * @throws SolverFault, ModelFault when an engine or this program fails; never for what the user asked.
 */
export function formulate(request: FormulationRequest): Formulation {
  const { product, standard, date } = request;
  const limits = [...inForceOn(standard.limits, date), ...houseLimits(product)];
  const size = sizeOf(request.size, product);
  if (!size) return refused([noPieceWeight()]);
  try {
    const choice = chooseSupplies(request.supplies, product, limits, date);
    if (choice.issues.length > 0) return refused(choice.issues);
    const coefficients = new Coefficients(choice.usable, product.process);
    return blendFrom(request, limits, size, coefficients, choice.leftOut);
  } catch (error) {
    if (error instanceof MissingFigure) return refused([missingFigure(error)]);
    throw error;
  }
}

function blendFrom(
  request: FormulationRequest,
  limits: readonly Limit[],
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
  const totalKg = outcome.values.reduce((sum, massKg) => sum + massKg, 0);
  const loads = Math.max(1, Math.ceil(totalKg / plant.mixerCapacityKg - 1e-9));
  const stepKg = (_column: number, massKg: number) =>
    loads * toNumber(divisionKg(chooseScale(massKg / loads, plant.scales)));
  const values = weighable(model, outcome.values, stepKg, engines);

  const lines = settle(values, loads, size, coefficients, limits, request);
  const unweighed = tooSmall(lines, coefficients);
  if (unweighed.length > 0) return refused(unweighed);
  const masses = batchMasses(lines, loads, coefficients.supplies.length);
  const checks = checkLimits(limits, coefficients, masses);
  const failed = checks.filter(({ holds }) => !holds);
  if (failed.length > 0) return { outcome: 'no blend', because: whyNotWeighable(failed), leftOut };
  return {
    outcome: 'blend',
    blend: describeBlend({
      request,
      coefficients,
      lines,
      loads,
      masses,
      checks,
      leftOut,
      unroundedCost: outcome.cost,
    }),
  };
}

/** Weights on scales that keep the limits, or the nearest to that. */
function settle(
  values: readonly number[],
  loads: number,
  { form, massKg }: SizeRow,
  coefficients: Coefficients,
  limits: readonly Limit[],
  { product, plant }: FormulationRequest,
): WeighedLine[] {
  const countsMeatOnly = form === FORMS.greenWeight;
  const counts = (column: number) => {
    const supply = coefficients.supplies[column];
    return !countsMeatOnly || (supply !== undefined && isMeat(supply.material));
  };
  const rawKg = form === FORMS.finished ? massKg / product.process.yieldFraction : massKg;
  const lines = roundToScale(coefficients, values, loads, plant.scales, counts, rawKg / loads);
  const masses = batchMasses(lines, loads, coefficients.supplies.length);
  const holds = checkLimits(limits, coefficients, masses).every((check) => check.holds);
  return (holds ? lines : mend(lines, coefficients, limits)).filter(
    ({ divisions, free }) => divisions > 0 || !free,
  );
}

/** Seasonings that no scale of the plant can show at all. */
function tooSmall(lines: readonly WeighedLine[], { supplies }: Coefficients): Issue[] {
  return lines
    .filter(({ divisions }) => divisions === 0)
    .map(({ column, wantedKg, scale }) => ({
      code: 'below-the-scale',
      path: ['batchSize'],
      message: `${supplies[column]?.material.name} would be ${(wantedKg * 1000).toPrecision(3)} g in a load, below one division of the finest scale (${scale.division} ${scale.unit}). Make a larger batch, weigh on a finer scale, or blend the seasoning beforehand.`,
    }));
}

function refused(issues: readonly Issue[]): Formulation {
  return { outcome: 'refused', issues };
}

function noPieceWeight(): Issue {
  return {
    code: 'no-piece-weight',
    path: ['batchSize', 'pieces'],
    message:
      'The product has no weight of one piece. Give form.piece in the product, or ask for a batch by weight.',
  };
}

function missingFigure({ materialId, constituent }: MissingFigure): Issue {
  return {
    code: 'missing-figure',
    path: ['materials', materialId],
    message: `A limit of this product needs the ${constituent} of ${materialId}, which is not known. Add it to the material's table.`,
  };
}
