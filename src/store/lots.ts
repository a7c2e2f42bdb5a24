import type { Selectable, Transaction } from 'kysely';
import { kilogramsOfMicrograms } from '../ledger/micrograms.ts';
import {
  after,
  type Balance,
  drawnUg,
  freeUg,
  type Movement,
  movementFault,
  takesBack,
} from '../ledger/movement.ts';
import { Refused } from '../ledger/refused.ts';
import { massText } from '../units.ts';
import type { Db } from './open.ts';
import { revise, reviseAll } from './revisions.ts';
import type { LotRow, MovementRow, Schema } from './schema.ts';
import { inPortions, type Writing } from './store.ts';

/** Lots and their ledger: the only place that changes a balance. */

export const LOT_KINDS = ['material', 'bulk', 'pack'] as const;
export type LotKind = (typeof LOT_KINDS)[number];

/** A lot that is about to be opened; its weight comes by movements. */
export interface NewLot {
  readonly id: string;
  readonly kind: LotKind;
  readonly ofId: string;
  readonly batchId?: string;
  /** Its description, as JSON. */
  readonly body: unknown;
  readonly receivedDay: string;
  readonly useByDay?: string;
  readonly held?: boolean;
}

/** Opens a lot with nothing on it. @throws Refused 'taken' when its id is in use. */
export async function openLot(writing: Writing, lot: NewLot): Promise<void> {
  if (await findLot(writing.db, lot.id)) {
    throw new Refused('taken', `There is a lot "${lot.id}" already; give this one another id`, ['id']);
  }
  const body = JSON.stringify(lot.body);
  const revision = await revise(writing, 'lot', lot.id, revisionOf(lot));
  await writing.db
    .insertInto('lots')
    .values({
      id: lot.id,
      kind: lot.kind,
      ofId: lot.ofId,
      batchId: lot.batchId ?? null,
      body,
      revision,
      receivedDay: lot.receivedDay,
      useByDay: lot.useByDay ?? null,
      held: lot.held ? 1 : 0,
      onHandUg: 0,
      reservedUg: 0,
      version: 1,
      entry: writing.entry,
    })
    .execute();
}

/** A lot that comes in with its weight. */
export interface ReceivedLot extends NewLot {
  readonly massUg: number;
  /** Of its first movement, as JSON. */
  readonly details?: unknown;
}

/** Opens many lots at once, each with the movement that brought it in. @param lots of which none is there yet. */
export async function receiveLots(writing: Writing, lots: readonly ReceivedLot[]): Promise<void> {
  const { act, db, entry } = writing;
  if (lots.length === 0) return;
  for (const lot of lots) {
    const fault = movementFault({ lotId: lot.id, kind: 'received', massUg: lot.massUg, reservedUg: 0 });
    if (fault) throw new RangeError(`movement of lot ${lot.id}: ${fault}`);
  }
  await reviseAll(
    writing,
    'lot',
    lots.map((lot) => ({ id: lot.id, body: revisionOf(lot) })),
  );
  const rows = lots.map((lot) => ({
    id: lot.id,
    kind: lot.kind,
    ofId: lot.ofId,
    batchId: lot.batchId ?? null,
    body: JSON.stringify(lot.body),
    revision: 1,
    receivedDay: lot.receivedDay,
    useByDay: lot.useByDay ?? null,
    held: lot.held ? 1 : 0,
    onHandUg: lot.massUg,
    reservedUg: 0,
    // It was opened, and its weight came in.
    version: 2,
    entry,
  }));
  for (const some of inPortions(rows)) await db.insertInto('lots').values(some).execute();
  const first = await writing.nextSeq('movements');
  for (const _ of lots.slice(1)) await writing.nextSeq('movements');
  await writing.appendAll(
    'movements',
    lots.map((lot, index) => ({
      seq: first + index,
      lotId: lot.id,
      kind: 'received' as const,
      massUg: lot.massUg,
      reservedUg: 0,
      onHandAfterUg: lot.massUg,
      reservedAfterUg: 0,
      batchId: null,
      otherLotId: null,
      reverses: null,
      reason: null,
      details: lot.details === undefined ? null : JSON.stringify(lot.details),
      at: act.at,
      day: act.day,
      personId: act.by.id,
    })),
  );
}

