import type { Declaration } from '../labels/declaration.ts';
import type { Duty } from '../labels/product-name.ts';

/** The label declaration as plain text, each line with the rule it comes from. */
export function labelText(label: Declaration): string {
  const duty = ({ text, citation }: Duty) => `  ${text}  [${citation}]`;
  return [
    'LABEL DECLARATION',
    `  ${label.name}`,
    ...label.qualifiers.map(duty),
    ...(label.leanPair ? [duty(label.leanPair)] : []),
    `  Ingredients: ${label.ingredients.text}`,
    `  ${label.allergens.text ?? 'None of the nine major allergens is listed for these materials; check the labels of their suppliers.'}`,
    ...(label.meatContent
      ? [`  Meat content: ${label.meatContent.text}  [${label.meatContent.citation}]`]
      : []),
    ...(label.storage ? [duty(label.storage)] : []),
    ...(label.safeHandling ? [duty(label.safeHandling)] : []),
    ...(label.inspection ? [duty(label.inspection)] : []),
    ...label.cautions.map((caution) => `  ! ${caution}`),
  ].join('\n');
}
