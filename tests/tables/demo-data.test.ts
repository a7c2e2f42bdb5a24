import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readLots } from '../../src/tables/lots.ts';
import { loadMaterials } from '../../src/tables/materials.ts';
import { readPlant } from '../../src/tables/plant.ts';
import { readPrices } from '../../src/tables/prices.ts';
import { readProduct } from '../../src/tables/products.ts';

const ROOT = join(import.meta.dirname, '../..');
const text = (...names: string[]) => readFileSync(join(ROOT, 'demo-data', ...names), 'utf8');

const materials = loadMaterials(join(ROOT, 'ingredient-tables'));
const plant = readPlant('plant.json', text('plant.json'));
const lots = readLots('lots.csv', text('lots.csv'), materials);
const prices = readPrices('prices.csv', text('prices.csv'), materials);
const products = readdirSync(join(ROOT, 'demo-data/products')).map((file) => ({
  file,
  product: readProduct(file, text('products', file), materials),
}));
const today = plant.demoDate ?? '';

test('the demonstration day is the one the README tells', () => {
  expect(text('README.md')).toContain(`**${today}**`);
});

test('every lot was in by the day, and exactly one is past its use-by day', () => {
  expect(lots.filter(({ receivedDate }) => receivedDate > today)).toEqual([]);
  expect(lots.filter(({ useByDate }) => (useByDate ?? today) < today).map(({ id }) => id)).toEqual([
    'P72-1110',
  ]);
});

test('the suppliers are invented ones', () => {
  for (const { supplierEstablishment } of lots) expect(supplierEstablishment).toMatch(/^0000[1-9]$/);
});

test('the lots the README points at are there', () => {
  const named = text('README.md').match(/`[A-Z][A-Z0-9]{2,}-\d{4}`/g) ?? [];
  expect(named.length).toBeGreaterThan(5);
  for (const id of named) expect(lots.map((lot) => `\`${lot.id}\``)).toContain(id);
});

describe.each(products)('$file', ({ file, product }) => {
  test('is named after its id', () => {
    expect(basename(file, '.json')).toBe(product.id);
  });

  test('finds a lot or a price for all it calls for', () => {
    const called = [
      ...product.seasoning.map(({ materialId }) => materialId),
      ...(product.form.casingMaterialId ? [product.form.casingMaterialId] : []),
    ];
    const supplied = new Set([...lots.map(({ materialId }) => materialId), ...prices.keys()]);
    expect(called.filter((id) => !supplied.has(id))).toEqual([]);
  });

  test('has 1000 lb of usable meat for its meat block', () => {
    const usableKg = lots
      .filter(({ useByDate }) => (useByDate ?? today) >= today)
      .filter(({ materialId }) => {
        const material = materials.get(materialId);
        return product.meatBlock.some(
          ({ materialIds, kinds, species }) =>
            material &&
            (materialIds?.includes(material.id) ?? true) &&
            (kinds?.includes(material.kind) ?? true) &&
            (species === undefined || (material.species && species.includes(material.species))),
        );
      })
      .reduce((total, { onHandKg }) => total + onHandKg, 0);
    expect(usableKg).toBeGreaterThan(454);
  });
});
