import { exact } from '../../src/exact.ts';
import { CA_CALORIES, CA_ROUNDING } from '../../src/labels/nutrition/canada-rules.ts';
import { EU_ROUNDING, euText } from '../../src/labels/nutrition/eu-panel.ts';
import { type Band, bands, rounded, roundedText } from '../../src/labels/nutrition/rounding.ts';
import { countText } from '../../src/labels/nutrition/serving.ts';
import { US_CALORIES, US_PERCENT_OF_MINERALS, US_ROUNDING } from '../../src/labels/nutrition/us-rules.ts';
import type { RoundingRow } from './row.ts';

const RULES: Readonly<Record<string, Readonly<Record<string, readonly Band[]>>>> = {
  us: { ...US_ROUNDING, calories: US_CALORIES, 'percent of minerals': US_PERCENT_OF_MINERALS },
  eu: EU_ROUNDING,
  ca: { ...CA_ROUNDING, calories: CA_CALORIES },
};

/** What a panel prints of an amount. */
export function printedAs({ rule: name, value }: RoundingRow): string {
  if (name === 'us servings') return countText(exact(value));
  const [market = '', ...nutrient] = name.split(' ');
  const rule = name === 'whole' ? [bands.above('1')] : RULES[market]?.[nutrient.join(' ')];
  if (!rule) throw new RangeError(`no rounding rule ${name}`);
  const shown = rounded(exact(value), rule);
  return market === 'eu' ? euText(shown, rule) : roundedText(shown);
}
