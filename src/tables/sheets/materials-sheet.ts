import type { Composition } from '../../batch/composition.ts';
import type { Material } from '../../batch/material.ts';
import { type Exact, exact, multiply, ONE, subtract, toText } from '../../exact.ts';
import { type MaterialCells, SHARES, TRACES } from '../material-row.ts';
import { textOfWords } from '../words.ts';
import { type CellKind, columnsOf } from './columns.ts';
import { percentCellOf } from './lots-sheet.ts';
import type { WrittenCell } from './write-csv.ts';

type MaterialColumn = keyof MaterialCells;

const MAIN = {
  water_percent: 'waterFraction',
  fat_percent: 'fatFraction',
  protein_percent: 'proteinFraction',
  carbohydrate_percent: 'carbohydrateFraction',
  ash_percent: 'ashFraction',
  salt_percent: 'saltFraction',
} as const satisfies Record<string, keyof Composition>;

const PERCENTS = { ...MAIN, ...SHARES };

const KINDS = {
  material_id: 'word',
  name: 'text',
  declared_name: 'text',
  kind: 'word',
  species: 'word',
  lean_percent: 'percent',
  ...kindsOf(PERCENTS, 'percent'),
  ...kindsOf(TRACES, 'number'),
  substances: 'word',
  allergens: 'word',
  sub_ingredients: 'text',
  made_in: 'word',
  ndb_no: 'word',
  source: 'text',
} as const satisfies Readonly<Record<MaterialColumn, CellKind>>;

export const MATERIAL_COLUMNS = columnsOf<MaterialColumn>(KINDS);

/** A material as its row. One that was computed along the line of its species goes back to its lean point. */
export function materialCells(material: Material): WrittenCell[] {
  const { composition, trimLine } = material;
  const cells: Readonly<Partial<Record<MaterialColumn, WrittenCell>>> = {
    material_id: material.id,
    name: material.name,
    declared_name: material.declaredName,
    kind: material.kind,
    species: material.species,
    ...(trimLine
      ? {
          lean_percent: multiply(subtract(ONE, exact(composition.fatFraction)), exact(100)),
          collagen_percent: percentCellOf(composition.collagenFraction),
        }
      : compositionCells(composition)),
    substances: Object.entries(material.substances)
      .map(([name, fraction]) => `${name} ${toText(percentCellOf(fraction) ?? ONE)}`)
      .join('; '),
    allergens: material.allergens.join('; '),
    sub_ingredients: textOfWords(material.subIngredients),
    made_in: material.madeIn,
    source: material.source,
  };
  return MATERIAL_COLUMNS.map(({ name }) => cells[name as MaterialColumn]);
}

function compositionCells(composition: Composition): Partial<Record<MaterialColumn, WrittenCell>> {
  const written = (names: Readonly<Record<string, keyof Composition>>, times: Exact) =>
    Object.entries(names).map(([column, field]) => {
      const value = composition[field];
      return [column, value === undefined ? undefined : multiply(exact(value), times)] as const;
    });
  return Object.fromEntries([...written(PERCENTS, exact(100)), ...written(TRACES, TENTH)]);
}

/** Per kilogram to per 100 g. */
const TENTH = exact('0.1');

function kindsOf<Name extends string, Kind extends CellKind>(
  names: Readonly<Record<Name, unknown>>,
  kind: Kind,
): Record<Name, Kind> {
  return Object.fromEntries(Object.keys(names).map((name) => [name, kind])) as Record<Name, Kind>;
}
