import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { afterEach, describe, expect, it } from 'vitest';
import { readUsdaRows } from '../../ingredient-tables/fit.ts';
import { isMeat, type Material, SPECIES, type Species } from '../../src/batch/material.ts';
import { loadMaterials, readMaterials } from '../../src/tables/materials.ts';
import { readTrimLines } from '../../src/tables/trim-lines.ts';

const FOLDER = fileURLToPath(new URL('../../ingredient-tables/', import.meta.url));
const BROKEN = new URL('broken/', import.meta.url);

const tables = readdirSync(join(FOLDER, 'materials')).map((name) => {
  const text = readFileSync(join(FOLDER, 'materials', name), 'utf8');
  const rows = parse(text, { columns: true }) as Record<string, string>[];
  return { name, header: text.split('\n')[0], rows };
});
const rows = tables.flatMap((table) => table.rows);
const materials = loadMaterials(FOLDER);

/** Columns of the materials and of usda-sr.csv that say the same. */
const USDA_COLUMNS = {
  water_percent: 'water_g',
  fat_percent: 'fat_g',
  protein_percent: 'protein_g',
  carbohydrate_percent: 'carbohydrate_g',
  ash_percent: 'ash_g',
  saturated_fat_percent: 'saturated_g',
  trans_fat_percent: 'trans_g',
  monounsaturated_fat_percent: 'mono_g',
  polyunsaturated_fat_percent: 'poly_g',
  fiber_percent: 'fibre_g',
  sugars_percent: 'sugars_g',
  cholesterol_mg_per_100g: 'cholesterol_mg',
  sodium_mg_per_100g: 'sodium_mg',
  potassium_mg_per_100g: 'potassium_mg',
  calcium_mg_per_100g: 'calcium_mg',
  iron_mg_per_100g: 'iron_mg',
  vitamin_d_mcg_per_100g: 'vitamin_d_mcg',
} as const;

const trimLines = readTrimLines('trim-lines.csv', readFileSync(join(FOLDER, 'trim-lines.csv'), 'utf8'));

/** Plants hold next to no trans fat: 0 where the source has no figure, and the row says so. */
const PLANTS = ['spice', 'flavoring', 'vegetable', 'binder', 'sweetener'];

/** What a row may have of its own where the source has no figure of trans fat, by the mark in its source. */
function standInOfTransFat(row: Record<string, string>): number | undefined {
  const { kind = '', source = '' } = row;
  if (source.includes('trans fat: none in plants by nature, from memory, verify')) {
    return PLANTS.includes(kind) ? 0 : undefined;
  }
  const species = SPECIES.find((name) => source.includes(`trans fat: stand-in by the ${name} trim lines`));
  const line = species && species === row.species ? trimLines.get(species)?.transFat : undefined;
  if (!line) return undefined;
  const percent = 100 * (line.intercept + (line.slope * Number(row.fat_percent)) / 100);
  return Number(Math.max(0, percent).toFixed(3));
}

