import type { GivenWeight, PackFormat, Product } from '../../batch/product.ts';
import { compare, type Exact, exact, multiply } from '../../exact.ts';
import { KILOGRAMS_PER } from '../../units.ts';
import type { NutritionPanel } from '../nutrition/panel.ts';
import { quotient } from '../nutrition/quotient.ts';
import { countText } from '../nutrition/serving.ts';
import { LabelRefused } from './label-refused.ts';

/**
 * The panel as it stands on one pack: it was worked out for the usual pack of the product, and servings per container
 * are those of this one (9 CFR 317.309(b)(10)).
 * @throws LabelRefused where the serving itself would be another.
 */
export function panelOnPack(
  panel: NutritionPanel,
  { label }: Product,
  format: PackFormat | undefined,
  net: GivenWeight,
): NutritionPanel {
  const { serving } = panel;
  const [usual] = label.packs ?? [];
  if (!serving || !panel.format.startsWith('us') || isAlike(usual, format, net)) return panel;
  const isInOunces = / oz \(/.test(serving.size);
  const isWeighed = format !== undefined && !format.netWeight;
  if (isWeighed && isInOunces) return withCount(panel, 'Varied servings per container');
  const grams = multiply(inKg(net), exact(1000));
  const isOneServing = compare(grams, exact(2 * serving.grams)) < 0;
  if (isWeighed || isOneServing || serving.size.startsWith('1 package')) {
    throw new LabelRefused([
      `The nutrition panel of this batch has its serving from another pack (${serving.size}), and this one asks for its own. Make this pack the first of the product's packs before the batch is planned.`,
    ]);
  }
  return withCount(panel, countText(quotient(grams, exact(serving.grams))));
}

function withCount(panel: NutritionPanel, count: string): NutritionPanel {
  return panel.serving ? { ...panel, serving: { ...panel.serving, count } } : panel;
}

function isAlike(usual: PackFormat | undefined, format: PackFormat | undefined, net: GivenWeight): boolean {
  if (!usual) return false;
  if (!usual.netWeight) return format !== undefined && !format.netWeight;
  const isFixed = !format || format.netWeight !== undefined;
  return (
    isFixed && compare(inKg(usual.netWeight), inKg(net)) === 0 && (!format || usual.pieces === format.pieces)
  );
}

function inKg({ value, unit }: GivenWeight): Exact {
  return multiply(exact(value), KILOGRAMS_PER[unit]);
}