/** What of a lot can be edited. */
export interface LotChange {
  readonly body: unknown;
  readonly useByDay?: string;
  readonly held: boolean;
}

/**
 * Writes a new state of a lot's description.
 * @param ifVersion the version that was read; any when absent.
 * @throws Refused 'unknown' or 'changed meanwhile'.
 */
export async function editLot(
  writing: Writing,
  id: string,
  change: LotChange,
  ifVersion?: number,
): Promise<number> {
  const row = await lotOrRefuse(writing.db, id);
  refuseChanged(row, ifVersion);
  const { kind, ofId, batchId, receivedDay } = row;
  const lot: NewLot = {
    id,
    kind: kind as LotKind,
    ofId,
    ...(batchId !== null && { batchId }),
    receivedDay,
    body: change.body,
    ...(change.useByDay !== undefined && { useByDay: change.useByDay }),
    held: change.held,
  };
  const revision = await revise(writing, 'lot', id, revisionOf(lot));
  return changeLot(writing, row, {
    body: JSON.stringify(change.body),
    revision,
    useByDay: change.useByDay ?? null,
    held: change.held ? 1 : 0,
  });
}

/** Changes a lot as it was read. @returns its new version. @throws Error when something else changed it meanwhile. */
async function changeLot(
  { db }: Writing,
  { id, version }: LotRow,
  columns: Partial<Omit<LotRow, 'id' | 'version'>>,
): Promise<number> {
  const { numUpdatedRows } = await db
    .updateTable('lots')
    .set({ ...columns, version: version + 1 })
    .where('id', '=', id)
    .where('version', '=', version)
    .executeTakeFirstOrThrow();
  if (numUpdatedRows === 1n) return version + 1;
  throw new Error(`lot ${id} is changed twice at once within a write; make one change after the other`);
}

/** Everything that a lot's row says of it but its balance: what its revision vouches for. */
export function revisionOf({ kind, ofId, batchId, receivedDay, useByDay, held, body }: NewLot) {
  return {
    kind,
    ofId,
    batchId: batchId ?? null,
    receivedDay,
    useByDay: useByDay ?? null,
    held: held ? 1 : 0,
    body,
  };
}

function refuseChanged({ id, version }: Pick<LotRow, 'id' | 'version'>, ifVersion: number | undefined): void {
  if (ifVersion === undefined || ifVersion === version) return;
  throw new Refused(
    'changed meanwhile',
    `Lot ${id} was changed since you read it (version ${ifVersion}, now ${version}). Read it again and decide anew.`,
  );
}

/** A movement with what else is worth keeping, as JSON. */
export interface NewMovement extends Movement {
  readonly details?: unknown;
}

/**
 * Books a movement: the balance changes and the line is written, or neither.
 * @returns the number of the movement.
 * @throws Refused 'unknown' when there is no such lot or no such movement to take back, 'short' when its balance or
 * what its batch was promised would fall below nothing, 'unfit' when it would be more than can be counted, 'out of
 * turn' when the movement is taken back already; RangeError for a movement that is wrong in itself.
 */
export async function book(writing: Writing, movement: NewMovement): Promise<number> {
  if (movement.reverses !== undefined) await refuseReversal(writing.db, movement, movement.reverses);
  const fault = movementFault(movement);
  if (fault) throw new RangeError(`movement of lot ${movement.lotId}: ${fault}`);
  const lot = await lotOrRefuse(writing.db, movement.lotId);
  if (movement.reservedUg < 0) await refuseOthersPromise(writing.db, movement);
  const next = after(lot, movement);
  if (!next) throw outOfReach(lot, movement);
  await changeLot(writing, lot, next);
  const seq = await writing.nextSeq('movements');
  const { act } = writing;
  await writing.append('movements', {
    seq,
    lotId: lot.id,
    kind: movement.kind,
    massUg: movement.massUg,
    reservedUg: movement.reservedUg,
    onHandAfterUg: next.onHandUg,
    reservedAfterUg: next.reservedUg,
    batchId: movement.batchId ?? null,
    otherLotId: movement.otherLotId ?? null,
    reverses: movement.reverses ?? null,
    reason: movement.reason ?? null,
    details: movement.details === undefined ? null : JSON.stringify(movement.details),
    at: act.at,
    day: act.day,
    personId: act.by.id,
  });
  return seq;
}

