/**
 * A linear problem in plain numbers: the least cost over columns within their bounds such that every row lies
 * within its bounds. Nothing here knows what a column stands for.
 */
export interface LinearModel {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

export interface Column {
  readonly cost: number;
  readonly lower: number;
  /** Infinity when nothing but the rows holds it. */
  readonly upper: number;
}

export interface Row {
  readonly name: string;
  /** -Infinity when there is no lower bound. */
  readonly lower: number;
  /** Infinity when there is no upper bound. */
  readonly upper: number;
  readonly terms: readonly Term[];
}

export interface Term {
  /** Index into columns. */
  readonly column: number;
  readonly coefficient: number;
}

/** Values exist only where the answer is optimal. */
export type Outcome =
  | { readonly status: 'optimal'; readonly values: readonly number[]; readonly cost: number }
  | { readonly status: 'infeasible' }
  | { readonly status: 'unbounded' };

/** An engine is one function; it may trust the model to be guarded and scaled, and its answer is checked. */
export interface Engine {
  readonly name: string;
  readonly solve: (model: LinearModel) => Outcome;
}
