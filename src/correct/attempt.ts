import type { Exact } from '../exact.ts';
import { slips } from '../formulate/settle-surely.ts';
import { weighable } from '../formulate/weighable.ts';
import type { Engine } from '../solver/model.ts';
import { solve } from '../solver/solve.ts';
import { isRightMix, mixMasses } from './check.ts';
import { correctionModel, type MixProblem } from './model.ts';
import { roundAdditions, type WeighedAdditions } from './round.ts';

/** What comes of trying to bring one mix back. */
export type Attempt =
  | { readonly kind: 'right'; readonly masses: readonly Exact[] }
  | ({ readonly kind: 'additions'; readonly unroundedCost: number } & WeighedAdditions)
  | { readonly kind: 'none' }
  /** Additions exist on paper, but no weights that the scales show were found that keep every limit. */
  | { readonly kind: 'not weighable' };

/**
 * The least-cost additions to a mix, weighed and checked exactly on the whole; none where it is right as it is.
 * @throws SolverFault, ModelFault when an engine or this program fails.
 */
export function attempt(problem: MixProblem, engines: readonly Engine[]): Attempt {
  const masses = mixMasses(problem);
  if (isRightMix(problem, masses)) return { kind: 'right', masses };
  const model = correctionModel(problem);
  const outcome = solve(model, engines);
  if (outcome.status !== 'optimal') return { kind: 'none' };
  const { mix, additions, views, plant } = problem;
  const slipOf = slips(views[0], 1, plant);
  const heldBack = weighable(
    model,
    outcome.values,
    (column, massKg) => (column < mix.length ? { underKg: 0, overKg: 0 } : slipOf(column, massKg)),
    engines,
  );
  const weighed = roundAdditions(problem, [outcome.values, heldBack]);
  if (!weighed) return { kind: 'not weighable' };
  const unroundedCost = additions.reduce(
    (cost, { costPerKg }, index) => cost + costPerKg * (outcome.values[mix.length + index] ?? 0),
    0,
  );
  return { kind: 'additions', unroundedCost, ...weighed };
}
