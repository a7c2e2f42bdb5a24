import type { LinearModel } from './model.ts';

/** A model that no engine should see: a fault of the caller, never of the user's data. */
export class ModelFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'ModelFault';
  }
}

/**
 * Refuses numbers that engines answer silently and wrongly: NaN and infinite coefficients, crossed bounds,
 * terms without a column.
 * @throws ModelFault
 */
export function guard(model: LinearModel): void {
  model.columns.forEach(({ cost, lower, upper }, index) => {
    if (!Number.isFinite(cost)) throw new ModelFault(`column ${index} costs ${cost}`);
    if (!Number.isFinite(lower)) throw new ModelFault(`column ${index} has the lower bound ${lower}`);
    if (!(upper >= lower)) throw new ModelFault(`column ${index} has the bounds ${lower} to ${upper}`);
  });
  for (const { name, lower, upper, terms } of model.rows) {
    if (!(upper >= lower)) throw new ModelFault(`row ${name} has the bounds ${lower} to ${upper}`);
    if (lower === Number.POSITIVE_INFINITY || upper === Number.NEGATIVE_INFINITY) {
      throw new ModelFault(`row ${name} can hold no value`);
    }
    for (const { column, coefficient } of terms) {
      if (!model.columns[column])
        throw new ModelFault(`row ${name} names column ${column}, which is not there`);
      if (!Number.isFinite(coefficient))
        throw new ModelFault(`row ${name} has the coefficient ${coefficient}`);
    }
  }
}
