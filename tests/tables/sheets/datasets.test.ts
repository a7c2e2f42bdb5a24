import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LOT_STATES, type Lot } from '../../../src/batch/lot.ts';
import { ALLERGENS, type Material } from '../../../src/batch/material.ts';
import { exact } from '../../../src/exact.ts';
import { readLots } from '../../../src/tables/lots.ts';
import { loadMaterials } from '../../../src/tables/materials.ts';
import { LOT_COLUMNS, lotCells } from '../../../src/tables/sheets/lots-sheet.ts';
import { MATERIAL_COLUMNS, materialCells } from '../../../src/tables/sheets/materials-sheet.ts';
import { PRODUCT_COLUMNS, productRows } from '../../../src/tables/sheets/products-sheet.ts';
import { COLUMNS, type Dataset, readDataset } from '../../../src/tables/sheets/read-dataset.ts';
import { csvLine, type WrittenCell } from '../../../src/tables/sheets/write-csv.ts';
import { NASTY, workbookOf } from './made.ts';

const ROOT = join(import.meta.dirname, '../../..');
const materials = loadMaterials(join(ROOT, 'ingredient-tables'));

/** Written as each form in turn and read again. */
async function readBack(dataset: Dataset, rows: readonly WrittenCell[][], form: string): Promise<unknown[]> {
  const columns = COLUMNS[dataset];
  const decimal = form === 'comma' ? 'comma' : 'point';
  const names = columns.map(({ name }) => name);
  const bytes =
    form === 'xlsx'
      ? await workbookOf(dataset, columns, rows)
      : Buffer.from([names, ...rows].map((row) => csvLine(row, { decimal })).join(''));
  const { items, faults } = await readDataset(dataset, bytes, { materials });
  expect(faults).toEqual([]);
  return items.map(({ value }) => value);
}

const FORMS = ['point', 'comma', 'xlsx'];
const text = fc.oneof(
  fc.constantFrom(...NASTY),
  fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 40 })
    .filter((one) => one.trim() !== '' && !/[\0\p{Surrogate}]/u.test(one)),
);
const fraction = fc.oneof(
  fc.double({ min: 1e-7, max: 1, noNaN: true }),
  fc.constantFrom(0, 1, 0.0175, 1 / 3),
);
const optional = <Value>(key: string, value: fc.Arbitrary<Value>) =>
  fc.option(value).map((given) => (given === null ? {} : { [key]: given }));

