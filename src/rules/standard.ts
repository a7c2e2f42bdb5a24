import type { Cooking } from '../batch/product.ts';
import type { MeatDefinition } from './forms/meat-content.ts';
import type { Limit, Span } from './limit.ts';

/** What the law says of one class of product. */
export interface Standard {
  readonly productClass: string;
  /** The name of the standard, in the trade's words. */
  readonly says: string;
  readonly citation: string;
  /** How the product may be sold; a process that ends otherwise makes another product. */
  readonly cooking: readonly Cooking[];
  /** Which limits hold; the figures live in src/standards. */
  readonly limits: readonly Limit[];
  /** What the law asks that no formula can show. */
  readonly laboratory?: readonly LaboratoryLimit[];
  /** The meat that the label declares as a percentage, where the law adjusts it. */
  readonly meatContent?: MeatContent;
  /** What is eaten of it at one time, from which the serving of a nutrition panel follows; by how it is sold. */
  readonly referenceAmounts?: Readonly<Partial<Record<Cooking, ReferenceAmount>>>;
  readonly naming: Naming;
}

/** What the law takes to be eaten of a kind of food at one time. */
export interface ReferenceAmount {
  readonly grams: number;
  /** The kind of food as the law lists it. */
  readonly says: string;
  readonly citation: string;
  readonly read: Limit['read'];
}

/**
 * A limit on what a laboratory finds (a residue, a pH, a water activity): the weights that go in cannot prove it, so
 * it is shown as needing a test and never as met.
 */
export interface LaboratoryLimit {
  readonly id: string;
  /** The rule in the trade's words, a whole sentence with its figure. */
  readonly says: string;
  readonly citation: string;
  readonly read: Limit['read'];
  readonly inForce?: Span;
  readonly note?: string;
}

/** How much meat a label declares: what counts as meat, each with the name it is declared by. */
export interface MeatContent {
  readonly citation: string;
  readonly read: Limit['read'];
  readonly meats: readonly MeatDefinition[];
}

/** How the standard names its product on the label. */
export interface Naming {
  /** Absent where the standard covers many products: then the product's own common name stands. */
  readonly name?: string;
  /** 'lead' puts the species before the name when only one went in. */
  readonly species: 'in name' | 'lead' | 'none';
  /** Ground product may show its lean percent when the fat percent stands beside it (9 CFR 317.362(f), 381.462(f)). */
  readonly leanPair: boolean;
  /** The name promises a cured product: without nitrite or nitrate it is sold as "Uncured" (9 CFR 319.2). */
  readonly impliesCure?: boolean;
}

/** Whether a product of the United States stands in the rules for poultry, part 381 of title 9, and not in those for meat. */
export function isPoultryProduct({ citation }: Pick<Standard, 'citation'>): boolean {
  return citation.includes('9 CFR 381');
}

/** Where it is written that ground product may show its lean percent beside its fat percent. */
export function leanPairCitation(standard: Pick<Standard, 'citation'>): string {
  return isPoultryProduct(standard) ? '9 CFR 381.462(f)' : '9 CFR 317.362(f)';
}

/** The rules of one place. */
export interface RuleSet {
  readonly jurisdiction: string;
  readonly says: string;
  /** Which text was read, and up to when. */
  readonly edition: string;
  /** The first day (YYYY-MM-DD) for which these rules are known. */
  readonly knownFrom: string;
  readonly standards: readonly Standard[];
}

/** The standard of a product class; undefined when the rule set has no such class. */
export function findStandard(ruleSet: RuleSet, productClass: string): Standard | undefined {
  return ruleSet.standards.find((standard) => standard.productClass === productClass);
}

/** Why a rule set has nothing to say of a day; undefined when it has. */
export function notKnownOn({ says, knownFrom }: RuleSet, date: string): string | undefined {
  return date < knownFrom
    ? `${date} lies before ${knownFrom}, from when on the rules of ${says} are known here`
    : undefined;
}
