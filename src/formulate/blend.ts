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
    }
  | { readonly outcome: 'refused'; readonly issues: readonly Issue[] };

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
