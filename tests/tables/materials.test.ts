import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { afterEach, describe, expect, it } from 'vitest';
import { readUsdaRows } from '../../ingredient-tables/fit.ts';
import { isMeat, type Material } from '../../src/batch/material.ts';
import { loadMaterials, readMaterials } from '../../src/tables/materials.ts';

const FOLDER = fileURLToPath(new URL('../../ingredient-tables/', import.meta.url));
const BROKEN = new URL('broken/', import.meta.url);

const tables = readdirSync(join(FOLDER, 'materials')).map((name) => {
  const text = readFileSync(join(FOLDER, 'materials', name), 'utf8');
  const rows = parse(text, { columns: true }) as Record<string, string>[];
  return { name, header: text.split('\n')[0], rows };
});
const rows = tables.flatMap((table) => table.rows);
const materials = loadMaterials(FOLDER);
const get = (id: string): Material => {
  const material = materials.get(id);
  if (!material) throw new Error(`no material ${id}`);
  return material;
};

describe('the tables of materials', () => {
  it('load all, every row once', () => {
    expect(materials.size).toBe(rows.length);
  });

  it('have one same header', () => {
    expect(new Set(tables.map(({ header }) => header)).size).toBe(1);
  });

  it('hold at least 45 seasonings', () => {
    const seasonings = tables.find(({ name }) => name === 'seasonings.csv')?.rows ?? [];
    expect(seasonings.length).toBeGreaterThanOrEqual(45);
  });

  it('name the source of every row', () => {
    for (const { material_id, source } of rows) {
      expect(source, material_id).toMatch(
        /USDA SR28 NDB \d{5}|trim lines|trade table|computed|common practice|from memory, verify/,
      );
    }
  });

  it('agree with USDA SR28 to the digit wherever an NDB number is given', () => {
    const usda = new Map(
      readUsdaRows(readFileSync(join(FOLDER, 'usda/usda-sr.csv'), 'utf8')).map((row) => [row.ndb_no, row]),
    );
    const numbered = rows.filter((row) => row.ndb_no);
    expect(numbered.length).toBeGreaterThan(150);
    const figures = (row: Record<string, string | undefined>, columns: string[]) =>
      columns.map((column) => (row[column] ? Number(row[column]) : undefined));
    for (const row of numbered) {
      expect(
        figures(row, [
          'water_percent',
          'fat_percent',
          'protein_percent',
          'carbohydrate_percent',
          'ash_percent',
          'saturated_fat_percent',
          'cholesterol_mg_per_100g',
          'sodium_mg_per_100g',
        ]),
        row.material_id,
      ).toEqual(
        figures(usda.get(row.ndb_no ?? '') ?? {}, [
          'water_g',
          'fat_g',
          'protein_g',
          'carbohydrate_g',
          'ash_g',
          'saturated_g',
          'cholesterol_mg',
          'sodium_mg',
        ]),
      );
      expect(row.source, row.material_id).toContain(`USDA SR28 NDB ${row.ndb_no}`);
    }
  });

  it('count collagen as hydroxyproline times 8', () => {
    // Turkey skin, NDB 05169: 0.890 g hydroxyproline.
    expect(get('turkey-skin').composition.collagenFraction).toBe(0.0712);
    expect(get('pork-backfat').composition.collagenFraction).toBeUndefined();
  });

  it('attach the line of its species to every trim and compute it at its fat', () => {
    const trim = get('pork-trim-72');
    expect(trim.trimLine?.species).toBe('pork');
    expect(trim.composition.fatFraction).toBe(0.28);
    // 76.8628 − 0.76905 × 28 percent water, 22.7331 − 0.25788 × 28 percent protein.
    expect(trim.composition.waterFraction).toBeCloseTo(0.553294, 6);
    expect(trim.composition.proteinFraction).toBeCloseTo(0.155125, 6);
    expect(get('beef-heart').trimLine).toBeUndefined();
  });

  it('hold every trim within 97.9 and 100.8 percent of water, fat, protein and ash', () => {
    for (const { id, trimLine, composition } of materials.values()) {
      if (!trimLine) continue;
      const { waterFraction, fatFraction, proteinFraction, ashFraction } = composition;
      const total = waterFraction + fatFraction + proteinFraction + ashFraction;
      expect(total, id).toBeGreaterThan(0.979);
      expect(total, id).toBeLessThan(1.008);
    }
  });

  it('carry what the rules count', () => {
    expect(get('salt').substances).toEqual({ salt: 1 });
    expect(get('curing-salt-6.25').substances).toEqual({ salt: 0.9375, 'sodium nitrite': 0.0625 });
    expect(get('curing-salt-6.25').subIngredients).toEqual(['salt', 'sodium nitrite']);
    expect(get('curing-salt-0.6').substances).toEqual({ salt: 0.994, 'sodium nitrite': 0.006 });
    expect(get('curing-salt-6.25-nitrate-4').substances).toEqual({
      salt: 0.8975,
      'sodium nitrite': 0.0625,
      'sodium nitrate': 0.04,
    });
    expect(get('sodium-erythorbate').substances).toEqual({ 'sodium erythorbate monohydrate': 1 });
    expect(get('sodium-lactate-60').substances).toEqual({ lactate: 0.6, 'free water': 0.4 });
    expect(get('isolated-soy-protein').substances).toEqual({ 'isolated soy protein': 1 });
    expect(get('black-pepper').substances).toEqual({ pepper: 1 });
    expect(get('fennel-seed').substances).toEqual({ 'fennel or anise': 1 });
  });

  it('count the salt of a cure both as a substance and in the composition', () => {
    for (const { id, substances, composition } of materials.values()) {
      if (substances.salt !== undefined) expect(composition.saltFraction, id).toBe(substances.salt);
    }
  });

  it.each([
    ['milk', /milk|whey|caseinate|cheese/],
    ['wheat', /wheat|rusk|bread|soy-sauce/],
    ['soy', /soy/],
    ['eggs', /egg/],
    ['sesame', /sesame/],
    ['tree nuts', /pistachio/],
  ] as const)('name the allergen %s on every material that holds it', (allergen, ids) => {
    const expected = [...materials.keys()].filter((id) => ids.test(id));
    const carrying = [...materials.values()].filter(({ allergens }) => allergens.includes(allergen));
    expect(expected.length).toBeGreaterThan(0);
    expect(carrying.map(({ id }) => id)).toEqual(expected);
  });

  it('put no allergen on meat, spices and cures', () => {
    for (const material of materials.values()) {
      if (isMeat(material) || ['spice', 'cure', 'salt'].includes(material.kind)) {
        expect(material.allergens, material.id).toEqual([]);
      }
    }
  });
});

