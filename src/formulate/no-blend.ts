import { availableKg, type Supply } from '../batch/lot.ts';
import { isMeat } from '../batch/material.ts';
import { toNumber } from '../exact.ts';
import { describeCheck, senseText } from '../rules/check.ts';
import type { Coefficients } from '../rules/coefficients.ts';
import { type Form, formsOf } from '../rules/form.ts';
import { inShownUnit, type Limit, shownBound, sourceOf } from '../rules/limit.ts';
import type { Engine } from '../solver/model.ts';
import { relax, type SoftRow } from '../solver/relax.ts';
import { solve } from '../solver/solve.ts';
import { type MassUnit, massText } from '../units.ts';
import type { BatchModel, SizeRow } from './batch-model.ts';
import type { Because } from './blend.ts';
import type { FloorWishes } from './request.ts';
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
  const largest = extremeSize(model, coefficients, size, 'largest', engines);
  const largestKg = largest?.massKg;
  if (largest && largestKg !== undefined && largestKg > ROOM_FOR_NOISE_KG) {
    const asked = `${massText(size.massKg, units)} is asked`;
    if (largestKg < size.massKg) {
      const most = `What is on hand makes at most ${massText(largestKg, units)} (${size.form.says}) of this product within its limits`;
      return [
        {
          message: `${most}; ${asked}. Make a smaller batch or receive more${usedUp(largest.values, coefficients)}.`,
        },
      ];
    }
    const smallestKg = extremeSize(model, coefficients, size, 'smallest', engines)?.massKg ?? 0;
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
  const limits = new Set(relaxation.gives.flatMap(({ rowIndex }) => model.limitOfRow.get(rowIndex) ?? []));
  const isHeldBack = (limit: Limit) =>
    relaxation.gives.every(
      ({ rowIndex }) => model.limitOfRow.get(rowIndex) !== limit || model.rows[rowIndex]?.plane === true,
    );
  const because = [...limits].map((limit) => ({
    limit,
    message: isHeldBack(limit) ? notSureOf(limit) : messageOf(limit, coefficients, relaxation.values),
  }));
  return because.length > 0 ? because : [{ message: NO_ROOM }];
}

/** Which lots the largest batch empties: more of one of them makes a larger one. */
function usedUp(values: readonly number[], { supplies }: Coefficients): string {
  const empty = supplies.filter((supply, column) => {
    const mostKg = availableKg(supply);
    return Number.isFinite(mostKg) && (values[column] ?? 0) >= mostKg - 1e-6;
  });
  return empty.length === 0 ? '' : ` (it uses up ${empty.map(({ id }) => id).join(', ')})`;
}

/** The law gives last: a target of the house that fights it is the one to change. */
function softRows({ limitOfRow }: BatchModel): SoftRow[] {
  return [...limitOfRow].map(([rowIndex, { authority }]) => ({
    rowIndex,
    weight: authority === 'law' ? 1000 : 1,
  }));
}

/** The most or the least that can be made with every limit kept; undefined when nothing bounds it. */
export function extremeSize(
  model: BatchModel,
  coefficients: Coefficients,
  { form }: SizeRow,
  which: 'largest' | 'smallest',
  engines: readonly Engine[],
): { readonly massKg: number; readonly values: readonly number[] } | undefined {
  const sign = which === 'largest' ? -1 : 1;
  const perKg = coefficients.of(form).map(toNumber);
  const columns = model.columns.map((column, index) => ({ ...column, cost: sign * (perKg[index] ?? 0) }));
  const outcome = solve({ columns, rows: model.rows.slice(1) }, engines);
  if (outcome.status === 'optimal') return { massKg: sign * outcome.cost, values: outcome.values };
  return outcome.status === 'infeasible' ? { massKg: 0, values: [] } : undefined;
}

function messageOf(limit: Limit, coefficients: Coefficients, values: readonly number[]): string {
  const decides = deciding(limit, coefficients, values);
  const reached = inShownUnit(
    sumOf(decides, coefficients, values) / sumOf(limit.basis, coefficients, values),
    limit.unit,
  );
  const remedy = rateRemedy(limit, coefficients, values) ?? meatRemedy(limit);
  return `${limit.says} The nearest blend has ${shown(reached)} ${limit.unit} of ${limit.numerator.says} where ${senseText(limit)} ${shownBound(limit)} is asked. ${remedy}`;
}

