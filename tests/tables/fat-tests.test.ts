import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { supplyOfLot } from '../../src/batch/lot.ts';
import { trimKnowledge } from '../../src/batch/trim-learning.ts';
import { readFatTests } from '../../src/tables/fat-tests.ts';
import { loadPlantFolder } from '../../src/tables/plant-folder.ts';
import { fixed, percentOfFraction } from '../../src/units.ts';
import { material } from '../helpers/materials.ts';

const ROOT = join(import.meta.dirname, '../..');
const TABLES = join(ROOT, 'ingredient-tables');
const materials = new Map(
  [
    material('beef-trim-65', 'skeletal meat', { species: 'beef' }),
    material('beef-trim-50', 'skeletal meat', { species: 'beef' }),
    material('salt', 'salt'),
  ].map((entry) => [entry.id, entry]),
);

const HEADER = 'date,supplier_establishment,material_id,lot_id,fat_percent,method,sd_points';
const read = (...rows: string[]) => readFatTests('fat-tests.csv', [HEADER, ...rows].join('\n'), materials);

test('tests are read as fractions, an empty cell leaves its field out', () => {
  expect(
    read(
      '2026-11-18,00001,beef-trim-65,B65-1118,32.4,NIR,0.8',
      '2026-11-19,00002,beef-trim-50,,0,microwave,',
    ),
  ).toStrictEqual([
    {
      date: '2026-11-18',
      supplierEstablishment: '00001',
      materialId: 'beef-trim-65',
      lotId: 'B65-1118',
      fatFraction: 0.324,
      method: 'NIR',
      sdFraction: 0.008,
    },
    {
      date: '2026-11-19',
      supplierEstablishment: '00002',
      materialId: 'beef-trim-50',
      fatFraction: 0,
      method: 'microwave',
    },
  ]);
});

test('the columns of the lot and of the deviation may be missing', () => {
  const text =
    'date,supplier_establishment,material_id,fat_percent,method\n2026-11-18,00001,beef-trim-65,32,NIR';
  expect(readFatTests('fat-tests.csv', text, materials)).toHaveLength(1);
});

test.each([
  ['2026-02-30,00001,beef-trim-65,,32,NIR,', 'row 2, date, "2026-02-30": is not a calendar day'],
  ['2026-11-18,,beef-trim-65,,32,NIR,', 'row 2, supplier_establishment, "": is empty; fill it in'],
  [
    '2026-11-18,00001,beef-trim-64,,32,NIR,',
    'row 2, material_id, "beef-trim-64": no such material (similar ids: beef-trim-65, beef-trim-50)',
  ],
  ['2026-11-18,00001,salt,,0,NIR,', 'row 2, material_id, "salt": is no meat; only tests of meat are kept'],
  ['2026-11-18,00001,beef-trim-65,,,NIR,', 'row 2, fat_percent, "": is not a plain number'],
  ['2026-11-18,00001,beef-trim-65,,132,NIR,', 'row 2, fat_percent, "132": is above 100'],
  ['2026-11-18,00001,beef-trim-65,,32,,', 'row 2, method, "": is empty; fill it in'],
  ['2026-11-18,00001,beef-trim-65,,32,NIR,-1', 'row 2, sd_points, "-1": is negative; write the standard'],
  ['2026-11-18,00001,beef-trim-65,,32,NIR,0.0', 'row 2, sd_points, "0.0": is 0, and no test is that sure'],
  ['2026-11-18,00001,beef-trim-65,,32,NIR,32', 'row 2, sd_points, "32": is above 10; the standard deviation'],
])('%j is refused with the remedy', (row, words) => {
  expect(() => read(row)).toThrow(`fat-tests.csv, ${words}`);
});

test('a plant without the file has no tests', () => {
  const folder = mkdtempSync(join(tmpdir(), 'meatblock-plant-'));
  try {
    cpSync(join(ROOT, 'demo-data'), folder, { recursive: true });
    expect(loadPlantFolder(folder, TABLES).fatTests).not.toEqual([]);
    rmSync(join(folder, 'fat-tests.csv'));
    expect(loadPlantFolder(folder, TABLES).fatTests).toEqual([]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('what the demonstration learns stands in docs/trim-learning.md', () => {
  const { fatTests, materials: known, plant } = loadPlantFolder(join(ROOT, 'demo-data'), TABLES);
  const page = readFileSync(join(ROOT, 'docs/trim-learning.md'), 'utf8');
  const points = (fraction: number) => fixed(percentOfFraction(fraction), 2);
  const learned = trimKnowledge(fatTests, known, plant.demoDate ?? '');
  expect(learned.length).toBeGreaterThan(1);
  for (const trim of learned) {
    const { supplierEstablishment, materialId, tests, lots } = trim;
    const figures = [trim.classMeanFraction, trim.testedMeanFraction, trim.meanFraction, trim.sdFraction];
    const cells = [supplierEstablishment, materialId, tests, lots, ...figures.map(points)];
    expect(page).toContain(`| ${cells.join(' | ')} |`);
  }
});

test('the demonstration has untested lots that its tests tell something of', () => {
  const data = loadPlantFolder(join(ROOT, 'demo-data'), TABLES);
  const learned = trimKnowledge(data.fatTests, data.materials, data.plant.demoDate ?? '');
  const told = data.lots.flatMap((lot) => {
    const ofLot = learned.find(
      ({ materialId, supplierEstablishment }) =>
        materialId === lot.materialId && supplierEstablishment === lot.supplierEstablishment,
    );
    const own = data.materials.get(lot.materialId);
    return own && supplyOfLot(lot, own, ofLot).fat?.from === 'lots of the supplier' ? [lot.id] : [];
  });
  expect(told).toEqual(['B50-0306', 'B65-1120']);
});

test('a test of a lot on hand says the same in both tables of the demonstration', () => {
  const { fatTests, lots } = loadPlantFolder(join(ROOT, 'demo-data'), TABLES);
  const both = fatTests.flatMap((past) => {
    const lot = lots.find(({ id }) => id === past.lotId);
    return lot ? [{ past, lot }] : [];
  });
  expect(both.map(({ past }) => past.fatFraction)).toEqual([0.514, 0.278, 0.162]);
  for (const { past, lot } of both) {
    expect(lot).toMatchObject({
      materialId: past.materialId,
      supplierEstablishment: past.supplierEstablishment,
      measuredFat: { fatFraction: past.fatFraction, method: past.method },
    });
  }
});
