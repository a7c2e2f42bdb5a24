import type { CertainLimit, HouseRules } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
import type { Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import type { Standard } from '../rules/standard.ts';
import type { Engine } from '../solver/model.ts';

/** How big a batch: everything else follows. Raw weights unless said otherwise. */
export type BatchSize =
  | { readonly by: 'total'; readonly massKg: number }
  | { readonly by: 'meat'; readonly massKg: number }
  | { readonly by: 'finished'; readonly massKg: number }
  | { readonly by: 'pieces'; readonly pieces: number };

/** What the floor asks of the choice of lots, beyond cost and limits. */
export interface FloorWishes {
  /** Lots, by id, of which only whole boxes are taken. */
  readonly wholeBoxes?: readonly string[];
  /** Most meat lots in the batch. */
  readonly mostLots?: number;
  /** The fewest meat lots whose cost is at most this share above the least. */
  readonly simplestWithin?: number;
  /** As much of the older lots as this share above the least cost pays for. */
  readonly olderFirstWithin?: number;
  /** How far the batch may be from its asked size, as a share of it, so that boxes come out whole. */
  readonly sizeWithin?: number;
}

export interface FormulationRequest {
  readonly product: Product;
  readonly standard: Standard;
  readonly supplies: readonly Supply[];
  readonly size: BatchSize;
  /** Day of the batch, YYYY-MM-DD: use-by dates and limits in force are read against it. */
  readonly date: string;
  readonly plant: Plant;
  /** The plant's own limits and those of the law that it has switched off. */
  readonly houseRules?: HouseRules;
  /** Limits to be sure of in this batch, beside those of the house rules. */
  readonly certainty?: readonly CertainLimit[];
  /** Whole boxes, few lots, older lots first. */
  readonly wishes?: FloorWishes;
  /** Bounds to try in place of those of single limits of the house, as fractions. */
  readonly insteadOf?: readonly { readonly limitId: string; readonly bound: number }[];
  /** What could be bought, for a batch that has no blend: materials of the tables, with a price where one is known. */
  readonly couldBuy?: readonly { readonly material: Material; readonly costPerKg?: number }[];
  /** So many other blends at most, no more than this share above the least cost. */
  readonly nearBest?: { readonly count: number; readonly withinFraction: number };
  /** Whether to work out what limits and lots are worth as well. */
  readonly withPrices?: boolean;
  readonly engines: readonly Engine[];
}

/** One thing wrong with what was asked, with the place in the request and the way out. */
export interface Issue {
  readonly code:
    | 'no-supply'
    | 'no-meat'
    | 'unusable-demand'
    | 'no-piece-weight'
    | 'against-the-standard'
    | 'missing-figure'
    | 'below-the-scale'
    | 'unknown-limit'
    | 'engine-cannot'
    | 'too-big';
  readonly path: readonly (string | number)[];
  readonly message: string;
}
