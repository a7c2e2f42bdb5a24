import type { Product } from '../../batch/product.ts';
import { add, compare, type Exact, exact, isZero, multiply, toNumber, toText, ZERO } from '../../exact.ts';
import type { ReferenceAmount } from '../../rules/standard.ts';
import { fixed } from '../../units.ts';
import {
  CA_CALORIES,
  CA_DAILY_VALUES,
  CA_PERCENT,
  CA_ROUNDING,
  CA_SYMBOL,
  type CanadaNutrient,
} from './canada-rules.ts';
import { energyIn, type Facts, inGrams } from './facts.ts';
import type { NutritionPanel, PanelRow } from './panel.ts';
import { HUNDRED, quotient } from './quotient.ts';
import { unitOf } from './reading.ts';
import { bands, rounded, roundedText } from './rounding.ts';
import { netGrams, pieceGrams, piecesIn } from './serving.ts';

const SATURATED_AND_TRANS = 'saturated fat';

interface Line {
  readonly nutrient: CanadaNutrient;
  readonly label: string;
  readonly level: PanelRow['level'];
  /** The nutrients whose sum the percent is of; none where the format shows no percent. */
  readonly percentOf?: readonly CanadaNutrient[];
}

/** Order and English words of the basic format, from memory, verify. */
const LINES: readonly Line[] = [
  { nutrient: 'fat', label: 'Fat', level: 0, percentOf: ['fat'] },
  { nutrient: 'saturated fat', label: 'Saturated', level: 1 },
  // One percent stands beside both: a reader finds it at the second.
  { nutrient: 'trans fat', label: '+ Trans', level: 1, percentOf: [SATURATED_AND_TRANS, 'trans fat'] },
  { nutrient: 'carbohydrate', label: 'Carbohydrate', level: 0 },
  { nutrient: 'fiber', label: 'Fibre', level: 1, percentOf: ['fiber'] },
  { nutrient: 'sugars', label: 'Sugars', level: 1, percentOf: ['sugars'] },
  { nutrient: 'protein', label: 'Protein', level: 0 },
  { nutrient: 'cholesterol', label: 'Cholesterol', level: 0 },
  { nutrient: 'sodium', label: 'Sodium', level: 0, percentOf: ['sodium'] },
  { nutrient: 'potassium', label: 'Potassium', level: 0, percentOf: ['potassium'] },
  { nutrient: 'calcium', label: 'Calcium', level: 0, percentOf: ['calcium'] },
  { nutrient: 'iron', label: 'Iron', level: 0, percentOf: ['iron'] },
];
export const CA_MUST_SHOW: readonly CanadaNutrient[] = LINES.map(({ nutrient }) => nutrient);

const FOOTNOTE = '*5% or less is a little, 15% or more is a lot';
const CITATION = 'Food and Drug Regulations, B.01.401 (daily values and format from memory, verify)';
/** Table to B.01.401, item 1. */
const GRAMS = [bands.below('10', '0.1'), bands.above('1')];

/** What one serving is: a pack of less than two reference amounts, whole pieces, or the reference amount. */
export function canadaServing(
  product: Product,
  { grams }: ReferenceAmount,
): { readonly size: string; readonly grams: Exact } {
  const reference = exact(grams);
  const [pack] = product.label.packs ?? [];
  const net = pack && netGrams(pack);
  if (net && compare(net, multiply(reference, exact(2))) < 0) return inWords(net, '1 package');
  const piece = pieceGrams(product, pack);
  const pieces = piece && piecesIn(piece, reference);
  const { shape } = product.form;
  if (!piece || !pieces || (shape !== 'link' && shape !== 'patty')) return inWords(reference);
  const word = shape === 'link' ? 'sausage' : 'patty';
  const many = shape === 'link' ? 'sausages' : 'patties';
  return inWords(multiply(piece, exact(pieces)), `${pieces} ${pieces === 1 ? word : many}`);
}

function inWords(exactGrams: Exact, pieces?: string) {
  const grams = rounded(exactGrams, GRAMS).value;
  const metric = `${toText(grams)} g`;
  return { size: pieces ? `Per ${pieces} (${metric})` : `Per ${metric}`, grams };
}

