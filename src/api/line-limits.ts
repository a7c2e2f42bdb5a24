import { houseLimits } from '../formulate/house-limits.ts';
import { applyHouseRules } from '../rules/house-rules.ts';
import { inForceOn, inShownUnit } from '../rules/limit.ts';
import { lineLimits } from '../rules/line-limits.ts';
import { findStandard, notKnownOn } from '../rules/standard.ts';
import { materialIssues } from '../tables/products.ts';
import { limitAnswer } from './answers.ts';
import type { Desk } from './blending.ts';
import { type LineLimitsAnswer, lineLimitsRequestSchema } from './contract/line-limits.ts';
import { parseOrProblem } from './parse.ts';
import { fieldErrors, Problem } from './problem.ts';
import { standardIssues } from './stock/products.ts';

/**
 * What the limits of a product leave of each of its seasoning lines, for whoever writes the recipe.
 * @throws Problem when the product cannot be used.
 */
export async function lineLimitsOf(desk: Desk, body: unknown): Promise<LineLimitsAnswer> {
  const { product, date = desk.today() } = parseOrProblem(lineLimitsRequestSchema, body);
  const { materials, houseRules } = desk.data;
  const issues = [...materialIssues(product, materials), ...standardIssues(product.standard, desk.ruleSets)];
  const ruleSet = desk.ruleSets.find(({ jurisdiction }) => jurisdiction === product.standard.jurisdiction);
  const standard = ruleSet && findStandard(ruleSet, product.standard.productClass);
  if (issues.length > 0 || !ruleSet || !standard) {
    const placed = issues.map(({ path, message }) => ({ path: ['product', ...path], message }));
    throw new Problem('cannot-be-used', 'The product cannot be used.', { errors: fieldErrors(placed) });
  }
  const unknownDay = notKnownOn(ruleSet, date);
  if (unknownDay) throw new Problem('not-found', `${unknownDay}. Ask for a later day.`);
  const limits = [
    ...applyHouseRules(inForceOn(standard.limits, date), houseRules, product).limits,
    // The range of a line is what the recipe itself says of it.
    ...houseLimits(product, standard).filter(({ id }) => !id.startsWith('house-line-')),
  ];
  return {
    date,
    lines: lineLimits(product, materials, limits).map((found, index) => ({
      materialId: product.seasoning[index]?.materialId ?? '',
      limits: found.map(({ limit, valueFraction, ...rest }) => ({
        limit: limitAnswer(limit),
        value: inShownUnit(valueFraction, limit.unit),
        ...rest,
      })),
    })),
  };
}
