import { isMeat } from '../batch/material.ts';
import type {
  Additions,
  Correction,
  CorrectionRequest,
  Fit,
  Right,
  Standing,
  TakeOut,
  TestedLine,
} from '../correct/correction.ts';
import { saidFatFraction } from '../correct/tested-mix.ts';
import { toNumber } from '../exact.ts';
import type { BlendLine } from '../formulate/blend.ts';
import type { Check } from '../rules/check.ts';
import { inShownUnit } from '../rules/limit.ts';
import { percentOfFraction } from '../units.ts';
import { checkAnswer, inBothUnits, leftOutAnswer } from './answers.ts';
import type { CorrectionAnswer } from './contract/correction.ts';

type Task = Omit<CorrectionRequest, 'engines'> & { readonly edition: string };

/** A correction as it travels in JSON; a refusal never gets here, it is a problem. */
export function correctionAnswer(
  task: Task,
  found: Exclude<Correction, { outcome: 'refused' }>,
): CorrectionAnswer {
  const header = headerAnswer(task);
  if (found.outcome === 'right as it is') return { ...header, ...rightAnswer(found) };
  if (found.outcome === 'additions') return { ...header, ...additionsAnswer(found) };
  return {
    ...header,
    ...rightAnswer(found),
    outcome: found.outcome,
    because: found.because.map(({ limit, message }) => ({ ...(limit && { limitId: limit.id }), message })),
    ...(found.leastTotalKg !== undefined && { leastTotal: inBothUnits(found.leastTotalKg) }),
    ...(found.takeOut && { takeOut: takeOutAnswer(found.takeOut) }),
    fits: found.fits.map(fitAnswer),
    leftOut: found.leftOut.map(leftOutAnswer),
  };
}

function headerAnswer({
  product,
  standard,
  edition,
  date,
  plant,
  capacityKg,
  testedFat,
  confidence,
  inMixer,
}: Task) {
  return {
    plant: { name: plant.name, establishment: plant.establishment },
    product: { id: product.id, name: product.name },
    standard: { says: standard.says, citation: standard.citation, edition },
    date,
    units: plant.units,
    currency: plant.currency,
    capacity: inBothUnits(capacityKg ?? plant.mixerCapacityKg),
    test: {
      foundFraction: testedFat.fatFraction,
      saidFraction: saidFatFraction(inMixer),
      sdPoints: percentOfFraction(testedFat.sdFraction),
      method: testedFat.method,
      ...(confidence !== undefined && { confidence }),
    },
  };
}

function rightAnswer({ mix, before, cautions }: Right) {
  return {
    outcome: 'right as it is' as const,
    mix: mix.map(mixLineAnswer),
    before: standingAnswer(before),
    cautions: [...cautions],
  };
}

function additionsAnswer({ after, lines, roomLeftKg, cost, unroundedCost, leftOut, ...right }: Additions) {
  return {
    ...rightAnswer(right),
    outcome: 'additions' as const,
    after: standingAnswer(after),
    lines: lines.map(lineAnswer),
    roomLeft: inBothUnits(roomLeftKg),
    cost,
    unroundedCost,
    leftOut: leftOut.map(leftOutAnswer),
  };
}

function takeOutAnswer({ weight, massKg, rest, afterwards }: TakeOut) {
  return {
    weight: { text: weight.text, unit: weight.scale.unit, scale: weight.scale.name },
    mass: inBothUnits(massKg),
    rest: rest.map(({ supply, massKg: restKg }) => ({
      supplyId: supply.id,
      mass: inBothUnits(toNumber(restKg)),
    })),
    afterwards: afterwards.outcome === 'additions' ? additionsAnswer(afterwards) : rightAnswer(afterwards),
  };
}

function fitAnswer({ productId, productName, outcome, lines, totalKg, cost, cautions }: Fit) {
  return {
    product: productId,
    name: productName,
    outcome,
    lines: lines.map(lineAnswer),
    total: inBothUnits(totalKg),
    cost,
    cautions: [...cautions],
  };
}

function mixLineAnswer({ supply, massKg, saidFatFraction: saidFraction }: TestedLine) {
  return {
    supplyId: supply.id,
    material: supply.material.name,
    ...(supply.lot && { lotId: supply.lot.id }),
    mass: inBothUnits(toNumber(massKg)),
    ...(isMeat(supply.material) && {
      fat: { saidFraction, foundFraction: supply.composition.fatFraction },
    }),
  };
}

function lineAnswer({ supply, weight, massKg, cost }: BlendLine) {
  return {
    supplyId: supply.id,
    materialId: supply.material.id,
    material: supply.material.name,
    ...(supply.lot && { lotId: supply.lot.id }),
    ...(supply.lot?.location !== undefined && { location: supply.lot.location }),
    weight: { text: weight.text, unit: weight.scale.unit, scale: weight.scale.name },
    mass: inBothUnits(massKg),
    cost,
  };
}

function standingAnswer({ totalKg, checks, onUnsafeSide, raw, finished }: Standing) {
  return {
    total: inBothUnits(totalKg),
    checks: checks.map(checkAnswer),
    ...(onUnsafeSide && { onUnsafeSide: onUnsafeSide.map(unsafeAnswer) }),
    raw,
    finishedMakeup: finished,
  };
}

function unsafeAnswer({ limit, holds, value, room }: Check) {
  // JSON has no NaN, which stands for an empty basis.
  const shown = (fraction: number) => (Number.isNaN(fraction) ? 0 : inShownUnit(fraction, limit.unit));
  return { limitId: limit.id, holds, value: shown(value), room: shown(room) };
}
