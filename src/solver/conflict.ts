import type { FreeEnd, Group } from './groups.ts';
import { keepOpen } from './keep-open.ts';
import type { Engine, LinearModel } from './model.ts';
import { fewestInConflict } from './smallest-conflict.ts';

/** Up to so many groups are always counted, up to the second figure where quicker ways leave many; more take too long. */
const QUICKLY_COUNTED = 80;
const MOST_COUNTED = 250;
/** A person takes in so many at a glance. */
const FEW = 3;

function waysFor(groups: number): readonly ('counted' | 'weighed')[] {
  if (groups <= QUICKLY_COUNTED) return ['counted'];
  return groups <= MOST_COUNTED ? ['weighed', 'counted'] : ['weighed'];
}

/**
 * A smallest set of groups that cannot hold together: taken alone they have no point, and without any one of them
 * the others have. The fewest are counted, as a problem in whole numbers, or weighed where they are hundreds; then one
 * group after the other is dropped for good whenever no point appears without it, those that were proposed last
 * (Chinneck and Dravnieks, ORSA Journal on Computing 3 (1991), deletion filtering), so that what comes out is a conflict
 * whatever the proposal was worth. Undefined when the model has a point.
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
    const endsOf = new Map<number, (FreeEnd & { readonly of: Group })[]>();
    for (const of of groups) {
      for (const end of of.ends) endsOf.set(end.column, [...(endsOf.get(end.column) ?? []), { ...end, of }]);
    }
    /** Sets what a group is about, by all that is dropped now: two groups may hold one column at either end. */
    const set = (group: Group) => {
      for (const { row, lower, upper } of group.rows) {
        const held = model.rows[row];
        if (!held) throw new RangeError(`there is no row ${row}`);
        const isFree = dropped.has(group);
        kept.setRow(row, isFree ? lower : held.lower, isFree ? upper : held.upper);
      }
      for (const { column } of group.ends) {
        const ends = (endsOf.get(column) ?? []).filter(({ of }) => dropped.has(of));
        const to = (end: FreeEnd['end']) => ends.find((each) => each.end === end)?.to;
        const held = model.columns[column];
        if (!held) throw new RangeError(`there is no column ${column}`);
        kept.setColumn(column, to('lower') ?? held.lower, to('upper') ?? held.upper);
      }
    };
    const drop = (some: readonly number[]) => {
      for (const index of some) dropped.add(groups[index] as Group);
      for (const index of some) set(groups[index] as Group);
    };
    const takeBack = (some: readonly number[]) => {
      for (const index of some) dropped.delete(groups[index] as Group);
      for (const index of some) set(groups[index] as Group);
    };
    /** Drops what can be dropped, in this order; many at once first, which comes to the same and asks less often. */
    const dropFrom = (order: readonly number[]): void => {
      drop(order);
      if (!hasPoint()) return;
      takeBack(order);
      if (order.length <= 1) return;
      const half = Math.ceil(order.length / 2);
      dropFrom(order.slice(0, half));
      dropFrom(order.slice(half));
    };
    const filter = (order: readonly number[]): readonly number[] => {
      dropFrom(order);
      const left = order.filter((index) => !dropped.has(groups[index] as Group));
      takeBack(order.filter((index) => dropped.has(groups[index] as Group)));
      return left.sort((a, b) => a - b);
    };
    const all = groups.map((_, index) => index);
    let least = filter(all);
    for (const how of waysFor(groups.length)) {
      if (least.length <= (groups.length > QUICKLY_COUNTED ? FEW : 1)) break;
      // Of groups that are tried last most stay: those that were proposed.
      const proposed = new Set(fewestInConflict(free, groups, engines, how));
      const other = filter([...all].sort((a, b) => Number(proposed.has(a)) - Number(proposed.has(b))));
      if (other.length <= least.length) least = other;
    }
    return least;
  });
}
