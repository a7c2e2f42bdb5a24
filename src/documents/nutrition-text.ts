import type { Nutrition } from '../labels/nutrition/nutrition.ts';
import type { NutritionPanel } from '../labels/nutrition/panel.ts';
import { fixed } from '../units.ts';
import { left, right, textTable } from './text-table.ts';

/** Nutrition of a label as lines of plain text: the panel where there is one, or the figures of 100 g. */
export function nutritionLines(nutrition: Nutrition): string[] {
  const { panel, basis, cautions } = nutrition;
  return [
    ...(panel ? panelLines(panel) : figureLines(nutrition)),
    `  ${basis}`,
    ...cautions.map((caution) => `  ! ${caution}`),
  ];
}

function panelLines({
  title,
  serving,
  columns,
  energy,
  rows,
  footnotes,
  citation,
  format,
}: NutritionPanel): string[] {
  // A table for 100 g has its amounts under the head of the column, others beside the name.
  const [column = ''] = columns;
  const isPer100g = format === 'eu table';
  const indented = (text: string, level: number) => `${'  '.repeat(level)}${text}`;
  const head = isPer100g ? [left(''), right(column)] : [left(''), right('amount'), right(column)];
  const lines = textTable(head, [
    [energy.label, energy.text],
    ...rows.map(({ label, amount, dailyValue = '', level }) => [indented(label, level), amount, dailyValue]),
  ]);
  return [
    `  ${title}  [${citation}]`,
    ...(serving ? [servingLine(serving)] : []),
    ...[...lines, ...footnotes].map((line) => `    ${line}`),
  ];
}

function servingLine({ count, size, referenceAmount, citation }: NonNullable<NutritionPanel['serving']>) {
  const said = [...(count === undefined ? [] : [count]), size].join(', ');
  return `    ${said} (reference amount ${referenceAmount})  [${citation}]`;
}

function figureLines({ energyKcalPer100g, energyKjPer100g, per100g }: Nutrition): string[] {
  const known = Object.entries(per100g).filter(({ 1: { notKnown } }) => notKnown.length === 0);
  const lines = textTable(
    [left(''), right('in 100 g')],
    [
      ['energy', `${fixed(energyKjPer100g, 0)} kJ / ${fixed(energyKcalPer100g, 0)} kcal`],
      ...known.map(([nutrient, { amount, unit }]) => [nutrient, `${fixed(amount, 2)} ${unit}`]),
    ],
  );
  return ['  Nutrition of 100 g, for no label as it stands', ...lines.map((line) => `    ${line}`)];
}
