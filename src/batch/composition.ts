/**
 * What a material is made of, per kilogram of it. All shares are fractions of its mass. Water, fat, protein,
 * carbohydrate and ash come from separate determinations and need not add up to exactly 1.
 */
export interface Composition {
  readonly waterFraction: number;
  readonly fatFraction: number;
  /** Crude protein, nitrogen × 6.25 (9 CFR 317.309(c)(7)). */
  readonly proteinFraction: number;
  readonly carbohydrateFraction: number;
  readonly ashFraction: number;
  /** Sodium chloride, added or natural, where known. */
  readonly saltFraction: number;
  /** Collagen (hydroxyproline × 8), where known: absent means not determined, never zero. */
  readonly collagenFraction?: number;
  readonly saturatedFatFraction?: number;
  readonly transFatFraction?: number;
  readonly monounsaturatedFatFraction?: number;
  readonly polyunsaturatedFatFraction?: number;
  readonly fiberFraction?: number;
  readonly sugarsFraction?: number;
  /** Sugars that count as added where the material goes into food (21 CFR 101.9(c)(6)(iii); from memory, verify). */
  readonly addedSugarsFraction?: number;
  readonly cholesterolMgPerKg?: number;
  readonly sodiumMgPerKg?: number;
  readonly potassiumMgPerKg?: number;
  readonly calciumMgPerKg?: number;
  readonly ironMgPerKg?: number;
  readonly vitaminDMcgPerKg?: number;
}

/** A straight line of one constituent against fat, both as fractions of the raw weight. */
export interface Line {
  readonly intercept: number;
  readonly slope: number;
}

/** How the lean and fat of one species go together: what a trim of a given fat is made of. */
export interface TrimLine {
  readonly species: string;
  readonly water: Line;
  readonly protein: Line;
  readonly ash: Line;
  readonly saturatedFat: Line;
  /** Milligrams per kilogram against the fat fraction. */
  readonly cholesterolMgPerKg: Line;
  readonly sodiumMgPerKg: Line;
  /** Only where enough rows of the source tell it; without its line a figure of the trim is not determined. */
  readonly transFat?: Line;
  readonly monounsaturatedFat?: Line;
  readonly polyunsaturatedFat?: Line;
  readonly potassiumMgPerKg?: Line;
  readonly calciumMgPerKg?: Line;
  readonly ironMgPerKg?: Line;
  readonly vitaminDMcgPerKg?: Line;
}

/** Parts of the fat, which go with it; vitamin D is dissolved in it. */
export const OF_FAT = [
  'saturatedFatFraction',
  'transFatFraction',
  'monounsaturatedFatFraction',
  'polyunsaturatedFatFraction',
  'vitaminDMcgPerKg',
] as const satisfies readonly (keyof Composition)[];

/** Known of every material, and none of it in fat: it is in the lean, in its water and protein. */
const NOT_FAT = [
  'waterFraction',
  'proteinFraction',
  'carbohydrateFraction',
  'ashFraction',
  'saltFraction',
] as const satisfies readonly (keyof Composition)[];

/** The same for what is not known of every material. */
export const OF_LEAN = [
  'collagenFraction',
  'fiberFraction',
  'sugarsFraction',
  'addedSugarsFraction',
  'sodiumMgPerKg',
  'potassiumMgPerKg',
  'calciumMgPerKg',
  'ironMgPerKg',
] as const satisfies readonly (keyof Composition)[];

/** Constituents that are not determined for every material: absent is not determined, never zero. */
export const WHERE_KNOWN = [...OF_FAT, ...OF_LEAN, 'cholesterolMgPerKg'] as const;

/** Every part of the carbohydrate of what has none, as meat: trims hold too little to be found. */
const NO_CARBOHYDRATE = {
  carbohydrateFraction: 0,
  fiberFraction: 0,
  sugarsFraction: 0,
  addedSugarsFraction: 0,
} as const;

/**
 * Composition of a trim of the given fat by the lines of its species (ingredient-tables/trim-lines.csv).
 * @param fatFraction 0 to 1.
 * @param collagenOfProtein collagen as a fraction of the protein, where known: no line tells it.
 */
