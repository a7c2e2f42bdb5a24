import type { HouseRules } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
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
    | 'too-big';
  readonly path: readonly (string | number)[];
  readonly message: string;
}
