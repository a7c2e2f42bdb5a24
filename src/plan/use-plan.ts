import type { HouseRules } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import type { Blend, LeftOut } from '../formulate/blend.ts';
import type { Issue } from '../formulate/request.ts';
import type { Standard } from '../rules/standard.ts';
import type { Engine } from '../solver/model.ts';

export const AIMS = ['margin', 'oldest lots first'] as const;
export type Aim = (typeof AIMS)[number];

/** Share of the best margin given up for the oldest lots where nothing else is said. Own judgement. */
export const USUAL_WITHIN = 0.05;

/** A product that could be made, and what a kilogram of it sells for. */
export interface Candidate {
  readonly product: Product;
  readonly standard: Standard;
  /** Selling price of a finished kilogram, in the plant's currency. */
  readonly pricePerKg: number;
  /** Finished kilograms worth setting up for: so much is made of it, or none. */
  readonly leastKg?: number;
  /** Finished kilograms that can be sold. */
  readonly mostKg?: number;
}

/** What the trim on hand should become. */
export interface UsePlanRequest {
  readonly candidates: readonly Candidate[];
  /**
   * Lots on hand and materials bought without a lot. The most to use of one holds for all products together; a least
   * is a wish about one batch and is not read here.
   */
  readonly supplies: readonly Supply[];
  /** Day of the batches, YYYY-MM-DD. */
  readonly date: string;
  readonly plant: Plant;
  readonly houseRules?: HouseRules;
  readonly engines: readonly Engine[];
  readonly aim: Aim;
  /** With 'oldest lots first': the share of the best margin that may be given up for it. */
  readonly withinFraction?: number;
  /**
   * Whether lots count as costing nothing. By default a lot counts at its cost, because what is not used today has a
   * value elsewhere: it saves buying tomorrow, or is sold as it is. Meat that would be thrown away has none.
   */
  readonly lotsAreSunk?: boolean;
}

/** One thing wrong with a request for a plan; the path is that of the request as it is sent. */
export interface PlanIssue extends Omit<Issue, 'code'> {
  readonly code: Issue['code'] | 'no-product' | 'repeated-product' | 'no-price' | 'wrong-amount';
}

export type UsePlan =
  | UseUpPlan
  | {
      readonly outcome: 'nothing to make';
      readonly notMade: readonly NotMade[];
      readonly leftOut: readonly LeftOut[];
    }
  | { readonly outcome: 'refused'; readonly issues: readonly PlanIssue[] };

/** Which products, how much of each, and from which lots. Money is in the plant's currency. */
export interface UseUpPlan {
  readonly outcome: 'plan';
  readonly products: readonly PlannedProduct[];
  readonly notMade: readonly NotMade[];
  readonly lots: readonly LotUse[];
  /** Lots that none of the products can take. */
  readonly leftOut: readonly LeftOut[];
  /** The best margin of any plan, before rounding to the scales. */
  readonly bestMargin: number;
  /** Margin of this plan, before rounding to the scales. */
  readonly plannedMargin: number;
  /** Margin of the batches as weighed; a batch that cannot be weighed adds nothing. */
  readonly printedMargin: number;
  readonly cautions: readonly string[];
}

export interface PlannedProduct {
  readonly product: Product;
  readonly standard: Standard;
  readonly pricePerKg: number;
  /** Before rounding to the scales. */
  readonly planned: PlannedAmount;
  readonly weighed: Weighed;
}

export interface PlannedAmount {
  readonly rawKg: number;
  readonly finishedKg: number;
  readonly margin: number;
}

/** The batch on the scales of the plant, or why it cannot be weighed. */
export type Weighed =
  | { readonly blend: Blend; readonly margin: number; readonly because?: undefined }
  | { readonly blend?: undefined; readonly because: readonly string[] };

/** A product that is not in the plan. */
export interface NotMade {
  readonly product: Product;
  readonly because: readonly string[];
}

/** A lot that at least one of the products can take. */
export interface LotUse {
  readonly supply: Supply;
  /** Before rounding to the scales. */
  readonly plannedKg: number;
  /** In the batches as weighed. */
  readonly usedKg: number;
  readonly leftKg: number;
  /** Days from the day of the batches to its use-by date: 0 on that date. Absent without such a date. */
  readonly daysToUseBy?: number;
  /**
   * What one kilogram more of it, bought at its own cost, would add to the best margin, with the same choice of
   * products that have a least amount. Before rounding to the scales.
   */
  readonly oneKgMoreAdds: number;
}
