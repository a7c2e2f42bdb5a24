import { INDISTINGUISHABLE_UG } from './micrograms.ts';

/** What can happen to the weight of a lot. A movement is never changed; a wrong one is reversed by another. */
export const MOVEMENT_KINDS = [
  'received',
  'tested',
  'adjusted',
  'reserved',
  'released',
  'weighed',
  'produced',
  'packed',
  'set aside',
  'sold',
  'shipped',
  'discarded',
] as const;
export type MovementKind = (typeof MOVEMENT_KINDS)[number];

/** One line of the ledger. Weights are whole micrograms, with their sign. */
export interface Movement {
  readonly lotId: string;
  readonly kind: MovementKind;
  /** What it adds to the lot, or takes from it when negative. */
  readonly massUg: number;
  /** What it adds to the part of the lot that is spoken for. */
  readonly reservedUg: number;
  readonly batchId?: string;
  /** The lot that the weight went into or came from: a pack, for bulk that is packed. */
  readonly otherLotId?: string;
  /** The movement that this one takes back. */
  readonly reverses?: number;
  readonly reason?: string;
}

/** Sum of the movements of a lot. */
export interface Balance {
  readonly onHandUg: number;
  readonly reservedUg: number;
}

export const EMPTY: Balance = { onHandUg: 0, reservedUg: 0 };

/** What no batch has been promised. */
export function freeUg({ onHandUg, reservedUg }: Balance): number {
  return onHandUg - reservedUg;
}

/** The balance after a movement; undefined when it would fall below what is there, or rise above what can be counted. */
export function after(balance: Balance, { massUg, reservedUg }: Pick<Movement, 'massUg' | 'reservedUg'>) {
  const next: Balance = {
    onHandUg: balance.onHandUg + massUg,
    reservedUg: balance.reservedUg + reservedUg,
  };
  const { onHandUg } = next;
  const counted = onHandUg >= 0 && onHandUg <= Number.MAX_SAFE_INTEGER;
  return counted && next.reservedUg >= 0 && next.reservedUg <= onHandUg ? next : undefined;
}

/** What is taken when this much is wanted: all that is there when no scale could tell the two apart. */
export function drawnUg(wantedUg: number, thereUg: number): number {
  const both = wantedUg > 0 && thereUg > 0;
  return both && Math.abs(wantedUg - thereUg) <= INDISTINGUISHABLE_UG ? thereUg : wantedUg;
}

/** Whether a movement takes back all of another, and nothing else. */
export function takesBack(movement: Movement, first: Omit<Movement, 'reverses'>): boolean {
  return (
    movement.lotId === first.lotId &&
    movement.kind === first.kind &&
    movement.batchId === first.batchId &&
    movement.massUg === -first.massUg &&
    movement.reservedUg === -first.reservedUg
  );
}

type Sign = -1 | 0 | 1;

/** Which way each kind moves the weight and the reserved part of a lot; a reversal goes the other way. */
const SIGNS: Readonly<
  Record<MovementKind, { readonly mass: readonly Sign[]; readonly reserved: readonly Sign[] }>
> = {
  received: { mass: [0, 1], reserved: [0] },
  tested: { mass: [-1, 0], reserved: [0] },
  adjusted: { mass: [-1, 1], reserved: [0] },
  reserved: { mass: [0], reserved: [1] },
  released: { mass: [0], reserved: [-1] },
  weighed: { mass: [-1], reserved: [-1, 0] },
  produced: { mass: [1], reserved: [0] },
  packed: { mass: [-1, 1], reserved: [0] },
  'set aside': { mass: [-1, 1], reserved: [0] },
  sold: { mass: [-1], reserved: [0] },
  shipped: { mass: [-1], reserved: [0] },
  discarded: { mass: [-1], reserved: [0] },
};

const NEEDS_REASON: readonly MovementKind[] = ['adjusted', 'discarded'];

/** What is wrong with a movement in itself, in words; undefined when nothing is. */
export function movementFault(movement: Movement): string | undefined {
  const { kind, massUg, reservedUg, batchId, reverses, reason } = movement;
  const { mass, reserved } = SIGNS[kind];
  const way = reverses === undefined ? 1 : -1;
  if (!Number.isSafeInteger(massUg) || !Number.isSafeInteger(reservedUg)) return 'must be whole micrograms';
  if (!mass.includes((Math.sign(massUg) * way) as Sign)) return `${kind} cannot move ${massUg} µg`;
  if (!reserved.includes((Math.sign(reservedUg) * way) as Sign))
    return `${kind} cannot reserve ${reservedUg} µg`;
  if (massUg !== 0 && Math.abs(reservedUg) > Math.abs(massUg))
    return `${kind} cannot release more than it takes`;
  if (reservedUg !== 0 && batchId === undefined) return `${kind} needs the batch that it is promised to`;
  if ((NEEDS_REASON.includes(kind) || reverses !== undefined) && !reason) return `${kind} needs a reason`;
  return undefined;
}
