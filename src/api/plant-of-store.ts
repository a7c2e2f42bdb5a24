import type { HouseRules } from '../batch/house-rules.ts';
import { NO_HOUSE_RULES } from '../batch/house-rules.ts';
import type { Lot } from '../batch/lot.ts';
import { isMeat, type Material } from '../batch/material.ts';
import type { FatTest } from '../batch/trim-learning.ts';
import { kilogramsOfMicrograms } from '../ledger/micrograms.ts';
import { freeUg } from '../ledger/movement.ts';
import { listLots } from '../store/lots.ts';
import type { Db } from '../store/open.ts';
import { followed, lastRevision, type PresentStates, presentOf } from '../store/revisions.ts';
import type { LotRow, RevisionRow } from '../store/schema.ts';
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
 * Reads the plant out of the store, anew only when something was written since, and then no more than that.
 * @param tables the ingredient tables; the plant's own materials come on top.
 */
export function plantOfStore(
  store: Pick<Store, 'read'>,
  tables: ReadonlyMap<string, Material>,
): () => Promise<PlantBooks> {
  let known: PlantBooks | undefined;
  let read = plantReader(tables);
  let last: Promise<unknown> = Promise.resolve();
  const readAnew = () =>
    store.read(async (db) => {
      const entry = await headLength(db);
      if (known?.entry === entry) return known;
      // Books that have grown shorter are others: they were put back from a backup.
      if (known && entry < known.entry) read = plantReader(tables);
      known = await read(db, entry);
      return known;
    });
  return async () => {
    const entry = await store.read(headLength);
    if (known?.entry === entry) return known;
    // Readers take turns: whoever comes second finds what the first has read.
    const next = last.then(readAnew);
    last = next.catch(() => {});
    return next;
  };
}

async function headLength(db: Db): Promise<number> {
  const head = await db.selectFrom('head').select('length').executeTakeFirstOrThrow();
  return head.length;
}

const KINDS = ['plant', 'material', 'price', 'product', 'house rules'] as const;
type Present = PresentStates<(typeof KINDS)[number]>;

function plantReader(tables: ReadonlyMap<string, Material>) {
  const look = followed(KINDS);
  const testsUpTo = testsReader();
  const ownMaterials = once(({ material }: Present) => withOwn(tables, inOrder(material.states)));
  const prices = once(({ price }: Present) => pricesOf(inOrder(price.states)));
  const products = once((present: Present) =>
    readProducts(inOrder(present.product.states), ownMaterials(present, present.material.changes)),
  );
  return async (db: Db, entry: number): Promise<PlantBooks> => {
    const present = await look(db, entry);
    const { material, price, product } = present;
    const plant = present.plant.states.get('plant');
    if (!plant) throw new Error('The store has no plant yet.');
    const { fatTests, tested } = await testsUpTo(db);
    const rows = (await listLots(db, { kinds: ['material'], onHand: true })).sort(byId);
    const materials = new Map(ownMaterials(present, material.changes));
    for (const rework of await reworkOf(db, rows)) materials.set(rework.id, rework);
    return {
      entry,
      tables,
      plant: readPlant('plant', plant.body),
      materials,
      lots: rows.map((row) => lotOfRow(row, tested.has(row.id))),
      prices: prices(present, price.changes),
      products: products(present, material.changes + product.changes),
      houseRules: houseRulesOf(present['house rules'].states.get('house rules')),
      // Nothing is to be learned of what is no material any more: rework that is used up, or one that was withdrawn.
      fatTests: fatTests.filter(({ materialId }) => {
        const found = materials.get(materialId);
        return found !== undefined && isMeat(found);
      }),
    };
  };
}

/** The same order on either database, and whatever was written last. */
function inOrder(states: ReadonlyMap<string, RevisionRow>): RevisionRow[] {
  return [...states.values()].sort(byId);
}

/** Makes something of the states anew only when they have changed. */
function once<Made>(make: (present: Present) => Made): (present: Present, changes: number) => Made {
  let kept: { readonly changes: number; readonly made: Made } | undefined;
  return (present, changes) => {
    if (kept?.changes !== changes) kept = { changes, made: make(present) };
    return kept.made;
  };
}

/** Tests that stand, in the order in which they were written down, and the lots that they are of. */
function testsReader() {
  const tests = new Map<number, FatTest>();
  let lastTest = 0;
  let known = { fatTests: [] as FatTest[], tested: new Set<string | undefined>() };
  return async (db: Db) => {
    const before = lastTest;
    for (const { seq, subjectKind, subjectId, body } of await testsWrittenAfter(db, lastTest)) {
      if (subjectKind === WITHDRAWAL) tests.delete(Number(subjectId));
      else tests.set(seq, JSON.parse(body) as FatTest);
      lastTest = seq;
    }
    if (lastTest > before) {
      const fatTests = [...tests.values()];
      known = { fatTests, tested: new Set(fatTests.map(({ lotId }) => lotId)) };
    }
    return known;
  };
}

function pricesOf(rows: readonly RevisionRow[]): Map<string, number> {
  return new Map(rows.map(({ id, body }) => [id, (JSON.parse(body) as { costPerKg: number }).costPerKg]));
}

function withOwn(tables: ReadonlyMap<string, Material>, rows: readonly RevisionRow[]): Map<string, Material> {
  return new Map([...tables, ...rows.map(({ id, body }) => [id, JSON.parse(body) as Material] as const)]);
}

/** The materials of the tables with the plant's own, as the books stand. */
export async function materialsOf(
  db: Db,
  tables: ReadonlyMap<string, Material>,
): Promise<Map<string, Material>> {
  return withOwn(tables, await presentOf(db, 'material'));
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
  return readProducts(await presentOf(db, 'product'), materials);
}

function readProducts(
  rows: readonly RevisionRow[],
  materials: ReadonlyMap<string, Material>,
): Map<string, StoredProduct> {
  return new Map(
    rows.map(({ id, body }) => [
      id,
      { product: readProduct(`product ${id}`, body, materials), json: JSON.parse(body) as unknown },
    ]),
  );
}

function houseRulesOf(row: RevisionRow | undefined): HouseRules {
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
