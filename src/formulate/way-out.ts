import type { Formulation } from './blend.ts';
import { solveSurely } from './certainty.ts';
import { conflictIn } from './conflict.ts';
import { formulate } from './formulate.ts';
import { prepare, problemOf } from './prepare.ts';
import { repairsFor } from './repairs.ts';
import type { FormulationRequest } from './request.ts';

/** A blend; or why there is none, what cannot hold together, and the least changes that would lead to one. */
export function formulateOrShowWayOut(request: FormulationRequest): Formulation {
  const formulation = formulate(request);
  if (formulation.outcome !== 'no blend') return formulation;
  const prepared = prepare(request);
  if (!prepared.ok) return formulation;
  const { engines, plant } = request;
  const { ready } = prepared;
  const problem = problemOf(request, ready);
  const { model, outcome } = solveSurely(problem.model, problem.chances, engines);
  return {
    ...formulation,
    wayOut: {
      conflict: conflictIn(model, problem, plant.units, engines),
      repairs: repairsFor({ request, ready, problem, model, hasPoint: outcome.status === 'optimal' }),
    },
  };
}
