import type { Supply } from '../batch/lot.ts';
import type { PrintedWeight } from '../batch/scale.ts';
import type { Exact } from '../exact.ts';
import type { ExplainedCheck } from '../rules/check.ts';
import type { Limit } from '../rules/limit.ts';
import type { Issue } from './request.ts';

/** The answer to one request. */
export type Formulation =
  | { readonly outcome: 'blend'; readonly blend: Blend }
  | {
      readonly outcome: 'no blend';
      readonly because: readonly Because[];
      readonly leftOut: readonly LeftOut[];
      /** Whether it is proven, in exact arithmetic, that there is none; otherwise no engine found one. */
      readonly proven: boolean;
      /** Present where it was asked for. */
      readonly wayOut?: WayOut;
    }
  | { readonly outcome: 'refused'; readonly issues: readonly Issue[] };

/** What cannot hold together, and what would help; every way was worked out in full before it is offered. */
export interface WayOut {
  readonly conflict: readonly ConflictPart[];
  readonly repairs: readonly Repair[];
}

/** One thing that takes part in a conflict. */
export interface ConflictPart {
  readonly kind: 'law' | 'house' | 'line' | 'stock' | 'demand' | 'size';
  readonly limitId?: string;
  readonly supplyId?: string;
  readonly says: string;
}

/** One change that leads to a blend. The law is never among them. */
export interface Repair {
  readonly kind:
    | 'target'
    | 'targets together'
    | 'rate'
    | 'buy'
    | 'smaller batch'
    | 'confidence'
    | 'demand'
    | 'wish';
  readonly says: string;
  readonly changes: readonly RepairChange[];
  /** Cost of a kilogram of the blend that it leads to, on printed weights; absent where a price is not known. */
  readonly costPerKg?: number;
}

export type RepairChange =
  | { readonly limitId: string; readonly from: number; readonly to: number; readonly unit: Limit['unit'] }
  | { readonly limitId: string; readonly confidenceFrom: number; readonly confidenceTo: number }
  | { readonly buyMaterialId: string; readonly massKg: number; readonly costPerKg?: number }
  | { readonly sizeFromKg: number; readonly sizeToKg: number }
  | { readonly materialId: string; readonly rateFrom: number; readonly rateTo: number }
  | { readonly sizeWithin: number }
  | { readonly mostLots: number }
  | { readonly withoutLeastOf: string }
  | { readonly withoutWish: string };

/** What goes into the batch, as it is printed: every figure follows from weights that a scale can show. */
export interface Blend {
  readonly lines: readonly BlendLine[];
  readonly loads: number;
  readonly batchKg: number;
  readonly loadKg: number;
  readonly greenWeightKg: number;
  readonly finishedKg: number;
  readonly cost: number;
  /** Least cost of the unrounded problem, by the engine: what rounding to the scale costs is the difference. */
  readonly unroundedCost: number;
  /** How near the cost is to the least possible, proven. */
  readonly proof: CostProof;
  /** How likely limits are to hold, where the fat of the lots is uncertain. */
  readonly certainty: readonly Certainty[];
  /** What being as sure as asked costs, before rounding; absent where nothing was asked. */
  readonly costOfCertainty?: number;
  /** What preferring older lots adds to the least cost, before rounding; absent where it was not asked for. */
  readonly costOfOlderFirst?: number;
  /** How the choice of lots stands, where whole boxes or few lots were asked for. */
  readonly choice?: Choice;
  /** What limits and lots are worth; absent where it was not asked for. */
  readonly worth?: Worth;
  /** The next best blends of other lots, the cheapest first; absent where it was not asked for. */
  readonly nearBest?: readonly NearBest[];
  readonly checks: readonly ExplainedCheck[];
  /** Limits of the law that the house does not hold, and how the batch stands to them. */
  readonly switchedOff: readonly SwitchedOff[];
  readonly raw: Makeup;
  readonly finished: Makeup;
  readonly leftOut: readonly LeftOut[];
  readonly cautions: readonly string[];
}

export interface BlendLine {
  readonly supply: Supply;
  /** Absent where the blend decides. */
  readonly asked?: AskedRate;
  /** In one load. */
  readonly weight: PrintedWeight;
  /** Weight in the whole batch. */
  readonly massKg: number;
  readonly exactMassKg: Exact;
  readonly cost: number;
}

