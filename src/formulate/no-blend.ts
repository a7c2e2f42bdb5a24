import { toNumber } from '../exact.ts';
import { describeCheck } from '../rules/check.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { inShownUnit, type Limit, shownBound } from '../rules/limit.ts';
import type { Engine } from '../solver/model.ts';
import { relax, type SoftRow } from '../solver/relax.ts';
import { solve } from '../solver/solve.ts';
import { type MassUnit, massText } from '../units.ts';
import type { BatchModel, SizeRow } from './batch-model.ts';
import type { Because } from './blend.ts';
import type { SettledLoad } from './settle.ts';

const NO_ROOM =
  'Limits and fixed lines leave so little room that no blend could be told from none. Widen a target or change a rate a little.';
const ROOM_FOR_NOISE_KG = 1e-6;

/** Why no blend exists: the batch is too big for what is on hand, or limits that cannot hold together. */
export function whyNoBlend(
  model: BatchModel,
  coefficients: Coefficients,
  size: SizeRow,
  units: MassUnit,
  engines: readonly Engine[],
): Because[] {
  const largestKg = extremeSize(model, coefficients, size, 'largest', engines);
  if (largestKg !== undefined && largestKg > ROOM_FOR_NOISE_KG) {
    const asked = `${massText(size.massKg, units)} is asked`;
    if (largestKg < size.massKg) {
      const most = `What is on hand makes at most ${massText(largestKg, units)} (${size.form.says}) of this product within its limits`;
      return [{ message: `${most}; ${asked}. Make a smaller batch or receive more.` }];
    }
    const smallestKg = extremeSize(model, coefficients, size, 'smallest', engines) ?? 0;
    const least = `The least amounts to use make at least ${massText(smallestKg, units)} (${size.form.says}) of this product within its limits`;
    return [{ message: `${least}; ${asked}. Make a larger batch or ask for less of a lot.` }];
  }
  const relaxation = relax(model, softRows(model), engines);
  if (!relaxation) {
    return [
      {
        message: `What is on hand does not reach ${massText(size.massKg, units)} (${size.form.says}) together with the fixed seasoning lines. Make a smaller batch or receive more.`,
      },
    ];
  }
  const because = relaxation.gives.flatMap(({ rowIndex }) => {
    const limit = model.limitOfRow.get(rowIndex);
    return limit ? [{ limit, message: messageOf(limit, coefficients, relaxation.values) }] : [];
  });
  return because.length > 0 ? because : [{ message: NO_ROOM }];
}

/** The law gives last: a target of the house that fights it is the one to change. */
function softRows({ limitOfRow }: BatchModel): SoftRow[] {
  return [...limitOfRow].map(([rowIndex, { authority }]) => ({
    rowIndex,
    weight: authority === 'law' ? 1000 : 1,
  }));
}

/** The most or the least that can be made with every limit kept; undefined when nothing bounds it. */
function extremeSize(
  model: BatchModel,
  coefficients: Coefficients,
  { form }: SizeRow,
  which: 'largest' | 'smallest',
  engines: readonly Engine[],
): number | undefined {
  const sign = which === 'largest' ? -1 : 1;
  const perKg = coefficients.of(form).map(toNumber);
  const columns = model.columns.map((column, index) => ({ ...column, cost: sign * (perKg[index] ?? 0) }));
  const outcome = solve({ columns, rows: model.rows.slice(1) }, engines);
  if (outcome.status === 'optimal') return sign * outcome.cost;
  return outcome.status === 'infeasible' ? 0 : undefined;
}

function messageOf(limit: Limit, coefficients: Coefficients, values: readonly number[]): string {
  const total = (form: Limit['basis']) =>
    coefficients.of(form).reduce((sum, perKg, column) => sum + toNumber(perKg) * (values[column] ?? 0), 0);
  const reached = inShownUnit(total(limit.numerator) / total(limit.basis), limit.unit);
  const side = limit.sense === 'max' ? 'at most' : 'at least';
  const lots = limit.sense === 'max' ? 'less' : 'more';
  const remedy =
    limit.authority === 'law'
      ? `This is a limit of the law (${limit.citation}): receive meat with ${lots} of it or change the recipe.`
      : `Change this target, or receive meat with ${lots} of it.`;
  return `${limit.says} The nearest blend has ${shown(reached)} ${limit.unit} of ${limit.numerator.says} where ${side} ${shownBound(limit)} is asked. ${remedy}`;
}

/** The blend exists on paper but no weights that the scales can show keep these limits. */
export function whyNotWeighable({ checks, hasSize }: SettledLoad, size: SizeRow, units: MassUnit): Because[] {
  const remedy = 'Make a larger batch, weigh on a finer scale, or leave the blend more room.';
  const broken = checks
    .filter(({ holds }) => !holds)
    .map((check) => ({
      limit: check.limit,
      message: `On the plant's scales no weights were found that keep this limit: ${describeCheck(check)}. ${remedy}`,
    }));
  if (hasSize) return broken;
  const message = `On the plant's scales no weights were found that reach ${massText(size.massKg, units)} (${size.form.says}) within the limits. ${remedy}`;
  return [...broken, { message }];
}

function shown(value: number): string {
  return String(Number(value.toPrecision(5)));
}
