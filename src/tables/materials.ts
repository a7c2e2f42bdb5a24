import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { missingSubstance, PART_OF } from '../batch/carries.ts';
import {
  type Composition,
  MOST_MAIN_PARTS,
  MOST_PARTS,
  type TrimLine,
  trimComposition,
} from '../batch/composition.ts';
import {
  ALLERGENS,
  MATERIAL_KINDS,
  type Material,
  MEAT_KINDS,
  SPECIES,
  type Species,
  SUBSTANCES,
  type Substance,
} from '../batch/material.ts';
import { compare, type Exact, exact, multiply, ONE, subtract, sum, toNumber } from '../exact.ts';
import { percentOfFraction } from '../units.ts';
import {
  choiceCell,
  listCell,
  optionalDecimalCell,
  optionalPercentCell,
  optionalTextCell,
  percentsCell,
  textCell,
  wordsCell,
} from './cells.ts';
import { readNumberedTable, TableError, type TableProblem } from './csv.ts';
import { readTrimLines } from './trim-lines.ts';

const PROXIMATES = [
  'water_percent',
  'fat_percent',
  'protein_percent',
  'carbohydrate_percent',
  'ash_percent',
] as const;
const COMPOSITION_COLUMNS = [
  ...PROXIMATES,
  'salt_percent',
  'collagen_percent',
  'saturated_fat_percent',
  'cholesterol_mg_per_100g',
  'sodium_mg_per_100g',
] as const;

/**
 * Separate determinations may add up to a little over 100 percent (pork leaf fat of USDA SR28 to 100.01, chicken
 * fat to 100.59); beyond these totals a figure is wrong.
 */
const LARGEST_MAIN_TOTAL: Exact = exact(MOST_MAIN_PARTS);
const LARGEST_TOTAL: Exact = exact(MOST_PARTS);

const columns = z.object({
  material_id: z
    .string()
    .regex(
      /^[a-z0-9][a-z0-9.-]*$/,
      'is no id; write lower-case letters, digits, hyphens and dots, such as pork-trim-72',
    ),
  name: textCell,
  declared_name: textCell,
  kind: choiceCell(MATERIAL_KINDS),
  species: optionalTextCell.pipe(choiceCell(SPECIES).optional()),
  lean_percent: optionalPercentCell,
  water_percent: optionalPercentCell,
  fat_percent: optionalPercentCell,
  protein_percent: optionalPercentCell,
  carbohydrate_percent: optionalPercentCell,
  ash_percent: optionalPercentCell,
  salt_percent: optionalPercentCell,
  collagen_percent: optionalPercentCell,
  saturated_fat_percent: optionalPercentCell,
  cholesterol_mg_per_100g: optionalDecimalCell,
  sodium_mg_per_100g: optionalDecimalCell,
  substances: percentsCell(SUBSTANCES),
  allergens: listCell(ALLERGENS),
  sub_ingredients: wordsCell,
  ndb_no: optionalTextCell.pipe(
    z
      .string()
      .regex(/^\d{5}$/, 'is no NDB number; write five digits')
      .optional(),
  ),
  source: textCell,
});
type Cells = z.output<typeof columns>;
type Column = keyof Cells;

/**
 * Reads one table of materials.
 * @param file its name in messages.
 * @param lines what the trims of a species are made of; a row with lean_percent is computed along its line.
 * @throws TableError naming file, row and column of every fault.
 */
export function readMaterials(file: string, text: string, lines: ReadonlyMap<Species, TrimLine>): Material[] {
  return readNumberedMaterials(file, text, lines).map(({ material }) => material);
}

/**
 * Reads every table in `<folder>/materials` with the lines in `<folder>/trim-lines.csv`.
 * @returns the materials by id, in the order of the files' names.
 * @throws TableError with the faults of all files, also for an id that stands twice.
 */