/** The limit itself could be kept; its margin cannot. */
function notSureOf({ says, id }: Limit): string {
  return `${says} It can be kept, but not with the confidence asked of ${id}: the fat of the lots is not known well enough. Ask for less confidence, test the lots, or give the target more room.`;
}

function meatRemedy(limit: Limit): string {
  const { authority, sense } = limit;
  const lots = sense === 'max' ? 'less' : 'more';
  return authority === 'law'
    ? `This is a limit of the law (${sourceOf(limit)}): receive meat with ${lots} of it or change the recipe.`
    : `Change this target, or receive meat with ${lots} of it.`;
}

/** Where a seasoning brings what is too much, its rate is what to change. */
function rateRemedy(limit: Limit, coefficients: Coefficients, values: readonly number[]): string | undefined {
  if (limit.sense !== 'max') return undefined;
  const decides = deciding(limit, coefficients, values);
  const brought = coefficients.of(decides).map((perKg, column) => toNumber(perKg) * (values[column] ?? 0));
  const most = brought.indexOf(Math.max(...brought));
  const supply = coefficients.supplies[most];
  if (!supply || isMeat(supply.material)) return undefined;
  const allowed =
    (limit.bound * sumOf(limit.basis, coefficients, values)) / sumOf(decides, coefficients, values);
  return `Lower the rate of ${supply.material.name} to about ${shown(Math.floor(allowed * 1e4 + 1e-4) / 100)} % of what it is.`;
}

/** The form of a numerator that stands worst. */
function deciding({ numerator, sense }: Limit, coefficients: Coefficients, values: readonly number[]): Form {
  const side = sense === 'max' ? 1 : -1;
  return formsOf(numerator).reduce((worst, form) =>
    side * (sumOf(form, coefficients, values) - sumOf(worst, coefficients, values)) > 0 ? form : worst,
  );
}

function sumOf(form: Form, coefficients: Coefficients, values: readonly number[]): number {
  return coefficients
    .of(form)
    .reduce((sum, perKg, column) => sum + toNumber(perKg) * (values[column] ?? 0), 0);
}

function notSure(): Because {
  return {
    message:
      "On the plant's scales no weights were found that keep every limit with the confidence asked. Make a larger batch, weigh on a finer scale, or ask for a little less confidence.",
  };
}

/** Lots cannot be chosen as the floor wants them, though a blend exists without that. */
export function noChoice(
  { wholeBoxes = [], mostLots, sizeWithin }: FloorWishes,
  usable: readonly Supply[],
): Because {
  const boxed = usable.flatMap(({ lot }) => (lot && wholeBoxes.includes(lot.id) ? [lot.id] : []));
  const wants = [
    ...(boxed.length > 0 ? [`whole boxes of ${boxed.join(', ')}`] : []),
    ...(mostLots === undefined ? [] : [`at most ${mostLots} meat ${mostLots === 1 ? 'lot' : 'lots'}`]),
  ];
  const remedy = sizeWithin
    ? 'Let the batch be further from its size'
    : 'Let the batch be a little bigger or smaller than asked';
  return {
    message: `A blend exists, but none was found with ${wants.join(' and ') || 'the least amounts asked of its lots'}. ${remedy}, open a box, or allow more lots.`,
  };
}

/** The blend exists on paper but no weights that the scales can show keep these limits. */
export function whyNotWeighable(
  { checks, hasSize, isSure }: SettledLoad,
  size: SizeRow,
  units: MassUnit,
): Because[] {
  const remedy = 'Make a larger batch, weigh on a finer scale, or leave the blend more room.';
  const broken = checks
    .filter(({ holds }) => !holds)
    .map((check) => ({
      limit: check.limit,
      message: `On the plant's scales no weights were found that keep this limit: ${describeCheck(check)}. ${remedy}`,
    }));
  const unsure = isSure ? [] : [notSure()];
  if (hasSize) return [...broken, ...unsure];
  const message = `On the plant's scales no weights were found that reach ${massText(size.massKg, units)} (${size.form.says}) within the limits. ${remedy}`;
  return [...broken, { message }];
}

function shown(value: number): string {
  return String(Number(value.toPrecision(5)));
}
