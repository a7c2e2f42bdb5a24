import { NO_HOUSE_RULES } from '../batch/house-rules.ts';
import type { Because, LeftOut } from '../formulate/blend.ts';
import { checkProcess } from '../formulate/check-process.ts';
import { chooseSupplies, hasPlace } from '../formulate/choose-supplies.ts';
import { missingFigure, rulesOn } from '../formulate/prepare.ts';
import { forbiddenBy, missingFigures } from '../rules/eligibility.ts';
import type { Applied } from '../rules/house-rules.ts';
import { sourceOf } from '../rules/limit.ts';
import { normalQuantile } from '../solver/normal.ts';
import type { CorrectionIssue, CorrectionRequest, ProductOfPlant } from './correction.ts';
import type { Job } from './model.ts';
import type { MixLine } from './tested-mix.ts';

export type JobFor =
  | { readonly ok: true; readonly job: Job; readonly applied: Applied; readonly leftOut: readonly LeftOut[] }
  | { readonly ok: false; readonly issues: readonly CorrectionIssue[] };

/** What a correction to this product works with: its limits on that day and what may be added to it. */
export function jobFor(
  request: CorrectionRequest,
  { product, standard }: ProductOfPlant,
  inMixer: readonly MixLine[],
): JobFor {
  const { date, plant, houseRules = NO_HOUSE_RULES, supplies, capacityKg, confidence } = request;
  const processIssues = checkProcess(product, standard);
  if (processIssues.length > 0) return { ok: false, issues: processIssues };
  const applied = rulesOn({ product, standard, date, houseRules });
  const { limits } = applied;
  const reckoned = [
    ...inMixer.map(({ supply }) => supply),
    ...supplies.filter((supply) => hasPlace(supply, product)),
  ];
  const missing = missingFigures(limits, reckoned, product.process);
  if (missing.length > 0) return { ok: false, issues: missing.map(missingFigure) };
  // Gaps of the list do not matter here: what the product needs may be in the mixer already.
  const { usable, leftOut } = chooseSupplies(supplies, product, limits, date);
  const job: Job = {
    product,
    limits,
    additions: usable,
    plant,
    capacityKg: capacityKg ?? plant.mixerCapacityKg,
    test: request.testedFat,
    ...(confidence !== undefined && { z: normalQuantile(confidence) }),
  };
  return { ok: true, job, applied, leftOut };
}

/** Lines of the mix that the product has no place for, or that its standard forbids. */
export function whyOutOfPlace({ product, limits }: Job, inMixer: readonly MixLine[]): Because[] {
  return inMixer.flatMap(({ supply }): Because[] => {
    const what = `${supply.id} (${supply.material.name}) is in the mix, and nothing can be taken out`;
    if (!hasPlace(supply, product)) return [{ message: `${what}: ${product.name} has no place for it.` }];
    const limit = forbiddenBy(limits, supply, product.process);
    return limit ? [{ limit, message: `${what}: ${limit.says} (${sourceOf(limit)})` }] : [];
  });
}
