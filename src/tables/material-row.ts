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
  optionalCountryCell,
  optionalDecimalCell,
  optionalPercentCell,
  optionalTextCell,
  percentsCell,
  textCell,
  wordsCell,
} from './cells.ts';

/** One row of a table of materials: its columns, what may be wrong in it, and the material that it describes. */

const PROXIMATES = [
  'water_percent',
  'fat_percent',
  'protein_percent',
  'carbohydrate_percent',
  'ash_percent',
] as const;
/** Figures that are not determined for every material, with their name in the composition. */
export const SHARES = {
  collagen_percent: 'collagenFraction',
  saturated_fat_percent: 'saturatedFatFraction',
  trans_fat_percent: 'transFatFraction',
  monounsaturated_fat_percent: 'monounsaturatedFatFraction',
  polyunsaturated_fat_percent: 'polyunsaturatedFatFraction',
  fiber_percent: 'fiberFraction',
  sugars_percent: 'sugarsFraction',
  added_sugars_percent: 'addedSugarsFraction',
} as const satisfies Record<string, keyof Composition>;
/** The same in milligrams or micrograms per 100 g. */
export const TRACES = {
  cholesterol_mg_per_100g: 'cholesterolMgPerKg',
  sodium_mg_per_100g: 'sodiumMgPerKg',
  potassium_mg_per_100g: 'potassiumMgPerKg',
  calcium_mg_per_100g: 'calciumMgPerKg',
  iron_mg_per_100g: 'ironMgPerKg',
  vitamin_d_mcg_per_100g: 'vitaminDMcgPerKg',
} as const satisfies Record<string, keyof Composition>;
const COMPOSITION_COLUMNS = [
  ...PROXIMATES,
  'salt_percent',
  ...(Object.keys(SHARES) as (keyof typeof SHARES)[]),
  ...(Object.keys(TRACES) as (keyof typeof TRACES)[]),
] as const;

/** Parts of a part, which cannot be more than it. */
const PARTS_OF_PARTS = [
  ['collagen_percent', 'protein_percent'],
  ['saturated_fat_percent', 'fat_percent'],
  ['trans_fat_percent', 'fat_percent'],
  ['monounsaturated_fat_percent', 'fat_percent'],
  ['polyunsaturated_fat_percent', 'fat_percent'],
  ['fiber_percent', 'carbohydrate_percent'],
  ['sugars_percent', 'carbohydrate_percent'],
  ['added_sugars_percent', 'sugars_percent'],
  ['added_sugars_percent', 'carbohydrate_percent'],
] as const;

/**
 * Separate determinations may add up to a little over 100 percent (pork leaf fat of USDA SR28 to 100.01, chicken
 * fat to 100.59); beyond these totals a figure is wrong.
 */
const LARGEST_MAIN_TOTAL: Exact = exact(MOST_MAIN_PARTS);
const LARGEST_TOTAL: Exact = exact(MOST_PARTS);

