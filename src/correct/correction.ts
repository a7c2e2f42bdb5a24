import type { HouseRules } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import type { PrintedWeight } from '../batch/scale.ts';
import type { Because, BlendLine, LeftOut, Makeup } from '../formulate/blend.ts';
import type { Issue } from '../formulate/request.ts';
import type { Check, ExplainedCheck } from '../rules/check.ts';
import type { Standard } from '../rules/standard.ts';
import type { Engine } from '../solver/model.ts';
import type { MixLine } from './tested-mix.ts';

/** A load in the mixer whose fat was tested, and what there is to bring it back with. */
export interface CorrectionRequest {
  readonly product: Product;
  readonly standard: Standard;
  /** Day of the correction, YYYY-MM-DD. */
  readonly date: string;
  readonly plant: Plant;
  readonly houseRules?: HouseRules;
  readonly engines: readonly Engine[];
  /** What was weighed in: one load. */
  readonly inMixer: readonly MixLine[];
  readonly testedFat: TestedFat;
  /** What may be added, with what is on hand now, after the amounts that are in the mixer. */
  readonly supplies: readonly Supply[];
  /** What the mixer holds; the plant's own figure when absent. */
  readonly capacityKg?: number;
  /** Above 0.5 and below 1: how sure every limit is to hold though the test itself is uncertain. */
  readonly confidence?: number;
  /** Other products of the plant to try when the batch cannot be brought back. */
  readonly others?: readonly ProductOfPlant[];
}

export interface ProductOfPlant {
  readonly product: Product;
  readonly standard: Standard;
}

/** A fat test of the whole mix. */
export interface TestedFat {
  readonly fatFraction: number;
  /** Standard deviation of the mix's true fat about the result. */
  readonly sdFraction: number;
  readonly method: string;
}

export type Correction =
  | ({ readonly outcome: 'right as it is' } & Right)
  | ({ readonly outcome: 'additions' } & Additions)
  | ({ readonly outcome: 'cannot be brought back' } & NotBroughtBack)
  | { readonly outcome: 'refused'; readonly issues: readonly CorrectionIssue[] };

/** What is in the mixer once the test is believed. */
export interface TestedLine extends MixLine {
  /** The fat that the lot was said to have; the supply has the fat that follows from the test. */
  readonly saidFatFraction: number;
}

/** How a mix stands to its limits. */
export interface Standing {
  readonly totalKg: number;
  /** At the fat that was found. */
  readonly checks: readonly ExplainedCheck[];
  /** Where confidence was asked: each limit at the end of the likely fat that is worse for it. */
  readonly onUnsafeSide?: readonly Check[];
  readonly raw: Makeup;
  readonly finished: Makeup;
}

export interface Right {
  readonly mix: readonly TestedLine[];
  readonly before: Standing;
  readonly cautions: readonly string[];
}

export interface Additions extends Right {
  readonly after: Standing;
  /** What goes in, meat first. */
  readonly lines: readonly BlendLine[];
  /** What the mixer still holds beyond the new total. */
  readonly roomLeftKg: number;
  /** Cost of what is added; what is in the mixer is paid for. */
  readonly cost: number;
  /** Least cost before rounding to the scales, by the engine. */
  readonly unroundedCost: number;
  readonly leftOut: readonly LeftOut[];
}

export interface NotBroughtBack extends Right {
  readonly because: readonly Because[];
  /** The least total weight that would do it, where nothing but the mixer is too small. */
  readonly leastTotalKg?: number;
  readonly takeOut?: TakeOut;
  readonly fits: readonly Fit[];
  readonly leftOut: readonly LeftOut[];
}

/** A part of the mix that goes out, so that the rest can be brought back; worked out to the end. */
export interface TakeOut {
  readonly weight: PrintedWeight;
  readonly massKg: number;
  /** What stays in: every line in the share of the whole that it has in a mix that is even. */
  readonly rest: readonly MixLine[];
  readonly afterwards:
    | ({ readonly outcome: 'right as it is' } & Right)
    | ({ readonly outcome: 'additions' } & Additions);
}

/** Another product that the whole mix can become. */
export interface Fit {
  readonly productId: string;
  readonly productName: string;
  readonly outcome: 'right as it is' | 'additions';
  readonly lines: readonly BlendLine[];
  readonly totalKg: number;
  readonly cost: number;
  readonly cautions: readonly string[];
}

/** One thing wrong with what was asked, with the place in the request and the way out. */
export interface CorrectionIssue {
  readonly code: Issue['code'] | 'empty-mixer' | 'impossible-test' | 'bad-confidence' | 'bad-capacity';
  readonly path: readonly (string | number)[];
  readonly message: string;
}
