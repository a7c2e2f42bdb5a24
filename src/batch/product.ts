import type { MassUnit } from '../units.ts';
import type { MaterialKind, Species } from './material.ts';

/**
 * What a plant makes: its standard, what may go into the meat block, the seasoning lines and the process.
 */
export interface Product {
  readonly id: string;
  /** What the plant calls it; the name on the label follows from the standard. */
  readonly name: string;
  readonly standard: { readonly jurisdiction: string; readonly productClass: string };
  readonly meatBlock: readonly MeatPart[];
  readonly seasoning: readonly SeasoningLine[];
  /** What rework may go in; none does without it. */
  readonly rework?: ReworkAllowed;
  readonly targets: readonly Target[];
  readonly process: Process;
  readonly form: Form;
  readonly label: ProductLabel;
}

/** One part of the meat block: which materials may fill it and how much of the green weight it may be. */
export interface MeatPart {
  readonly name: string;
  readonly materialIds?: readonly string[];
  readonly kinds?: readonly MaterialKind[];
  readonly species?: readonly Species[];
  readonly minFraction?: number;
  readonly maxFraction?: number;
}

export const SEASONING_BASES = ['green weight', 'batch', 'finished weight'] as const;
export type SeasoningBasis = (typeof SEASONING_BASES)[number];

/**
 * An ingredient outside the meat block, at a fixed rate on its basis or anywhere between two rates. Rework has its
 * seasoning in it: neither its weight nor its seasonings count toward a line, but everything of it toward every limit.
 */
export interface SeasoningLine {
  readonly materialId: string;
  readonly basis: SeasoningBasis;
  readonly minFraction: number;
  readonly maxFraction: number;
}

/** Like into like: rework of these products, and how much of the batch it may be. */
export interface ReworkAllowed {
  readonly productIds: readonly string[];
  readonly maxFraction: number;
}

/** What a target of the plant is about, in the finished product unless said otherwise. */
export const TARGET_MEASURES = ['fat', 'protein', 'water', 'salt', 'cost per kg'] as const;
export type TargetMeasure = (typeof TARGET_MEASURES)[number];

/** The plant's own aim, inside what the law allows. */
export interface Target {
  readonly measure: TargetMeasure;
  readonly min?: number;
  readonly max?: number;
}

/** How a product is sold: raw, cooked, or dried (fermented or cured and dried, not cooked). */
export const COOKINGS = ['raw', 'cooked', 'dried'] as const;
export type Cooking = (typeof COOKINGS)[number];

/** What happens between the mixer and the pack. */
export interface Process {
  readonly cooking: Cooking;
  readonly smoked: boolean;
  /** Finished weight over raw batch weight: 1 for a fresh product. */
  readonly yieldFraction: number;
  /** Fat lost in cooking, as a fraction of the raw batch weight; the rest of the loss is water. */
  readonly fatLossFraction: number;
  readonly grindPlates: readonly string[];
  readonly mixing: readonly string[];
}

/** How the product leaves the stuffer or former. */
export interface Form {
  readonly shape: 'bulk' | 'chub' | 'link' | 'patty';
  /** Raw weight of one piece, where the product is made by the piece. */
  readonly pieceKg?: number;
  readonly casingMaterialId?: string;
}

/** What a plant may want to say of a product beyond what it must: shown only where its test passes. */
export const CLAIMS = ['lean', 'extra lean', 'low fat', 'product of usa'] as const;
export type Claim = (typeof CLAIMS)[number];

/** A weight with the unit it was given in, as decimal text: a label repeats it as it was entered. */
export interface GivenWeight {
  readonly value: string;
  readonly unit: MassUnit;
}

/** One way in which a product is packed for sale. */
export interface PackFormat {
  readonly id: string;
  /** Global trade item number of one pack: 8, 12, 13 or 14 digits with its check digit. */
  readonly gtin?: string;
  /** Five digits under which the shop finds a pack that is priced by its weight. */
  readonly itemNumber?: string;
  /** What each pack declares; absent where each pack is weighed and priced for itself. */
  readonly netWeight?: GivenWeight;
  /** Pieces in one pack, for product made by the piece. */
  readonly pieces?: number;
  /** What the empty pack weighs. */
  readonly tare?: GivenWeight;
  /** What it is sold at, in the currency of the plant. */
  readonly price?: { readonly amount: string; readonly per: 'lb' | 'kg' };
  /** Id of the label stock; that of the plant's printer when absent. */
  readonly labelStock?: string;
}

export interface ProductLabel {
  /** Lean percent shown with its fat percent, for ground product: 80 for 80/20. */
  readonly leanPercent?: number;
  readonly storage: 'keep refrigerated' | 'keep frozen';
  /** How it is packed for sale; the first is the usual one. */
  readonly packs?: readonly PackFormat[];
  readonly claims?: readonly Claim[];
  /** Why no nutrition panel is printed, in the words of the plant: it knows whether an exemption is its own. */
  readonly nutritionExemption?: string;
}
