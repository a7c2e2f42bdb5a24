import { z } from 'zod';
import { type Composition, type TrimLine, trimComposition } from '../batch/composition.ts';
import {
  ALLERGENS,
  MATERIAL_KINDS,
  type Material,
  SPECIES,
  type Species,
  SUBSTANCES,
} from '../batch/material.ts';
import { exact, multiply, ONE, subtract, toNumber } from '../exact.ts';
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

/** One row of a table of materials: its columns, and the material that it describes. */

export const PROXIMATES = [
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