export function trimComposition(
  line: TrimLine,
  fatFraction: number,
  collagenOfProtein?: number,
): Composition {
  const at = ({ intercept, slope }: Line) => round12(Math.max(0, intercept + slope * fatFraction));
  const proteinFraction = at(line.protein);
  const ashFraction = at(line.ash);
  // Very fat or very lean ends of a straight line may not leave room for all the water it predicts.
  const waterFraction = round12(Math.min(at(line.water), Math.max(0, 1 - fatFraction - proteinFraction)));
  // Nor for more fatty acids than there is fat. Trans fat is left out of the sum: tables count it within the others.
  const saturated = Math.min(at(line.saturatedFat), fatFraction);
  const mono = line.monounsaturatedFat && Math.min(at(line.monounsaturatedFat), fatFraction - saturated);
  const poly =
    line.polyunsaturatedFat && Math.min(at(line.polyunsaturatedFat), fatFraction - saturated - (mono ?? 0));
  return {
    fatFraction,
    waterFraction,
    proteinFraction,
    ashFraction,
    ...NO_CARBOHYDRATE,
    saltFraction: 0,
    saturatedFatFraction: saturated,
    ...(line.transFat && { transFatFraction: Math.min(at(line.transFat), fatFraction) }),
    ...(mono !== undefined && { monounsaturatedFatFraction: round12(mono) }),
    ...(poly !== undefined && { polyunsaturatedFatFraction: round12(poly) }),
    cholesterolMgPerKg: at(line.cholesterolMgPerKg),
    sodiumMgPerKg: at(line.sodiumMgPerKg),
    ...(line.potassiumMgPerKg && { potassiumMgPerKg: at(line.potassiumMgPerKg) }),
    ...(line.calciumMgPerKg && { calciumMgPerKg: at(line.calciumMgPerKg) }),
    ...(line.ironMgPerKg && { ironMgPerKg: at(line.ironMgPerKg) }),
    ...(line.vitaminDMcgPerKg && { vitaminDMcgPerKg: at(line.vitaminDMcgPerKg) }),
    ...(collagenOfProtein !== undefined && {
      collagenFraction: round12(collagenOfProtein * proteinFraction),
    }),
  };
}

/** Collagen as a fraction of the protein; undefined where it was not determined. */
export function collagenOfProtein({ collagenFraction, proteinFraction }: Composition): number | undefined {
  if (collagenFraction === undefined) return undefined;
  return proteinFraction > 0 ? collagenFraction / proteinFraction : 0;
}

/**
 * The same material with another fat, where no line of its species applies: what is not fat keeps its own
 * proportions, and so do the parts of the fat. Fat tissue has hardly any minerals, so these go with what is not fat;
 * cholesterol stays, for lean and fat hold about the same of it.
 */
export function withFat(composition: Composition, fatFraction: number): Composition {
  const fatFree = 1 - composition.fatFraction;
  const scale = fatFree > 0 ? (1 - fatFraction) / fatFree : 0;
  const fatScale = composition.fatFraction > 0 ? fatFraction / composition.fatFraction : 1;
  const scaled = (fields: readonly (keyof Composition)[], by: number) =>
    Object.fromEntries(
      fields.flatMap((field) => {
        const value = composition[field];
        return value === undefined ? [] : [[field, round12(value * by)]];
      }),
    );
  return {
    ...composition,
    ...scaled([...NOT_FAT, ...OF_LEAN], scale),
    ...scaled(OF_FAT, fatScale),
    fatFraction,
  };
}

/** What a material is made of when its fat is this: along the line of its species, or in its own proportions. */
export function atFat(
  { composition, trimLine }: { readonly composition: Composition; readonly trimLine?: TrimLine },
  fatFraction: number,
): Composition {
  return trimLine
    ? trimComposition(trimLine, fatFraction, collagenOfProtein(composition))
    : withFat(composition, fatFraction);
}

/** Computed shares are kept to 12 decimals, far below any table, so that exact sums stay short. */
function round12(value: number): number {
  return Number(value.toFixed(12));
}

/** Water, fat and protein come from separate tests: together they may pass the whole by a hair (USDA has 100.59 %). */
export const MOST_MAIN_PARTS = 1.01;
/** The same with carbohydrate and ash. */
export const MOST_PARTS = 1.03;
