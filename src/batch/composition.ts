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
  /** Sugars that count as added where the material goes into food (21 CFR 101.9(c)(6)(iii)). */
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
}

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
  return {
    fatFraction,
    waterFraction,
    proteinFraction,
    ashFraction,
    carbohydrateFraction: 0,
    saltFraction: 0,
    saturatedFatFraction: Math.min(at(line.saturatedFat), fatFraction),
    cholesterolMgPerKg: at(line.cholesterolMgPerKg),
    sodiumMgPerKg: at(line.sodiumMgPerKg),
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
 * proportions.
 */
export function withFat(composition: Composition, fatFraction: number): Composition {
  const fatFree = 1 - composition.fatFraction;
  const scale = fatFree > 0 ? (1 - fatFraction) / fatFree : 0;
  const scaled = (share: number) => round12(share * scale);
  const fatScale = composition.fatFraction > 0 ? fatFraction / composition.fatFraction : 1;
  return {
    ...composition,
    fatFraction,
    waterFraction: scaled(composition.waterFraction),
    proteinFraction: scaled(composition.proteinFraction),
    carbohydrateFraction: scaled(composition.carbohydrateFraction),
    ashFraction: scaled(composition.ashFraction),
    saltFraction: scaled(composition.saltFraction),
    ...(composition.collagenFraction !== undefined && {
      collagenFraction: scaled(composition.collagenFraction),
    }),
    ...(composition.saturatedFatFraction !== undefined && {
      saturatedFatFraction: round12(composition.saturatedFatFraction * fatScale),
    }),
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
