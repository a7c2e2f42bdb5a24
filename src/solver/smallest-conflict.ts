import type { Group } from './groups.ts';
import type { Column, Engine, LinearModel, Row, Term } from './model.ts';
import { rowScale } from './scale.ts';
import { SolverFault, solve } from './solve.ts';

/** The largest weight that a bound may have in a proof, where the proof as a whole is worth 1. */
const MOST_WEIGHT = 1e3;
/** A smaller weight is none. */
const NO_WEIGHT = 1e-6;

/**
 * The fewest groups that cannot hold together, as a problem in whole numbers: weights on bounds that cancel out over
 * every column and add up to more than nothing (Farkas), with a count of the groups whose bounds take part. A proposal:
 * weights above a bound are not looked for, so the caller tries it on the model itself. Undefined when none is found.
 * @param how weighing is quick with hundreds of groups and finds few of them, not always the fewest.
 * @returns indices into groups.
 */
export function fewestInConflict(
  model: LinearModel,
  groups: readonly Group[],
  engines: readonly Engine[],
  how: 'counted' | 'weighed',
): readonly number[] | undefined {
  const isCounted = how === 'counted';
  const columns: Column[] = groups.map(() => ({
    cost: 1,
    lower: 0,
    upper: 1,
    ...(isCounted && { whole: true }),
  }));
  const balance: Term[][] = model.columns.map(() => []);
  const worth: Term[] = [];
  const rows: Row[] = [];
  /** A weight on "at least end" for a side of 1, on "at most end" for -1. @param counted the group it counts. */
  const weigh = (end: number, side: 1 | -1, terms: readonly Term[], counted?: number): void => {
    if (!Number.isFinite(end)) return;
    const column = columns.push({ cost: 0, lower: 0, upper: MOST_WEIGHT }) - 1;
    for (const term of terms) balance[term.column]?.push({ column, coefficient: side * term.coefficient });
    if (end !== 0) worth.push({ column, coefficient: side * end });
    if (counted === undefined) return;
    rows.push({
      name: 'counts its group',
      lower: Number.NEGATIVE_INFINITY,
      upper: 0,
      terms: [
        { column, coefficient: 1 },
        { column: counted, coefficient: -MOST_WEIGHT },
      ],
    });
  };
  const groupOfRow = new Map(
    groups.flatMap(({ rows: freed }, group) => freed.map((row) => [row.row, { ...row, group }] as const)),
  );
  const groupOfEnd = new Map(
    groups.flatMap(({ ends }, group) =>
      ends.map((end) => [`${end.column} ${end.end}`, { ...end, group }] as const),
    ),
  );
  model.rows.forEach(({ lower, upper, terms }, index) => {
    const factor = rowScale({ name: '', lower, upper, terms });
    const scaled = terms.map(({ column, coefficient }) => ({ column, coefficient: coefficient * factor }));
    const freed = groupOfRow.get(index);
    weigh(lower * factor, 1, scaled, freed?.group);
    weigh(upper * factor, -1, scaled, freed?.group);
    // What is left of a row when its group is let go counts nothing.
    if (freed) {
      weigh(freed.lower * factor, 1, scaled);
      weigh(freed.upper * factor, -1, scaled);
    }
  });
  model.columns.forEach((held, index) => {
    const itself = [{ column: index, coefficient: 1 }];
    for (const [end, side] of [
      ['lower', 1],
      ['upper', -1],
    ] as const) {
      const freed = groupOfEnd.get(`${index} ${end}`);
      weigh(held[end], side, itself, freed?.group);
      if (freed) weigh(freed.to, side, itself);
    }
  });
  for (const terms of balance) rows.push({ name: 'cancels out', lower: 0, upper: 0, terms });
  rows.push({ name: 'contradiction', lower: 1, upper: 1, terms: worth });
  try {
    return isCounted
      ? countedIn({ columns, rows }, groups, engines)
      : weighedIn({ columns, rows }, groups, engines);
  } catch (error) {
    if (error instanceof SolverFault) return undefined;
    throw error;
  }
}

function countedIn(
  model: LinearModel,
  groups: readonly Group[],
  engines: readonly Engine[],
): readonly number[] | undefined {
  const outcome = solve(model, engines);
  if (outcome.status !== 'optimal') return undefined;
  return groups.flatMap((_, index) => ((outcome.values[index] ?? 0) > 0.5 ? [index] : []));
}

/** Rounds of weighing anew; after three little changes. */
const ROUNDS = 4;

/**
 * Few groups without counting: the least sum of weights, and again with each weight as dear as it was small, so that
 * small ones go (Candès, Wakin and Boyd, Journal of Fourier Analysis and Applications 14 (2008)).
 */
function weighedIn(
  { columns, rows }: LinearModel,
  groups: readonly Group[],
  engines: readonly Engine[],
): readonly number[] | undefined {
  let fewest: readonly number[] | undefined;
  let costs = groups.map(() => 1);
  for (let round = 0; round < ROUNDS; round++) {
    const priced = columns.map((column, index) => ({ ...column, cost: costs[index] ?? 0 }));
    const outcome = solve({ columns: priced, rows }, engines);
    if (outcome.status !== 'optimal') break;
    const weights = groups.map((_, index) => MOST_WEIGHT * (outcome.values[index] ?? 0));
    const some = groups.flatMap((_, index) => ((weights[index] as number) > NO_WEIGHT ? [index] : []));
    if (!fewest || some.length < fewest.length) fewest = some;
    const largest = weights.reduce((max, weight) => Math.max(max, weight), NO_WEIGHT);
    costs = weights.map((weight) => 1 / (weight / largest + 0.01));
  }
  return fewest;
}
