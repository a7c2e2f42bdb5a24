import type { Allergen, MaterialKind } from '../../batch/material.ts';
import type { Claim } from '../../batch/product.ts';
import type { Limit } from '../../rules/limit.ts';
import type { Nutrient } from '../nutrition/nutrient.ts';

/** What the label rules of one place ask for, as data: a file a place, which the modules of this folder's parent read. */
export interface Market {
  readonly jurisdiction: string;
  readonly statement: StatementRules;
  readonly allergens: AllergenRules;
  /** Claims that have a rule here; any other one is not made. */
  readonly claims: Readonly<Partial<Record<Claim, ClaimRule>>>;
  readonly keeping: KeepingRules;
  /** Where the animals of minced meat lived must be told. */
  readonly origin?: Cited;
  /** How well the rules are known, for whoever prints the label. */
  readonly caution?: string;
}

/** A rule and how its text was read. */
export interface Cited {
  readonly citation: string;
  readonly read: Limit['read'];
  /** Where poultry has a rule of its own with the same words. */
  readonly poultry?: Cited;
}

/** The citation as a label declaration shows it, with its mark where the text itself was not read. */
export function cite({ citation, read, poultry }: Cited, isPoultry = false): string {
  if (isPoultry && poultry) return cite(poultry);
  if (read === 'official') return citation;
  return `${citation}, ${read === 'from memory' ? 'from memory, verify' : read}`;
}

/** How an ingredient statement is written. */
export interface StatementRules extends Cited {
  /** Whether added water is ordered by what is left of it in the finished product. */
  readonly waterAsLeft: boolean;
  readonly lastGroup: LastGroup;
  /** Each ingredient begins with a large letter. */
  readonly isCapitalized?: true;
  readonly spices: SpiceRules;
  /** Sugars in one group under a name of their own. */
  readonly sugars?: { readonly word: string; readonly except: RegExp };
  /** Two meats that make up nearly all of it may change places and are joined by "and". */
  readonly interchange?: Interchange;
  /** Additives are declared by what they do and their name. */
  readonly additiveClasses?: readonly AdditiveClass[];
  /** Percent of meat and of what the name of the product mentions. */
  readonly quantities?: Cited;
}

/** What may stand last, whatever its order. */
export interface LastGroup {
  /** Most of the whole that any of it may be, exactly compared. */
  readonly bound: number;
  /** Whether the bound itself is too much. */
  readonly isOpen: boolean;
  /** Words before it, where the law asks for them. */
  readonly words?: string;
  /** Where not everything may stand in it: these kinds, spices and flavorings only where all of them keep the bound. */
  readonly kinds?: readonly MaterialKind[];
}

export interface SpiceRules {
  readonly word: string;
  /** Spices that are declared by their own name, whatever a table calls their kind. */
  readonly named: RegExp;
  /** Herbs, where they have a class of their own. */
  readonly herbs?: { readonly word: string; readonly which: RegExp };
  /** Most of the whole that a class name may stand for. */
  readonly most?: number;
}

export interface Interchange extends Cited {
  /** Least share of both together and of each in the meat block. */
  readonly together: number;
  readonly each: number;
}

export interface AdditiveClass {
  readonly word: string;
  readonly which: RegExp;
}

/** How allergens are declared. */
export interface AllergenRules extends Cited {
  /** In the order of the law. */
  readonly groups: readonly AllergenGroup[];
  /** A line of its own names them. */
  readonly containsLine: boolean;
  /** They stand out in the ingredient statement. */
  readonly emphasized: boolean;
  readonly sulfites: SulfiteRule;
}

export interface AllergenGroup {
  readonly word: string;
  readonly of: readonly Allergen[];
  /** Declared by the kind of nut, fish or shellfish. */
  readonly byKind?: true;
}

/** Sulfites, as sulfur dioxide of the finished product. */
export interface SulfiteRule extends Cited {
  readonly word: string;
  readonly mgPerKg: number;
  /** Whether the figure itself needs no declaration. */
  readonly isOpen: boolean;
  /** Declared like an allergen, or else by the name of what brings them. */
  readonly isAllergen: boolean;
}

/** A claim on nutrients: each line must hold. */
export interface ClaimRule extends Cited {
  readonly tests: readonly NutrientTest[];
}

export interface NutrientTest {
  readonly nutrient: Nutrient;
  readonly bound: number;
  readonly unit: 'g' | 'mg';
  /** Whether the bound itself is too much. */
  readonly isOpen: boolean;
  /** What the bound is on; a small reference amount is one of 30 g or less. */
  readonly per: '100 g' | 'reference amount' | '50 g, small reference amount';
}

/** How it is kept, until when, and who made it: words of the label. */
export interface KeepingRules {
  readonly storage: Cited & { readonly chilled: string; readonly frozen: string };
  /** Safe handling instructions of raw product. */
  readonly safeHandling?: Cited & { readonly text: string };
  /** What raw product asks of whoever cooks it, where a sentence does. */
  readonly cooking?: Cited & { readonly text: string };
  /** The mark of inspection with the number of the establishment between these words. */
  readonly inspection: Cited & { readonly before: string; readonly after: string };
  /** Words before the date: of what spoils fast and is dangerous then, of anything else, and the day of freezing. */
  readonly date?: Cited & { readonly perishable: string; readonly other: string; readonly frozen?: string };
  readonly maker: Cited;
}
