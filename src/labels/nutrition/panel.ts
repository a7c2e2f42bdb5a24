import type { Nutrient } from './nutrient.ts';

/** A nutrition panel as it is printed: words and rounded figures are final, only their place on paper is open. */
export interface NutritionPanel {
  readonly format: 'us vertical' | 'us simplified' | 'eu table' | 'canada basic';
  readonly title: string;
  /** Absent where the figures are for 100 g alone. */
  readonly serving?: {
    /** 'About 4 servings per container', or undefined where packs differ in weight. */
    readonly count?: string;
    /** '4 oz (112g)' */
    readonly size: string;
    readonly grams: number;
    /** The size was rounded from this reference amount, with its source. */
    readonly referenceAmount: string;
    readonly citation: string;
  };
  /** Heads of the columns of figures: ['% Daily Value*'] or ['per 100 g']. */
  readonly columns: readonly string[];
  readonly energy: {
    readonly label: string;
    readonly text: string;
    /** The kilocalories that stand there, for a check of what was weighed. */
    readonly kcal?: number;
  };
  readonly rows: readonly PanelRow[];
  /** Under the rows, each a paragraph. */
  readonly footnotes: readonly string[];
  readonly citation: string;
}

export interface PanelRow {
  readonly label: string;
  /** '22g', '75mg', 'less than 1g'; as printed. */
  readonly amount: string;
  /** '28%', where the format shows one for this nutrient. */
  readonly dailyValue?: string;
  /** 0 stands out, 1 and 2 are parts of the row above. */
  readonly level: 0 | 1 | 2;
  /** A heavy rule stands before it: the vitamins and minerals. */
  readonly isFirstOfGroup?: true;
  /** What stands there as a number, in the unit of the nutrient, for a check of what was weighed. */
  readonly declares?: { readonly nutrient: Nutrient; readonly amount: number };
}
