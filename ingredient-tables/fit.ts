import { parse } from 'csv-parse/sync';

/**
 * Fits what a trim is made of against its fat, from USDA SR28 rows of raw meat. Which rows are fitted, which
 * are kept out to judge the fit, and why, is told in README.md of this folder.
 */

export const FITTED_SPECIES = ['beef', 'veal', 'pork', 'lamb', 'chicken', 'turkey'] as const;
export type FittedSpecies = (typeof FITTED_SPECIES)[number];

/** The constituents as they stand in trim-lines.csv, with their column in usda-sr.csv (per 100 g there). */
export const CONSTITUENT_COLUMNS = {
  water_percent: 'water_g',
  protein_percent: 'protein_g',
  ash_percent: 'ash_g',
  saturated_fat_percent: 'saturated_g',
  cholesterol_mg_per_100g: 'cholesterol_mg',
  sodium_mg_per_100g: 'sodium_mg',
  trans_fat_percent: 'trans_g',
  monounsaturated_fat_percent: 'mono_g',
  polyunsaturated_fat_percent: 'poly_g',
  potassium_mg_per_100g: 'potassium_mg',
  calcium_mg_per_100g: 'calcium_mg',
  iron_mg_per_100g: 'iron_mg',
  vitamin_d_mcg_per_100g: 'vitamin_d_mcg',
} as const;
export type Constituent = keyof typeof CONSTITUENT_COLUMNS;
export const CONSTITUENTS = Object.keys(CONSTITUENT_COLUMNS) as Constituent[];

/** Fewer rows than this make no line: the source has trans fat and vitamin D of some cuts only. */
export const LEAST_ROWS = 8;

/** One row of usda-sr.csv by column name; an empty text is a value not determined. */
export type UsdaRow = Readonly<Record<string, string>>;

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Fit {
  readonly intercept: number;
  readonly slope: number;
  /** Residual standard deviation, n − 2 degrees of freedom, in the unit of y. */
  readonly residualSd: number;
  readonly rows: number;
}

/** A fitted line in percent, mg or µg per 100 g against fat percent. */
export interface FittedLine extends Fit {
  readonly species: FittedSpecies;
  readonly constituent: Constituent;
  readonly fatFromPercent: number;
  readonly fatToPercent: number;
}

/** The raw rows of one species by their use. */
export interface SpeciesRows {
  readonly fitted: readonly UsdaRow[];
  readonly heldOut: readonly UsdaRow[];
  readonly ground: readonly UsdaRow[];
}

/** How far the line lies from rows it did not see, line minus row. */
export interface LineErrors {
  readonly rows: number;
  readonly mean: number;
  readonly meanAbsolute: number;
  /** The error of the largest size, with its sign. */
  readonly worst: number;
}

const CUT_NAMES: Record<FittedSpecies, RegExp> = {
  beef: /^Beef,/,
  veal: /^Veal,/,
  pork: /^Pork/,
  lamb: /^Lamb, domestic/,
  chicken: /^Chicken,/,
  turkey: /^Turkey/,
};

const GROUND_NAMES: Record<FittedSpecies, RegExp> = {
  beef: /^(Beef|USDA Commodity, beef),/,
  veal: /^Veal,/,
  pork: /^Pork,/,
  lamb: /^Lamb,/,
  chicken: /^Chicken,/,
  turkey: /^Ground turkey/,
};

/** Separable fat added to the cuts where it makes fat trims (above 40 % fat) truer; NDB numbers. */
const FAT_ROWS: Partial<Record<FittedSpecies, readonly string[]>> = {
  beef: ['13019'],
  veal: ['17092', '17431', '17433'],
  chicken: ['05047'],
};

const NOT_PLAIN_MEAT = /imported|australian|new zealand|added solution|enhanced|cured|formed|with vpp/i;
const LARGEST_GAP_IN_MASS_PERCENT = 3;

/** Rows of usda-sr.csv. */
export function readUsdaRows(text: string): UsdaRow[] {
  return parse(text, { columns: true, skip_empty_lines: true }) as UsdaRow[];
}

/** @returns the value per 100 g, or undefined where the source has none. */
export function usdaValue(row: UsdaRow, column: string): number | undefined {
  const text = row[column];
  return text ? Number(text) : undefined;
}

