/**
 * Where weight went and where it came from. Lots and batches are places; weight flows from lots into batches, from batches
 * into lots, and from bulk into packs. Rework makes chains of any length, and wrong books could even make circles.
 */

/** A lot or a batch by its id. */
export type Place = `lot ${string}` | `batch ${string}`;
export type Direction = 'forward' | 'back';

/** Weight that went from one place into another, in whole micrograms. */
export interface Flow {
  readonly from: Place;
  readonly to: Place;
  readonly massUg: number;
}

export const lotPlace = (id: string): Place => `lot ${id}`;
export const batchPlace = (id: string): Place => `batch ${id}`;

/** A place as the two kinds that it may be. */
export function idOf(place: Place): { readonly lotId: string } | { readonly batchId: string } {
  return place.startsWith('lot ')
    ? { lotId: place.slice('lot '.length) }
    : { batchId: place.slice('batch '.length) };
}

/** Places of one kind, by their ids. */
export function idsOf(places: Iterable<Place>, kind: 'lot' | 'batch'): string[] {
  const start = `${kind} `;
  return [...places].flatMap((place) => (place.startsWith(start) ? [place.slice(start.length)] : []));
}

const origin = ({ from, to }: Flow, direction: Direction) => (direction === 'forward' ? from : to);
const target = ({ from, to }: Flow, direction: Direction) => (direction === 'forward' ? to : from);

/** Flows by the place that they lead on from. */
function flowsFrom(flows: readonly Flow[], direction: Direction): Map<Place, Flow[]> {
  return grouped(flows, (flow) => origin(flow, direction));
}

/** Items by their key, each in the order in which they came. */
export function grouped<Key, Item>(items: Iterable<Item>, keyOf: (item: Item) => Key): Map<Key, Item[]> {
  const found = new Map<Key, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const known = found.get(key);
    if (known) known.push(item);
    else found.set(key, [item]);
  }
  return found;
}

/** Places by the least number of steps from where the trace starts; each stands once. The starts are level 0. */
export function levelsOf(starts: readonly Place[], flows: readonly Flow[], direction: Direction): Place[][] {
  const onward = flowsFrom(flows, direction);
  const seen = new Set(starts);
  const levels: Place[][] = [];
  for (let level = [...seen]; level.length > 0; ) {
    levels.push(level);
    const next = new Set(
      level.flatMap((place) => (onward.get(place) ?? []).map((flow) => target(flow, direction))),
    );
    level = [...next].filter((place) => !seen.has(place));
    for (const place of level) seen.add(place);
  }
  return levels;
}

/** Shares that differ by less are the same: what is left of a circle that is gone round. */
const SAME_SHARE = 1e-12;
/** Rounds after which a circle is given up; without circles a round more than the longest chain is enough. */
const MOST_ROUNDS = 200;

/**
 * What part of each place may stem from the starts (forward), or what part of the starts may stem from each place (back):
 * an estimate, as if everything was mixed evenly. Read both ways it is the same figure for two places.
 * @param inflowUg all that ever came into a place, from traced places and from others.
 * @returns fractions from 0 to 1; of the starts themselves 1.
 */
export function sharesOf(
  starts: readonly Place[],
  flows: readonly Flow[],
  inflowUg: ReadonlyMap<Place, number>,
  direction: Direction,
): Map<Place, number> {
  const begun = new Set(starts);
  const order = levelsOf(starts, flows, direction).flat();
  const toward = flowsFrom(flows, direction === 'forward' ? 'back' : 'forward');
  const shares = new Map<Place, number>(order.map((place) => [place, begun.has(place) ? 1 : 0]));
  const part = (flow: Flow) => {
    const all = inflowUg.get(flow.to) ?? 0;
    return all > 0 ? Math.min(1, flow.massUg / all) : 0;
  };
  for (let round = 0; round < order.length + MOST_ROUNDS; round++) {
    let moved = 0;
    for (const place of order) {
      if (begun.has(place)) continue;
      const share = (toward.get(place) ?? []).reduce(
        (sum, flow) => sum + (shares.get(origin(flow, direction)) ?? 0) * part(flow),
        0,
      );
      moved = Math.max(moved, Math.abs(share - (shares.get(place) ?? 0)));
      shares.set(place, share);
    }
    if (moved <= SAME_SHARE) break;
  }
  // Weight that goes round a circle passes a place more than once.
  return new Map([...shares].map(([place, share]) => [place, Math.min(1, share)]));
}

/** What the books say became of everything that was made from a lot, in micrograms. */
export interface Whereabouts {
  readonly onHand: { readonly material: number; readonly bulk: number; readonly packs: number };
  /** Weighed into batches that are not finished. */
  readonly inProcess: number;
  /** Shipped, by who got it. */
  readonly shipped: ReadonlyMap<string, number>;
  /** Sold to someone whose name stands in the books. */
  readonly sold: ReadonlyMap<string, number>;
  /** Sold at the counter: to whom is not known. */
  readonly soldAtCounter: number;
  readonly discarded: number;
  readonly samples: number;
  /** Less came out of finished batches than went in, as their records say; below 0 where more came out. */
  readonly lossInProcess: number;
  /** Missing when lots were counted. */
  readonly countedShort: number;
}

/** All that was made from the lot, whatever became of it. */
export function affectedUg(where: Whereabouts): number {
  return accountedUg(where) + where.soldAtCounter + where.countedShort;
}

/**
 * What the books account for: on hand, in process, shipped or sold to someone known, discarded, taken as a sample, or lost in
 * a process that has its record. What went over the counter, and what was missing when it was counted, is not.
 */
export function accountedUg(where: Whereabouts): number {
  return onHandUg(where) + accountedElsewhereUg(where);
}

export function onHandUg({ onHand: { material, bulk, packs } }: Whereabouts): number {
  return material + bulk + packs;
}

/** What is accounted for without being on hand. */
export function accountedElsewhereUg(where: Whereabouts): number {
  const { inProcess, discarded, samples, lossInProcess, shipped, sold } = where;
  const known = [...shipped.values(), ...sold.values()].reduce((sum, massUg) => sum + massUg, 0);
  return inProcess + discarded + samples + lossInProcess + known;
}

/** A part of a whole, 1 of nothing at all. */
export function fractionOf(partUg: number, wholeUg: number): number {
  return wholeUg > 0 ? partUg / wholeUg : 1;
}