export const materialColumns = z.object({
  material_id: z
    .string()
    .regex(
      /^[A-Za-z0-9][A-Za-z0-9._-]*$/,
      'is no id; write letters, digits, hyphens, dots and underscores, such as pork-trim-72',
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
  trans_fat_percent: optionalPercentCell,
  monounsaturated_fat_percent: optionalPercentCell,
  polyunsaturated_fat_percent: optionalPercentCell,
  fiber_percent: optionalPercentCell,
  sugars_percent: optionalPercentCell,
  added_sugars_percent: optionalPercentCell,
  cholesterol_mg_per_100g: optionalDecimalCell,
  sodium_mg_per_100g: optionalDecimalCell,
  potassium_mg_per_100g: optionalDecimalCell,
  calcium_mg_per_100g: optionalDecimalCell,
  iron_mg_per_100g: optionalDecimalCell,
  vitamin_d_mcg_per_100g: optionalDecimalCell,
  substances: percentsCell(SUBSTANCES),
  allergens: listCell(ALLERGENS),
  sub_ingredients: wordsCell,
  made_in: optionalCountryCell,
  ndb_no: optionalTextCell.pipe(
    z
      .string()
      .regex(/^\d{5}$/, 'is no NDB number; write five digits')
      .optional(),
  ),
  source: textCell,
});
export type MaterialCells = z.output<typeof materialColumns>;
type Column = keyof MaterialCells;

/** What no single cell can tell: a column to look at and what is wrong there. */
export function faultsOf(cells: MaterialCells, lines: ReadonlyMap<Species, TrimLine>): [Column, string][] {
  return [...speciesFaults(cells), ...compositionFaults(cells, lines), ...substanceFaults(cells)];
}

function speciesFaults({ kind, species }: MaterialCells): [Column, string][] {
  const fromCarcass = (MEAT_KINDS as readonly string[]).includes(kind);
  if (fromCarcass && !species) {
    return [['species', `is empty; ${kind} comes from a species: ${SPECIES.join(', ')}`]];
  }
  if (!fromCarcass && species) return [['species', `leave it empty; ${kind} is not from the carcass`]];
  return [];
}

function compositionFaults(cells: MaterialCells, lines: ReadonlyMap<Species, TrimLine>): [Column, string][] {
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
    ...PARTS_OF_PARTS.flatMap(([part, whole]) => partFault(cells, part, whole)),
  ].slice(0, 1);
}

function totalFault(cells: MaterialCells, parts: readonly (typeof PROXIMATES)[number][], limit: Exact) {
  const total = sum(parts.map((column) => exact(cells[column] ?? 0)));
  if (compare(total, limit) <= 0) return [];
  const message = `${parts.join(' + ')} is ${percentText(total)}, above ${percentText(limit)}; correct a figure`;
  return [['water_percent', message] satisfies [Column, string]];
}

function partFault(
  cells: MaterialCells,
  part: (typeof PARTS_OF_PARTS)[number][0],
  whole: (typeof PARTS_OF_PARTS)[number][1],
): [Column, string][] {
  const { [part]: ofPart = 0, [whole]: ofWhole = Number.POSITIVE_INFINITY } = cells;
  return ofPart > ofWhole ? [[part, `is above ${whole}, of which it is a part`]] : [];
}

function substanceFaults({ kind, substances }: MaterialCells): [Column, string][] {
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

/** What the row describes. @param lines what the trims of a species are made of. */
export function materialOf(cells: MaterialCells, lines: ReadonlyMap<Species, TrimLine>): Material {
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
    ...(cells.made_in && { madeIn: cells.made_in }),
    source: cells.source,
  };
}

/** A trim by its line; its collagen, which no line tells, as the table gives it for that lean point. */
function trimOf(line: TrimLine, { lean_percent, collagen_percent }: MaterialCells): Composition {
  const composition = trimComposition(line, fatOfLean(lean_percent ?? 1));
  return collagen_percent === undefined
    ? composition
    : { ...composition, collagenFraction: collagen_percent };
}

function compositionOf(cells: MaterialCells): Composition {
  const known = <Name extends Column>(
    names: Readonly<Partial<Record<Name, keyof Composition>>>,
    inUnit: (cell: number) => number,
  ) =>
    Object.entries(names).flatMap(([column, field]) => {
      const cell = cells[column as Name];
      return typeof cell === 'number' ? [[field, inUnit(cell)]] : [];
    });
  return {
    waterFraction: cells.water_percent ?? 0,
    fatFraction: cells.fat_percent ?? 0,
    proteinFraction: cells.protein_percent ?? 0,
    carbohydrateFraction: cells.carbohydrate_percent ?? 0,
    ashFraction: cells.ash_percent ?? 0,
    saltFraction: cells.salt_percent ?? 0,
    ...Object.fromEntries([
      ...known(SHARES, (fraction) => fraction),
      ...known(TRACES, (per100g) => toNumber(multiply(exact(per100g), exact(10)))),
    ]),
  };
}

function fatOfLean(leanFraction: number): number {
  return toNumber(subtract(ONE, exact(leanFraction)));
}

function percentText(fraction: Exact): string {
  return String(percentOfFraction(toNumber(fraction)));
}
