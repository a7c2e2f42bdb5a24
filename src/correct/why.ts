import { availableKg, type Supply } from '../batch/lot.ts';
import { compare, exact, sum, toNumber, ZERO } from '../exact.ts';
import type { Because } from '../formulate/blend.ts';
import { checkLimits, describeCheck } from '../rules/check.ts';
import { type Limit, sourceOf } from '../rules/limit.ts';
import { activity } from '../solver/exact-model.ts';
import type { Column, Engine, LinearModel, Row } from '../solver/model.ts';
import { relax, type SoftRow } from '../solver/relax.ts';
import { solve } from '../solver/solve.ts';
import { type MassUnit, massText } from '../units.ts';
import { correctionModel, type Held, type MixProblem } from './model.ts';

export interface Why {
  readonly because: readonly Because[];
  readonly leastTotalKg?: number;
}

/** Why a mix cannot be brought back: what stays broken, and whether the mixer, the lots or neither is what is missing. */
export function whyNotBroughtBack(problem: MixProblem, units: MassUnit, engines: readonly Engine[]): Why {
  const { mix, capacityKg } = problem;
  const inKg = toNumber(sum(mix.map(({ massKg }) => massKg)));
  const stays = whatStays(problem, engines);
  const bigger = leastTotal(problem, { capacity: false, stocks: true }, inKg, engines);
  if (bigger !== undefined) {
    return { because: [...stays, capacityMissing(bigger, capacityKg, units)], leastTotalKg: bigger };
  }
  const sameMixer = missingLots(problem, { capacity: true, stocks: false }, engines);
  if (sameMixer) return { because: [...stays, lotsMissing(sameMixer, units)] };
  const anyMixer = missingLots(problem, { capacity: false, stocks: false }, engines);
  if (anyMixer) {
    const total = inKg + anyMixer.addedKg;
    return { because: [...stays, lotsMissing(anyMixer, units), capacityMissing(total, capacityKg, units)] };
  }
  const message =
    'No amount of what may be added brings it back, in a mixer of any size. Another lot or another product is needed.';
  return { because: [...stays, { message }] };
}

/** Additions exist, but not in weights that the scales of the plant show. */
export function whyNotWeighed(): Because {
  return {
    message:
      "Additions would bring it back on paper, but on the plant's scales no weights were found that keep every limit. Weigh on a finer scale, or leave a target more room.",
  };
}

/** The limits and fixed lines that the nearest correction still breaks. */
function whatStays(problem: MixProblem, engines: readonly Engine[]): Because[] {
  const { mix, capacityKg, views } = problem;
  if (compare(sum(mix.map(({ massKg }) => massKg)), exact(capacityKg)) > 0) {
    return [{ message: 'What is in the mixer is more than it holds: nothing can be added.' }];
  }
  const model = correctionModel(problem);
  const nearest = relax(model, softRows(model), engines);
  if (!nearest) return [];
  const masses = nearest.values.map((massKg) => exact(Math.max(0, massKg)));
  const limits = new Set<Limit>();
  const lines: Because[] = [];
  for (const { rowIndex } of nearest.gives) {
    const limit = model.limitOfRow.get(rowIndex);
    const rate = model.rateOfRow.get(rowIndex);
    if (limit) limits.add(limit);
    if (!rate) continue;
    const side = compare(activity(rate.row, masses), ZERO) < 0 ? 'below' : 'above';
    lines.push({ message: `${rate.materialId} stays ${side} the rate that the recipe asks of the whole.` });
  }
  const broken = [...limits].map((limit): Because => {
    const checks = views.flatMap((view) => checkLimits([limit], view, masses));
    const worst = checks.reduce((a, b) => (b.room < a.room ? b : a));
    return {
      limit,
      message: `${limit.says} (${sourceOf(limit)}) stays broken: at best ${describeCheck(worst)}.`,
    };
  });
  return [...broken, ...lines];
}

/** The law gives last, and before it the rates of the recipe. */
function softRows({ limitOfRow, rateOfRow }: ReturnType<typeof correctionModel>): SoftRow[] {
  const limits = [...limitOfRow].map(([rowIndex, { authority }]) => ({
    rowIndex,
    weight: authority === 'law' ? 1000 : 1,
  }));
  return [...limits, ...[...rateOfRow.keys()].map((rowIndex) => ({ rowIndex, weight: 10 }))];
}

