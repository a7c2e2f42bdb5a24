import { availableKg, type Supply } from '../batch/lot.ts';
import { add, compare, type Exact, exact, subtract, toNumber, ZERO } from '../exact.ts';
import type { Blend, Formulation } from '../formulate/blend.ts';
import { formulate } from '../formulate/formulate.ts';
import type { BatchSize } from '../formulate/request.ts';
import type { OpenCandidate } from './open-candidate.ts';
import type { PlannedAmount, UsePlanRequest } from './use-plan.ts';

/** One product of a plan with what it may take of each supply. */
export interface Share {
  readonly candidate: OpenCandidate;
  readonly amount: PlannedAmount;
  /** Planned kilograms by supply id; nothing else may go in. */
  readonly massesKg: ReadonlyMap<string, number>;
}

/** How far a batch may be from its plan. */
interface Room {
  /** Of its weight: so much more it may take of what is left of a lot, and by so much it may be smaller. */
  readonly share: number;
  /** Whether lots that are not planned for it may help out. */
  readonly otherLots: boolean;
}

/**
 * Rooms tried in turn. A plan that empties its lots at the very edge of a limit leaves rounding no way but to take a
 * little less of it, or a little of another lot.
 */
const ROOMS: readonly [Room, ...Room[]] = [
  { share: 0, otherLots: false },
  { share: 0.002, otherLots: false },
  { share: 0.005, otherLots: false },
  { share: 0.005, otherLots: true },
  { share: 0.01, otherLots: true },
  { share: 0.02, otherLots: true },
  { share: 0.05, otherLots: true },
];

/** Of the cost: what a batch of the oldest lots may lose by keeping to them where it has room. Own judgement. */
const OLDER_FIRST_WITHIN = 0.01;

/** Engines answer to about 1e-8 kg: a planned weight may be meant to be so much more. */
const DUST_KG = 1e-6;

/**
 * Really formulates the batches of a plan, one after the other. Of a lot each batch may take its own planned part and
 * what is neither weighed already nor planned for the batches after it, so that together they never take more than
 * there is; decided in exact decimals.
 */
export function weighPlan(shares: readonly Share[], request: UsePlanRequest): Formulation[] {
  const left = new Map<string, Exact>();
  for (const supply of request.supplies) {
    const mostKg = availableKg(supply);
    if (Number.isFinite(mostKg)) left.set(supply.id, exact(mostKg));
  }
  return shares.map((share, index) => {
    const later = shares.slice(index + 1);
    const open = new Map(
      [...left].map(([id, massKg]) => [id, subtract(massKg, reservedKg(later, id))] as const),
    );
    const formulation = weighShare(share, open, request);
    if (formulation.outcome === 'blend') take(formulation.blend, left);
    return formulation;
  });
}

function reservedKg(shares: readonly Share[], id: string): Exact {
  return shares.reduce((sum, { massesKg }) => add(sum, roundedDown(massesKg.get(id) ?? 0, 6)), ZERO);
}

function take({ lines }: Blend, left: Map<string, Exact>): void {
  for (const { supply, exactMassKg } of lines) {
    const before = left.get(supply.id);
    if (before) left.set(supply.id, subtract(before, exactMassKg));
  }
}

function weighShare(
  share: Share,
  open: ReadonlyMap<string, Exact>,
  { supplies, date, plant, houseRules, engines, aim }: UsePlanRequest,
): Formulation {
  const { product, standard } = share.candidate;
  const attempt = (room: Room) =>
    formulate({
      product,
      standard,
      supplies: supplies.flatMap((supply) => limited(supply, share, open, room)),
      size: sizeOf(share, room.share),
      date,
      plant,
      engines,
      ...(houseRules && { houseRules }),
      ...(aim === 'oldest lots first' && { wishes: { olderFirstWithin: OLDER_FIRST_WITHIN } }),
    });
  const [none, ...some] = ROOMS;
  let formulation = attempt(none);
  for (const room of some) {
    if (formulation.outcome === 'blend') return formulation;
    formulation = attempt(room);
  }
  return formulation;
}

/** A supply as far as this batch may draw on it; none when its kilograms are for other products. */
function limited(
  { leastKg: _, leastIfUsedKg: __, ...supply }: Supply,
  { candidate, massesKg, amount }: Share,
  open: ReadonlyMap<string, Exact>,
  { share, otherLots }: Room,
): Supply[] {
  const openKg = open.get(supply.id);
  // One that cannot go in is passed on, so that the blend says why it is left out.
  if (!openKg || !candidate.choice.usable.some(({ id }) => id === supply.id)) return [supply];
  const plannedKg = massesKg.get(supply.id) ?? 0;
  const isPlanned = plannedKg > DUST_KG;
  const wantedKg = plannedKg + DUST_KG + (isPlanned || otherLots ? share * amount.rawKg : 0);
  const mostKg = compare(exact(wantedKg), openKg) < 0 ? wantedKg : toNumber(shortened(openKg));
  return mostKg > 2 * DUST_KG ? [{ ...supply, mostKg }] : [];
}

/** A product with a least amount promises it: its finished weight may not fall short. */
function sizeOf({ candidate, amount }: Share, smallerBy: number): BatchSize {
  const { leastKg } = candidate;
  if (leastKg === undefined) return { by: 'total', massKg: short(amount.rawKg * (1 - smallerBy)) };
  return { by: 'finished', massKg: Math.max(leastKg, short(amount.finishedKg * (1 - smallerBy))) };
}

const short = (massKg: number): number => Number(massKg.toFixed(6));

/** Fifteen digits at most, so that the nearest double reads as the same decimal again; never more than it was. */
function shortened(massKg: Exact): Exact {
  const surplus = massKg.digits.toString().length - 15;
  if (surplus <= 0) return massKg;
  if (surplus > massKg.scale) return { digits: massKg.digits / 10n ** BigInt(massKg.scale), scale: 0 };
  return { digits: massKg.digits / 10n ** BigInt(surplus), scale: massKg.scale - surplus };
}

function roundedDown(massKg: number, decimals: number): Exact {
  const { digits, scale } = exact(Math.max(0, massKg));
  if (scale <= decimals) return { digits, scale };
  return { digits: digits / 10n ** BigInt(scale - decimals), scale: decimals };
}
