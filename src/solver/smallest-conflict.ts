import type { Group } from './groups.ts';
import type { Column, Engine, LinearModel, Row, Term } from './model.ts';
import { rowScale } from './scale.ts';
import { SolverFault, solve } from './solve.ts';

/** The largest weight that a bound may have in a proof, where the proof as a whole is worth 1. */
const MOST_WEIGHT = 1e3;

/**
 * The fewest groups that cannot hold together, as a problem in whole numbers: weights on bounds that cancel out over
 * every column and add up to more than nothing (Farkas), with a count of the groups whose bounds take part. A proposal:
 * weights above a bound are not looked for, so the caller tries it on the model itself. Undefined when none is found.
 * @returns indices into groups.
 */
export function fewestInConflict(
  model: LinearModel,
  groups: readonly Group[],
  engines: readonly Engine[],
): readonly number[] | undefined {
  const columns: Column[] = groups.map(() => ({ cost: 1, lower: 0, upper: 1, whole: true }));
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
  model.rows.forEach(({ lower, upper, terms }, index) => {
    const factor = rowScale({ name: '', lower, upper, terms });
    const scaled = terms.map(({ column, coefficient }) => ({ column, coefficient: coefficient * factor }));
    const group = groups.findIndex((each) => each.rows.some(({ row }) => row === index));
    const widest = groups[group]?.rows.find(({ row }) => row === index);
    const counted = group < 0 ? undefined : group;
    weigh(lower * factor, 1, scaled, counted);
    weigh(upper * factor, -1, scaled, counted);
    // What is left of a row when its group is let go counts nothing.
    if (widest) {
      weigh(widest.lower * factor, 1, scaled);
      weigh(widest.upper * factor, -1, scaled);
    }
  });
  model.columns.forEach((held, index) => {
    const itself = [{ column: index, coefficient: 1 }];
    for (const [end, side] of [
      ['lower', 1],
      ['upper', -1],
    ] as const) {
      const isFree = ({ column, end: freed }: Group['ends'][number]) => column === index && freed === end;
      const group = groups.findIndex((each) => each.ends.some(isFree));
      const to = groups[group]?.ends.find(isFree)?.to;
      weigh(held[end], side, itself, group < 0 ? undefined : group);
      if (to !== undefined) weigh(to, side, itself);
    }
  });
  for (const terms of balance) rows.push({ name: 'cancels out', lower: 0, upper: 0, terms });
  rows.push({ name: 'contradiction', lower: 1, upper: 1, terms: worth });
  try {
    const outcome = solve({ columns, rows }, engines);
    if (outcome.status !== 'optimal') return undefined;
    return groups.flatMap((_, index) => ((outcome.values[index] ?? 0) > 0.5 ? [index] : []));
  } catch (error) {
    if (error instanceof SolverFault) return undefined;
    throw error;
  }
}