/** The least total that keeps every limit; undefined when none does. */
function leastTotal(
  problem: MixProblem,
  held: Held,
  inKg: number,
  engines: readonly Engine[],
): number | undefined {
  const model = correctionModel(problem, held);
  const columns = model.columns.map((column, index) => ({
    ...column,
    cost: index < problem.mix.length ? 0 : 1,
  }));
  const outcome = solve({ columns, rows: model.rows }, engines);
  return outcome.status === 'optimal' ? inKg + outcome.cost : undefined;
}

interface MissingLots {
  readonly lots: readonly { readonly supply: Supply; readonly massKg: number }[];
  readonly addedKg: number;
}

/** Amounts below this are dust of the engine. */
const DUST_KG = 1e-6;
/** Every kilogram more than there is counts this many times a kilogram that is there. */
const DEAR = 1000;

/** What more of which lots would do it, as little as possible; undefined when no amount does. */
function missingLots(problem: MixProblem, held: Held, engines: readonly Engine[]): MissingLots | undefined {
  const { mix, additions } = problem;
  const model = correctionModel(problem, held);
  const columns: Column[] = model.columns.map((column, index) => ({
    ...column,
    cost: index < mix.length ? 0 : 1,
  }));
  const rows: Row[] = [...model.rows];
  const more = additions.flatMap((supply, index) => {
    const stockKg = availableKg(supply);
    if (!Number.isFinite(stockKg)) return [];
    const column = columns.push({ cost: DEAR, lower: 0, upper: Number.POSITIVE_INFINITY }) - 1;
    rows.push({
      name: `stock of ${supply.id}`,
      lower: Number.NEGATIVE_INFINITY,
      upper: stockKg,
      terms: [
        { column: mix.length + index, coefficient: 1 },
        { column, coefficient: -1 },
      ],
    });
    return [{ supply, column }];
  });
  const outcome = solve({ columns, rows }, engines);
  if (outcome.status !== 'optimal') return undefined;
  const { values } = outcome;
  return {
    lots: more
      .map(({ supply, column }) => ({ supply, massKg: values[column] ?? 0 }))
      .filter(({ massKg }) => massKg > DUST_KG),
    addedKg: values
      .slice(mix.length, mix.length + additions.length)
      .reduce((total, massKg) => total + massKg, 0),
  };
}

function capacityMissing(totalKg: number, capacityKg: number, units: MassUnit): Because {
  return {
    message: `It takes a total of at least ${massText(totalKg, units)}, before rounding to the scales; the mixer holds ${massText(capacityKg, units)}.`,
  };
}

function lotsMissing({ lots }: MissingLots, units: MassUnit): Because {
  const named = lots.map(
    ({ supply, massKg }) => `${massText(massKg, units)} more of ${supply.id} (${supply.material.name})`,
  );
  return { message: `What is on hand is not enough: it takes ${named.join(' and ')}, or a lot like it.` };
}

/**
 * The largest share of a mix that can be brought back within the mixer and the lots: everything in the mix shrinks
 * together, for a mixed load is even. @returns 0 when no share can.
 */
export function largestShare(problem: MixProblem, engines: readonly Engine[]): number {
  const model = correctionModel(problem);
  const outcome = solve(
    sharedModel(
      model,
      problem.mix.map(({ massKg }) => toNumber(massKg)),
    ),
    engines,
  );
  return outcome.status === 'optimal' ? Math.min(1, Math.max(0, outcome.values[0] ?? 0)) : 0;
}

/** The columns of the mix as one: the share of it that stays. */
function sharedModel({ columns, rows }: LinearModel, mixKg: readonly number[]): LinearModel {
  const count = mixKg.length;
  return {
    columns: [
      { cost: -1, lower: 0, upper: 1 },
      ...columns.slice(count).map((column) => ({ ...column, cost: 0 })),
    ],
    rows: rows.map((row) => ({
      ...row,
      terms: [
        {
          column: 0,
          coefficient: row.terms
            .filter(({ column }) => column < count)
            .reduce((total, { column, coefficient }) => total + coefficient * (mixKg[column] ?? 0), 0),
        },
        ...row.terms
          .filter(({ column }) => column >= count)
          .map(({ column, coefficient }) => ({ column: column - count + 1, coefficient })),
      ],
    })),
  };
}
