import type { Weighed } from '../../helpers/materials.ts';

/** What every limit of a rule set must do to test materials, worked out on paper from its words. */
export interface LimitCases {
  /**
   * For every limit with a figure: two materials whose weights put the batch exactly at the bound, the first of which
   * must not grow under a maximum nor shrink under a minimum. Where no decimal weight is exact (an ion, another
   * salt, a target) two batches less than a tenth of a percent apart instead.
   */
  readonly atTheBound: Readonly<Record<string, AtTheBound | Bracket>>;
  /** For every limit of nothing: all the test materials that it keeps out. The rest it lets in. */
  readonly keptOut: Readonly<Record<string, readonly string[]>>;
  /** For every limit that asks for something: the materials that bring it. */
  readonly brings: Readonly<Record<string, readonly string[]>>;
}

export type AtTheBound = readonly [counted: Weighed, other: Weighed];

/** The first line of both is the one that counts; one of the two batches holds and the other does not. */
export interface Bracket {
  readonly holds: readonly Weighed[];
  readonly fails: readonly Weighed[];
}
