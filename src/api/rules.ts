import type { z } from 'zod';
import type { HouseRules } from '../batch/house-rules.ts';
import type { Product } from '../batch/product.ts';
import { houseLimits } from '../formulate/house-limits.ts';
import { FORMS } from '../rules/forms.ts';
import { applyHouseRules } from '../rules/house-rules.ts';
import { inForceOn } from '../rules/limit.ts';
import { notKnownOn, type RuleSet, type Standard } from '../rules/standard.ts';
import { laboratoryAnswer, limitAnswer } from './answers.ts';
import type { Desk } from './blending.ts';
import type { ruleSetsAnswer, rulesQuery } from './contract/resources.ts';
import { Problem } from './problem.ts';

/**
 * Limits in force on a day: of a whole place, of a class, or of a product of the plant with the house's own.
 * @throws Problem 'not-found' for a place, class, product or day that has no rules here.
 */
export function listRules(desk: Desk, query: z.output<typeof rulesQuery>) {
  const product = query.product === undefined ? undefined : productOf(desk, query.product);
  const jurisdiction = query.jurisdiction ?? product?.standard.jurisdiction ?? desk.data.plant.jurisdiction;
  const productClass = query.productClass ?? product?.standard.productClass;
  const date = query.date ?? desk.today();
  const ruleSet = ruleSetOf(desk, jurisdiction);
  const unknownDay = notKnownOn(ruleSet, date);
  if (unknownDay) throw new Problem('not-found', `${unknownDay}. Ask for a later day.`);
  return {
    jurisdiction,
    says: ruleSet.says,
    date,
    edition: ruleSet.edition,
    ...(product && { product: product.id }),
    standards: standardsOf(ruleSet, productClass).map((standard) =>
      standardAnswer(standard, date, product, desk.data.houseRules),
    ),
  };
}

/** The markets whose rules are known, without their limits, and what limits of the house may be made of. */
export function listRuleSets(ruleSets: readonly RuleSet[]): z.output<typeof ruleSetsAnswer> {
  return {
    items: ruleSets.map(({ standards, jurisdiction, says, edition, knownFrom }) => ({
      jurisdiction,
      says,
      edition,
      knownFrom,
      classes: standards.map(({ productClass, says: name, citation, cooking }) => ({
        productClass,
        says: name,
        citation,
        cooking: [...cooking],
      })),
    })),
    forms: Object.entries(FORMS).map(([name, form]) => ({
      name,
      says: form.says,
      canBeBasis: 'terms' in form,
    })),
  };
}

function productOf({ data }: Desk, id: string): Product {
  const stored = data.products.get(id);
  if (stored) return stored.product;
  const known = [...data.products.keys()].join(', ');
  throw new Problem('not-found', `No product has the id "${id}". The products are ${known}.`);
}

function ruleSetOf({ ruleSets }: Desk, wanted: string): RuleSet {
  const found = ruleSets.find(({ jurisdiction }) => jurisdiction === wanted);
  if (found) return found;
  const known = ruleSets.map(({ jurisdiction }) => jurisdiction).join(', ');
  throw new Problem('not-found', `There are no rules for "${wanted}". The jurisdictions are ${known}.`);
}

function standardsOf({ standards, says }: RuleSet, wanted: string | undefined): readonly Standard[] {
  const found = standards.filter(({ productClass }) => wanted === undefined || productClass === wanted);
  if (found.length > 0) return found;
  const known = standards.map(({ productClass }) => productClass).join(', ');
  throw new Problem('not-found', `"${wanted}" is no product class of ${says}. The classes are ${known}.`);
}

function standardAnswer(
  { limits, laboratory = [], cooking, says, citation, productClass }: Standard,
  date: string,
  product: Product | undefined,
  houseRules: HouseRules,
) {
  const law = inForceOn(limits, date);
  const applied = product ? applyHouseRules(law, houseRules, product) : { limits: law, switchedOff: [] };
  return {
    productClass,
    says,
    citation,
    cooking: [...cooking],
    limits: [...applied.limits, ...(product ? houseLimits(product, { citation }) : [])].map(limitAnswer),
    switchedOff: applied.switchedOff.map(({ limit, reason }) => ({ limit: limitAnswer(limit), reason })),
    laboratory: inForceOn(laboratory, date).map(laboratoryAnswer),
  };
}
