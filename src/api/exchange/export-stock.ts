import type { HouseRules } from '../../batch/house-rules.ts';
import type { Lot } from '../../batch/lot.ts';
import type { Material } from '../../batch/material.ts';
import { type LotKind, listLots } from '../../store/lots.ts';
import { presentOf } from '../../store/revisions.ts';
import type { LotRow } from '../../store/schema.ts';
import { columnsOf } from '../../tables/sheets/columns.ts';
import { LOT_COLUMNS, lotCells } from '../../tables/sheets/lots-sheet.ts';
import { MATERIAL_COLUMNS, materialCells } from '../../tables/sheets/materials-sheet.ts';
import { PRICE_COLUMNS, priceCells } from '../../tables/sheets/prices-sheet.ts';
import { PRODUCT_COLUMNS, productRows } from '../../tables/sheets/products-sheet.ts';
import type { WrittenCell } from '../../tables/sheets/write-csv.ts';
import { textOfWords } from '../../tables/words.ts';
import type { Books } from '../books.ts';
import { bodyOf } from '../stock/lot-view.ts';
import { type ExportedTable, inPages, kgOf } from './table.ts';

/** What the plant has, as tables. The first four are taken in again as they are given out. */

const lots: ExportedTable = {
  name: 'lots',
  columns: LOT_COLUMNS,
  mayCut: false,
  rows: (books) =>
    inPages(books, lotsAfter('material'), (_db, rows) =>
      // What is left over from batches did not come in: it cannot be received again.
      rows.filter(({ batchId }) => batchId === null).map((row) => lotCells(lotOf(row), kgOf(row.onHandUg))),
    ),
};

function lotsAfter(kind: LotKind) {
  return (db: Parameters<typeof listLots>[0], after: LotRow | undefined, limit: number) =>
    listLots(db, { kinds: [kind], ...(after && { afterId: after.id }), limit });
}

function lotOf(row: LotRow): Omit<Lot, 'onHandKg'> {
  const { holdReason, costPerKg = 0, state = 'chilled', ...body } = bodyOf(row);
  return {
    ...body,
    id: row.id,
    materialId: row.ofId,
    costPerKg,
    state,
    receivedDate: row.receivedDay,
    ...(row.useByDay !== null && { useByDate: row.useByDay }),
    ...(row.held === 1 && { held: holdReason ?? 'no reason given' }),
  };
}

const materials: ExportedTable = {
  name: 'materials',
  columns: MATERIAL_COLUMNS,
  mayCut: false,
  hasLongTexts: true,
  rows: (books) => presentRows(books, 'material', (body) => [materialCells(body as Material)]),
};

const prices: ExportedTable = {
  name: 'prices',
  columns: PRICE_COLUMNS,
  mayCut: false,
  rows: (books) =>
    presentRows(books, 'price', (body, id) => [
      priceCells(id, (body as { readonly costPerKg: number }).costPerKg),
    ]),
};

const products: ExportedTable = {
  name: 'products',
  columns: PRODUCT_COLUMNS,
  mayCut: false,
  hasLongTexts: true,
  rows: (books) => presentRows(books, 'product', productRows),
};

/** What is edited as a whole: there is never more of it than a plant can name. */
async function* presentRows(
  { store }: Books,
  kind: string,
  rows: (body: unknown, id: string) => WrittenCell[][],
): AsyncGenerator<WrittenCell[]> {
  for (const { body, id } of await store.read((db) => presentOf(db, kind))) yield* rows(JSON.parse(body), id);
}

const packs: ExportedTable = {
  name: 'packs',
  columns: columnsOf({
    lot_id: 'word',
    product_id: 'word',
    product: 'text',
    batch_id: 'word',
    packed_day: 'date',
    use_by_date: 'date',
    count: 'number',
    net: 'digits',
    net_unit: 'word',
    on_hand_kg: 'number',
    hold: 'text',
  }),
  mayCut: true,
  rows: (books) =>
    inPages(books, lotsAfter('pack'), (_db, rows) =>
      rows.map((row) => {
        const { product, count, net, holdReason } = bodyOf(row);
        return [
          row.id,
          row.ofId,
          product,
          row.batchId ?? undefined,
          row.receivedDay,
          row.useByDay ?? undefined,
          count,
          net?.value,
          net?.unit,
          kgOf(row.onHandUg),
          row.held === 1 ? (holdReason ?? 'no reason given') : undefined,
        ];
      }),
    ),
};

const houseRules: ExportedTable = {
  name: 'house-rules',
  columns: columnsOf({
    rule: 'word',
    limit_id: 'word',
    says: 'text',
    numerator: 'word',
    basis: 'word',
    sense: 'word',
    bound: 'number',
    unit: 'word',
    confidence: 'number',
    products: 'text',
    product_classes: 'text',
    reason: 'text',
  }),
  mayCut: true,
  rows: (books) => presentRows(books, 'house rules', (body) => houseRuleRows(body as Partial<HouseRules>)),
};

function houseRuleRows({ tighter = [], own = [], switchedOff = [], certainty = [] }: Partial<HouseRules>) {
  type Fields = Readonly<Partial<Record<(typeof houseRules.columns)[number]['name'], WrittenCell>>>;
  const list = (words: readonly string[] | undefined) => words && textOfWords(words);
  const rows: Fields[] = [
    ...tighter.map(({ limitId, bound, reason }) => ({ rule: 'tighter', limit_id: limitId, bound, reason })),
    ...own.map(({ id, products, productClasses, ...limit }) => ({
      rule: 'own',
      limit_id: id,
      ...limit,
      products: list(products),
      product_classes: list(productClasses),
    })),
    ...switchedOff.map(({ limitId, reason, products }) => ({
      rule: 'switched off',
      limit_id: limitId,
      products: list(products),
      reason,
    })),
    ...certainty.map(({ limitId, confidence, products }) => ({
      rule: 'certainty',
      limit_id: limitId,
      confidence,
      products: list(products),
    })),
  ];
  return rows.map((fields) => houseRules.columns.map(({ name }) => fields[name]));
}

export const STOCK_TABLES = [lots, materials, prices, products, packs, houseRules] as const;
