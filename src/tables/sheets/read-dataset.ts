import { z } from 'zod';
import type { TrimLine } from '../../batch/composition.ts';
import type { Lot } from '../../batch/lot.ts';
import type { Material, Species } from '../../batch/material.ts';
import { perKilogram } from '../../units.ts';
import { lotOfRow, lotRow } from '../lots.ts';
import { faultsOf } from '../material-faults.ts';
import { materialColumns, materialOf } from '../material-row.ts';
import { priceRow } from '../prices.ts';
import { parseProduct } from '../products.ts';
import { LOT_COLUMNS } from './lots-sheet.ts';
import { MATERIAL_COLUMNS } from './materials-sheet.ts';
import { PRICE_COLUMNS } from './prices-sheet.ts';
import { PRODUCT_COLUMNS, readProductRows } from './products-sheet.ts';
import { type CellFault, type FileForm, inOrder, parseTable, readSheetTable } from './read-sheet.ts';

/** What can be read out of a spreadsheet. */
export const DATASETS = ['lots', 'materials', 'prices', 'products'] as const;
export type Dataset = (typeof DATASETS)[number];

/** What the rows of each are. */
export interface DatasetItems {
  readonly lots: Lot;
  readonly materials: Material;
  readonly prices: { readonly materialId: string; readonly costPerKg: number };
  /** The JSON form. */
  readonly products: unknown;
}

export interface ReadItem<Name extends Dataset> {
  readonly row: number;
  readonly id: string;
  readonly value: DatasetItems[Name];
}

export interface ReadDataset<Name extends Dataset> {
  readonly file: FileForm;
  /** Rows below the header that are not blank. */
  readonly rowCount: number;
  /** What could be read, in the order of the file. */
  readonly items: readonly ReadItem<Name>[];
  readonly faults: readonly CellFault[];
  /** Letters above each column that is there. */
  readonly columns: Readonly<Record<string, string>>;
}

/** What a file may name. */
export interface Known {
  readonly materials: ReadonlyMap<string, Material>;
}

type Read<Name extends Dataset> = Omit<ReadDataset<Name>, 'columns'> & { readonly at: Placing };
type Placing = Awaited<ReturnType<typeof readSheetTable>>['at'];

/**
 * Reads one dataset out of a CSV file or a workbook, by the same rules as the files of a plant.
 * @throws SheetError for a file that is no table.
 */
export async function readDataset<Name extends Dataset>(
  dataset: Name,
  bytes: Uint8Array,
  known: Known,
): Promise<ReadDataset<Name>> {
  const { at, ...read } = await READERS[dataset](bytes, known);
  const names = COLUMNS[dataset].map(({ name }) => name);
  const columns = names.flatMap((name) => {
    const { column } = at({ row: 1, column: name, message: '' });
    return column === undefined ? [] : [[name, column] as const];
  });
  return { ...read, columns: Object.fromEntries(columns) };
}

export const COLUMNS = {
  lots: LOT_COLUMNS,
  materials: MATERIAL_COLUMNS,
  prices: PRICE_COLUMNS,
  products: PRODUCT_COLUMNS,
} as const;

const READERS: { readonly [Name in Dataset]: (bytes: Uint8Array, known: Known) => Promise<Read<Name>> } = {
  lots: async (bytes, { materials }) => {
    const schema = lotRow(materials);
    const table = await readSheetTable(bytes, 'lots', LOT_COLUMNS, schema);
    const { rows, faults } = parseTable(table, schema);
    const items = rows.map(({ row, cells }) => ({ row, id: cells.lot_id, value: lotOfRow(cells) }));
    return { file: table.file, rowCount: table.rows.length, items, faults, at: table.at };
  },
  materials: async (bytes, { materials }) => {
    const lines = trimLinesOf(materials);
    const table = await readSheetTable(bytes, 'materials', MATERIAL_COLUMNS, materialColumns);
    const seen = new Set<string>();
    const { rows, faults } = parseTable(table, materialColumns, (cells) => {
      const repeated = seen.has(cells.material_id);
      seen.add(cells.material_id);
      return [
        ...(repeated ? [['material_id', 'stands twice; give each material its own id'] as const] : []),
        ...faultsOf(cells, lines),
      ];
    });
    const items =
      faults.length > 0 ? [] : rows.map(({ row, cells }) => ({ row, value: materialOf(cells, lines) }));
    return {
      file: table.file,
      rowCount: table.rows.length,
      items: items.map(({ row, value }) => ({ row, id: value.id, value })),
      faults,
      at: table.at,
    };
  },
  prices: async (bytes, { materials }) => {
    const schema = priceRow(materials);
    const table = await readSheetTable(bytes, 'prices', PRICE_COLUMNS, schema);
    const { rows, faults } = parseTable(table, schema);
    const items = rows.map(({ row, cells }) => {
      const value = { materialId: cells.material_id, costPerKg: perKilogram(cells.cost, cells.cost_per) };
      return { row, id: value.materialId, value };
    });
    return { file: table.file, rowCount: table.rows.length, items, faults, at: table.at };
  },
  products: async (bytes, { materials }) => {
    const table = await readSheetTable(bytes, 'products', PRODUCT_COLUMNS, productTable);
    const { products, faults } = readProductRows(table.rows);
    const all = [...table.faults, ...faults.map(table.at)];
    const items = products.flatMap(({ id, row, json, cellOf }) => {
      const parsed = parseProduct(json, materials);
      if (parsed.ok) return [{ row, id, value: json }];
      for (const { path, message } of parsed.issues) all.push(table.at({ ...cellOf(path), message }));
      return [];
    });
    return { file: table.file, rowCount: table.rows.length, items, faults: inOrder(all), at: table.at };
  },
};

/** Of a table of products only the names of columns are checked by a row schema; what they hold, by that of a product. */
const productTable = z.object(
  Object.fromEntries(
    PRODUCT_COLUMNS.map(({ name }) => [
      name,
      name === 'product_id' || name === 'part' ? z.string() : z.string().optional(),
    ]),
  ),
);

/** Each species has one line, whatever trim shows it. */
function trimLinesOf(materials: ReadonlyMap<string, Material>): Map<Species, TrimLine> {
  return new Map(
    [...materials.values()].flatMap(({ species, trimLine }) =>
      species && trimLine ? [[species, trimLine] as const] : [],
    ),
  );
}