function isPartOfNothing(row: Record<string, string>, column: string): boolean {
  if (['fiber_percent', 'sugars_percent'].includes(column)) return Number(row.carbohydrate_percent) === 0;
  const ofFat = /fat_percent$|^cholesterol|^vitamin_d/.test(column) && column !== 'fat_percent';
  return ofFat && Number(row.fat_percent) === 0;
}

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
    const figures = (row: Record<string, string | undefined>, columns: readonly string[]) =>
      columns.map((column) => (row[column] ? Number(row[column]) : undefined));
    for (const row of numbered) {
      const source = usda.get(row.ndb_no ?? '') ?? {};
      const [own, theirs] = [Object.keys(USDA_COLUMNS), Object.values(USDA_COLUMNS)];
      // What the source does not tell is empty, but 0 where there is nothing that it could be a part of, and for trans
      // fat a stand-in that the row names.
      const expected = figures(source, theirs).map((figure, index) => {
        const column = own[index] ?? '';
        if (figure !== undefined) return figure;
        if (isPartOfNothing(row, column)) return 0;
        return column === 'trans_fat_percent' ? standInOfTransFat(row) : undefined;
      });
      expect(figures(row, own), row.material_id).toEqual(expected);
      expect(row.source, row.material_id).toContain(`USDA SR28 NDB ${row.ndb_no}`);
    }
  });

  it('have no mark of a stand-in where the source has its own figure, and one wherever it has none', () => {
    const usda = new Map(
      readUsdaRows(readFileSync(join(FOLDER, 'usda/usda-sr.csv'), 'utf8')).map((row) => [row.ndb_no, row]),
    );
    const marked = rows.filter(({ source }) => source?.includes('; trans fat: '));
    expect(marked).toHaveLength(56);
    for (const row of marked) {
      expect(usda.get(row.ndb_no)?.trans_g ?? '', row.material_id).toBe('');
      expect(Number(row.trans_fat_percent), row.material_id).toBe(standInOfTransFat(row));
    }
    // No line of lamb or goat tells it, milk and bought cereals are left to their suppliers, casings are not weighed in.
    const without = rows.filter(({ lean_percent, trans_fat_percent }) => !lean_percent && !trans_fat_percent);
    const kinds = new Set(
      without.map(
        ({ species, kind, material_id = '' }) =>
          species || (/milk|whey|casein/.test(material_id) ? 'dairy' : kind),
      ),
    );
    expect([...kinds].sort()).toEqual(['binder', 'casing', 'dairy', 'goat', 'lamb']);
  });

  // Fat tissue of the source that no line was fitted to: NDB 10006, 05047 (fitted for chicken), and imported beef fats.
  it('stand in for the trans fat of fat tissue as the source has it, of beef on the high side', () => {
    const usda = new Map(
      readUsdaRows(readFileSync(join(FOLDER, 'usda/usda-sr.csv'), 'utf8')).map((row) => [row.ndb_no, row]),
    );
    const apart = (species: Species, ndb: string) => {
      const { fat_g, trans_g } = usda.get(ndb) ?? {};
      const line = trimLines.get(species)?.transFat ?? { intercept: 0, slope: 0 };
      return 100 * (line.intercept + (line.slope * Number(fat_g)) / 100) - Number(trans_g);
    };
    for (const ndb of ['10006', '10895', '10942'])
      expect(Math.abs(apart('pork', ndb)), ndb).toBeLessThan(0.13);
    for (const ndb of ['23296', '23297', '23298', '23300', '23420', '23436']) {
      expect(apart('beef', ndb), ndb).toBeGreaterThan(0.5);
      expect(apart('beef', ndb), ndb).toBeLessThan(2.1);
    }
  });

  it('tell the figures of a panel for most rows of the source', () => {
    const numbered = rows.filter((row) => row.ndb_no);
    const filled = (column: string) => numbered.filter((row) => row[column]).length / numbered.length;
    for (const column of ['potassium_mg_per_100g', 'calcium_mg_per_100g', 'iron_mg_per_100g']) {
      expect(filled(column), column).toBe(1);
    }
    expect(filled('fiber_percent')).toBeGreaterThan(0.99);
    expect(filled('sugars_percent')).toBeGreaterThan(0.8);
    expect(filled('trans_fat_percent')).toBeGreaterThan(0.89);
  });

  // 21 CFR 101.9(c)(6)(iii), from memory, verify: sugars added in processing or packaged as such, from syrups and honey.
  it('count all sugars of a sweetener as added, those of anything else never', () => {
    const unknown: string[] = [];
    for (const { id, kind, trimLine, composition } of materials.values()) {
      const { sugarsFraction, addedSugarsFraction } = composition;
      if (addedSugarsFraction === undefined) unknown.push(id);
      else if (kind === 'sweetener') expect(addedSugarsFraction, id).toBe(sugarsFraction);
      else expect(addedSugarsFraction, id).toBe(0);
      if (trimLine) expect(sugarsFraction, id).toBe(0);
    }
    // Their sugars differ between suppliers, or are partly added and partly their own.
    expect(unknown.sort()).toEqual([
      'bread-crumbs',
      'cereal',
      'collagen-casing',
      'corn-syrup-solids',
      'cranberry-dried',
      'honey-powder',
      'maltodextrin',
      'smoke-flavor',
    ]);
  });

  // By the standard atomic weights of IUPAC: K 39.098, C 12.011, H 1.008, O 15.999.
  it('work out the potassium of a salt from its formula', () => {
    const lactate = 39.098 / (3 * 12.011 + 5 * 1.008 + 39.098 + 3 * 15.999);
    const { potassiumMgPerKg, sodiumMgPerKg, calciumMgPerKg } = get('potassium-lactate-60').composition;
    expect(potassiumMgPerKg).toBeCloseTo(0.6 * lactate * 1e6, -2);
    expect([sodiumMgPerKg, calciumMgPerKg]).toEqual([0, 0]);
    expect(get('dextrose').composition.addedSugarsFraction).toBe(0.9091);
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
    ['mustard', /mustard/],
    ['celery', /celery/],
    ['barley', /barley|beer/],
    ['oats', /^oat/],
    ['rye', /rye/],
  ] as const)('name the allergen %s on every material that holds it', (allergen, ids) => {
    const expected = [...materials.keys()].filter((id) => ids.test(id));
    const carrying = [...materials.values()].filter(({ allergens }) => allergens.includes(allergen));
    expect(expected.length).toBeGreaterThan(0);
    expect(carrying.map(({ id }) => id)).toEqual(expected);
  });

  it('put no allergen on meat, cures and salt, and on spices only mustard and celery', () => {
    for (const material of materials.values()) {
      const ofSpice = material.allergens.every((allergen) => ['mustard', 'celery'].includes(allergen));
      if (material.kind === 'spice') expect(ofSpice, material.id).toBe(true);
      if (isMeat(material) || ['cure', 'salt'].includes(material.kind)) {
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
    ['unknown-allergen', /row 2, allergens, "buckwheat": is none of: milk/],
    ['duplicate-id', /row 3, material_id, "salt" stands already in .*duplicate-id.csv, row 2/],
    ['empty-id', /row 2, material_id, "": is no id; write letters/],
    ['id-with-a-space', /row 2, material_id, "sea salt": is no id/],
    ['unknown-substance', /row 2, substances, .*has "pink 6.25"; write a name and its percent/],
    ['substances-over-100', /row 2, substances, add up to 105.25 percent, above 100/],
    ['empty-source', /row 2, source, "": is empty; fill it in/],
    ['empty-water', /row 2, water_percent, is empty; fill it in, 0 where there is none/],
    ['lean-and-composition', /row 2, lean_percent, give lean_percent or a composition, not both/],
    ['lean-without-lines', /row 2, lean_percent, trim-lines.csv has no lines of goat/],
    ['collagen-over-protein', /row 2, collagen_percent, is above protein_percent/],
    ['fiber-over-carbohydrate', /row 2, fiber_percent, is above carbohydrate_percent/],
    ['added-over-sugars', /row 2, added_sugars_percent, is above sugars_percent/],
    ['parts-of-fat-over-fat', /row 2, saturated_fat_percent, .* is 63, above fat_percent; correct a figure/],
    ['sodium-of-a-kilogram', /row 2, sodium_mg_per_100g, is above 100000, which is more than all of it/],
    ['unknown-country', /row 2, made_in, "UK": is no country; write its two capital letters/],
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

  it('may say where a material was made, and may leave out all that no limit needs', () => {
    const header = 'material_id,name,declared_name,kind,water_percent,fat_percent,protein_percent';
    const old = `${header},carbohydrate_percent,ash_percent,source\nx,X,x,spice,10,5,10,60,10,made up\n`;
    const made = old.replace(',source', ',made_in,source').replace(',made up', ',IN,made up');
    const [before, after] = [old, made].map((text) => readMaterials('x.csv', text, new Map())[0]);
    expect(before?.composition).not.toHaveProperty('fiberFraction');
    expect(before).not.toHaveProperty('madeIn');
    expect(after).toEqual({ ...before, madeIn: 'IN' });
  });

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