/** The rate that a fixed seasoning line asks for. */
export interface AskedRate {
  readonly fraction: number;
  readonly basis: string;
  /** What it is on the printed weights, all lots of the material together. */
  readonly actualFraction: number;
  /** Other supplies that make up the rate together with this line. */
  readonly togetherWith: readonly string[];
}

/** An exact statement on cost: no blend of the same size and the same fixed lines costs less than leastCost. */
export interface CostProof {
  /** Among which blends: 'of this weight and with its seasoning as weighed'. */
  readonly among: string;
  readonly leastCost: number;
  /** Cost of the printed weights above it; never negative. */
  readonly aboveLeast: number;
  /** The same as a share of leastCost; absent where nothing costs anything. */
  readonly withinFraction?: number;
}

/** How likely one limit is to hold in the batch as weighed. */
export interface Certainty {
  readonly limit: Limit;
  readonly probability: number;
  /** Standard deviation of what is counted, as a fraction of the basis. */
  readonly sdFraction: number;
  /** What was asked for. */
  readonly confidence?: number;
}

/** A choice of lots in whole numbers. Its least cost is what the engine reports; no proof stands behind it. */
export interface Choice {
  readonly reportedLeastCost: number;
  /** Least cost of such a choice before rounding to the scales; what older lots add is told apart. */
  readonly cost: number;
}

/** What the blend says of money, in the trade's terms. All before rounding to the scales. */
export interface Worth {
  readonly limits: readonly LimitWorth[];
  readonly lines: readonly LineWorth[];
  /** What one unit of the plant's more of the asked size costs; absent when no bigger batch can be made. */
  readonly nextUnit?: { readonly of: string; readonly costs: number };
  readonly notUsed: readonly NotUsedWorth[];
  readonly used: readonly UsedWorth[];
}

/** A blend of another choice of meat lots that costs little more. */
export interface NearBest {
  readonly blend: Blend;
  /** What a kilogram of it costs more than one of the printed blend, as a share; a hair below 0 by rounding at most. */
  readonly aboveFraction: number;
  /** Meat lots of the cheapest blend that it does without, and those it takes in their place. */
  readonly without: readonly string[];
  readonly withInstead: readonly string[];
}

/** A limit that presses on the cost. */
export interface LimitWorth {
  readonly limit: Limit;
  /** A step of its bound: 0.01 for a point, 0.00001 for 10 ppm. */
  readonly stepFraction: number;
  /** What one step more of room saves on a kilogram of batch, at first. */
  readonly savesPerKg: number;
  /** Limits that press at the same place: room in this one saves only with the same room in those. */
  readonly togetherWith: readonly Limit[];
}

/** A fixed line of the recipe: what a tenth of a point more of it does to a kilogram of batch. */
export interface LineWorth {
  readonly materialId: string;
  readonly stepFraction: number;
  readonly costsPerKg: number;
}

/** A supply that did not go in, and the price below which it would; absent when it would not at any price. */
export interface NotUsedWorth {
  readonly supply: Supply;
  readonly wouldEnterBelowPerKg?: number;
}

/** A supply in use. */
export interface UsedWorth {
  readonly supply: Supply;
  /**
   * The prices between which this blend stays best; without an upper end at any higher price. Absent where a margin
   * is asked of a limit: there the blend shifts a little with every price.
   */
  readonly best?: { readonly fromPerKg: number; readonly toPerKg?: number };
  /** What one unit of the plant's more of it saves. */
  /** Absent where more of it lies there than is used. */
  readonly oneUnitMoreSaves?: number;
}

/** A limit set aside. Without a check where a figure that it needs is unknown. */
export interface SwitchedOff {
  readonly limit: Limit;
  readonly reason: string;
  readonly check?: ExplainedCheck;
}

/** Fractions of the batch or of the finished product. */
export interface Makeup {
  readonly fatFraction: number;
  readonly waterFraction: number;
  readonly proteinFraction: number;
  readonly saltFraction: number;
}

export interface LeftOut {
  readonly supply: Supply;
  readonly because: string;
}

/** One reason why nothing fits, and the way out. */
export interface Because {
  readonly limit?: Limit;
  readonly message: string;
}
