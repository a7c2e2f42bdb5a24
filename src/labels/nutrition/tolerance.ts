import { add, compare, type Exact, exact, multiply, subtract, toNumber, ZERO } from '../../exact.ts';
import { fixed } from '../../units.ts';
import { CA_CALORIES, CA_ROUNDING } from './canada-rules.ts';
import type { Nutrient } from './nutrient.ts';
import type { Nutrition } from './nutrition.ts';
import type { NutritionPanel, PanelRow } from './panel.ts';
import { unitOf } from './reading.ts';
import { type Band, rounded } from './rounding.ts';
import { US_CALORIES, US_ROUNDING } from './us-rules.ts';

/**
 * Nutrients of which an analysis may find a fifth more than the label says and no more, 9 CFR 317.309(h)(5); trans fat
 * and added sugars, "when the only source of sugars", stand with them in 21 CFR 101.9(g)(5). All others may be a fifth less,
 * (h)(4)(ii): nothing that gives them is added for its own sake.
 */
export const NOT_MORE: readonly Nutrient[] = [
  'fat',
  'saturated fat',
  'trans fat',
  'cholesterol',
  'sodium',
  'sugars',
  'added sugars',
];
const MOST_OF_LABEL = exact('1.2');
const LEAST_OF_LABEL = exact('0.8');

interface Tolerance {
  /** Declared amounts below this; the last has none. */
  readonly below?: Exact;
  /** Grams, or a share of what is declared. */
  readonly grams?: Exact;
  readonly share?: Exact;
}

const FIFTH = exact('0.2');
const wide = (grams: string): readonly Tolerance[] => [
  { below: exact(10), grams: exact(grams) },
  // 40 g itself is still within "10 to 40 g", where a fifth of it is the same 8 g.
  { below: exact(40), share: FIFTH },
  { grams: exact(8) },
];
const narrow = (below: string, grams: string): readonly Tolerance[] => [
  { below: exact(below), grams: exact(grams) },
  { share: FIFTH },
];

/** Both ways round what is declared: guidance of the Commission, December 2012, from memory, verify. */
export const EU_TOLERANCES: Readonly<Partial<Record<Nutrient, readonly Tolerance[]>>> = {
  fat: wide('1.5'),
  carbohydrate: wide('2'),
  sugars: wide('2'),
  protein: wide('2'),
  fiber: wide('2'),
  'saturated fat': narrow('4', '0.8'),
  'monounsaturated fat': narrow('4', '0.8'),
  'polyunsaturated fat': narrow('4', '0.8'),
  salt: narrow('1.25', '0.375'),
};

/**
 * What a label printed from a plan would declare wrongly of the batch as weighed, in words: figures beyond what the law
 * tolerates between label and analysis. Nothing where the plan had no panel.
 */
export function beyondTolerance(planned: Nutrition, now: Nutrition): string[] {
  const { panel } = planned;
  if (!panel) return [];
  if (!now.panel) return ['the batch as weighed has no panel: a figure that it must show is not known'];
  const perPanel = exact(panel.serving?.grams ?? 100);
  const amountOf = (per100g: number) => multiply(multiply(exact(per100g), perPanel), exact('0.01'));
  const size = panel.serving ? `a serving of ${panel.serving.grams} g` : '100 g';
  const energy = panel.energy.kcal === undefined ? [] : [energyIssue(panel, amountOf(now.energyKcalPer100g))];
  const rows = panel.rows.map((row) => {
    const figure = row.declares && now.per100g[row.declares.nutrient];
    return figure && rowIssue(panel.format, row, amountOf(Math.max(0, figure.amount)));
  });
  return [...energy, ...rows].filter((issue) => issue !== undefined).map((issue) => `${issue} in ${size}`);
}

function energyIssue({ format, energy }: NutritionPanel, found: Exact): string | undefined {
  // The European guidance gives no tolerance of energy: it follows from what gives it.
  if (format === 'eu table' || energy.kcal === undefined) return undefined;
  const declared = exact(energy.kcal);
  const rule = format === 'canada basic' ? CA_CALORIES : US_CALORIES;
  if (isAtMost(found, multiply(declared, MOST_OF_LABEL)) || roundsTo(declared, found, rule)) return undefined;
  return `${energy.label} ${energy.text} is printed, the batch has ${fixed(toNumber(found), 1)}`;
}

function rowIssue(format: NutritionPanel['format'], row: PanelRow, found: Exact): string | undefined {
  if (!row.declares) return undefined;
  const { nutrient, amount } = row.declares;
  const declared = exact(amount);
  const holds =
    format === 'eu table' ? isNear(nutrient, declared, found) : isAllowed(format, nutrient, declared, found);
  if (holds) return undefined;
  const printed = `${row.label} ${row.amount}`.trim();
  return `${printed} is printed, the batch has ${fixed(toNumber(found), 2)} ${unitOf(nutrient)}`;
}

/** What would be printed the same is right, though rounding alone may be more than a fifth of a small amount. */
function isAllowed(
  format: NutritionPanel['format'],
  nutrient: Nutrient,
  declared: Exact,
  found: Exact,
): boolean {
  const rules: Readonly<Partial<Record<Nutrient, readonly Band[]>>> =
    format === 'canada basic' ? CA_ROUNDING : US_ROUNDING;
  const rule = rules[nutrient];
  if (rule && roundsTo(declared, found, rule)) return true;
  if (NOT_MORE.includes(nutrient)) return isAtMost(found, multiply(declared, MOST_OF_LABEL));
  return isAtMost(multiply(declared, LEAST_OF_LABEL), found);
}

function roundsTo(declared: Exact, found: Exact, rule: readonly Band[]): boolean {
  return compare(rounded(found, rule).value, declared) === 0;
}

function isAtMost(a: Exact, b: Exact): boolean {
  return compare(a, b) <= 0;
}

/** Whether what was found lies within the tolerance of the guidance, ends included. */
export function isNear(nutrient: Nutrient, declared: Exact, found: Exact): boolean {
  const tolerance = EU_TOLERANCES[nutrient]?.find(({ below }) => !below || compare(declared, below) < 0);
  if (!tolerance) return true;
  const allowed = tolerance.grams ?? multiply(declared, tolerance.share ?? ZERO);
  return compare(found, add(declared, allowed)) <= 0 && compare(found, subtract(declared, allowed)) >= 0;
}
