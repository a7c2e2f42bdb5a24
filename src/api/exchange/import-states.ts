import type { Material } from '../../batch/material.ts';
import type { Db } from '../../store/open.ts';
import { presentOf, reviseAll } from '../../store/revisions.ts';
import type { RevisionRow } from '../../store/schema.ts';
import { inPortions } from '../../store/store.ts';
import type { FieldIssue } from '../../tables/json.ts';
import { materialIssues } from '../../tables/products.ts';
import type { Column } from '../../tables/sheets/columns.ts';
import { MATERIAL_COLUMNS, materialCells } from '../../tables/sheets/materials-sheet.ts';
import { PRICE_COLUMNS, priceCells } from '../../tables/sheets/prices-sheet.ts';
import { PRODUCT_COLUMNS, productRows } from '../../tables/sheets/products-sheet.ts';
import type { Dataset } from '../../tables/sheets/read-dataset.ts';
import type { CellFault } from '../../tables/sheets/read-sheet.ts';
import { csvLine, type WrittenCell } from '../../tables/sheets/write-csv.ts';
import { materialSchema } from '../contract/blend-request.ts';
import { materialsOf, productsOf } from '../plant-of-store.ts';
import { standardIssues } from '../stock/products.ts';
import { cellFault, type Importing, type ImportPlan, type Planner, type RowChange } from './plan.ts';

/** Materials, prices and products: a new state is written where a row says something else than the one that stands. */

export const planMaterials: Planner<'materials'> = async (db, importing) => {
  const { read, data } = importing;
  const plan = await planStates(db, importing, {
    kind: 'material',
    columns: MATERIAL_COLUMNS,
    rows: (material) => [materialCells(material)],
    body: ({ value }) => value,
    says: ({ value }) => value.name,
  });
  const ids = plan.changes.filter(({ what }) => what === 'new').map(({ id }) => id);
  const taken = await takenIds(db, ids);
  const faults = read.items.flatMap(({ row, id, value }) => [
    ...(data.tables.has(id)
      ? [
          cellFault(
            read,
            row,
            'material_id',
            'stands in the ingredient tables, which stay as they are; give your own material another id',
          ),
        ]
      : []),
    ...(taken.has(id)
      ? [cellFault(read, row, 'material_id', `is the id of ${taken.get(id)}; give it another id`)]
      : []),
    ...formFaults(value).map(({ field, message }) => cellFault(read, row, field, message)),
  ]);
  return { ...plan, faults: [...plan.faults, ...faults, ...(await misfits(db, importing))] };
};

/** Ids that are already those of a lot or of rework. */
async function takenIds(db: Db, ids: readonly string[]): Promise<Map<string, string>> {
  const taken = new Map<string, string>();
  for (const some of inPortions(ids)) {
    for (const { id } of await db.selectFrom('lots').select('id').where('id', 'in', some).execute())
      taken.set(id, 'a lot');
    const rework = db
      .selectFrom('revisions')
      .select('id')
      .where('kind', '=', 'rework')
      .where('id', 'in', some);
    for (const { id } of await rework.execute()) taken.set(id, 'rework');
  }
  return taken;
}

const MATERIAL_COLUMN: Readonly<Record<string, string>> = {
  id: 'material_id',
  name: 'name',
  declaredName: 'declared_name',
  kind: 'kind',
  species: 'species',
  composition: 'water_percent',
  substances: 'substances',
  allergens: 'allergens',
  subIngredients: 'sub_ingredients',
  madeIn: 'made_in',
  source: 'source',
};

/** What a material must be to be added by hand. */
function formFaults({
  trimLine: _,
  ...material
}: Material): { readonly field: string; readonly message: string }[] {
  const parsed = materialSchema.safeParse(material);
  if (parsed.success) return [];
  return parsed.error.issues.map(({ path, message }) => ({
    field: MATERIAL_COLUMN[String(path[0])] ?? 'material_id',
    message: path.length > 1 ? `${path.slice(1).join('.')}: ${message}` : message,
  }));
}

/** A product must not come to name a material that has no place where it stands. */
async function misfits(db: Db, { data, read }: Importing<'materials'>): Promise<CellFault[]> {
  const before = await materialsOf(db, data.tables);
  const rows = new Map(read.items.map(({ id, row }) => [id, row]));
  const after = new Map([...before, ...read.items.map(({ id, value }) => [id, value] as const)]);
  const products = [...(await productsOf(db, before)).values()];
  return products.flatMap(({ product }) =>
    materialIssues(product, after).map(({ path, message }) => {
      const id = [...rows.keys()].find((known) => message.includes(`"${known}"`)) ?? '';
      return cellFault(
        read,
        rows.get(id) ?? 1,
        'kind',
        `product ${product.id}, ${path.join('.')}: ${message}`,
      );
    }),
  );
}

