import { compare, type Exact, multiply, ratio, subtract, sum, toNumber, ZERO } from '../exact.ts';
import type { Form } from '../rules/form.ts';
import { FORMS } from '../rules/forms.ts';
import { activity, type ExactModel, leastCostBound, provesEmpty } from '../solver/exact-model.ts';
import type { Engine } from '../solver/model.ts';
import { relax } from '../solver/relax.ts';
import type { BatchModel } from './batch-model.ts';
import type { CostProof } from './blend.ts';

/**
 * How near weighed masses are to the least cost, proven in exact arithmetic: no blend of the same size, with its
 * fixed lines as far off their rates as they were weighed, within every limit and stock, costs less than the
 * bound. Weak duality makes the bound true whatever the row prices are worth; poor prices only widen the gap.
 * @param massesKg one exact mass for each column of the model, keeping all its limits.
 */
export function proveCost(
  model: BatchModel,
  rowPrices: readonly number[],
  massesKg: readonly Exact[],
  size: Form,
): CostProof {
  const asWeighed: ExactModel = {
    columns: model.exact.columns,
    rows: model.exact.rows.map((row, index) => {
      const isFixed = row.lower !== undefined && row.upper !== undefined && !model.limitOfRow.has(index);
      if (!isFixed) return row;
      const weighed = activity(row, massesKg);
      return { ...row, lower: weighed, upper: weighed };
    }),
  };
  const least = leastCostBound(asWeighed, rowPrices);
  const cost = sum(
    model.exact.columns.map((column, index) => multiply(column.cost, massesKg[index] ?? ZERO)),
  );
  const above = subtract(cost, least);
  const hasLines = model.rows.some(({ name }, row) => row > 0 && name.startsWith('line '));
  return {
    among: `${SIZES[size.id] ?? size.says}${hasLines ? ' and with its seasoning as weighed' : ''}`,
    leastCost: toNumber(least),
    aboveLeast: toNumber(above),
    ...(compare(least, ZERO) > 0 && { withinFraction: Math.max(0, ratio(above, least)) }),
  };
}

/** What is the same in every blend that the bound speaks of. */
const SIZES: Readonly<Record<string, string>> = {
  [FORMS.formula.id]: 'of this weight',
  [FORMS.greenWeight.id]: 'with this much meat',
  [FORMS.finished.id]: 'of this finished weight',
};

/** Whether it is proven, exactly, that no blend exists at all: no sum of the rows leaves room for one. */
export function proveNone(model: BatchModel, engines: readonly Engine[]): boolean {
  const every = model.rows.map((_, rowIndex) => ({ rowIndex, weight: 1 }));
  const relaxation = relax(model, every, engines);
  return relaxation !== undefined && provesEmpty(model.exact, relaxation.rowPrices);
}
