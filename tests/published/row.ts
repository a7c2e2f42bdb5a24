import type { Claim, Process } from '../../src/batch/product.ts';
import type { CA_ROUNDING } from '../../src/labels/nutrition/canada-rules.ts';
import type { EU_ROUNDING } from '../../src/labels/nutrition/eu-panel.ts';
import type { US_ROUNDING } from '../../src/labels/nutrition/us-rules.ts';
import type { Form, WorstOf } from '../../src/rules/form.ts';
import type { MeatDefinition } from '../../src/rules/forms/meat-content.ts';
import type { FORMS } from '../../src/rules/forms.ts';
import type { MassUnit } from '../../src/units.ts';
import type { Weighed } from '../helpers/materials.ts';

/** How the published figure was read. 'constructed' is arithmetic from a rule that was read. */
export const MARKS = [
  'official',
  'secondary',
  'from memory, verify',
  'common practice',
  'constructed',
] as const;
export type Mark = (typeof MARKS)[number];

export type FormName = keyof typeof FORMS & string;
/** Forms that are one sum, as a basis must be. */
export type BasisName = {
  [Name in FormName]: (typeof FORMS)[Name] extends Form ? Name : never;
}[FormName];

interface Source {
  readonly id: string;
  /** What the source says, as a sentence; it is the name of the test. */
  readonly says: string;
  readonly source: string;
  readonly mark: Mark;
}

/** The value of a form on a basis, read as parts per million, percent or kilograms of the numerator. */
export interface ValueRow extends Source {
  readonly kind: 'value';
  /** Of several forms the greatest. */
  readonly numerator: FormName;
  readonly basis: BasisName;
  readonly as: 'ppm' | 'percent' | 'kg';
  readonly lines: readonly Weighed[];
  readonly process?: Process;
  readonly published: number;
  /** Half a unit of the last printed digit; 0 where the source prints every digit. */
  readonly tolerance: number;
}

/** The most or the least of one line that a limit allows: the published figure holds, a step beyond it not. */
export interface BoundaryRow extends Source {
  readonly kind: 'boundary';
  readonly limitId: string;
  readonly line: Weighed;
  readonly beyond: string;
  readonly others: readonly Weighed[];
}

/** Whether a batch keeps a limit. */
export interface VerdictRow extends Source {
  readonly kind: 'verdict';
  readonly limitId: string;
  readonly lines: readonly Weighed[];
  readonly process?: Process;
  readonly holds: boolean;
}

/** Whether a standard lets a material in at all. */
export interface EntryRow extends Source {
  readonly kind: 'entry';
  readonly jurisdiction?: string;
  readonly productClass: string;
  readonly materialId: string;
  readonly allowed: boolean;
}

/** The printed figure of a limit, in the unit that people read. */
export interface PrintedRow extends Source {
  readonly kind: 'printed';
  readonly limitId: string;
  readonly published: number;
  readonly unit: 'percent' | 'ppm' | 'to 1';
  readonly numerator: Form | WorstOf;
  readonly basis: Form;
}

export interface ConversionRow extends Source {
  readonly kind: 'conversion';
  readonly value: number;
  readonly from: MassUnit;
  readonly to: MassUnit;
  readonly published: number;
  readonly tolerance: number;
}

/** value × numerator / denominator, printed at a fixed count of decimals. */
export interface QuotientRow extends Source {
  readonly kind: 'quotient';
  readonly value: string;
  readonly numerator: string;
  readonly denominator: string;
  readonly decimals: number;
  readonly published: string;
}

/** A share of the meat block that the product itself fixes, in the plant's own limits. */
export interface ShareRow extends Source {
  readonly kind: 'share';
  readonly materialId: string;
  readonly minFraction?: number;
  readonly maxFraction?: number;
  readonly lines: readonly Weighed[];
  readonly publishedPercent: number;
  readonly tolerance: number;
  readonly holds: boolean;
}

