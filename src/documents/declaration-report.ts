import { claimsToPrint } from '../labels/claims.ts';
import type { Declaration } from '../labels/declaration.ts';
import type { Nutrition } from '../labels/nutrition/nutrition.ts';
import type { NutritionPanel } from '../labels/nutrition/panel.ts';
import { fixed } from '../units.ts';
import { allergenText, statement } from './label-text.ts';
import type { Report, ReportPart } from './report.ts';

export interface DeclarationOf {
  readonly plant: string;
  readonly establishment: string;
  /** Absent for a label that is worked out without a batch. */
  readonly batchId?: string | undefined;
}

/** What a label must say, for the file and the inspector: every line with its rule, every figure with its source. */
export function declarationReport(
  label: Declaration,
  { plant, establishment, batchId }: DeclarationOf,
): Report {
  return {
    title: batchId === undefined ? 'Label declaration' : `Label declaration, batch ${batchId}`,
    plant,
    establishment,
    lines: [label.name],
    parts: [
      { title: 'What the label must say', table: table(['What', 'Text', 'Rule'], dutyRows(label)) },
      ...cautionsPart('Cautions', label.cautions),
      ingredientsPart(label),
      ...meatPart(label),
      ...claimsPart(label),
      ...(label.nutrition ? nutritionParts(label.nutrition) : []),
    ],
    notes: [
      'Text and rules; layout, type size and pictures are those of the label itself. Local rules and the inspector come before this page.',
    ],
  };
}

function table(titles: readonly string[], rows: readonly (readonly string[])[]) {
  return { titles, rows, none: 'Nothing.' };
}

function dutyRows(label: Declaration): string[][] {
  const rows = (what: string, ...duties: readonly ({ text: string; citation: string } | undefined)[]) =>
    duties.flatMap((duty) => (duty ? [[what, duty.text, duty.citation]] : []));
  return [
    ['Name', label.name, ''],
    ...rows('With the name', ...label.qualifiers),
    ...rows('Lean and fat', label.leanPair),
    ...claimsToPrint(label).map((claim) => ['Claim', claim, '']),
    ['Ingredients', statement(label.ingredients), ''],
    ['Allergens', allergenText(label.allergens), ''],
    ...rows('Origin', ...(label.origin ?? [])),
    ...rows('Meat content', label.meatContent),
    ...rows('Storage', label.storage),
    ...rows('Date', label.date),
    ...rows('Safe handling', label.safeHandling),
    ...rows('Inspection', label.inspection),
    ...rows('Maker', label.maker),
  ];
}

function cautionsPart(title: string, cautions: readonly string[]): ReportPart[] {
  return cautions.length === 0 ? [] : [{ title, lines: cautions.map((caution) => `! ${caution}`) }];
}

function ingredientsPart({ ingredients: { ingredients } }: Declaration): ReportPart {
  return {
    title: 'Ingredients by their share of what was put in',
    table: table(
      ['Name', 'Parts', 'Share %', 'Place'],
      ingredients.map(({ name, parts, fraction, inSmallGroup }) => [
        name,
        parts.join(', '),
        fixed(fraction * 100, 3),
        inSmallGroup ? 'last group, in any order' : 'by weight',
      ]),
    ),
  };
}

function meatPart({ meatContent }: Declaration): ReportPart[] {
  if (!meatContent) return [];
  const percent = (fraction: number) => fixed(fraction * 100, 2);
  return [
    {
      title: 'Meat as the label counts it, percent',
      table: table(
        ['Meat', 'Used', 'Declared', 'Fat in excess', 'Connective tissue in excess'],
        meatContent.meats.map((meat) => [
          meat.says,
          percent(meat.usedFraction),
          percent(meat.declaredFraction),
          percent(meat.excessFatFraction),
          percent(meat.excessConnectiveTissueFraction),
        ]),
      ),
    },
  ];
}

function claimsPart({ claims = [] }: Declaration): ReportPart[] {
  if (claims.length === 0) return [];
  return [
    {
      title: 'Claims that were asked for',
      table: table(
        ['', 'Claim', 'Because', 'Rule'],
        claims.map(({ says, holds, because, citation }) => [holds ? '✓' : 'NO', says, because, citation]),
      ),
    },
  ];
}

function nutritionParts(nutrition: Nutrition): ReportPart[] {
  const { panel, cautions } = nutrition;
  return [
    ...(panel ? [panelPart(panel)] : []),
    figuresPart(nutrition),
    sourcesPart(nutrition),
    ...cautionsPart('Cautions on the nutrition figures', cautions),
  ];
}

/** The panel as a table: how it must look is a matter of the label itself. */
function panelPart({
  title,
  serving,
  columns,
  energy,
  rows,
  footnotes,
  citation,
}: NutritionPanel): ReportPart {
  const servingLine = serving && [
    ...(serving.count === undefined ? [] : [`${serving.count}.`]),
    `Serving ${serving.size}, reference amount ${serving.referenceAmount} (${serving.citation}).`,
  ];
  return {
    title: `${title}, as the panel shows it`,
    lines: [`${citation}.`, ...(servingLine ? [servingLine.join(' ')] : []), ...footnotes],
    table: table(
      ['', 'Amount', columns.join(', ')],
      [
        [energy.label, energy.text, ''],
        ...rows.map(({ label, amount, dailyValue = '', level }) => [
          `${'– '.repeat(level)}${label}`,
          amount,
          dailyValue,
        ]),
      ],
    ),
  };
}

function figuresPart({ basis, energyKcalPer100g, energyKjPer100g, per100g }: Nutrition): ReportPart {
  return {
    title: 'Nutrition of 100 g, unrounded, and what brings it',
    lines: [basis],
    table: table(
      ['Nutrient', 'In 100 g', 'From', 'Without what these bring'],
      [
        ['energy', `${fixed(energyKjPer100g, 1)} kJ / ${fixed(energyKcalPer100g, 1)} kcal`, '', ''],
        ...Object.entries(per100g).map(([nutrient, { amount, unit, from, notKnown }]) => [
          nutrient,
          `${fixed(amount, 3)} ${unit}`,
          from.map((one) => `${one.material} ${fixed(one.amount, 3)}`).join('; '),
          notKnown.map(({ material, fraction }) => `${material}, ${fixed(fraction * 100, 2)} %`).join('; '),
        ]),
      ],
    ),
  };
}

/** Each material with where its figures stand, once. */
function sourcesPart({ per100g }: Nutrition): ReportPart {
  const sources = new Map<string, Set<string>>();
  for (const { material, source } of Object.values(per100g).flatMap(({ from }) => from)) {
    sources.set(material, (sources.get(material) ?? new Set()).add(source));
  }
  return {
    title: 'Where the nutrition figures come from',
    table: table(
      ['Material', 'Source'],
      [...sources].map(([material, of]) => [material, [...of].join('; ')]),
    ),
  };
}
