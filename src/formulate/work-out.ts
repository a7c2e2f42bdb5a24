import type { Formulation, WayOut } from './blend.ts';
import { solveSurely } from './certainty.ts';
import { canCount, cannotCount } from './choose-lots.ts';
import { conflictIn } from './conflict.ts';
import { formulate } from './formulate.ts';
import { nearBest } from './near-best.ts';
import { prepare, problemOf } from './prepare.ts';
import { repairsFor } from './repairs.ts';
import type { FormulationRequest } from './request.ts';

/**
 * Everything a person wants to know of one batch: the blend with what limits and lots are worth and the next best
 * ones where they are asked for; or why there is none, what cannot hold together, and the least changes that would
 * lead to one.
 */
export function workOut(request: FormulationRequest): Formulation {
  if (request.nearBest && !canCount(request.engines)) {
    return { outcome: 'refused', issues: [cannotCount(request.engines, ['nearBest'])] };
  }
  const formulation = formulate(request);
  if (formulation.outcome === 'no blend') return { ...formulation, ...withWayOut(request) };
  if (formulation.outcome === 'refused' || !request.nearBest) return formulation;
  const { blend } = formulation;
  return { outcome: 'blend', blend: { ...blend, nearBest: nearBest(request, blend, request.nearBest) } };
}

function withWayOut(request: FormulationRequest): { wayOut?: WayOut } {
  const prepared = prepare(request);
  if (!prepared.ok) return {};
  const { engines, plant } = request;
  const { ready } = prepared;
  const problem = problemOf(request, ready);
  const { model, outcome } = solveSurely(problem.model, problem.chances, engines);
  const hasPoint = outcome.status === 'optimal';
  return {
    wayOut: {
      conflict: hasPoint ? [] : conflictIn(model, problem, plant.units, engines),
      repairs: repairsFor({ request, ready, problem, model, hasPoint }),
    },
  };
}