/** Sorts the raw rows of a species into fitted, held out (NDB number divisible by 5) and ground (held out). */
export function rowsOfSpecies(rows: readonly UsdaRow[], species: FittedSpecies): SpeciesRows {
  const cuts = withoutCopies(rows.filter((row) => isPlainCut(row, species)));
  const fats = rows.filter((row) => FAT_ROWS[species]?.includes(row.ndb_no ?? ''));
  return {
    fitted: [...cuts, ...fats].filter((row) => !isHeldOut(row) && closes(row)),
    heldOut: cuts.filter(isHeldOut),
    ground: rows.filter(
      (row) => row.role === 'ground_raw' && GROUND_NAMES[species].test(row.description ?? ''),
    ),
  };
}

/**
 * Ordinary least squares of y on x.
 * @throws RangeError below three points or when all x are the same.
 */
export function leastSquares(points: readonly Point[]): Fit {
  const count = points.length;
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / count;
  const meanX = mean(points.map(({ x }) => x));
  const meanY = mean(points.map(({ y }) => y));
  const spread = mean(points.map(({ x }) => (x - meanX) ** 2));
  if (count < 3 || spread === 0) throw new RangeError('a line needs three points and two different x');
  const slope = mean(points.map(({ x, y }) => (x - meanX) * (y - meanY))) / spread;
  const intercept = meanY - slope * meanX;
  const squares = mean(points.map(({ x, y }) => (y - intercept - slope * x) ** 2)) * count;
  return { intercept, slope, residualSd: Math.sqrt(squares / (count - 2)), rows: count };
}

/** Every line of every fitted species that enough rows tell, in the order of the file. */
export function fitTrimLines(rows: readonly UsdaRow[]): FittedLine[] {
  return FITTED_SPECIES.flatMap((species) => {
    const { fitted } = rowsOfSpecies(rows, species);
    return CONSTITUENTS.flatMap((constituent) => {
      const points = pointsOf(fitted, constituent);
      if (points.length < LEAST_ROWS) return [];
      const fats = points.map(({ x }) => x);
      const fatFromPercent = Math.min(...fats);
      const fatToPercent = Math.max(...fats);
      return [{ species, constituent, ...leastSquares(points), fatFromPercent, fatToPercent }];
    });
  });
}

/** The text of trim-lines.csv. */
export function trimLinesCsv(lines: readonly FittedLine[]): string {
  const header =
    'species,constituent,intercept,slope_per_fat_percent,residual_sd,rows_fitted,fat_from_percent,fat_to_percent,source';
  const body = lines.map((line) =>
    [
      line.species,
      line.constituent,
      line.intercept.toFixed(4),
      line.slope.toFixed(5),
      line.residualSd.toFixed(4),
      line.rows,
      line.fatFromPercent,
      line.fatToPercent,
      'least squares on USDA SR28 raw rows',
    ].join(','),
  );
  return `${[header, ...body].join('\n')}\n`;
}

/** Errors of the line on the given rows, in percent points, mg or µg per 100 g. */
export function lineErrors(line: FittedLine, rows: readonly UsdaRow[]): LineErrors {
  const errors = pointsOf(rows, line.constituent).map(({ x, y }) => line.intercept + line.slope * x - y);
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    rows: errors.length,
    mean: mean(errors),
    meanAbsolute: mean(errors.map(Math.abs)),
    worst: errors.reduce((worst, error) => (Math.abs(error) > Math.abs(worst) ? error : worst), 0),
  };
}

/** The markdown table of errors of the main parts that stands in README.md. */
export function errorTable(rows: readonly UsdaRow[]): string {
  const three = (errors: LineErrors) =>
    `${signed(errors.mean, 2)}, ${errors.meanAbsolute.toFixed(2)}, ${signed(errors.worst, 2)}`;
  return tableOfErrors(rows, [
    ['water: mean, mean size, worst', 'water_percent', three],
    ['protein: mean, mean size, worst', 'protein_percent', three],
    ['saturated fat: mean, worst', 'saturated_fat_percent', (errors) => meanAndWorst(errors, 2)],
    ['cholesterol mg: mean, worst', 'cholesterol_mg_per_100g', (errors) => meanAndWorst(errors, 0)],
    ['sodium mg: mean, worst', 'sodium_mg_per_100g', (errors) => meanAndWorst(errors, 0)],
  ]);
}

