import { claimsToPrint } from '../labels/claims.ts';
import type { Declaration } from '../labels/declaration.ts';
import type { Duty } from '../labels/names/product-name.ts';
import { nutritionLines } from './nutrition-text.ts';

/** The label declaration as plain text, each line with the rule it comes from. */
export function labelText(label: Declaration): string {
  const duty = ({ text, citation }: Duty) => `  ${text}  [${citation}]`;
  return [
    'LABEL DECLARATION',
    `  ${label.name}`,
    ...label.qualifiers.map(duty),
    ...(label.leanPair ? [duty(label.leanPair)] : []),
    ...claimsToPrint(label).map((claim) => `  ${claim}`),
    `  Ingredients: ${statement(label.ingredients)}`,
    `  ${allergenText(label.allergens)}`,
    ...(label.origin ?? []).map(duty),
    ...(label.meatContent
      ? [`  Meat content: ${label.meatContent.text}  [${label.meatContent.citation}]`]
      : []),
    ...(label.storage ? [duty(label.storage)] : []),
    ...(label.date ? [duty(label.date)] : []),
    ...(label.safeHandling ? [duty(label.safeHandling)] : []),
    ...(label.cookingInstruction ? [duty(label.cookingInstruction)] : []),
    ...(label.inspection ? [duty(label.inspection)] : []),
    ...(label.maker ? [duty(label.maker)] : []),
    ...(label.nutrition ? nutritionLines(label.nutrition) : []),
    ...label.cautions.map((caution) => `  ! ${caution}`),
  ].join('\n');
}

/** What stands out on the label stands in capitals here. */
export function statement({ text, runs }: Declaration['ingredients']): string {
  if (!runs) return text;
  return runs.map((run) => (run.emphasized ? run.text.toUpperCase() : run.text)).join('');
}

export function allergenText({ text, allergens, emphasized }: Declaration['allergens']): string {
  if (text) return text;
  if (allergens.length === 0) {
    return 'None of the allergens of this market is listed for these materials; check the labels of their suppliers.';
  }
  return emphasized
    ? `Allergens, which stand out in the ingredients: ${allergens.join(', ')}.`
    : `Allergens: ${allergens.join(', ')}.`;
}