/** A movement is taken back whole, and once. */
async function refuseReversal(db: Db, movement: Movement, seq: number): Promise<void> {
  const first = await db.selectFrom('movements').selectAll().where('seq', '=', seq).executeTakeFirst();
  if (!first) throw new Refused('unknown', `There is no movement ${seq} to take back`);
  if (first.reverses !== null) {
    const message = `Movement ${seq} takes back movement ${first.reverses} itself; book anew what is right.`;
    throw new Refused('out of turn', message);
  }
  const { lotId, kind, massUg, reservedUg, batchId } = first;
  if (!takesBack(movement, { lotId, kind, massUg, reservedUg, ...(batchId !== null && { batchId }) })) {
    throw new RangeError(
      `movement of lot ${movement.lotId}: does not take back movement ${seq} as it was booked`,
    );
  }
  const later = await db.selectFrom('movements').select('seq').where('reverses', '=', seq).executeTakeFirst();
  if (!later) return;
  throw new Refused('out of turn', `Movement ${seq} is taken back already, by movement ${later.seq}.`);
}

/** What one batch was promised is not another's to take. */
async function refuseOthersPromise(db: Db, { lotId, batchId = '', reservedUg }: Movement): Promise<void> {
  const promisedUg = (await reservedFor(db, batchId)).get(lotId) ?? 0;
  if (promisedUg + reservedUg >= 0) return;
  throw new Refused(
    'short',
    `Batch ${batchId} is promised ${bothUnits(promisedUg)} of lot ${lotId}; ${bothUnits(-reservedUg)} is asked of that.`,
  );
}

/**
 * Promises a part of a lot to a batch; the rest of a lot counts as all of it when no scale could tell.
 * @returns what was reserved, in micrograms.
 * @throws Refused 'not usable' for a lot on hold or past its day, 'short' when less is free.
 */
export async function reserve(
  writing: Writing,
  lotId: string,
  batchId: string,
  wantedUg: number,
  day: string,
): Promise<number> {
  const lot = await lotOrRefuse(writing.db, lotId);
  refuseUnusable(lot, day);
  const reservedUg = drawnUg(wantedUg, freeUg(lot));
  await book(writing, { lotId, kind: 'reserved', massUg: 0, reservedUg, batchId });
  return reservedUg;
}

/** @throws Refused 'not usable'. */
export function refuseUnusable(
  { id, held, useByDay }: Pick<LotRow, 'id' | 'held' | 'useByDay'>,
  day: string,
): void {
  if (held) throw new Refused('not usable', `Lot ${id} is on hold. Release it first, or take another lot.`);
  if (useByDay !== null && useByDay < day) {
    throw new Refused('not usable', `Lot ${id} is past its use-by date ${useByDay}. Take another lot.`);
  }
}

/** What is still promised to a batch, by lot, in micrograms. */
export async function reservedFor(db: Db, batchId: string): Promise<Map<string, number>> {
  const rows = await db
    .selectFrom('movements')
    .select(['lotId', ({ fn }) => fn.sum<number>('reservedUg').as('reservedUg')])
    .where('batchId', '=', batchId)
    .groupBy('lotId')
    .orderBy('lotId')
    .execute();
  return new Map(
    rows.flatMap(({ lotId, reservedUg }) => (reservedUg === 0 ? [] : [[lotId, Number(reservedUg)]])),
  );
}

/** Takes back every promise to a batch that is still open. */
export async function releaseAll(writing: Writing, batchId: string): Promise<void> {
  for (const [lotId, reservedUg] of await reservedFor(writing.db, batchId)) {
    await book(writing, { lotId, kind: 'released', massUg: 0, reservedUg: -reservedUg, batchId });
  }
}

export async function findLot(db: Db, id: string): Promise<LotRow | undefined> {
  return db.selectFrom('lots').selectAll().where('id', '=', id).executeTakeFirst();
}

/** @throws Refused 'unknown'. */
export async function lotOrRefuse(db: Db | Transaction<Schema>, id: string): Promise<LotRow> {
  const row = await findLot(db, id);
  if (row) return row;
  throw new Refused('unknown', `There is no lot "${id}"`);
}

