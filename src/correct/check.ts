import { add, compare, type Exact, exact, sum, toNumber, ZERO } from '../exact.ts';
import { makeup } from '../formulate/describe-blend.ts';
import { roundingOf } from '../formulate/round.ts';
import { type Check, checkLimits, explain } from '../rules/check.ts';
import type { Form } from '../rules/form.ts';
import { FORMS } from '../rules/forms.ts';
import { activity } from '../solver/exact-model.ts';
import type { Standing } from './correction.ts';
import type { MixProblem, Rate } from './model.ts';

/** Exact weights of the mix alone, a place for every addition. */
export function mixMasses({ mix, additions }: MixProblem): Exact[] {
  return [...mix.map(({ massKg }) => massKg), ...additions.map(() => ZERO)];
}

/** Whether every limit holds at every fat and every fixed line is at its rate, as near as its scale comes. */
export function isRightMix(problem: MixProblem, masses: readonly Exact[]): boolean {
  const { limits, views, rates } = problem;
  return (
    rates.every((rate) => isAtRate(rate, problem, masses)) &&
    views.every((view) => checkLimits(limits, view, masses).every(({ holds }) => holds))
  );
}

/** Whether the whole stays within the mixer. */
export function isWithinCapacity({ capacityKg }: MixProblem, masses: readonly Exact[]): boolean {
  return compare(sum(masses), exact(capacityKg)) <= 0;
}

/** What the law counts may not be added past its rate; what is in already may be above it by what rounding explains. */
export function isAtRate(rate: Rate, problem: MixProblem, masses: readonly Exact[]): boolean {
  const off = activity(rate.row, masses);
  if (compare(off, rate.slackKg) > 0 || compare(add(off, rate.slackKg), ZERO) < 0) return false;
  return compare(off, ZERO) <= 0 || !isCounted(rate, problem) || isZeroAdded(rate, problem, masses);
}

/** Whether the line only ever rounds down. */
export function isCounted({ materialId }: Rate, { views }: MixProblem): boolean {
  return views[0].supplies.some(
    ({ material }) => material.id === materialId && roundingOf(material) === 'down',
  );
}

function isZeroAdded({ materialId }: Rate, { mix, views }: MixProblem, masses: readonly Exact[]): boolean {
  return views[0].supplies.every(
    ({ material }, column) =>
      column < mix.length || material.id !== materialId || compare(masses[column] ?? ZERO, ZERO) === 0,
  );
}

/** How a mix with these additions stands to its limits. */
export function standing({ limits, views }: MixProblem, masses: readonly Exact[]): Standing {
  const [found, ...ends] = views;
  const totalKg = (form: Form) => toNumber(found.total(form, masses));
  const moved = ends.map((view) => checkLimits(limits, view, masses));
  const worse = limits.map((_, index) =>
    moved
      .flatMap((checks) => checks[index] ?? [])
      .reduce<Check | undefined>(
        (worst, check) => (worst && worst.room <= check.room ? worst : check),
        undefined,
      ),
  );
  return {
    totalKg: totalKg(FORMS.formula),
    checks: checkLimits(limits, found, masses).map((check) => explain(check, found, masses)),
    ...(ends.length > 0 && { onUnsafeSide: worse.flatMap((check) => check ?? []) }),
    raw: makeup(totalKg, FORMS.fat, FORMS.water, FORMS.formula),
    finished: makeup(totalKg, FORMS.finishedFat, FORMS.finishedWater, FORMS.finished),
  };
}