/** The same of what only a nutrition panel asks for; each figure with the number of rows that have it. */
export function nutrientErrorTable(rows: readonly UsdaRow[]): string {
  const counted = (decimals: number) => (errors: LineErrors) =>
    `${errors.rows}: ${meanAndWorst(errors, decimals)}`;
  return tableOfErrors(rows, [
    ['trans fat', 'trans_fat_percent', counted(2)],
    ['monounsaturated fat', 'monounsaturated_fat_percent', counted(2)],
    ['polyunsaturated fat', 'polyunsaturated_fat_percent', counted(2)],
    ['potassium mg', 'potassium_mg_per_100g', counted(0)],
    ['calcium mg', 'calcium_mg_per_100g', counted(0)],
    ['iron mg', 'iron_mg_per_100g', counted(2)],
    ['vitamin D µg', 'vitamin_d_mcg_per_100g', counted(2)],
  ]);
}

type ErrorColumn = readonly [head: string, constituent: Constituent, cell: (errors: LineErrors) => string];

function tableOfErrors(rows: readonly UsdaRow[], columns: readonly ErrorColumn[]): string {
  const lines = fitTrimLines(rows);
  const tableRow = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const heads = ['species', 'rows', 'n', ...columns.map(([head]) => head)];
  const body = FITTED_SPECIES.flatMap((species) => {
    const { heldOut, ground } = rowsOfSpecies(rows, species);
    return Object.entries({ 'held-out cuts': heldOut, ground }).map(([name, judged]) => {
      const cells = columns.map(([, constituent, cell]) => {
        const line = lines.find((each) => each.species === species && each.constituent === constituent);
        const errors = line && lineErrors(line, judged);
        if (!errors) return 'no line';
        return errors.rows > 0 ? cell(errors) : 'no rows';
      });
      return tableRow([species, name, String(judged.length), ...cells]);
    });
  });
  return `${[tableRow(heads), tableRow(heads.map(() => '---')), ...body].join('\n')}\n`;
}

function meanAndWorst({ mean, worst }: LineErrors, decimals: number): string {
  return `${signed(mean, decimals)}, ${signed(worst, decimals)}`;
}

function isPlainCut({ role, description = '' }: UsdaRow, species: FittedSpecies): boolean {
  const skinAlone = /\bskin,/.test(description) && !description.includes('meat and skin');
  return (
    role === 'raw_cut' &&
    CUT_NAMES[species].test(description) &&
    !NOT_PLAIN_MEAT.test(description) &&
    !skinAlone &&
    // Half fat, half muscle: kept out so that the fat end of the pork line can be judged.
    !description.includes('belly')
  );
}

/** SR gives one analysis to several cuts; each analysis is used once, under its lowest NDB number. */
function withoutCopies(rows: readonly UsdaRow[]): UsdaRow[] {
  const seen = new Set<string>();
  return rows.filter((row) => {
    const analysis = [row.water_g, row.protein_g, row.fat_g].join(' ');
    if (seen.has(analysis)) return false;
    seen.add(analysis);
    return true;
  });
}

function isHeldOut(row: UsdaRow): boolean {
  return Number(row.ndb_no) % 5 === 0;
}

function closes(row: UsdaRow): boolean {
  const total = ['water_g', 'protein_g', 'fat_g', 'ash_g', 'carbohydrate_g'].reduce(
    (sum, column) => sum + (usdaValue(row, column) ?? 0),
    0,
  );
  return Math.abs(total - 100) <= LARGEST_GAP_IN_MASS_PERCENT;
}

function pointsOf(rows: readonly UsdaRow[], constituent: Constituent): Point[] {
  return rows.flatMap((row) => {
    const x = usdaValue(row, 'fat_g');
    const y = usdaValue(row, CONSTITUENT_COLUMNS[constituent]);
    return x === undefined || y === undefined ? [] : [{ x, y }];
  });
}

function signed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return text.startsWith('-') ? text.replace('-', '−') : `+${text}`;
}