export const planPrices: Planner<'prices'> = async (db, importing) =>
  planStates(db, importing, {
    kind: 'price',
    columns: PRICE_COLUMNS,
    rows: ({ materialId, costPerKg }) => [priceCells(materialId, costPerKg)],
    stored: ({ id, body }) => ({ materialId: id, ...(JSON.parse(body) as { costPerKg: number }) }),
    body: ({ value: { costPerKg } }) => ({ costPerKg }),
    says: ({ value: { costPerKg } }) => `${costPerKg} ${importing.data.plant.currency} per kg`,
  });

export const planProducts: Planner<'products'> = async (db, importing) => {
  const { read, books } = importing;
  const plan = await planStates(db, importing, {
    kind: 'product',
    columns: PRODUCT_COLUMNS,
    rows: productRows,
    body: ({ value }) => value,
    says: ({ value }) => (value as { readonly name: string }).name,
  });
  const faults = read.items.flatMap(({ row, value }) => {
    const { standard } = value as { readonly standard: Parameters<typeof standardIssues>[0] };
    return standardIssues(standard, books.ruleSets).map(({ path, message }: FieldIssue) =>
      cellFault(read, row, path.at(-1) === 'jurisdiction' ? 'jurisdiction' : 'product_class', message),
    );
  });
  return { ...plan, faults: [...plan.faults, ...faults] };
};

interface Kind<Name extends Dataset> {
  /** In the books. */
  readonly kind: string;
  /** As it is exported: two states are the same when these are. */
  readonly rows: (value: Value<Name>) => WrittenCell[][];
  /** Names of the cells of each row. */
  readonly columns: readonly Column[];
  readonly stored?: (row: RevisionRow) => Value<Name>;
  readonly body: (item: Item<Name>) => unknown;
  readonly says: (item: Item<Name>) => string;
}
type Item<Name extends Dataset> = Importing<Name>['read']['items'][number];
type Value<Name extends Dataset> = Item<Name>['value'];

async function planStates<Name extends Dataset>(
  db: Db,
  { read }: Importing<Name>,
  { kind, rows, columns, stored = ({ body }) => JSON.parse(body) as Value<Name>, body, says }: Kind<Name>,
): Promise<ImportPlan> {
  const text = (value: Value<Name>) =>
    rows(value)
      .map((row) => csvLine(row))
      .join('');
  const there = new Map((await presentOf(db, kind)).map((row) => [row.id, row]));
  const changes: RowChange[] = [];
  const written: Item<Name>[] = [];
  const faults: CellFault[] = [];
  for (const item of read.items) {
    const before = there.get(item.id);
    if (before && text(stored(before)) === text(item.value)) continue;
    if (before) faults.push(...lostColumns(read, item.row, columns, rows(stored(before))));
    written.push(item);
    changes.push({ row: item.row, id: item.id, what: before ? 'changed' : 'new', says: says(item) });
  }
  return {
    changes,
    unchanged: read.items.length - written.length,
    faults,
    write: async (writing) => {
      const ids = written.map(({ id }) => id);
      const states = written.map((item) => ({ id: item.id, body: body(item) }));
      await reviseAll(writing, kind, states, await lastNumbers(writing.db, kind, ids));
    },
  };
}

/** A state is written as a whole: a column that the file does not have must not take away what stands in it. */
function lostColumns(
  read: Importing<Dataset>['read'],
  row: number,
  columns: readonly Column[],
  stored: readonly WrittenCell[][],
): CellFault[] {
  return columns.flatMap(({ name }, index) => {
    if (name in read.columns || stored.every((cells) => (cells[index] ?? '') === '')) return [];
    const message =
      'is no column of the file, and the books have a value in it; add the column, with that value';
    return [cellFault(read, row, name, message)];
  });
}

/** Withdrawn ones too: numbers go on from them. */
async function lastNumbers(db: Db, kind: string, ids: readonly string[]): Promise<Map<string, number>> {
  const numbers = new Map<string, number>();
  for (const some of inPortions(ids)) {
    const found = await db
      .selectFrom('revisions')
      .select(['id', ({ fn }) => fn.max('revision').as('last')])
      .where('kind', '=', kind)
      .where('id', 'in', some)
      .groupBy('id')
      .execute();
    for (const { id, last } of found) numbers.set(id, Number(last));
  }
  return numbers;
}
