import { compare, type Exact, exact, isZero, multiply, toNumber, ZERO } from '../../exact.ts';
import type { ReferenceAmount } from '../../rules/standard.ts';
import { energyIn, type Facts, inGrams } from './facts.ts';
import type { NutritionPanel, PanelRow } from './panel.ts';
import { HUNDRED, quotient } from './quotient.ts';
import { unitOf } from './reading.ts';
import { rounded, roundedText } from './rounding.ts';
import type { Serving } from './serving.ts';
import {
  US_CALORIES,
  US_DAILY_VALUES,
  US_PERCENT,
  US_PERCENT_OF_MINERALS,
  US_ROUNDING,
  type UsNutrient,
} from './us-rules.ts';

interface Line {
  readonly nutrient: UsNutrient;
  readonly label: string;
  readonly level: PanelRow['level'];
  /** In the sentence on what it is no significant source of. */
  readonly says: string;
}

/** Order and names of 21 CFR 101.9(c) and (f) as amended in 2016; vitamins and minerals by (c)(8)(ii). */
const LINES: readonly Line[] = [
  { nutrient: 'fat', label: 'Total Fat', level: 0, says: 'total fat' },
  { nutrient: 'saturated fat', label: 'Saturated Fat', level: 1, says: 'saturated fat' },
  { nutrient: 'trans fat', label: 'Trans Fat', level: 1, says: 'trans fat' },
  { nutrient: 'cholesterol', label: 'Cholesterol', level: 0, says: 'cholesterol' },
  { nutrient: 'sodium', label: 'Sodium', level: 0, says: 'sodium' },
  { nutrient: 'carbohydrate', label: 'Total Carbohydrate', level: 0, says: 'total carbohydrate' },
  { nutrient: 'fiber', label: 'Dietary Fiber', level: 1, says: 'dietary fiber' },
  { nutrient: 'sugars', label: 'Total Sugars', level: 1, says: 'total sugars' },
  { nutrient: 'added sugars', label: 'Added Sugars', level: 2, says: 'added sugars' },
  { nutrient: 'protein', label: 'Protein', level: 0, says: 'protein' },
  { nutrient: 'vitamin D', label: 'Vitamin D', level: 0, says: 'vitamin D' },
  { nutrient: 'calcium', label: 'Calcium', level: 0, says: 'calcium' },
  { nutrient: 'iron', label: 'Iron', level: 0, says: 'iron' },
  { nutrient: 'potassium', label: 'Potassium', level: 0, says: 'potassium' },
];
export const US_MUST_SHOW: readonly UsNutrient[] = LINES.map(({ nutrient }) => nutrient);

const VITAMINS_AND_MINERALS: readonly UsNutrient[] = ['vitamin D', 'calcium', 'iron', 'potassium'];
/** They stand there however little there is (9 CFR 317.309(f)(2)(i)). */
const CORE: readonly UsNutrient[] = ['fat', 'sodium', 'carbohydrate', 'protein'];
/** Insignificant below 1 g; all others where they round to nothing (21 CFR 101.9(f)(1), (j)(4)). */
const BELOW_A_GRAM: readonly UsNutrient[] = ['carbohydrate', 'fiber', 'protein'];
const ONE_GRAM = exact(1);
/** "Insignificant amounts of eight or more" of calories and the rows, 21 CFR 101.9(f). */
const ENOUGH_FOR_SIMPLIFIED = 8;

/** 21 CFR 101.9(d)(9); the abbreviation stands in the sample labels of (d)(12). */
const FOOTNOTE =
  '*The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily diet. 2,000 calories a day is used for general nutrition advice.';

/** The panel of the United States, of amounts in a serving that are all known. */
export function usPanel(
  facts: Facts,
  serving: Serving,
  reference: ReferenceAmount,
  rules: string,
): NutritionPanel {
  const amounts = LINES.map((line) => ({ line, amount: inGrams(facts, line.nutrient, serving.grams) }));
  const calories = rounded(energyIn(facts, 'kcal', serving.grams), US_CALORIES);
  const small = amounts.filter(({ line, amount }) => isInsignificant(line.nutrient, amount));
  const isSimplified = small.length + (isZero(calories.value) ? 1 : 0) >= ENOUGH_FOR_SIMPLIFIED;
  const omitted = isSimplified ? small.filter(({ line }) => !CORE.includes(line.nutrient)) : [];
  const shown = amounts.filter((entry) => !omitted.includes(entry));
  const firstMineral = shown.find(({ line }) => VITAMINS_AND_MINERALS.includes(line.nutrient));
  return {
    format: isSimplified ? 'us simplified' : 'us vertical',
    title: 'Nutrition Facts',
    serving: {
      ...(serving.count !== undefined && { count: serving.count }),
      size: serving.size,
      grams: toNumber(serving.grams),
      referenceAmount: `${reference.grams} g, ${reference.says}`,
      citation: reference.citation,
    },
    columns: ['% Daily Value*'],
    energy: { label: 'Calories', text: roundedText(calories), kcal: toNumber(calories.value) },
    rows: shown.map((entry) => ({
      ...rowOf(entry.line, entry.amount),
      ...(entry === firstMineral && { isFirstOfGroup: true as const }),
    })),
    footnotes: [
      ...(omitted.length > 0
        ? [`Not a significant source of ${listed(omitted.map(({ line }) => line.says))}.`]
        : []),
      FOOTNOTE,
    ],
    citation: `${rules}, in the format of 21 CFR 101.9 as amended in 2016 (Daily Values secondary)`,
  };
}

function rowOf({ nutrient, label, level }: Line, amount: Exact): PanelRow {
  const shown = rounded(amount, US_ROUNDING[nutrient]);
  const text = `${roundedText(shown)}${unitOf(nutrient)}`;
  const percent = percentText(nutrient, isZero(shown.value) ? ZERO : amount);
  const isIncluded = nutrient === 'added sugars';
  return {
    label: isIncluded ? `Includes ${text} ${label}` : label,
    amount: isIncluded ? '' : text,
    ...(percent !== undefined && { dailyValue: percent }),
    level,
    declares: { nutrient, amount: toNumber(shown.value) },
  };
}

/** Of the amount before rounding, and of nothing where nothing is declared: either is lawful (9 CFR 317.309(d)(7)(ii)). */
function percentText(nutrient: UsNutrient, amount: Exact): string | undefined {
  const dailyValue = US_DAILY_VALUES[nutrient];
  if (!dailyValue) return undefined;
  const percent = quotient(multiply(amount, HUNDRED), dailyValue);
  const rule = VITAMINS_AND_MINERALS.includes(nutrient) ? US_PERCENT_OF_MINERALS : US_PERCENT;
  return `${roundedText(rounded(percent, rule))}%`;
}

function isInsignificant(nutrient: UsNutrient, amount: Exact): boolean {
  if (BELOW_A_GRAM.includes(nutrient)) return compare(amount, ONE_GRAM) < 0;
  return isZero(rounded(amount, US_ROUNDING[nutrient]).value);
}

function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')}${names.length > 2 ? ',' : ''} or ${names.at(-1)}`;
}
