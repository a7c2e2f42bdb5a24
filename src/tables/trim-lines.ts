import { z } from 'zod';
import type { Line, TrimLine } from '../batch/composition.ts';
import { SPECIES, type Species } from '../batch/material.ts';
import { exact, multiply, toNumber } from '../exact.ts';
import { fractionOfPercent } from '../units.ts';
import { choiceCell, optionalDecimalCell, textCell } from './cells.ts';
import { readNumberedTable, TableError, type TableProblem } from './csv.ts';

const NEEDED = [
  'water_percent',
  'protein_percent',
  'ash_percent',
  'saturated_fat_percent',
  'cholesterol_mg_per_100g',
  'sodium_mg_per_100g',
] as const;
/** What no limit counts: where its line is missing, the figure of a trim is not determined. */
const OPTIONAL = {
  trans_fat_percent: 'transFat',
  monounsaturated_fat_percent: 'monounsaturatedFat',
  polyunsaturated_fat_percent: 'polyunsaturatedFat',
  potassium_mg_per_100g: 'potassiumMgPerKg',
  calcium_mg_per_100g: 'calciumMgPerKg',
  iron_mg_per_100g: 'ironMgPerKg',
  vitamin_d_mcg_per_100g: 'vitaminDMcgPerKg',
} as const satisfies Record<string, keyof TrimLine>;
type OptionalConstituent = keyof typeof OPTIONAL;
const OPTIONAL_CONSTITUENTS = Object.keys(OPTIONAL) as OptionalConstituent[];
type Constituent = (typeof NEEDED)[number] | OptionalConstituent;

/** A line may fall and may start below zero. */
const signedCell = z
  .string()
  .regex(/^-?\d+(\.\d+)?$/, 'is not a plain number; write digits with a decimal point, such as -0.758')
  .transform(Number);

const rowSchema = z.object({
  species: choiceCell(SPECIES),
  constituent: choiceCell([...NEEDED, ...OPTIONAL_CONSTITUENTS]),
  intercept: signedCell,
  slope_per_fat_percent: signedCell,
  residual_sd: optionalDecimalCell,
  rows_fitted: optionalDecimalCell,
  fat_from_percent: optionalDecimalCell,
  fat_to_percent: optionalDecimalCell,
  source: textCell,
});

/**
 * Reads trim-lines.csv: per species one line of each constituent against fat percent, in percent,
 * milligrams or micrograms per 100 g.
 * @returns the lines in fractions, milligrams or micrograms per kilogram against the fat fraction.
 * @throws TableError also when a species lacks a constituent that it needs or has one twice.
 */
export function readTrimLines(file: string, text: string): Map<Species, TrimLine> {
  const problems: TableProblem[] = [];
  const bySpecies = new Map<Species, Map<Constituent, Line>>();
  for (const { row, cells } of readNumberedTable(file, text, rowSchema)) {
    const lines = bySpecies.get(cells.species) ?? new Map<Constituent, Line>();
    if (lines.has(cells.constituent)) {
      const message = `"${cells.constituent}" of ${cells.species} stands twice; keep one`;
      problems.push({ file, row, column: 'constituent', message });
    }
    bySpecies.set(
      cells.species,
      lines.set(cells.constituent, lineOf(cells.constituent, cells.intercept, cells.slope_per_fat_percent)),
    );
  }
  for (const [species, lines] of bySpecies) {
    const missing = NEEDED.filter((constituent) => !lines.has(constituent));
    if (missing.length > 0) {
      problems.push({ file, column: 'constituent', message: `${species} lacks ${missing.join(', ')}` });
    }
  }
  if (problems.length > 0) throw new TableError(problems);
  return new Map([...bySpecies].map(([species, lines]) => [species, trimLineOf(species, lines)]));
}

/** Percent against percent is a fraction against a fraction of the same slope. */
function lineOf(constituent: Constituent, intercept: number, slope: number): Line {
  if (!constituent.endsWith('_per_100g')) return { intercept: fractionOfPercent(intercept), slope };
  return { intercept: times(intercept, 10), slope: times(slope, 1000) };
}

function trimLineOf(species: Species, lines: ReadonlyMap<Constituent, Line>): TrimLine {
  const line = (constituent: Constituent) => lines.get(constituent) ?? { intercept: 0, slope: 0 };
  return {
    species,
    water: line('water_percent'),
    protein: line('protein_percent'),
    ash: line('ash_percent'),
    saturatedFat: line('saturated_fat_percent'),
    cholesterolMgPerKg: line('cholesterol_mg_per_100g'),
    sodiumMgPerKg: line('sodium_mg_per_100g'),
    ...Object.fromEntries(
      OPTIONAL_CONSTITUENTS.flatMap((constituent) => {
        const known = lines.get(constituent);
        return known ? [[OPTIONAL[constituent], known]] : [];
      }),
    ),
  };
}

function times(value: number, factor: number): number {
  return toNumber(multiply(exact(value), exact(factor)));
}
