import { readFileSync } from 'node:fs';
import { readUsdaRows } from '../../../ingredient-tables/fit.ts';
import { supplyOfLot } from '../../../src/batch/lot.ts';
import type { Plant } from '../../../src/batch/plant.ts';
import type { Process } from '../../../src/batch/product.ts';
import { formulate } from '../../../src/formulate/formulate.ts';
import { declare } from '../../../src/labels/declaration.ts';
import type { Nutrient } from '../../../src/labels/nutrition/nutrient.ts';
import type { Nutrition } from '../../../src/labels/nutrition/nutrition.ts';
import { loadMaterials } from '../../../src/tables/materials.ts';
import { ENGINES } from '../../helpers/engines.ts';
import { COOKED, RAW, standardOf, testProduct } from '../../helpers/materials.ts';

/**
 * Ground beef of USDA SR28 made again: two trims are blended to the fat of a row, the label is declared, and its
 * figures are held against the row. Of cooked rows the yield is what the protein says, and fat lost what the fat says.
 */

const FOLDER = 'ingredient-tables';
const MATERIALS = loadMaterials(FOLDER);
const USDA = new Map(
  readUsdaRows(readFileSync(`${FOLDER}/usda/usda-sr.csv`, 'utf8')).map((row) => [row.ndb_no, row]),
);

/** Nutrients of a row by their columns; cooked rows are of the raw row that stands beside them. */
export const COLUMNS = {
  fat: 'fat_g',
  'saturated fat': 'saturated_g',
  'trans fat': 'trans_g',
  cholesterol: 'cholesterol_mg',
  sodium: 'sodium_mg',
  carbohydrate: 'carbohydrate_g',
  protein: 'protein_g',
  'vitamin D': 'vitamin_d_mcg',
  calcium: 'calcium_mg',
  iron: 'iron_mg',
  potassium: 'potassium_mg',
} as const satisfies Partial<Record<Nutrient, string>>;
export type Compared = keyof typeof COLUMNS | 'energy';

export const RAW_ROWS = ['13498', '23577', '23572', '23562', '23557', '23477', '13047', '23293', '23508'];
export const COOKED_ROWS = [
  ['23578', '23577'],
  ['23579', '23577'],
  ['23580', '23577'],
  ['23574', '23572'],
  ['23575', '23572'],
  ['23576', '23572'],
  ['23563', '23562'],
  ['23558', '23557'],
  ['23478', '23477'],
] as const;

export interface Found {
  readonly ndbNo: string;
  readonly description: string;
  readonly nutrition: Nutrition;
  readonly usda: Readonly<Partial<Record<Compared, number>>>;
}

export function found(ndbNo: string, rawNdbNo = ndbNo): Found {
  const row = rowOf(ndbNo);
  return {
    ndbNo,
    description: row.description ?? '',
    nutrition: declared(fractionOf(rawNdbNo, 'fat_g'), processOf(ndbNo, rawNdbNo)),
    usda: Object.fromEntries(
      [...Object.entries(COLUMNS), ['energy', 'energy_kcal'] as const].flatMap(([nutrient, column]) => {
        const text = row[column] ?? '';
        return text === '' ? [] : [[nutrient, Number(text)]];
      }),
    ),
  };
}

/** What was worked out of one nutrient, for 100 g. */
export function workedOut({ nutrition }: Found, nutrient: Compared): number {
  if (nutrient === 'energy') return nutrition.energyKcalPer100g;
  return nutrition.per100g[nutrient]?.amount ?? Number.NaN;
}

function rowOf(ndbNo: string) {
  const row = USDA.get(ndbNo);
  if (!row) throw new RangeError(`usda-sr.csv has no row ${ndbNo}`);
  return row;
}

function fractionOf(ndbNo: string, column: 'fat_g' | 'protein_g'): number {
  return Number(rowOf(ndbNo)[column]) / 100;
}

/** No protein is lost: so much more of it is in a cooked row as there is less of the whole. */
function processOf(ndbNo: string, rawNdbNo: string): Process {
  if (ndbNo === rawNdbNo) return RAW;
  const yieldFraction = fractionOf(rawNdbNo, 'protein_g') / fractionOf(ndbNo, 'protein_g');
  const fatLost = fractionOf(rawNdbNo, 'fat_g') - yieldFraction * fractionOf(ndbNo, 'fat_g');
  return { ...COOKED, yieldFraction, fatLossFraction: Math.max(0, fatLost) };
}

const PLANT: Plant = {
  name: 'Test Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'kg',
  timeZone: 'America/Chicago',
  mixerCapacityKg: 1000,
  scales: [{ id: 'floor', name: 'Floor scale', unit: 'kg', division: '0.001', capacity: 1000 }],
};

/** A hundredth of a percent of fat either way: the batch is weighed in grams. */
const AROUND = 0.0001;

function declared(fatFraction: number, process: Process): Nutrition {
  const productClass = process.cooking === 'raw' ? 'ground-beef' : 'meat-loaf';
  const finished = (fatFraction - process.fatLossFraction) / process.yieldFraction;
  const product = testProduct(productClass, {
    process,
    meatBlock: [{ name: 'beef', kinds: ['skeletal meat'] }],
    targets: [
      {
        measure: 'fat',
        min: finished - AROUND,
        max: Math.min(finished + AROUND, finished === 0.3 ? 0.3 : 1),
      },
    ],
  });
  const standard = standardOf(productClass);
  const supplies = [lotOf('beef-trim-90', 0.02), lotOf('beef-trim-50', 0.5)];
  const answer = formulate({
    product,
    standard,
    supplies,
    size: { by: 'total', massKg: 100 },
    date: '2026-11-25',
    plant: PLANT,
    engines: ENGINES,
  });
  if (answer.outcome !== 'blend') throw new Error(JSON.stringify(answer));
  const { nutrition } = declare(product, standard, answer.blend, PLANT);
  if (!nutrition) throw new Error('nothing was declared');
  return nutrition;
}

function lotOf(materialId: string, fatFraction: number) {
  const material = MATERIALS.get(materialId);
  if (!material) throw new RangeError(`no material ${materialId}`);
  return supplyOfLot(
    {
      id: `${materialId}-lot`,
      materialId,
      onHandKg: 1000,
      costPerKg: materialId === 'beef-trim-90' ? 6 : 2,
      measuredFat: { fatFraction, method: 'laboratory' },
      receivedDate: '2026-11-20',
      state: 'chilled',
    },
    material,
  );
}
