import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { TrimLine } from '../batch/composition.ts';
import type { Material, Species } from '../batch/material.ts';
import { readNumberedTable, TableError, type TableProblem } from './csv.ts';
import { faultsOf } from './material-faults.ts';
import { materialColumns, materialOf } from './material-row.ts';
import { readTrimLines } from './trim-lines.ts';

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
  const rows = readNumberedTable(file, text, materialColumns);
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