export interface LotsWanted {
  readonly kinds?: readonly LotKind[];
  readonly ofId?: string;
  readonly batchId?: string;
  /** Only lots with something on hand. */
  readonly onHand?: boolean;
  readonly held?: boolean;
  /** Lots after this id, in the order of ids. */
  readonly afterId?: string;
  readonly limit?: number;
}

/** Lots in the order of their ids. */
export async function listLots(db: Db, wanted: LotsWanted): Promise<LotRow[]> {
  let query = db.selectFrom('lots').selectAll().orderBy('id');
  if (wanted.kinds) query = query.where('kind', 'in', wanted.kinds);
  if (wanted.ofId !== undefined) query = query.where('ofId', '=', wanted.ofId);
  if (wanted.batchId !== undefined) query = query.where('batchId', '=', wanted.batchId);
  if (wanted.onHand !== undefined) query = query.where('onHandUg', wanted.onHand ? '>' : '=', 0);
  if (wanted.held !== undefined) query = query.where('held', '=', wanted.held ? 1 : 0);
  if (wanted.afterId !== undefined) query = query.where('id', '>', wanted.afterId);
  if (wanted.limit !== undefined) query = query.limit(wanted.limit);
  return query.execute();
}

export interface MovementsWanted {
  readonly lotId?: string;
  readonly batchId?: string;
  readonly kinds?: readonly Movement['kind'][];
  readonly fromDay?: string;
  readonly toDay?: string;
  readonly afterSeq?: number;
  readonly limit?: number;
}

/** Movements in the order in which they were booked. */
export async function listMovements(db: Db, wanted: MovementsWanted): Promise<Selectable<MovementRow>[]> {
  let query = db.selectFrom('movements').selectAll().orderBy('seq');
  if (wanted.lotId !== undefined) query = query.where('lotId', '=', wanted.lotId);
  if (wanted.batchId !== undefined) query = query.where('batchId', '=', wanted.batchId);
  if (wanted.kinds) query = query.where('kind', 'in', wanted.kinds);
  if (wanted.fromDay !== undefined) query = query.where('day', '>=', wanted.fromDay);
  if (wanted.toDay !== undefined) query = query.where('day', '<=', wanted.toDay);
  if (wanted.afterSeq !== undefined) query = query.where('seq', '>', wanted.afterSeq);
  if (wanted.limit !== undefined) query = query.limit(wanted.limit);
  return query.execute();
}

/** The balance that the movements of a lot add up to: what its row must say. */
export async function summedBalance(db: Db, lotId: string): Promise<Balance> {
  const row = await db
    .selectFrom('movements')
    .select(({ fn }) => [
      fn.sum<number>('massUg').as('onHandUg'),
      fn.sum<number>('reservedUg').as('reservedUg'),
    ])
    .where('lotId', '=', lotId)
    .executeTakeFirstOrThrow();
  return { onHandUg: Number(row.onHandUg ?? 0), reservedUg: Number(row.reservedUg ?? 0) };
}

function outOfReach(lot: LotRow, { massUg, reservedUg }: Movement): Refused {
  if (lot.onHandUg + massUg > Number.MAX_SAFE_INTEGER) {
    const most = massText(kilogramsOfMicrograms(Number.MAX_SAFE_INTEGER), 'kg');
    return new Refused(
      'unfit',
      `Lot ${lot.id} would be more than the ${most} that can be counted. Correct the weight.`,
    );
  }
  const wanted = Math.max(Math.abs(massUg), Math.abs(reservedUg));
  const promised =
    lot.reservedUg > 0
      ? `, ${bothUnits(lot.reservedUg)} of it promised to batches and ${bothUnits(freeUg(lot))} free`
      : '';
  return new Refused(
    'short',
    `Lot ${lot.id} has ${bothUnits(lot.onHandUg)} on hand${promised}; ${bothUnits(wanted)} is asked. Take less, or count the lot and adjust it.`,
  );
}

function bothUnits(massUg: number): string {
  const massKg = kilogramsOfMicrograms(massUg);
  return `${massText(massKg, 'lb')} (${massText(massKg, 'kg')})`;
}
