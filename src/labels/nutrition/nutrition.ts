import type { Nutrient, NutrientUnit } from './nutrient.ts';
import type { NutritionPanel } from './panel.ts';

/** One nutrient of 100 g of product as it is sold, unrounded, and where it comes from. */
export interface NutrientFigure {
  readonly amount: number;
  readonly unit: NutrientUnit;
  /** What each ingredient brings of it, the most first; less than nothing for what the process took. */
  readonly from: readonly { readonly material: string; readonly amount: number; readonly source: string }[];
  /** Ingredients whose table has no figure, with their share of the batch: the amount is without what they bring. */
  readonly notKnown: readonly { readonly material: string; readonly fraction: number }[];
}

/** Nutrition of a batch: the figures, and the panel that its market prints of them. */
export interface Nutrition {
  /** What was worked out: a sentence (raw as sold, or cooked with the declared yield). */
  readonly basis: string;
  readonly energyKcalPer100g: number;
  readonly energyKjPer100g: number;
  readonly per100g: Readonly<Partial<Record<Nutrient, NutrientFigure>>>;
  /** Absent where the market has no panel here or a figure it must show is not known. */
  readonly panel?: NutritionPanel;
  readonly cautions: readonly string[];
}
