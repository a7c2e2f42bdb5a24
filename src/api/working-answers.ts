import type { z } from 'zod';
import { proofText } from '../documents/proof-text.ts';
import type { Blend, Certainty, NearBest, WayOut, Worth } from '../formulate/blend.ts';
import { inShownUnit } from '../rules/limit.ts';
import type {
  certaintyAnswer,
  nearBestAnswer,
  proofAnswer,
  wayOutAnswer,
  worthAnswer,
} from './contract/workings.ts';

/** The workings of a blend as they travel in JSON. */

export function proofOf({ proof }: Blend, currency: string): z.output<typeof proofAnswer> {
  return { ...proof, says: proofText(proof, currency) };
}

export function certaintyAnswers(certainty: readonly Certainty[]): z.output<typeof certaintyAnswer>[] {
  return certainty.map(({ limit, probability, sdFraction, confidence }) => ({
    limitId: limit.id,
    says: limit.says,
    probability,
    sd: inShownUnit(sdFraction, limit.unit),
    ...(confidence !== undefined && { confidence }),
  }));
}

export function worthOf({ limits, lines, nextUnit, notUsed, used }: Worth): z.output<typeof worthAnswer> {
  return {
    limits: limits.map(({ limit, stepFraction, savesPerKg, togetherWith }) => ({
      limitId: limit.id,
      says: limit.says,
      step: inShownUnit(stepFraction, limit.unit),
      unit: limit.unit,
      savesPerKg,
      togetherWith: togetherWith.map(({ id, says }) => ({ limitId: id, says })),
    })),
    lines: lines.map(({ materialId, stepFraction, costsPerKg }) => ({
      materialId,
      stepPoints: inShownUnit(stepFraction, 'percent'),
      costsPerKg,
    })),
    ...(nextUnit && { nextUnit: { ...nextUnit } }),
    notUsed: notUsed.map(({ supply, wouldEnterBelowPerKg }) => ({
      supplyId: supply.id,
      material: supply.material.name,
      costPerKg: supply.costPerKg,
      ...(wouldEnterBelowPerKg !== undefined && { wouldEnterBelowPerKg }),
    })),
    used: used.map(({ supply, best, oneUnitMoreSaves }) => ({
      supplyId: supply.id,
      material: supply.material.name,
      costPerKg: supply.costPerKg,
      ...(best && { bestFromPerKg: best.fromPerKg }),
      ...(best?.toPerKg !== undefined && { bestToPerKg: best.toPerKg }),
      ...(oneUnitMoreSaves !== undefined && { oneUnitMoreSaves }),
    })),
  };
}

export function nearBestAnswers(others: readonly NearBest[]): z.output<typeof nearBestAnswer>[] {
  return others.map(({ blend, aboveFraction, without, withInstead }) => ({
    cost: blend.cost,
    costPerKg: blend.cost / blend.batchKg,
    aboveFraction,
    without: [...without],
    withInstead: [...withInstead],
    lines: blend.lines.map(({ supply, weight, massKg }) => ({
      supplyId: supply.id,
      weight: `${weight.text} ${weight.scale.unit}`,
      kg: massKg,
    })),
  }));
}

export function wayOutOf({ conflict, repairs }: WayOut): z.output<typeof wayOutAnswer> {
  return {
    conflict: conflict.map((part) => ({ ...part })),
    repairs: repairs.map((repair) => ({
      ...repair,
      changes: repair.changes.map((change) => ({ ...change })),
    })),
  };
}
