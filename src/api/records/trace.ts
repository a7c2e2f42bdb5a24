import { Refused } from '../../ledger/refused.ts';
import { batchPlace, fractionOf, grouped, idOf, idsOf, lotPlace, type Place } from '../../ledger/trace.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';
import type { Store } from '../../store/store.ts';
import {
  type Leaving,
  lotRows,
  lotsOfSupplierLot,
  type TracedBatch,
  type TracedLot,
  type Tracing,
  traceFrom,
} from '../../store/trace.ts';
import type { PlantBooks } from '../plant-of-store.ts';
import { bodyOf, weight } from '../stock/lot-view.ts';
import { sameGrinder } from './at-grinder.ts';
import type { TraceAnswer, TraceQuery } from './contract.ts';
import { timeAt } from './times.ts';

/** Where something went, or what it was made of, in words and figures. */

export type Starting = Omit<TraceQuery, 'direction'>;

/** Where a trace starts. */
export interface Start {
  readonly places: readonly Place[];
  readonly says: string;
}

/** @throws Refused 'unknown' with what to do, for a lot or batch that is not in the books. */
export async function startOf(db: Db, { dialect }: Pick<Store, 'dialect'>, wanted: Starting): Promise<Start> {
  const { lotId, batchId, supplierLot, supplierEstablishment } = wanted;
  if (lotId !== undefined) return startOfLot(db, lotId);
  if (batchId !== undefined) return startOfBatch(db, batchId);
  const number = supplierLot ?? '';
  const ids = await lotsOfSupplierLot(db, dialect, {
    supplierLot: number,
    ...(supplierEstablishment !== undefined && { supplierEstablishment }),
  });
  const from = supplierEstablishment === undefined ? '' : ` of Est. ${supplierEstablishment}`;
  if (ids.length === 0) {
    throw new Refused(
      'unknown',
      `No lot came under the supplier's number "${number}"${from}. Look for it in GET /v1/lots?onHand=any, or trace one of our own lots by lotId`,
    );
  }
  return {
    places: ids.map(lotPlace),
    says: `the supplier's lot ${number}${from}, here ${ids.join(', ')}`,
  };
}

async function startOfBatch(db: Db, batchId: string): Promise<Start> {
  const row = await db.selectFrom('batches').select('id').where('id', '=', batchId).executeTakeFirst();
  if (row) return { places: [batchPlace(batchId)], says: `batch ${batchId}` };
  throw new Refused('unknown', `There is no batch "${batchId}". Look for it in GET /v1/batches`);
}

async function startOfLot(db: Db, lotId: string): Promise<Start> {
  const [row] = await lotRows(db, [lotId]);
  if (!row) {
    const advice = "Look for it in GET /v1/lots?onHand=any; for the supplier's own number use supplierLot";
    throw new Refused('unknown', `There is no lot "${lotId}". ${advice}`);
  }
  return { places: [lotPlace(lotId)], says: `lot ${lotId}${supplierText(row)}` };
}

function supplierText(row: LotRow): string {
  const { supplierEstablishment, supplierLot } = bodyOf(row);
  const said = [
    ...(supplierEstablishment === undefined ? [] : [`Est. ${supplierEstablishment}`]),
    ...(supplierLot === undefined ? [] : [`supplier's lot ${supplierLot}`]),
  ];
  return said.length === 0 ? '' : ` (${said.join(', ')})`;
}

export const TRACE_NOTES = [
  'Every lot and batch here may contain some. The shares are estimates, as if each batch was mixed evenly and lost of everything alike; do not release anything because its share is small.',
  'A grinder carries over until it is cleaned and sanitized. Batches that were ground between the same two cleanings as one of these stand in a list of their own, in no weight and in no share: trace each of them by its batchId. Of mixers, stuffers and other equipment nothing is known here.',
  'Weights are those of the books. What was never written down is not here.',
];

/** @param at the instant that the books were read at. */
export async function traceView(
  db: Db,
  store: Pick<Store, 'dialect'>,
  data: PlantBooks,
  { direction, ...wanted }: TraceQuery,
  at: string,
): Promise<TraceAnswer> {
  const start = await startOf(db, store, wanted);
  const tracing = await traceFrom(db, start.places, direction);
  return {
    direction,
    start: startAnswer(start),
    asOf: timeAt(data.plant.timeZone, at),
    units: data.plant.units,
    levels: tracing.levels.map((places, steps) => ({
      steps,
      lots: idsOf(places, 'lot').flatMap((id) => lotAnswer(data, tracing, tracing.lots.get(id))),
      batches: idsOf(places, 'batch').flatMap((id) => batchAnswer(data, tracing, tracing.batches.get(id))),
    })),
    flows: tracing.flows.map(({ from, to, massUg }) => ({
      from: idOf(from),
      to: idOf(to),
      mass: weight(massUg),
    })),
    consignees: tracing.leavings.map((leaving) => consigneeAnswer(tracing, leaving)),
    suppliers: direction === 'back' ? suppliersOf(data, tracing) : [],
    withoutLot: direction === 'back' ? withoutLotOf(data, tracing) : [],
    sameGrinder: await sameGrinder(db, tracing.batches),
    notes: TRACE_NOTES,
  };
}

