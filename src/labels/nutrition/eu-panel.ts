import { type Exact, toNumber } from '../../exact.ts';
import { fixed } from '../../units.ts';
import { energyIn, type Facts, inGrams } from './facts.ts';
import type { Nutrient } from './nutrient.ts';
import type { NutritionPanel, PanelRow } from './panel.ts';
import { HUNDRED } from './quotient.ts';
import { type Band, bands, nearest, type Rounded, rounded } from './rounding.ts';

/** Rounding by the guidance of the Commission on tolerances, December 2012, read in a text that quotes it. */
const MAIN = [bands.nothing(), bands.upToLessThan('0.5', '<'), bands.below('10', '0.1'), bands.above('1')];
const FAT_PART = [
  bands.nothing(),
  bands.upToLessThan('0.1', '<'),
  bands.below('10', '0.1'),
  bands.above('1'),
];
const SALT: readonly Band[] = [
  bands.nothing(),
  { upTo: { digits: 125n, scale: 4 }, shown: { digits: 1n, scale: 2 }, words: '<' },
  bands.below('1', '0.01'),
  bands.above('0.1'),
];
/** For sodium, where it is shown beside salt; from memory, verify. */
const SODIUM_G: readonly Band[] = [
  bands.nothing(),
  { upTo: { digits: 5n, scale: 3 }, shown: { digits: 1n, scale: 2 }, words: '<' },
  bands.below('1', '0.01'),
  bands.above('0.1'),
];

export const EU_ROUNDING = {
  fat: MAIN,
  'saturated fat': FAT_PART,
  'monounsaturated fat': FAT_PART,
  'polyunsaturated fat': FAT_PART,
  carbohydrate: MAIN,
  sugars: MAIN,
  fiber: MAIN,
  protein: MAIN,
  salt: SALT,
  sodium: SODIUM_G,
} as const satisfies Partial<Record<Nutrient, readonly Band[]>>;

/**
 * What has to stand there was read in Article 30(1) of Regulation (EU) 1169/2011, as retained; its order, with kilojoules
 * first, in training of the Food Standards Agency (secondary), the words of Annex XV are from memory, verify.
 */
const LINES = [
  { nutrient: 'fat', label: 'Fat', level: 0 },
  { nutrient: 'saturated fat', label: 'of which saturates', level: 1 },
  { nutrient: 'carbohydrate', label: 'Carbohydrate', level: 0 },
  { nutrient: 'sugars', label: 'of which sugars', level: 1 },
  { nutrient: 'protein', label: 'Protein', level: 0 },
  { nutrient: 'salt', label: 'Salt', level: 0 },
] as const satisfies readonly {
  nutrient: keyof typeof EU_ROUNDING;
  label: string;
  level: PanelRow['level'];
}[];
export const EU_MUST_SHOW: readonly Nutrient[] = LINES.map(({ nutrient }) => nutrient);

const WHOLE = { digits: 1n, scale: 0 };

/** The table of the European Union and Great Britain, for 100 g as sold. */
export function euPanel(facts: Facts, citation: string): NutritionPanel {
  const kcal = nearest(energyIn(facts, 'kcal', HUNDRED), WHOLE);
  const kj = nearest(energyIn(facts, 'kj', HUNDRED), WHOLE);
  return {
    format: 'eu table',
    title: 'Nutrition declaration',
    columns: ['per 100 g'],
    energy: { label: 'Energy', text: `${toNumber(kj)} kJ / ${toNumber(kcal)} kcal`, kcal: toNumber(kcal) },
    rows: LINES.map(({ nutrient, label, level }) => {
      const shown = rounded(inGrams(facts, nutrient, HUNDRED), EU_ROUNDING[nutrient]);
      return {
        label,
        amount: `${euText(shown, EU_ROUNDING[nutrient])} g`,
        level,
        declares: { nutrient, amount: toNumber(shown.value) },
      };
    }),
    footnotes: [],
    citation,
  };
}

/** With the decimals of the band in which the rounded figure lies: '9.0', '10', '< 0.5', '0'. */
export function euText({ value, words }: Rounded, rule: readonly Band[]): string {
  if (words) return `${words} ${fixed(toNumber(value), value.scale)}`;
  return value.digits === 0n ? '0' : fixed(toNumber(value), decimals(value, rule));
}

function decimals(value: Exact, rule: readonly Band[]): number {
  const again = rounded(value, rule);
  return again.words ? value.scale : again.value.scale;
}