/** The basic table of Canada, in English, of amounts in a serving that are all known. */
export function canadaPanel(facts: Facts, product: Product, reference: ReferenceAmount): NutritionPanel {
  const { size, grams } = canadaServing(product, reference);
  const calories = rounded(energyIn(facts, 'kcal', grams), CA_CALORIES);
  return {
    format: 'canada basic',
    title: 'Nutrition Facts',
    serving: {
      size,
      grams: toNumber(grams),
      referenceAmount: `${reference.grams} g, ${reference.says}`,
      citation: `${reference.citation}, ${reference.read}`,
    },
    columns: ['% Daily Value*'],
    energy: { label: 'Calories', text: roundedText(calories), kcal: toNumber(calories.value) },
    rows: LINES.map(({ nutrient, label, level, percentOf }) => {
      const shown = roundedAmount(facts, nutrient, grams);
      const isNothing = percentOf?.every((of) => isZero(roundedAmount(facts, of, grams).value));
      const percent = isNothing ? ZERO : percentOf && dailyPercent(facts, percentOf, grams);
      return {
        label,
        amount: `${roundedText(shown)} ${unitOf(nutrient)}`,
        ...(percent && { dailyValue: `${roundedText(rounded(percent, CA_PERCENT))} %` }),
        level,
        ...(nutrient === 'potassium' && { isFirstOfGroup: true as const }),
        declares: { nutrient, amount: toNumber(shown.value) },
      };
    }),
    footnotes: [FOOTNOTE],
    citation: CITATION,
  };
}

/** As the table declares it; where that is nothing, so is its percent (from memory, verify). */
function roundedAmount(facts: Facts, nutrient: CanadaNutrient, grams: Exact) {
  return rounded(inGrams(facts, nutrient, grams), CA_ROUNDING[nutrient]);
}

/** Percent of the daily value of the first, of the sum before rounding. */
function dailyPercent(facts: Facts, of: readonly CanadaNutrient[], grams: Exact): Exact | undefined {
  const [first] = of;
  const dailyValue = first && CA_DAILY_VALUES[first];
  if (!dailyValue) return undefined;
  const [amount, ...more] = of.map((nutrient) => inGrams(facts, nutrient, grams));
  const total = more.reduce(add, amount ?? exact(0));
  return quotient(multiply(total, HUNDRED), dailyValue);
}

const SYMBOL_OF = [
  { says: 'saturated fat', of: [SATURATED_AND_TRANS, 'trans fat'] },
  { says: 'sugars', of: ['sugars'] },
  { says: 'sodium', of: ['sodium'] },
] as const satisfies readonly { says: string; of: readonly CanadaNutrient[] }[];

/**
 * Whether the front of the pack needs the nutrition symbol, as a sentence (B.01.350): of the serving or the reference
 * amount, whichever is more.
 * @param isExempt raw ground meat of a single ingredient, while it makes no claim, B.01.350(13.01).
 */
export function symbolSentence(
  facts: Facts,
  product: Product,
  reference: ReferenceAmount,
  isExempt: boolean,
): string {
  const serving = canadaServing(product, reference).grams;
  const amount = exact(reference.grams);
  const grams = compare(serving, amount) > 0 ? serving : amount;
  const bound = compare(amount, CA_SYMBOL.smallGrams) <= 0 ? CA_SYMBOL.percentOfSmall : CA_SYMBOL.percent;
  const percents = SYMBOL_OF.map(({ says, of }) => ({ says, percent: dailyPercent(facts, of, grams) }));
  const high = percents.filter(({ percent }) => percent && compare(percent, bound) >= 0);
  const listed = percents
    .map(({ says, percent }) => `${says} ${percent ? fixed(toNumber(percent), 1) : '?'} %`)
    .join(', ');
  const found =
    high.length > 0
      ? `the thresholds of the front-of-package symbol are met for ${high.map(({ says }) => says).join(' and ')}`
      : 'no threshold of the front-of-package symbol is met';
  const exempt = isExempt
    ? ' Raw ground meat of a single ingredient carries no symbol as long as it makes no claim, B.01.350(13.01).'
    : '';
  return `In ${toText(grams)} g ${found}: ${listed} of the daily value, against ${toText(bound)} % (B.01.350; daily values from memory, verify).${exempt}`;
}
