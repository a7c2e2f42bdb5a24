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
  /** Whether it takes whole numbers only. */
  readonly whole?: boolean;
}

export interface Row {
  readonly name: string;
  /** -Infinity when there is no lower bound. */
  readonly lower: number;
  /** Infinity when there is no upper bound. */
  readonly upper: number;
  readonly terms: readonly Term[];
  /** Whether it is one of the planes that touch a margin: they lie so near to each other that not every engine copes. */
  readonly plane?: boolean;
}

export interface Term {
  /** Index into columns. */
  readonly column: number;
  readonly coefficient: number;
}

/** Values exist only where the answer is optimal. */
export type Outcome = Optimum | { readonly status: 'infeasible' } | { readonly status: 'unbounded' };

export interface Optimum {
  readonly status: 'optimal';
  readonly values: readonly number[];
  readonly cost: number;
  /**
   * What one unit of each row's bound is worth: by how much the cost rises when the bound that holds the row is
   * raised by one. Absent where the engine does not tell, and where columns are whole.
   */
  readonly rowPrices?: readonly number[];
  /** With whole columns: the cost below which the engine reports that nothing lies. */
  readonly reportedBound?: number;
}

/** An engine is one function; it may trust the model to be guarded and scaled, and its answer is checked. */
export interface Engine {
  readonly name: string;
  /** Whether it can be asked this at all. */
  readonly takes: (model: LinearModel) => boolean;
  /** Whether it is a good one to ask first; the others are there for when it fails. */
  readonly suits: (model: LinearModel) => boolean;
  readonly solve: (model: LinearModel) => Outcome;
  /** Keeps a model alive for questions that differ by little; absent where the engine cannot. */
  readonly open?: (model: LinearModel) => OpenModel;
  /** Told whenever an answer of this engine was not believed. */
  readonly doubted?: (why: string) => void;
}

/** A model that stays with its engine, to be changed a little and solved again. */
export interface OpenModel {
  readonly setCost: (column: number, cost: number) => void;
  readonly setColumn: (column: number, lower: number, upper: number) => void;
  readonly setRow: (row: number, lower: number, upper: number) => void;
  readonly addRow: (row: Row) => void;
  readonly solve: () => Outcome;
  readonly close: () => void;
}
