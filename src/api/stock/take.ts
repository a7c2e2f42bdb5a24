import { kilogramsOfMicrograms, micrograms } from '../../ledger/micrograms.ts';
import { drawnUg, freeUg } from '../../ledger/movement.ts';
import { Refused } from '../../ledger/refused.ts';
import { refuseUnusable } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';
import { massText } from '../../units.ts';
import type { Taken } from '../contract/movements.ts';
import { bodyOf } from './lot-view.ts';
import type { MovementDetails } from './movement-view.ts';
import { onePackUg, packsLeft, packsUg } from './packs.ts';

type Path = readonly (string | number)[];

/** A mass for people, in both units: the plant's books know no preference. */
export function bothUnits(massUg: number): string {
  const massKg = kilogramsOfMicrograms(massUg);
  return `${massText(massKg, 'lb')} (${massText(massKg, 'kg')})`;
}

/**
 * What of a lot is taken, in micrograms: only what no batch was promised.
 * @param path where in the request the lot is asked for.
 * @throws Refused 'short', with the batches that it is promised to, or 'unfit'.
 */
export async function takenUg(db: Db, row: LotRow, { mass, packs }: Taken, path: Path): Promise<number> {
  const there = freeUg(row);
  const place = [...path, packs === undefined ? 'mass' : 'packs'];
  if (there === 0) throw await short(db, row, 'nothing of it is free', place);
  if (mass === 'all') return there;
  if (mass) {
    const wanted = drawnUg(micrograms(mass.value, mass.unit), there);
    if (wanted <= there) return wanted;
    throw await short(db, row, `${bothUnits(wanted)} is asked, ${bothUnits(there)} is free`, place);
  }
  const wanted = await packsUg(db, row, packs ?? 0, there, place);
  if (wanted <= there) return wanted;
  const left = packsLeft(there, await onePackUg(db, row, place));
  throw await short(db, row, `${packs} packs are asked, ${left} are free`, place);
}

async function short(db: Db, row: LotRow, what: string, path: Path): Promise<Refused> {
  const batches = await promisedTo(db, row.id);
  const promised =
    batches.length > 0 ? `, ${bothUnits(row.reservedUg)} of it promised to batch ${batches.join(', ')}` : '';
  const advice = batches.length > 0 ? await freeing(db, batches) : 'or count the lot and adjust it';
  return new Refused(
    'short',
    `Lot ${row.id} has ${bothUnits(row.onHandUg)} on hand${promised}; ${what}. Take less, ${advice}.`,
    path,
  );
}

/** How what batches were promised of a lot becomes free, to go on in a message. */
export async function freeing(db: Db, batchIds: readonly string[]): Promise<string> {
  const rows = await db.selectFrom('batches').select(['id', 'state']).where('id', 'in', batchIds).execute();
  const inState = (isPlanned: boolean) =>
    rows.flatMap(({ id, state }) => ((state === 'planned') === isPlanned ? [id] : [])).join(', ');
  const [idle, begun] = [inState(true), inState(false)];
  const ways = [
    ...(idle === '' ? [] : [`cancel batch ${idle}, not begun yet`]),
    ...(begun === '' ? [] : [`go on with batch ${begun}: what it leaves is free once all is weighed in`]),
  ];
  return `or ${ways.join(', or ')}`;
}

/** Batches with a promise of the lot that is still open. */
export async function promisedTo(db: Db, lotId: string): Promise<string[]> {
  const rows = await db
    .selectFrom('movements')
    .select(['batchId', ({ fn }) => fn.sum<number>('reservedUg').as('reservedUg')])
    .where('lotId', '=', lotId)
    .where('batchId', 'is not', null)
    .groupBy('batchId')
    .orderBy('batchId')
    .execute();
  return rows.flatMap(({ batchId, reservedUg }) => (batchId && Number(reservedUg) > 0 ? [batchId] : []));
}

/** What is sold, shipped or weighed in must be fit for use. @throws Refused 'not usable', with the reason of a hold. */
export function refuseUnfitForUse(row: LotRow, day: string, path: Path): void {
  if (row.held) {
    const reason = bodyOf(row).holdReason ?? 'no reason given';
    const message = `Lot ${row.id} is on hold: ${reason}. Release it first, or take another lot.`;
    throw new Refused('not usable', message, path);
  }
  try {
    refuseUnusable(row, day);
  } catch (error) {
    if (error instanceof Refused) throw new Refused(error.code, error.message, path);
    throw error;
  }
}

/** What is kept of it beside the weight. */
export function takenDetails({ mass, packs, pieces }: Taken): MovementDetails {
  return {
    ...(mass !== undefined && mass !== 'all' && { entered: { value: String(mass.value), unit: mass.unit } }),
    ...(packs !== undefined && { packs }),
    ...(pieces !== undefined && { pieces }),
  };
}