/** A least-cost blend with a published or closed-form answer. */
export interface BlendRow extends Source {
  readonly kind: 'blend';
  readonly productClass: string;
  readonly unit: 'lb' | 'kg';
  readonly total: number;
  /** Material, price for one unit of mass, what is on hand. */
  readonly supplies: readonly (readonly [materialId: string, price: number, onHand: number])[];
  readonly fat?: { readonly min?: number; readonly max?: number };
  /** Least share of the meat block for a material. */
  readonly least?: readonly [materialId: string, minFraction: number];
  readonly published: Readonly<Record<string, number>>;
  readonly publishedCost?: number;
  readonly tolerance: number;
}

/** The lean percent and the fat percent side by side on a ground product, and the fat that they promise. */
export interface PairRow extends Source {
  readonly kind: 'pair';
  readonly leanPercent: number;
  readonly published: string;
  readonly mostFat: string;
}

/** Grams of so many of a part in a gram of a whole, from atomic masses. */
export interface EquivalentRow extends Source {
  readonly kind: 'equivalent';
  readonly part: string;
  readonly whole: string;
  readonly count?: number;
  /** What the answer is multiplied by before it is compared, such as the milligrams asked about. */
  readonly of?: number;
  readonly published: number;
  readonly tolerance: number;
}

/** Parts per million that an agent of some strength brings. */
export interface DoseRow extends Source {
  readonly kind: 'dose';
  readonly agentKg: number;
  readonly strengthFraction: number;
  readonly basisKg: number;
  readonly publishedPpm: number;
  readonly tolerance: number;
}

/** The meat that a label declares, in percent of the finished product. */
export interface DeclaredRow extends Source {
  readonly kind: 'declared';
  readonly definition: MeatDefinition;
  /** What one kilogram of the meat holds. */
  readonly composition: {
    readonly fatFraction: number;
    readonly proteinFraction: number;
    readonly collagenFraction: number;
  };
  readonly meatPercent: number;
  readonly publishedDeclared: number;
  readonly publishedFat: number;
  readonly publishedTissue: number;
  readonly tolerance: number;
}

/** An amount as a nutrition panel prints it, by the rounding of a market. */
export interface RoundingRow extends Source {
  readonly kind: 'rounding';
  readonly rule:
    | 'us servings'
    | 'us calories'
    | 'us percent of minerals'
    | `us ${keyof typeof US_ROUNDING}`
    | `eu ${keyof typeof EU_ROUNDING}`
    | 'ca calories'
    | `ca ${keyof typeof CA_ROUNDING}`
    | 'whole';
  readonly value: string;
  readonly published: string;
}

/** A part of the label of a batch, in the words that are printed. */
export interface LabelRow extends Source {
  readonly kind: 'label';
  readonly jurisdiction: string;
  readonly productClass: string;
  readonly leanPercent?: number;
  readonly lines: readonly Weighed[];
  /** What it weighs when it is finished, where that is less than what went in. */
  readonly finishedKg?: number;
  readonly part: 'name' | 'first qualifier' | 'lean pair' | 'statement' | 'allergens';
  readonly published: string;
}

/** Whether a claim on nutrients may be made. */
export interface ClaimRow extends Source {
  readonly kind: 'claim';
  readonly claim: Claim;
  /** Grams of fat and of saturated fat, milligrams of cholesterol. */
  readonly per100g: readonly [fat: number, saturated: number, cholesterol: number];
  readonly referenceG: number;
  readonly holds: boolean;
}

export type PublishedRow =
  | LabelRow
  | ClaimRow
  | ValueRow
  | BoundaryRow
  | VerdictRow
  | EntryRow
  | PrintedRow
  | ConversionRow
  | QuotientRow
  | ShareRow
  | PairRow
  | EquivalentRow
  | DoseRow
  | DeclaredRow
  | RoundingRow
  | BlendRow;
