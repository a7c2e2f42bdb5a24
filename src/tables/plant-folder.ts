import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type HouseRules, NO_HOUSE_RULES } from '../batch/house-rules.ts';
import type { Lot } from '../batch/lot.ts';
import type { Material } from '../batch/material.ts';
import type { Product } from '../batch/product.ts';
import type { FatTest } from '../batch/trim-learning.ts';
import { TableError } from './csv.ts';
import { FAT_TESTS_FILE, readFatTests } from './fat-tests.ts';
import { HOUSE_RULES_FILE, readHouseRules } from './house-rules.ts';
import { readLots } from './lots.ts';
import { loadMaterials } from './materials.ts';
import { type PlantFile, readPlant } from './plant.ts';
import { readPrices } from './prices.ts';
import { readProduct } from './products.ts';

/** Everything a plant works with, as its files hold it. */
export interface PlantData {
  readonly plant: PlantFile;
  readonly materials: ReadonlyMap<string, Material>;
  readonly lots: readonly Lot[];
  /** Currency per kilogram of materials bought without a lot, by material id. */
  readonly prices: ReadonlyMap<string, number>;
  readonly products: ReadonlyMap<string, StoredProduct>;
  readonly houseRules: HouseRules;
  /** Past fat tests, from which the fat of later lots is learned. */
  readonly fatTests: readonly FatTest[];
}

/** A product beside the JSON it was read from, which is the form that people edit and send back. */
export interface StoredProduct {
  readonly product: Product;
  readonly json: unknown;
}

/**
 * Reads a plant's folder (plant.json, lots.csv, prices.csv, products/*.json and, where they are, house-rules.json and
 * fat-tests.csv) and the ingredient tables.
 * @throws TableError naming the file and place of what is wrong.
 */
export function loadPlantFolder(folder: string, tablesFolder: string): PlantData {
  const text = (name: string) => readFileSync(join(folder, name), 'utf8');
  const materials = loadMaterials(tablesFolder);
  return {
    plant: readPlant('plant.json', text('plant.json')),
    materials,
    lots: readLots('lots.csv', text('lots.csv'), materials).sort(byId),
    prices: readPrices('prices.csv', text('prices.csv'), materials),
    products: readProducts(join(folder, 'products'), materials),
    houseRules: readOptionalHouseRules(folder),
    fatTests: readOptionalFatTests(folder, materials),
  };
}

/** Ties between lots fall by this order, so it must not depend on where they were read. */
export function byId(a: { readonly id: string }, b: { readonly id: string }): number {
  return a.id < b.id ? -1 : Number(a.id > b.id);
}

/** A plant without the file has no rules of its own. */
function readOptionalHouseRules(folder: string): HouseRules {
  const path = join(folder, HOUSE_RULES_FILE);
  return existsSync(path) ? readHouseRules(HOUSE_RULES_FILE, readFileSync(path, 'utf8')) : NO_HOUSE_RULES;
}

/** A plant without the file has tested nothing yet. */
function readOptionalFatTests(folder: string, materials: ReadonlyMap<string, Material>): FatTest[] {
  const path = join(folder, FAT_TESTS_FILE);
  return existsSync(path) ? readFatTests(FAT_TESTS_FILE, readFileSync(path, 'utf8'), materials) : [];
}

function readProducts(folder: string, materials: ReadonlyMap<string, Material>): Map<string, StoredProduct> {
  const products = new Map<string, StoredProduct>();
  const files = readdirSync(folder).filter((name) => name.endsWith('.json'));
  for (const file of files.sort()) {
    const text = readFileSync(join(folder, file), 'utf8');
    const product = readProduct(`products/${file}`, text, materials);
    if (products.has(product.id)) {
      throw new TableError([
        {
          file: `products/${file}`,
          column: 'id',
          message: `"${product.id}" is the id of another product; give this one its own`,
        },
      ]);
    }
    products.set(product.id, { product, json: JSON.parse(text) });
  }
  return products;
}
