import type { Engine } from '../solver/model.ts';
import type { BatchModel } from './batch-model.ts';
import { missesMargin, withCutsAt } from './certainty.ts';
import { type ChosenLots, chooseLots } from './choose-lots.ts';
import type { Problem } from './prepare.ts';
import type { FloorWishes } from './request.ts';

/** Rounds of laying a plane where a margin is missed; one or two are usual. */
const MOST_ROUNDS = 12;

/**
 * A choice of lots in whole numbers that holds every margin as well: a plane where it does not, and again. Undefined
 * when there is none. @param start the problem's model, with planes where some are known.
 */
export function chooseSurely(
  start: BatchModel,
  { coefficients, size, chances }: Problem,
  wishes: FloorWishes,
  engines: readonly Engine[],
  avoided: readonly (readonly number[])[] = [],
): ChosenLots | undefined {
  let model = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const chosen = chooseLots(model, coefficients, size, wishes, engines, avoided);
    if (!chosen) return undefined;
    const missed = missesMargin(model, chances, chosen.massesKg);
    if (missed.length === 0) return chosen;
    model = withCutsAt(model, missed, chosen.massesKg);
  }
  return undefined;
}