describe.each(FORMS)('as %s', (form) => {
  test('lots come back as they were', async () => {
    const lot = fc
      .tuple(
        fc.record({
          materialId: fc.constantFrom('beef-trim-73', 'salt'),
          onHandKg: fc.nat(9e14).map((ug) => ug / 1e9),
          costPerKg: fc.double({ min: 0, max: 1e5, noNaN: true }),
          receivedDate: fc.constant('2026-11-24'),
          state: fc.constantFrom(...LOT_STATES),
        }),
        optional('measuredFat', fc.record({ fatFraction: fraction, method: text })),
        optional('packedDate', fc.constant('2026-11-20')),
        optional('useByDate', fc.constant('2026-12-05')),
        optional('boxKg', fc.double({ min: 0.001, max: 100, noNaN: true })),
        optional('supplierEstablishment', text),
        optional('supplierLot', text),
        optional('location', text),
        optional('held', text),
        optional(
          'origin',
          fc.record({
            bornIn: fc.constantFrom('MX', 'US'),
            raisedIn: fc.constant('US'),
            slaughteredIn: fc.constant('US'),
          }),
        ),
      )
      .map((parts) => Object.assign({}, ...parts) as Omit<Lot, 'id'>);
    await fc.assert(
      fc.asyncProperty(fc.array(lot, { minLength: 1, maxLength: 12 }), async (given) => {
        const lots = given.map((one, index) => ({ ...one, id: `L-${index}` }));
        const rows = lots.map((one) => lotCells(one, exact(one.onHandKg)));
        expect(await readBack('lots', rows, form)).toEqual(lots);
      }),
      { numRuns: 60 },
    );
  });

  test('every material of the tables comes back as it was', async () => {
    const all = [...materials.values()];
    const plain = await readBack('materials', all.map(materialCells), form);
    expect(plain).toHaveLength(all.length);
    const order = ({ composition, ...rest }: Material) => ({ ...rest, composition: { ...composition } });
    expect((plain as Material[]).map(order)).toEqual(all.map(order));
  });

  test('materials with any texts come back as they were', async () => {
    const material = fc.record({
      name: text,
      declaredName: text,
      substances: fc.constantFrom({}, { 'sodium nitrite': 0.0625, salt: 0.9375 }, { salt: 1 / 3 }),
      allergens: fc.subarray([...ALLERGENS]),
      subIngredients: fc.array(text, { maxLength: 4 }),
      source: text,
    });
    await fc.assert(
      fc.asyncProperty(fc.array(material, { minLength: 1, maxLength: 5 }), async (given) => {
        const composition = {
          waterFraction: 0.1,
          fatFraction: 1 / 3,
          proteinFraction: 0.01,
          carbohydrateFraction: 0,
          ashFraction: 0.5,
          saltFraction: 0,
          ironMgPerKg: 12.5,
        };
        const all = given.map((one, index) => ({
          ...one,
          id: `own-${index}`,
          kind: 'spice' as const,
          composition,
        }));
        expect(await readBack('materials', all.map(materialCells), form)).toEqual(all);
      }),
      { numRuns: 60 },
    );
  });

  test('products come back as their JSON, field for field', async () => {
    const folder = join(ROOT, 'demo-data/products');
    const demo = readdirSync(folder).map((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')));
    const rowsOf = (products: readonly unknown[]) => products.flatMap(productRows);
    expect(await readBack('products', rowsOf(demo), form)).toEqual(demo);
    const edits = fc.record({
      product: fc.constantFrom(...demo),
      name: text,
      mixing: fc.array(text, { maxLength: 4 }),
      grindPlates: fc.array(text, { maxLength: 3 }),
      exemption: fc.option(text),
      share: fraction,
      cost: fc.double({ min: 0, max: 99, noNaN: true }),
    });
    await fc.assert(
      fc.asyncProperty(edits, async ({ product, name, mixing, grindPlates, exemption, share, cost }) => {
        const edited = {
          ...product,
          name,
          process: { ...product.process, mixing, grindPlates },
          targets: [
            { measure: 'cost per kg', max: cost },
            { measure: 'salt', min: share },
          ],
          rework: { productIds: [product.id], maxFraction: 0.123456789 },
          label: {
            ...product.label,
            ...(exemption !== null && { nutritionExemption: exemption.slice(0, 300) }),
          },
        };
        if ((edited.label.nutritionExemption ?? 'x').trim() === '') return;
        expect(await readBack('products', rowsOf([edited]), form)).toEqual([edited]);
      }),
      { numRuns: 60 },
    );
  });
});

test('what is written is also what the files of a plant may hold', () => {
  const lot: Lot = {
    id: 'L-1',
    materialId: 'beef-trim-73',
    onHandKg: 12.5,
    costPerKg: 3,
    receivedDate: '2026-11-24',
    state: 'chilled',
    held: 'torn bag',
  };
  const file = csvLine(LOT_COLUMNS.map(({ name }) => name)) + csvLine(lotCells(lot, exact(12.5)));
  expect(readLots('lots.csv', file, materials)).toEqual([lot]);
});

test('every column has a name of its own', () => {
  for (const columns of [LOT_COLUMNS, MATERIAL_COLUMNS, PRODUCT_COLUMNS]) {
    expect(new Set(columns.map(({ name }) => name)).size).toBe(columns.length);
  }
});
