import type { FreeEnd, Group } from './groups.ts';
import { keepOpen } from './keep-open.ts';
import type { Engine, LinearModel } from './model.ts';
import { fewestInConflict } from './smallest-conflict.ts';

/**
 * A smallest set of groups that cannot hold together: taken alone they have no point, and without any one of them
 * the others have. The fewest are counted first, as a problem in whole numbers; then one group after the other is
 * dropped for good whenever no point appears without it, those that were counted last (Chinneck and Dravnieks, ORSA
 * Journal on Computing 3 (1991), deletion filtering), so that what comes out is a conflict whatever the count was
 * worth. Undefined when the model has a point.
 * @returns indices into groups, in their order.
 */
export function conflictOf(
  model: LinearModel,
  groups: readonly Group[],
  engines: readonly Engine[],
): readonly number[] | undefined {
  const free: LinearModel = {
    columns: model.columns.map((column) => ({ ...column, cost: 0 })),
    rows: model.rows,
  };
  return keepOpen(free, engines, (kept) => {
    const hasPoint = () => kept.solve().status === 'optimal';
    if (hasPoint()) return undefined;
    const dropped = new Set<Group>();
    /** Sets what a group is about, by all that is dropped now: two groups may hold one column at either end. */
    const set = (group: Group) => {
      for (const { row, lower, upper } of group.rows) {
        const held = model.rows[row];
        if (!held) throw new RangeError(`there is no row ${row}`);
        const isFree = dropped.has(group);
        kept.setRow(row, isFree ? lower : held.lower, isFree ? upper : held.upper);
      }
      for (const { column } of group.ends) {
        const ends = [...dropped].flatMap((each) => each.ends.filter((end) => end.column === column));
        const to = (end: FreeEnd['end']) => ends.find((each) => each.end === end)?.to;
        const held = model.columns[column];
        if (!held) throw new RangeError(`there is no column ${column}`);
        kept.setColumn(column, to('lower') ?? held.lower, to('upper') ?? held.upper);
      }
    };
    const filter = (order: readonly number[]): readonly number[] => {
      for (const index of order) {
        const group = groups[index] as Group;
        dropped.add(group);
        set(group);
        if (!hasPoint()) continue;
        dropped.delete(group);
        set(group);
      }
      const left = order.filter((index) => !dropped.has(groups[index] as Group));
      const gone = [...dropped];
      dropped.clear();
      gone.forEach(set);
      return left.sort((a, b) => a - b);
    };
    const all = groups.map((_, index) => index);
    // Of groups that are tried last most stay: those that were counted, where a count was found.
    const fewest = fewestInConflict(free, groups, engines) ?? [];
    const countedLast = [...all].sort((a, b) => Number(fewest.includes(a)) - Number(fewest.includes(b)));
    return [filter(countedLast), filter(all)].reduce((least, other) =>
      other.length < least.length ? other : least,
    );
  });
}
