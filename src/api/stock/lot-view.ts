import { type FatTest, ownTests } from '../../batch/trim-learning.ts';
import { kilogramsOfMicrograms } from '../../ledger/micrograms.ts';
import { freeUg } from '../../ledger/movement.ts';
import { type LotKind, lotOrRefuse } from '../../store/lots.ts';
import type { Db } from '../../store/open.ts';
import type { LotRow } from '../../store/schema.ts';
import { testsOfLots } from '../../store/tests.ts';
import { inUnit, type MassUnit, pricePerUnit } from '../../units.ts';
import type { LotAnswer, WholeLotAnswer } from '../contract/lots.ts';
import type { LotBody } from '../plant-of-store.ts';
import { testAnswers } from './fat-test-view.ts';
import { packsLeft, packUg } from './packs.ts';

/** What a lot's description holds: of bulk and packs, also the product, and of packs how many there were. */
export type StoredLot = Partial<LotBody> & {
  readonly product?: string;
  /** How they are packed for sale, as it was then. */
  readonly format?: { readonly id: string };
  readonly count?: number;
  readonly net?: { readonly value: string; readonly unit: MassUnit };
};

export function bodyOf({ body }: Pick<LotRow, 'body'>): StoredLot {
  return JSON.parse(body) as StoredLot;
}

/** Micrograms in the units that answers give; pounds to the digits that whole micrograms can tell. */
export function weight(massUg: number): { kg: number; lb: number } {
  const kg = kilogramsOfMicrograms(massUg);
  return { kg, lb: Number(inUnit(kg, 'lb').toFixed(8)) };
}

/** A price in the units that answers give, without the noise of the conversion. */
export function costs(costPerKg: number): { costPerKg: number; costPerLb: number } {
  return { costPerKg, costPerLb: Number(pricePerUnit(costPerKg, 'lb').toPrecision(12)) };
}

/** Lots as answers show them. @param day tests of later days are not known yet. */
export async function lotViews(db: Db, rows: readonly LotRow[], day: string): Promise<LotAnswer[]> {
  const ids = rows.map(({ id }) => id);
  const tests = (await testsOfLots(db, ids)).map(({ body }) => JSON.parse(body) as FatTest);
  const packs = await packUg(db, rows);
  return rows.map((row) => lotView(row, tests, packs.get(row.id), day));
}

function lotView(
  row: LotRow,
  tests: readonly FatTest[],
  onePackUg: number | undefined,
  day: string,
): LotAnswer {
  const body = bodyOf(row);
  const { costPerKg = 0, state = 'chilled', product, count, net, format } = body;
  const isMaterial = row.kind === 'material';
  const measuredFat = ownTests(tests, { id: row.id, materialId: row.ofId }, day) ?? body.measuredFat;
  return {
    id: row.id,
    kind: row.kind as LotKind,
    ...(isMaterial ? { materialId: row.ofId } : { productId: row.ofId }),
    ...(product !== undefined && { product }),
    ...(row.batchId !== null && { batchId: row.batchId }),
    onHand: weight(row.onHandUg),
    reserved: weight(row.reservedUg),
    free: weight(freeUg(row)),
    ...costs(costPerKg),
    ...(measuredFat && { measuredFat }),
    receivedDate: row.receivedDay,
    ...(row.useByDay !== null && { useByDate: row.useByDay }),
    state,
    ...detailsOf(body),
    ...(row.held === 1 && { held: body.holdReason ?? 'no reason given' }),
    ...(onePackUg !== undefined &&
      count !== undefined &&
      net && {
        packs: {
          packed: count,
          onHand: packsLeft(row.onHandUg, onePackUg),
          net,
          ...(format && { format: format.id }),
        },
      }),
    version: row.version,
  };
}

function detailsOf({
  packedDate,
  boxKg,
  supplierEstablishment,
  supplierLot,
  location,
  origin,
}: StoredLot): Partial<LotAnswer> {
  return {
    ...(packedDate !== undefined && { packedDate }),
    ...(boxKg !== undefined && { boxKg }),
    ...(supplierEstablishment !== undefined && { supplierEstablishment }),
    ...(supplierLot !== undefined && { supplierLot }),
    ...(location !== undefined && { location }),
    ...(origin && { origin }),
  };
}

/** One lot with its tests. @throws Refused 'unknown'. */
export async function wholeLot(
  db: Db,
  id: string,
  day: string,
  writing?: { readonly entry: number; readonly person: string },
): Promise<WholeLotAnswer> {
  const row = await lotOrRefuse(db, id);
  const [lot] = await lotViews(db, [row], day);
  if (!lot) throw new Error(`lot ${id} has no view`);
  return {
    ...lot,
    tests: await testAnswers(db, await testsOfLots(db, [id]), writing),
    movements: `/v1/movements?lotId=${encodeURIComponent(id)}`,
  };
}
