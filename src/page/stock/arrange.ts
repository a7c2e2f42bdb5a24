import { searching } from '../figures/search.ts';
import { isPast, isSoon, type LotFacts } from './lot-facts.ts';

/** Lots found, put in an order and into the groups of that order. */

export const ORDERS = ['left', 'age', 'lean', 'value'] as const;
export type Order = (typeof ORDERS)[number];

export const isOrder = (text: string | null): text is Order =>
  (ORDERS as readonly (string | null)[]).includes(text);

/** Groups of each order, the first ones first; their words stand in words.ts under the same names. */
export type GroupName =
  | 'past'
  | 'soon'
  | 'week'
  | 'later'
  | 'undated'
  | 'days3'
  | 'days7'
  | 'days14'
  | 'days60'
  | 'older'
  | 'lean90'
  | 'lean80'
  | 'lean70'
  | 'lean50'
  | 'fatty'
  | 'noMeat'
  | 'all';

export interface Group {
  readonly name: GroupName;
  readonly lots: readonly LotFacts[];
  readonly massKg: number;
  readonly value: number;
}

const AGES = [
  [3, 'days3'],
  [7, 'days7'],
  [14, 'days14'],
  [60, 'days60'],
] as const;

const LEANS = [
  [0.9, 'lean90'],
  [0.8, 'lean80'],
  [0.7, 'lean70'],
  [0.5, 'lean50'],
] as const;

function groupOf(order: Order, facts: LotFacts): GroupName {
  const { ageDays, daysLeft, fatFraction } = facts;
  if (order === 'value') return 'all';
  if (order === 'age') return AGES.find(([most]) => ageDays <= most)?.[1] ?? 'older';
  if (order === 'lean') {
    if (fatFraction === undefined) return 'noMeat';
    // Trim is named in whole percents: 89.96 is sold as 90.
    const lean = Math.round((1 - fatFraction) * 100) / 100;
    return LEANS.find(([least]) => lean >= least)?.[1] ?? 'fatty';
  }
  if (daysLeft === undefined) return 'undated';
  if (isPast(facts)) return 'past';
  if (isSoon(facts)) return 'soon';
  return daysLeft <= 7 ? 'week' : 'later';
}

const LAST = Number.POSITIVE_INFINITY;

/** What an order goes by, the least first. */
const KEYS: Readonly<Record<Order, (facts: LotFacts) => number>> = {
  left: ({ daysLeft }) => daysLeft ?? LAST,
  age: ({ ageDays }) => -ageDays,
  lean: ({ fatFraction }) => fatFraction ?? LAST,
  value: ({ value }) => -value,
};

/** Lots in an order, parted where its groups part; lots that are alike in it stand by their ids. */
export function arranged(lots: readonly LotFacts[], order: Order): Group[] {
  const key = KEYS[order];
  const sorted = lots.toSorted((a, b) => key(a) - key(b) || a.lot.id.localeCompare(b.lot.id));
  const groups = new Map<GroupName, LotFacts[]>();
  for (const facts of sorted) {
    const name = groupOf(order, facts);
    const group = groups.get(name);
    if (group) group.push(facts);
    else groups.set(name, [facts]);
  }
  return [...groups].map(([name, of]) => ({ name, lots: of, ...totalsOf(of) }));
}

export function totalsOf(lots: readonly LotFacts[]): { massKg: number; value: number } {
  return {
    massKg: lots.reduce((sum, { lot }) => sum + lot.onHand.kg, 0),
    value: lots.reduce((sum, { value }) => sum + value, 0),
  };
}

/** Lots that hold every word typed, in whatever names them. */
export function found(lots: readonly LotFacts[], search: string): readonly LotFacts[] {
  if (search.trim() === '') return lots;
  const holds = searching(search);
  return lots.filter(({ lot, name }) =>
    holds(
      [lot.id, name, lot.supplierLot, lot.supplierEstablishment, lot.location, lot.state, lot.held].join(' '),
    ),
  );
}

/** So many lots of the groups, from the first; groups keep the totals of all that is in them. */
export function firstOf(groups: readonly Group[], most: number): Group[] {
  let room = most;
  return groups.flatMap((group) => {
    const lots = group.lots.slice(0, Math.max(0, room));
    room -= lots.length;
    return lots.length === 0 ? [] : [{ ...group, lots }];
  });
}
