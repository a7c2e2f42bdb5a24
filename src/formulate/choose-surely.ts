import type { Engine } from '../solver/model.ts';
import { type BatchModel, withRows } from './batch-model.ts';
import { missesMargin, solveSurely, withCutsAt } from './certainty.ts';
import { type ChosenLots, chooseLots, NONE_KG } from './choose-lots.ts';
import type { Problem } from './prepare.ts';
import type { FloorWishes } from './request.ts';

/** Rounds of laying planes where a margin is missed; a few are usual. */
const MOST_ROUNDS = 20;

/** A choice of lots, and the model with the planes that it took: they hold for every other choice as well. */
export interface SureChoice {
  readonly chosen: ChosenLots;
  readonly model: BatchModel;
}

/**
 * A choice of lots in whole numbers that holds every margin as well. Where a choice misses one, the planes that the
 * cheapest blend of just these lots needs are laid, and lots are chosen again. Undefined when there is none.
 * @param start the problem's model, with planes where some are known.
 */
export function chooseSurely(
  start: BatchModel,
  { coefficients, size, chances }: Problem,
  wishes: FloorWishes,
  engines: readonly Engine[],
  avoided: readonly (readonly number[])[] = [],
): SureChoice | undefined {
  let model = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const chosen = chooseLots(model, coefficients, size, wishes, engines, avoided);
    if (!chosen) return undefined;
    const missed = missesMargin(model, chances, chosen.massesKg);
    if (missed.length === 0) return { chosen, model };
    const { model: ofThese } = solveSurely(only(model, chosen.massesKg), chances, engines);
    const planes = ofThese.exact.rows.slice(model.rows.length).map((row, index) => {
      const limit = ofThese.limitOfRow.get(model.rows.length + index);
      return { row, ...(limit && { limit }) };
    });
    model = withCutsAt(withRows(model, planes), missed, chosen.massesKg);
  }
  return undefined;
}

/** The model with nothing but what is used; its rows and their planes mean the same in the whole. */
function only(model: BatchModel, massesKg: readonly number[]): BatchModel {
  const isUsed = (column: number) => (massesKg[column] ?? 0) > NONE_KG;
  return {
    ...model,
    columns: model.columns.map((each, column) => (isUsed(column) ? each : { ...each, upper: each.lower })),
    exact: {
      ...model.exact,
      columns: model.exact.columns.map((each, column) =>
        isUsed(column) ? each : { ...each, upper: each.lower },
      ),
    },
  };
}
