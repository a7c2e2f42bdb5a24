import type { Asking, Blend, BlendBody } from './asking.ts';
import type { ProductSeen } from './product-seen.ts';

/** A blend with what was asked for it, and the way to ask for another. */
export interface Viewed {
  readonly blend: Blend;
  readonly worth: NonNullable<Blend['worth']> | undefined;
  readonly product: ProductSeen;
  readonly asking: Asking;
  readonly onAsk: (change: Partial<Asking>) => void;
  readonly body: BlendBody;
}
