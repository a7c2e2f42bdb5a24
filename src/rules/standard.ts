import type { Process } from '../batch/product.ts';
import type { Limit } from './limit.ts';

/** What the law says of one class of product. */
export interface Standard {
  readonly productClass: string;
  /** The name of the standard, in the trade's words. */
  readonly says: string;
  readonly citation: string;
  /** How the product is sold; a process that ends otherwise makes another product. */
  readonly cooking: Process['cooking'];
  /** Which limits hold; the figures live in src/standards. */
  readonly limits: readonly Limit[];
  readonly naming: Naming;
}

/** How the standard names its product on the label. */
export interface Naming {
  /** Absent where the standard covers many products: then the product's own common name stands. */
  readonly name?: string;
  /** 'lead' puts the species before the name when only one went in. */
  readonly species: 'in name' | 'lead' | 'none';
  /** Ground product may show its lean percent when the fat percent stands beside it (9 CFR 317.362(f)). */
  readonly leanPair: boolean;
  /** The name promises a cured product: without nitrite or nitrate it is sold as "Uncured" (9 CFR 319.2). */
  readonly impliesCure?: boolean;
}

/** The rules of one place. */
export interface RuleSet {
  readonly jurisdiction: string;
  readonly says: string;
  /** Which text was read, and up to when. */
  readonly edition: string;
  readonly standards: readonly Standard[];
}

/** The standard of a product class; undefined when the rule set has no such class. */
export function findStandard(ruleSet: RuleSet, productClass: string): Standard | undefined {
  return ruleSet.standards.find((standard) => standard.productClass === productClass);
}
