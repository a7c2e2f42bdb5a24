import type { MixLine } from '../../correct/tested-mix.ts';
import { mixKg } from '../../correct/tested-mix.ts';
import { exact, multiply, toNumber } from '../../exact.ts';
import { claimsToPrint } from '../../labels/claims.ts';
import { type Declaration, declare } from '../../labels/declaration.ts';
import { beyondTolerance } from '../../labels/nutrition/tolerance.ts';
import type { Basis } from '../../making/standing.ts';

/** What the label must say of what was really weighed in, which may be other lots than planned, or more of one. */

/** @param yieldFraction finished over raw weight. */
export function labelOfMix(
  { product, standard, plant, casing }: Basis,
  mix: readonly MixLine[],
  yieldFraction: number,
): Declaration {
  const lines = mix.map(({ supply, massKg }) => ({ supply, exactMassKg: massKg }));
  return declare(
    product,
    standard,
    { lines, finishedKg: toNumber(multiply(mixKg(mix), exact(yieldFraction))) },
    plant,
    casing,
  );
}

/** What a label printed from the plan would say wrongly, in words; nothing when it would be right. */
export function labelChanges(planned: Declaration, now: Declaration): string[] {
  const before = compared(planned);
  const texts = { planned: told(planned), now: told(now) };
  return [
    ...Object.entries(compared(now)).flatMap(([what, value]) => {
      const part = what as keyof typeof before;
      // What reads the same is the same, also where a label that was kept tells less about itself.
      return before[part] === value || texts.now[part] === texts.planned[part]
        ? []
        : [`${what}: "${texts.now[part]}" in place of "${texts.planned[part]}"`];
    }),
    ...nutritionChanges(planned, now),
  ];
}

/** Two batches of one product never have the same figures: a panel is wrong only beyond what the law tolerates. */
function nutritionChanges(planned: Declaration, now: Declaration): string[] {
  if (!planned.nutrition || !now.nutrition) return [];
  return beyondTolerance(planned.nutrition, now.nutrition).map((issue) => `nutrition: ${issue}`);
}

/** What of a label must be the same. */
function compared(label: Declaration) {
  const { ingredients } = label.ingredients;
  const names = (inSmall: boolean) =>
    ingredients
      .filter(({ inSmallGroup }) => inSmallGroup === inSmall)
      .map(({ name, parts, quantity }) => [name, ...parts, ...(quantity ? [quantity] : [])].join(', '));
  // Two meats joined by "and" stand in any order.
  const large = names(false);
  const joined = ingredients.findIndex(({ mayChangePlaces }) => mayChangePlaces);
  if (joined >= 0)
    large.splice(
      joined,
      2,
      large
        .slice(joined, joined + 2)
        .sort()
        .join(' and '),
    );
  return {
    ...told(label),
    // Those of 2 % or less stand in any order.
    ingredients: JSON.stringify([large, names(true).sort()]),
    // Whole percents, as labels show them: a hundredth more of the same meat is the same label.
    'meat content': (label.meatContent?.meats ?? [])
      .map(({ says, declaredFraction }) => `${says} ${Math.round(declaredFraction * 100)} %`)
      .join('; '),
  };
}

function told(label: Declaration) {
  const { name, qualifiers, leanPair, ingredients, allergens, meatContent, origin = [] } = label;
  return {
    name,
    qualifiers: qualifiers.map(({ text }) => text).join('; '),
    'lean and fat': leanPair?.text ?? '',
    ingredients: ingredients.text,
    allergens: allergens.text ?? (allergens.allergens.join(', ') || 'no allergens'),
    claims: claimsToPrint(label).join(', '),
    origin: origin.map(({ text }) => text).join('; '),
    'meat content': meatContent?.text ?? '',
  };
}