export function startAnswer({ places, says }: Start) {
  return { says, lotIds: idsOf(places, 'lot'), batchIds: idsOf(places, 'batch') };
}

function lotAnswer(data: PlantBooks, tracing: Tracing, lot: TracedLot | undefined) {
  if (!lot) return [];
  const { row, cameUg } = lot;
  const { supplierEstablishment, supplierLot, packedDate } = bodyOf(row);
  return [
    {
      lotId: row.id,
      kind: row.kind,
      of: { id: row.ofId, name: nameOfLot(data, row) },
      ...(row.batchId !== null && { batchId: row.batchId }),
      ...(supplierEstablishment !== undefined && { supplierEstablishment }),
      ...(supplierLot !== undefined && { supplierLot }),
      ...(packedDate !== undefined && { packedDate }),
      receivedDate: row.receivedDay,
      came: weight(cameUg),
      onHand: weight(row.onHandUg),
      held: row.held === 1,
      mayContain: true as const,
      ...shareOf(tracing, lotPlace(row.id), cameUg),
    },
  ];
}

function batchAnswer(data: PlantBooks, tracing: Tracing, batch: TracedBatch | undefined) {
  if (!batch) return [];
  const { id, row, weighedUg } = batch;
  return [
    {
      batchId: id,
      ...(row && {
        product: { id: row.productId, name: productName(data, row.productId) },
        date: row.day,
        state: row.state,
      }),
      weighed: weight(weighedUg),
      mayContain: true as const,
      ...shareOf(tracing, batchPlace(id), weighedUg),
    },
  ];
}

/** The share with its weight: of the place itself forward, of the one start back. */
function shareOf({ shares, direction, starts, lots, batches }: Tracing, place: Place, ownUg: number) {
  const share = shares.get(place) ?? 0;
  if (direction === 'forward') return { share, estimate: weight(Math.round(share * ownUg)) };
  const [start, ...others] = starts;
  if (start === undefined || others.length > 0) return { share };
  const id = idOf(start);
  const startUg = 'lotId' in id ? lots.get(id.lotId)?.cameUg : batches.get(id.batchId)?.weighedUg;
  return { share, estimate: weight(Math.round(share * (startUg ?? 0))) };
}

export function consigneeAnswer({ shares }: Pick<Tracing, 'shares'>, leaving: Leaving) {
  const { seq, lotId, kind, massUg, to, document, day } = leaving;
  const share = shares.get(lotPlace(lotId)) ?? 0;
  return {
    ...(to !== undefined && { to }),
    kind,
    ...(document !== undefined && { document }),
    day,
    lotId,
    movement: seq,
    mass: weight(massUg),
    mayContain: true as const,
    share,
    estimate: weight(Math.round(share * massUg)),
  };
}

/** Lots that were received, by who sent them under which number. */
function suppliersOf(data: PlantBooks, { lots, shares }: Tracing): TraceAnswer['suppliers'] {
  const received = [...lots.values()].filter(({ row }) => row.batchId === null);
  const bySupplier = grouped(received, ({ row }) => {
    const { supplierEstablishment, supplierLot } = bodyOf(row);
    return JSON.stringify([supplierEstablishment ?? '', supplierLot ?? '']);
  });
  return [...bySupplier].sort(byKey).map(([key, own]) => {
    const [supplierEstablishment = '', supplierLot = ''] = JSON.parse(key) as string[];
    return {
      ...(supplierEstablishment !== '' && { supplierEstablishment }),
      ...(supplierLot !== '' && { supplierLot }),
      lotIds: own.map(({ row }) => row.id),
      materials: [...new Set(own.map(({ row }) => nameOfLot(data, row)))],
      share: own.reduce((sum, { row }) => sum + (shares.get(lotPlace(row.id)) ?? 0), 0),
    };
  });
}

const byKey = ([one]: readonly [string, unknown], [other]: readonly [string, unknown]) =>
  one < other ? -1 : Number(one > other);

function withoutLotOf({ materials }: PlantBooks, { batches }: Tracing): TraceAnswer['withoutLot'] {
  return [...batches.values()].flatMap(({ id, withoutLot }) =>
    [...grouped(withoutLot, ({ materialId }) => materialId)].map(([materialId, own]) => ({
      batchId: id,
      materialId,
      material: materials.get(materialId)?.name ?? materialId,
      mass: weight(own.reduce((sum, { massUg }) => sum + massUg, 0)),
    })),
  );
}

/** What people call what a lot is of. */
export function nameOfLot({ materials, products }: PlantBooks, row: LotRow): string {
  const { product } = bodyOf(row);
  if (product !== undefined) return product;
  if (row.kind !== 'material') return products.get(row.ofId)?.product.name ?? row.ofId;
  const name = materials.get(row.ofId)?.name;
  return name ?? (row.batchId === null ? row.ofId : `rework of batch ${row.batchId}`);
}

export function productName({ products }: PlantBooks, id: string): string {
  return products.get(id)?.product.name ?? id;
}

/** In percent, to a tenth; less than all is never shown as all. */
export function percentOf(partUg: number, wholeUg: number): number {
  const percent = fractionOf(partUg, wholeUg) * 100;
  return partUg < wholeUg ? Math.min(99.9, Math.floor(percent * 10) / 10) : Math.round(percent * 10) / 10;
}
