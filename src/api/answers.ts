import type { Formulation, LeftOut } from '../formulate/blend.ts';
import type { ExplainedCheck } from '../rules/check.ts';
import { inForceOn, inShownUnit, type Limit, shownBound } from '../rules/limit.ts';
import type { LaboratoryLimit } from '../rules/standard.ts';
import { inUnit, pricePerUnit } from '../units.ts';
import { fingerprintOf } from './batches/fingerprint.ts';
import type { BlendTask } from './blend-task.ts';
import type { BlendAnswer, LaboratoryAnswer, LimitAnswer } from './contract/blend-answer.ts';
import { certaintyAnswers, nearBestAnswers, proofOf, wayOutOf, worthOf } from './working-answers.ts';

/** A formulation as it travels in JSON; a refusal never gets here, it is a problem. */
export function blendAnswer(
  { product, standard, date, plant }: BlendTask,
  formulation: Exclude<Formulation, { outcome: 'refused' }>,
): BlendAnswer {
  if (formulation.outcome === 'no blend') {
    return {
      outcome: 'no blend',
      currency: plant.currency,
      units: plant.units,
      because: formulation.because.map(({ limit, message }) => ({
        ...(limit && { limitId: limit.id }),
        message,
      })),
      leftOut: formulation.leftOut.map(leftOutAnswer),
      proven: formulation.proven,
      ...(formulation.wayOut && { wayOut: wayOutOf(formulation.wayOut) }),
    };
  }
  const { blend } = formulation;
  const costPerKg = blend.cost / blend.batchKg;
  return {
    outcome: 'blend',
    product: product.id,
    standard: { says: standard.says, citation: standard.citation },
    date,
    currency: plant.currency,
    units: plant.units,
    fingerprint: fingerprintOf(blend),
    loads: blend.loads,
    batch: inBothUnits(blend.batchKg),
    load: inBothUnits(blend.loadKg),
    greenWeight: inBothUnits(blend.greenWeightKg),
    finished: inBothUnits(blend.finishedKg),
    cost: blend.cost,
    costPerKg,
    costPerLb: pricePerUnit(costPerKg, 'lb'),
    unroundedCost: blend.unroundedCost,
    proof: proofOf(blend, plant.currency),
    certainty: certaintyAnswers(blend.certainty),
    ...(blend.costOfCertainty !== undefined && { costOfCertainty: blend.costOfCertainty }),
    ...(blend.costOfOlderFirst !== undefined && { costOfOlderFirst: blend.costOfOlderFirst }),
    ...(blend.choice && { choice: { ...blend.choice } }),
    ...(blend.worth && { worth: worthOf(blend.worth) }),
    ...(blend.nearBest && { nearBest: nearBestAnswers(blend.nearBest) }),
    lines: blend.lines.map(({ supply, weight, massKg, cost, asked }) => ({
      supplyId: supply.id,
      materialId: supply.material.id,
      material: supply.material.name,
      ...(supply.lot && { lotId: supply.lot.id }),
      ...(supply.boxes !== undefined && { boxes: supply.boxes }),
      ...(supply.fat && {
        fat: {
          meanFraction: supply.fat.meanFraction,
          sdFraction: supply.fat.sdFraction,
          says: supply.fat.says,
        },
      }),
      weight: { text: weight.text, unit: weight.scale.unit, scale: weight.scale.name },
      mass: inBothUnits(massKg),
      cost,
      ...(asked && { asked: { ...asked, togetherWith: [...asked.togetherWith] } }),
    })),
    checks: blend.checks.map(checkAnswer),
    switchedOff: blend.switchedOff.map(({ limit, reason, check }) => ({
      limit: limitAnswer(limit),
      reason,
      ...(check && { check: checkAnswer(check) }),
    })),
    laboratory: inForceOn(standard.laboratory ?? [], date).map(laboratoryAnswer),
    raw: blend.raw,
    finishedMakeup: blend.finished,
    leftOut: blend.leftOut.map(leftOutAnswer),
    cautions: [...blend.cautions],
  };
}

export function limitAnswer(limit: Limit): LimitAnswer {
  const { id, says, sense, within, unit, authority, citation, read, inForce, note } = limit;
  return {
    id,
    says,
    numerator: limit.numerator.says,
    basis: limit.basis.says,
    sense,
    bound: shownBound(limit),
    ...(within !== undefined && { within }),
    unit,
    authority,
    citation,
    read,
    ...(inForce && { inForce: { ...inForce } }),
    ...(note !== undefined && { note }),
  };
}

export function laboratoryAnswer({ inForce, ...rest }: LaboratoryLimit): LaboratoryAnswer {
  return { ...rest, ...(inForce && { inForce: { ...inForce } }) };
}

export function checkAnswer({
  limit,
  holds,
  value,
  room,
  numeratorKg,
  basisKg,
  contributions,
}: ExplainedCheck): Extract<BlendAnswer, { outcome: 'blend' }>['checks'][number] {
  // An empty basis (no fat at all under a limit on fat) has no ratio; JSON has no NaN.
  const shown = (fraction: number) => (Number.isNaN(fraction) ? 0 : inShownUnit(fraction, limit.unit));
  return {
    limit: limitAnswer(limit),
    holds,
    value: shown(value),
    room: shown(room),
    numeratorKg,
    basisKg,
    contributions: contributions.map((contribution) => ({ ...contribution })),
  };
}

export function leftOutAnswer({ supply, because }: LeftOut) {
  return { supplyId: supply.id, material: supply.material.name, because };
}

export function inBothUnits(massKg: number) {
  return { kg: massKg, lb: inUnit(massKg, 'lb') };
}
