import { isMeat } from '../batch/material.ts';
import type { Blend, NearBest } from './blend.ts';
import { solveSurely } from './certainty.ts';
import { chooseLots, NONE_KG } from './choose-lots.ts';
import { formulate } from './formulate.ts';
import { prepare, problemOf } from './prepare.ts';
import type { FormulationRequest } from './request.ts';

/**
 * The cheapest blends that differ in their meat lots, each doing without at least one lot of every one before it, as
 * far as they cost no more than a share above the least. Worked out as choices of lots in whole numbers, then
 * formulated in full on the lots chosen.
 * @param asked at most so many, no more than this share above the least cost.
 */
export function nearBest(
  request: FormulationRequest,
  { count, withinFraction }: NonNullable<FormulationRequest['nearBest']>,
): NearBest[] {
  const prepared = prepare(request);
  if (!prepared.ok) return [];
  const { engines, wishes = {} } = request;
  const problem = problemOf(request, prepared.ready);
  const { model, outcome } = solveSurely(problem.model, problem.chances, engines);
  if (outcome.status !== 'optimal') return [];
  const { supplies } = problem.coefficients;
  const meatOf = (massesKg: readonly number[]) =>
    massesKg.flatMap((massKg, column) => {
      const supply = supplies[column];
      return supply && massKg > NONE_KG && isMeat(supply.material) ? [column] : [];
    });
  const idsOf = (columns: readonly number[]) => columns.flatMap((column) => supplies[column]?.id ?? []);
  const best = meatOf(outcome.values);
  const most = outcome.cost + Math.abs(outcome.cost) * withinFraction;
  const avoided: number[][] = [best];
  const found: NearBest[] = [];
  // A choice that the scales cannot weigh is passed over, so a few more than asked are looked at.
  for (let look = 0; look < 2 * count && found.length < count; look++) {
    const chosen = chooseLots(model, problem.coefficients, prepared.ready.size, wishes, engines, avoided);
    if (!chosen || chosen.cost > most) break;
    const used = meatOf(chosen.massesKg);
    avoided.push(used);
    const left = new Set(idsOf(used));
    const blend = blendOf(request, (id, isLot) => !isLot || left.has(id));
    if (!blend) continue;
    found.push({
      blend,
      aboveFraction: outcome.cost === 0 ? 0 : chosen.cost / outcome.cost - 1,
      without: idsOf(best.filter((column) => !used.includes(column))),
      withInstead: idsOf(used.filter((column) => !best.includes(column))),
    });
  }
  return found;
}

function blendOf(
  request: FormulationRequest,
  stays: (id: string, isMeatSupply: boolean) => boolean,
): Blend | undefined {
  const supplies = request.supplies.filter(({ id, material }) => stays(id, isMeat(material)));
  const formulation = formulate({ ...request, supplies, withPrices: false });
  return formulation.outcome === 'blend' ? formulation.blend : undefined;
}