describe('a broken table of materials', () => {
  const cases: [string, RegExp][] = [
    ['unknown-column', /row 1, colour, unknown column; the columns are material_id/],
    ['missing-column', /row 1, declared_name, this column is missing; add it/],
    ['percent-over-100', /row 2, water_percent, "771.1": is above 100; percent is expected/],
    ['no-number', /row 2, water_percent, "0,2": is not a plain number/],
    [
      'main-total-over-101',
      /row 3, water_percent, water_percent \+ fat_percent \+ protein_percent is 101.84/,
    ],
    ['total-over-103', /row 2, water_percent, water_percent \+ .* \+ ash_percent is 106.02, above 103/],
    ['unknown-kind', /row 2, kind, "herb": is none of: skeletal meat/],
    ['unknown-species', /row 2, species, "elk": is none of: beef/],
    ['meat-without-species', /row 2, species, is empty; heart meat comes from a species/],
    ['seasoning-with-species', /row 2, species, leave it empty; salt is not from the carcass/],
    ['unknown-allergen', /row 2, allergens, "mustard": is none of: milk/],
    ['duplicate-id', /row 3, material_id, "salt" stands already in .*duplicate-id.csv, row 2/],
    ['empty-id', /row 2, material_id, "": is no id; write lower-case letters/],
    ['id-in-capitals', /row 2, material_id, "Salt": is no id/],
    ['unknown-substance', /row 2, substances, .*has "pink 6.25"; write a name and its percent/],
    ['substances-over-100', /row 2, substances, add up to 105.25 percent, above 100/],
    ['empty-source', /row 2, source, "": is empty; fill it in/],
    ['empty-water', /row 2, water_percent, is empty; fill it in, 0 where there is none/],
    ['lean-and-composition', /row 2, lean_percent, give lean_percent or a composition, not both/],
    ['lean-without-lines', /row 2, lean_percent, trim-lines.csv has no lines of goat/],
    ['collagen-over-protein', /row 2, collagen_percent, is above protein_percent/],
    ['short-row', /row 2, Invalid Record Length/],
  ];

  it.each(cases)('%s is refused with its place', (name, message) => {
    const file = `materials-${name}.csv`;
    const text = readFileSync(new URL(file, BROKEN), 'utf8');
    expect(() => readMaterials(file, text, new Map())).toThrow(message);
    expect(() => readMaterials(file, text, new Map())).toThrow(file);
  });

  it('is known by a case here for every file', () => {
    const files = readdirSync(BROKEN).filter((name) => name.startsWith('materials-'));
    expect(files.sort()).toEqual(cases.map(([name]) => `materials-${name}.csv`).sort());
  });
});

describe('a folder of tables', () => {
  const folders: string[] = [];
  afterEach(() => {
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
  });

  function folderOf(files: Record<string, string>): string {
    const folder = mkdtempSync(join(tmpdir(), 'tables-'));
    folders.push(folder);
    mkdirSync(join(folder, 'materials'));
    writeFileSync(join(folder, 'trim-lines.csv'), readFileSync(join(FOLDER, 'trim-lines.csv')));
    for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, 'materials', name), text);
    return folder;
  }

  const trim = (id: string) =>
    `material_id,name,declared_name,kind,species,lean_percent,source\n${id},Trim,beef,skeletal meat,beef,80,made up\n`;

  it('is read whole, other files left alone', () => {
    const folder = folderOf({ 'a.csv': trim('trim-a'), 'b.csv': trim('trim-b'), 'notes.txt': 'no table' });
    expect([...loadMaterials(folder).keys()]).toEqual(['trim-a', 'trim-b']);
  });

  it('is refused when an id stands in two files, naming both', () => {
    const folder = folderOf({ 'a.csv': trim('trim-a'), 'b.csv': trim('trim-a') });
    expect(() => loadMaterials(folder)).toThrow(
      'materials/b.csv, row 2, material_id, "trim-a" stands already in materials/a.csv, row 2',
    );
  });

  it('is refused with the faults of all its files at once', () => {
    const broken = trim('trim-a').replace('beef,80', 'elk,80');
    const folder = folderOf({ 'a.csv': broken, 'b.csv': broken });
    expect(() => loadMaterials(folder)).toThrow(
      /materials\/a.csv, row 2, species[\s\S]*materials\/b.csv, row 2/,
    );
  });

  it('is refused when it is not there', () => {
    expect(() => loadMaterials(join(tmpdir(), 'no-such-folder'))).toThrow(
      'trim-lines.csv, cannot be read (ENOENT); check the folder of tables',
    );
  });
});