export function loadMaterials(folder: string): Map<string, Material> {
  const lines = readTrimLines('trim-lines.csv', readText(folder, 'trim-lines.csv'));
  const materials = new Map<string, Material>();
  const places = new Map<string, string>();
  const problems: TableProblem[] = [];
  for (const file of tableNames(folder)) {
    try {
      for (const { row, material } of readNumberedMaterials(file, readText(folder, file), lines)) {
        const place = places.get(material.id);
        if (place) problems.push(repeated(file, row, material.id, place));
        places.set(material.id, place ?? `${file}, row ${row}`);
        materials.set(material.id, material);
      }
    } catch (error) {
      if (!(error instanceof TableError)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new TableError(problems);
  return materials;
}

function readNumberedMaterials(file: string, text: string, lines: ReadonlyMap<Species, TrimLine>) {
  const rows = readNumberedTable(file, text, columns);
  const places = new Map<string, string>();
  const problems: TableProblem[] = [];
  for (const { row, cells } of rows) {
    const place = places.get(cells.material_id);
    if (place) problems.push(repeated(file, row, cells.material_id, place));
    places.set(cells.material_id, place ?? `${file}, row ${row}`);
    problems.push(...faultsOf(cells, lines).map(([column, message]) => ({ file, row, column, message })));
  }
  if (problems.length > 0) throw new TableError(problems);
  return rows.map(({ row, cells }) => ({ row, material: materialOf(cells, lines) }));
}

/** What no single cell can tell: a column to look at and what is wrong there. */
function faultsOf(cells: Cells, lines: ReadonlyMap<Species, TrimLine>): [Column, string][] {
  return [...speciesFaults(cells), ...compositionFaults(cells, lines), ...substanceFaults(cells)];
}

function speciesFaults({ kind, species }: Cells): [Column, string][] {
  const fromCarcass = (MEAT_KINDS as readonly string[]).includes(kind);
  if (fromCarcass && !species) {
    return [['species', `is empty; ${kind} comes from a species: ${SPECIES.join(', ')}`]];
  }
  if (!fromCarcass && species) return [['species', `leave it empty; ${kind} is not from the carcass`]];
  return [];
}

function compositionFaults(cells: Cells, lines: ReadonlyMap<Species, TrimLine>): [Column, string][] {
  if (cells.lean_percent !== undefined) {
    const filled = COMPOSITION_COLUMNS.filter(
      (column) => column !== 'collagen_percent' && cells[column] !== undefined,
    );
    if (filled.length > 0) {
      const message = `give lean_percent or a composition, not both: empty ${filled.join(', ')} or lean_percent`;
      return [['lean_percent', message]];
    }
    if (cells.species && !lines.has(cells.species)) {
      return [['lean_percent', `trim-lines.csv has no lines of ${cells.species}; give the composition`]];
    }
    return [];
  }
  const empty = PROXIMATES.filter((column) => cells[column] === undefined);
  if (empty.length > 0) {
    return empty.map((column) => [
      column,
      'is empty; fill it in, 0 where there is none, or give lean_percent',
    ]);
  }
  return [
    ...totalFault(cells, ['water_percent', 'fat_percent', 'protein_percent'], LARGEST_MAIN_TOTAL),
    ...totalFault(cells, PROXIMATES, LARGEST_TOTAL),
    ...partFault(cells, 'collagen_percent', 'protein_percent'),
    ...partFault(cells, 'saturated_fat_percent', 'fat_percent'),
  ].slice(0, 1);
}

function totalFault(cells: Cells, parts: readonly (typeof PROXIMATES)[number][], limit: Exact) {
  const total = sum(parts.map((column) => exact(cells[column] ?? 0)));
  if (compare(total, limit) <= 0) return [];
  const message = `${parts.join(' + ')} is ${percentText(total)}, above ${percentText(limit)}; correct a figure`;
  return [['water_percent', message] satisfies [Column, string]];
}

function partFault(
  cells: Cells,
  part: 'collagen_percent' | 'saturated_fat_percent',
  whole: 'protein_percent' | 'fat_percent',
): [Column, string][] {
  return (cells[part] ?? 0) > (cells[whole] ?? 0) ? [[part, `is above ${whole}, of which it is a part`]] : [];
}

function substanceFaults({ kind, substances }: Cells): [Column, string][] {
  const missing = missingSubstance({ kind, substances });
  if (missing) return [['substances', `${missing}; fill it in, such as sodium nitrite 6.25`]];
  for (const [part, whole] of Object.entries(PART_OF)) {
    if ((substances[part as Substance] ?? 0) > (substances[whole] ?? 0)) {
      return [['substances', `${part} is above ${whole}, of which it is a part`]];
    }
  }
  const wholes = Object.entries(substances).filter(([name]) => !(name in PART_OF));
  const total = sum(wholes.map(([, fraction]) => exact(fraction)));
  return compare(total, ONE) > 0
    ? [['substances', `add up to ${percentText(total)} percent, above 100`]]
    : [];
}

function materialOf(cells: Cells, lines: ReadonlyMap<Species, TrimLine>): Material {
  const trimLine = cells.lean_percent !== undefined && cells.species ? lines.get(cells.species) : undefined;
  return {
    id: cells.material_id,
    name: cells.name,
    declaredName: cells.declared_name,
    kind: cells.kind,
    ...(cells.species && { species: cells.species }),
    ...(trimLine
      ? { composition: trimOf(trimLine, cells), trimLine }
      : { composition: compositionOf(cells) }),
    substances: cells.substances,
    allergens: cells.allergens,
    subIngredients: cells.sub_ingredients,
    source: cells.source,
  };
}

/** A trim by its line; its collagen, which no line tells, as the table gives it for that lean point. */
function trimOf(line: TrimLine, { lean_percent, collagen_percent }: Cells): Composition {
  const composition = trimComposition(line, fatOfLean(lean_percent ?? 1));
  return collagen_percent === undefined
    ? composition
    : { ...composition, collagenFraction: collagen_percent };
}

function compositionOf(cells: Cells): Composition {
  const mgPerKg = (mgPer100g: number) => toNumber(multiply(exact(mgPer100g), exact(10)));
  return {
    waterFraction: cells.water_percent ?? 0,
    fatFraction: cells.fat_percent ?? 0,
    proteinFraction: cells.protein_percent ?? 0,
    carbohydrateFraction: cells.carbohydrate_percent ?? 0,
    ashFraction: cells.ash_percent ?? 0,
    saltFraction: cells.salt_percent ?? 0,
    ...(cells.collagen_percent !== undefined && { collagenFraction: cells.collagen_percent }),
    ...(cells.saturated_fat_percent !== undefined && { saturatedFatFraction: cells.saturated_fat_percent }),
    ...(cells.cholesterol_mg_per_100g !== undefined && {
      cholesterolMgPerKg: mgPerKg(cells.cholesterol_mg_per_100g),
    }),
    ...(cells.sodium_mg_per_100g !== undefined && { sodiumMgPerKg: mgPerKg(cells.sodium_mg_per_100g) }),
  };
}

function fatOfLean(leanFraction: number): number {
  return toNumber(subtract(ONE, exact(leanFraction)));
}

function percentText(fraction: Exact): string {
  return String(percentOfFraction(toNumber(fraction)));
}

function repeated(file: string, row: number, id: string, place: string): TableProblem {
  const message = `"${id}" stands already in ${place}; give one of them another id`;
  return { file, row, column: 'material_id', message };
}

function tableNames(folder: string): string[] {
  return reading('materials', () =>
    readdirSync(join(folder, 'materials'))
      .filter((name) => name.endsWith('.csv'))
      .sort()
      .map((name) => `materials/${name}`),
  );
}

function readText(folder: string, file: string): string {
  return reading(file, () => readFileSync(join(folder, file), 'utf8'));
}

function reading<Read>(file: string, read: () => Read): Read {
  try {
    return read();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new TableError([{ file, message: `cannot be read (${code}); check the folder of tables` }]);
  }
}
