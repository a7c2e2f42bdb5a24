import { isMeat } from '../batch/material.ts';
import type { Blend, NearBest } from './blend.ts';
import { solveSurely } from './certainty.ts';
import { NONE_KG } from './choose-lots.ts';
import { chooseSurely } from './choose-surely.ts';
import { formulate } from './formulate.ts';
import { prepare, problemOf } from './prepare.ts';
import type { FormulationRequest } from './request.ts';

/**
 * The next blends after the one that is printed, that differ from it and from each other in their meat lots: each
 * does without at least one lot of every one before it. Chosen as problems in whole numbers with every wish and margin
 * of the request, then formulated in full on the lots chosen and compared by what a kilogram costs as printed.
 * @param asked at most so many, no more than this share above the printed cost of a kilogram.
 */
export function nearBest(
  request: FormulationRequest,
  printed: Blend,
  { count, withinFraction }: NonNullable<FormulationRequest['nearBest']>,
): NearBest[] {
  const prepared = prepare(request);
  if (!prepared.ok) return [];
  const { engines, wishes = {} } = request;
  const problem = problemOf(request, prepared.ready);
  let { model } = solveSurely(problem.model, problem.chances, engines);
  const { supplies } = problem.coefficients;
  const idsOf = (columns: readonly number[]) => columns.flatMap((column) => supplies[column]?.id ?? []);
  const usedIds = new Set(printed.lines.map(({ supply }) => supply.id));
  const best = supplies.flatMap(({ id, material }, column) =>
    isMeat(material) && usedIds.has(id) ? [column] : [],
  );
  const perKg = ({ cost, batchKg }: Blend) => cost / batchKg;
  const avoided: number[][] = [best];
  const found: NearBest[] = [];
  // A choice that the scales cannot weigh is passed over, so a few more than asked are looked at.
  for (let look = 0; look < 2 * count && found.length < count; look++) {
    const choice = chooseSurely(model, problem, wishes, engines, avoided);
    if (!choice) break;
    model = choice.model;
    const { chosen } = choice;
    const used = supplies.flatMap(({ material }, column) =>
      isMeat(material) && (chosen.massesKg[column] ?? 0) > NONE_KG ? [column] : [],
    );
    avoided.push(used);
    const blend = blendOf(request, new Set(idsOf(used)));
    if (!blend) continue;
    const aboveFraction = perKg(printed) === 0 ? 0 : perKg(blend) / perKg(printed) - 1;
    if (aboveFraction > withinFraction) break;
    found.push({
      blend,
      aboveFraction,
      without: idsOf(best.filter((column) => !used.includes(column))),
      withInstead: idsOf(used.filter((column) => !best.includes(column))),
    });
  }
  return found.sort((a, b) => a.aboveFraction - b.aboveFraction);
}

/** The blend of these meat lots and whatever is no meat. */
function blendOf(request: FormulationRequest, meatIds: ReadonlySet<string>): Blend | undefined {
  const supplies = request.supplies.filter(({ id, material }) => !isMeat(material) || meatIds.has(id));
  const formulation = formulate({ ...request, supplies, withPrices: false });
  return formulation.outcome === 'blend' ? formulation.blend : undefined;
}
