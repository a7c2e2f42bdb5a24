import { missingSubstance, PART_OF } from '../batch/carries.ts';
import { MOST_MAIN_PARTS, MOST_PARTS, type TrimLine } from '../batch/composition.ts';
import { MEAT_KINDS, SPECIES, type Species, type Substance } from '../batch/material.ts';
import { add, compare, type Exact, exact, ONE, sum, toNumber } from '../exact.ts';
import { percentOfFraction } from '../units.ts';
import { type MaterialCells, PROXIMATES, SHARES, TRACES } from './material-row.ts';

/** What is wrong in a row of materials that no single cell can tell. */

type Column = keyof MaterialCells;

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

/** Parts that share a whole; separate determinations pass it by at most half a percent in the source (fresh peppers). */
const PARTS_TOGETHER = [
  [['saturated_fat_percent', 'monounsaturated_fat_percent', 'polyunsaturated_fat_percent'], 'fat_percent'],
  [['fiber_percent', 'sugars_percent'], 'carbohydrate_percent'],
] as const;
const MOST_BEYOND_WHOLE: Exact = exact('0.01');

/** Milligrams or micrograms in 100 g of what is nothing else. */
const MG_IN_100_G = 100_000;
const MCG_IN_100_G = 100_000_000;

/**
 * Separate determinations may add up to a little over 100 percent (pork leaf fat of USDA SR28 to 100.01, chicken
 * fat to 100.59); beyond these totals a figure is wrong.
 */
const LARGEST_MAIN_TOTAL: Exact = exact(MOST_MAIN_PARTS);
const LARGEST_TOTAL: Exact = exact(MOST_PARTS);

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
    ...PARTS_TOGETHER.flatMap(([parts, whole]) => togetherFault(cells, parts, whole)),
    ...(Object.keys(TRACES) as (keyof typeof TRACES)[]).flatMap((column) => traceFault(cells, column)),
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

function togetherFault(
  cells: MaterialCells,
  parts: (typeof PARTS_TOGETHER)[number][0],
  whole: (typeof PARTS_TOGETHER)[number][1],
): [Column, string][] {
  const total = sum(parts.map((column) => exact(cells[column] ?? 0)));
  const most = add(exact(cells[whole] ?? 0), MOST_BEYOND_WHOLE);
  if (compare(total, most) <= 0) return [];
  return [[parts[0], `${parts.join(' + ')} is ${percentText(total)}, above ${whole}; correct a figure`]];
}

function traceFault(cells: MaterialCells, column: keyof typeof TRACES): [Column, string][] {
  const most = column.includes('_mcg_') ? MCG_IN_100_G : MG_IN_100_G;
  if ((cells[column] ?? 0) <= most) return [];
  return [[column, `is above ${most}, which is more than all of it; give it in 100 g, not in a kilogram`]];
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

function percentText(fraction: Exact): string {
  return String(percentOfFraction(toNumber(fraction)));
}
