import type { HouseRules } from '../batch/house-rules.ts';
import { NO_HOUSE_RULES } from '../batch/house-rules.ts';
import type { Lot } from '../batch/lot.ts';
import { isMeat, type Material } from '../batch/material.ts';
import type { FatTest } from '../batch/trim-learning.ts';
import { kilogramsOfMicrograms } from '../ledger/micrograms.ts';
import { freeUg } from '../ledger/movement.ts';
import { listLots } from '../store/lots.ts';
import type { Db } from '../store/open.ts';
import { lastRevision, presentOf } from '../store/revisions.ts';
import type { LotRow } from '../store/schema.ts';
import type { Store } from '../store/store.ts';
import { testsWrittenAfter, WITHDRAWAL } from '../store/tests.ts';
import { HOUSE_RULES_FILE, readHouseRules } from '../tables/house-rules.ts';
import { readPlant } from '../tables/plant.ts';
import { byId, type PlantData, type StoredProduct } from '../tables/plant-folder.ts';
import { readProduct } from '../tables/products.ts';

/** A plant's data as its books stand, with the number of the entry that they stand at. */
export interface PlantBooks extends PlantData {
  readonly entry: number;
  /** The materials of the ingredient tables alone. */
  readonly tables: ReadonlyMap<string, Material>;
}

/** What a lot's description holds: everything of a lot but its id, its material and its weight. */
export type LotBody = Omit<Lot, 'id' | 'materialId' | 'onHandKg' | 'receivedDate' | 'useByDate' | 'held'> & {
  /** Why it is on hold. */
  readonly holdReason?: string;
};

/**
 * Reads the plant out of the store, anew only when something was written since.
 * @param tables the ingredient tables; the plant's own materials come on top.
 */
export function plantOfStore(
  store: Pick<Store, 'read'>,
  tables: ReadonlyMap<string, Material>,
): () => Promise<PlantBooks> {
  let known: PlantBooks | undefined;
  const tests = new Map<number, FatTest>();
  let lastTest = 0;
  return () =>
    store.read(async (db) => {
      const entry = await headLength(db);
      if (known?.entry === entry) return known;
      for (const { seq, subjectKind, subjectId, body } of await testsWrittenAfter(db, lastTest)) {
        if (subjectKind === WITHDRAWAL) tests.delete(Number(subjectId));
        // Two readers at once may fetch the same tests.
        else if (seq > lastTest) tests.set(seq, JSON.parse(body) as FatTest);
        lastTest = Math.max(lastTest, seq);
      }
      const data = await readPlantOf(db, tables, [...tests.values()]);
      known = { ...data, entry, tables };
      return known;
    });
}

async function headLength(db: Db): Promise<number> {
  const head = await db.selectFrom('head').select('length').executeTakeFirstOrThrow();
  return head.length;
}

async function readPlantOf(
  db: Db,
  tables: ReadonlyMap<string, Material>,
  fatTests: readonly FatTest[],
): Promise<PlantData> {
  const plant = await lastRevision(db, 'plant', 'plant');
  if (!plant) throw new Error('The store has no plant yet.');
  const materials = await materialsOf(db, tables);
  const tested = new Set(fatTests.map(({ lotId }) => lotId));
  const rows = await listLots(db, { kinds: ['material'], onHand: true });
  for (const rework of await reworkOf(db, rows)) materials.set(rework.id, rework);
  const lots = rows.map((row) => lotOfRow(row, tested.has(row.id))).sort(byId);
  return {
    plant: readPlant('plant', plant.body),
    materials,
    lots,
    prices: new Map(
      (await presentOf(db, 'price')).map(({ id, body }) => [
        id,
        (JSON.parse(body) as { costPerKg: number }).costPerKg,
      ]),
    ),
    products: await productsOf(db, materials),
    houseRules: await houseRulesOf(db),
    // Nothing is to be learned of what is no material any more: rework that is used up, or one that was withdrawn.
    fatTests: fatTests.filter(({ materialId }) => {
      const material = materials.get(materialId);
      return material !== undefined && isMeat(material);
    }),
  };
}

/** The materials of the tables with the plant's own, as the books stand. */
export async function materialsOf(
  db: Db,
  tables: ReadonlyMap<string, Material>,
): Promise<Map<string, Material>> {
  const materials = new Map(tables);
  for (const { id, body } of await presentOf(db, 'material')) materials.set(id, JSON.parse(body) as Material);
  return materials;
}

/** What a lot is of, as the books stand; undefined when that was withdrawn. */
export async function materialOfLot(
  db: Db,
  tables: ReadonlyMap<string, Material>,
  { ofId, batchId }: Pick<LotRow, 'ofId' | 'batchId'>,
): Promise<Material | undefined> {
  if (batchId === null && tables.has(ofId)) return tables.get(ofId);
  const row = await lastRevision(db, batchId === null ? 'material' : 'rework', ofId);
  return row && row.withdrawn === 0 ? (JSON.parse(row.body) as Material) : undefined;
}

/** Rework is a material as long as there is a lot of it. */
async function reworkOf(db: Db, rows: readonly LotRow[]): Promise<Material[]> {
  const ids = [...new Set(rows.filter(({ batchId }) => batchId !== null).map(({ ofId }) => ofId))];
  const found = await Promise.all(ids.map((id) => lastRevision(db, 'rework', id)));
  return found.flatMap((row) => (row ? [JSON.parse(row.body) as Material] : []));
}

/** The products that are not withdrawn, as the books stand. */
export async function productsOf(
  db: Db,
  materials: ReadonlyMap<string, Material>,
): Promise<Map<string, StoredProduct>> {
  const rows = await presentOf(db, 'product');
  return new Map(
    rows.map(({ id, body }) => [
      id,
      { product: readProduct(`product ${id}`, body, materials), json: JSON.parse(body) as unknown },
    ]),
  );
}

async function houseRulesOf(db: Db): Promise<HouseRules> {
  const row = await lastRevision(db, 'house rules', 'house rules');
  return row ? readHouseRules(HOUSE_RULES_FILE, row.body) : NO_HOUSE_RULES;
}

/**
 * A lot as blends see it: what is on hand of it is what no batch has been promised.
 * @param wasTested here: the plant's own tests then stand in place of the figure that it came with.
 */
export function lotOfRow(row: LotRow, wasTested: boolean): Lot {
  const { measuredFat, holdReason, ...body } = JSON.parse(row.body) as LotBody;
  return {
    ...body,
    id: row.id,
    materialId: row.ofId,
    onHandKg: kilogramsOfMicrograms(freeUg(row)),
    receivedDate: row.receivedDay,
    ...(row.useByDay !== null && { useByDate: row.useByDay }),
    ...(measuredFat && !wasTested && { measuredFat }),
    ...(row.held === 1 && { held: holdReason ?? 'no reason given' }),
  };
}
