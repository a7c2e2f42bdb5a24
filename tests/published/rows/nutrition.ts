import type { Mark, RoundingRow } from '../row.ts';

/** Figures that a nutrition panel prints of an amount, by the rounding of its market. */
type Entry = readonly [id: string, rule: RoundingRow['rule'], value: string, published: string];

function rows(source: string, mark: Mark, entries: readonly Entry[]): RoundingRow[] {
  return entries.map(([id, rule, value, published]) => ({
    kind: 'rounding',
    id,
    says: `A panel prints ${published} of ${value}, by the rule of ${rule}.`,
    source,
    mark,
    rule,
    value,
    published,
  }));
}

const CFR = (paragraph: string) => `9 CFR 317.309(c)${paragraph}, edition of 2015`;

export const NUTRITION_ROWS: readonly RoundingRow[] = [
  ...rows('worked example of a nutrition label, teaching sheet', 'secondary', [
    ['W-48-servings', 'us servings', '3.23', 'About 3 servings per container'],
    ['W-49-servings', 'us servings', '6.6', 'About 7 servings per container'],
    ['W-50-calories', 'us calories', '42', '40'],
    ['W-51-calories', 'us calories', '106', '110'],
    ['W-52-fat', 'us fat', '0.48', '0'],
    ['W-54-fat', 'us fat', '78.73', '79'],
    ['W-55-sodium', 'us sodium', '66', '65'],
    ['W-57-carbohydrate', 'us carbohydrate', '21.25', '21'],
  ]),
  ...rows(CFR('(4), (5)'), 'official', [
    ['L-39-sodium-none', 'us sodium', '4.99', '0'],
    ['L-39-sodium-fives', 'us sodium', '137', '135'],
    ['L-39-sodium-tens', 'us sodium', '144', '140'],
  ]),
  ...rows(CFR('(3)'), 'official', [
    ['L-40-cholesterol-none', 'us cholesterol', '1.9', '0'],
    ['L-40-cholesterol-words', 'us cholesterol', '3', 'less than 5'],
    ['L-40-cholesterol-fives', 'us cholesterol', '78', '80'],
  ]),
  ...rows(CFR('(2)'), 'official', [
    ['L-41-fat-none', 'us fat', '0.49', '0'],
    ['L-41-fat-halves', 'us fat', '4.6', '4.5'],
    ['L-41-fat-wholes', 'us fat', '5.4', '5'],
    ['L-41-saturated-halves', 'us saturated fat', '1.48', '1.5'],
  ]),
  ...rows(CFR('(6), (7)'), 'official', [
    ['L-42-protein-none', 'us protein', '0.49', '0'],
    ['L-42-protein-words', 'us protein', '0.7', 'less than 1'],
    ['L-42-sugars-wholes', 'us sugars', '1.4', '1'],
  ]),
  ...rows(CFR('(1)'), 'official', [
    ['L-43-calories-none', 'us calories', '4.9', '0'],
    ['L-43-calories-fives', 'us calories', '48', '50'],
    ['L-43-calories-tens', 'us calories', '254', '250'],
  ]),
  ...rows('9 CFR 317.309(b)(10)(i), edition of 2015', 'official', [
    ['L-44-servings-halves', 'us servings', '3.6', 'About 3.5 servings per container'],
  ]),
  ...rows(CFR('(8)(iii)'), 'official', [
    ['L-45-percent-twos', 'us percent of minerals', '7.2', '8'],
    ['L-45-percent-fives', 'us percent of minerals', '27', '25'],
    ['L-45-percent-tens', 'us percent of minerals', '56', '60'],
    ['L-45-percent-none', 'us percent of minerals', '1.9', '0'],
  ]),
  // What is given there: 2 of 20 mcg, 260 of 1300 mg, 8 of 18 mg and 235 of 4700 mg. The last is a tie, and goes up.
  ...rows('21 CFR 101.9(d)(8), example, in a complete copy of title 21 of after 2021', 'official', [
    ['101.9(d)(8)-vitamin-D', 'us percent of minerals', '10', '10'],
    ['101.9(d)(8)-calcium', 'us percent of minerals', '20', '20'],
    ['101.9(d)(8)-iron', 'us percent of minerals', '44.444444', '45'],
    ['101.9(d)(8)-potassium', 'us percent of minerals', '5', '6'],
  ]),
  ...rows('preamble of the final rule of 27 May 2016, as a page quotes it', 'secondary', [
    ['101.9(c)(8)-vitamin-D', 'us vitamin D', '2.04', '2'],
    ['101.9(c)(8)-iron', 'us iron', '2.16', '2.2'],
  ]),
  ...rows('agency guidance of 2019 on vitamins and minerals', 'from memory, verify', [
    ['101.9(c)(8)-calcium', 'us calcium', '264', '260'],
    ['101.9(c)(8)-potassium', 'us potassium', '236', '240'],
  ]),
  ...rows('guidance of the European Commission on tolerances, December 2012', 'secondary', [
    ['EU-52-fat-wholes', 'eu fat', '19.6', '20'],
    ['EU-52-fat-tenths', 'eu fat', '8.04', '8.0'],
    ['EU-52-fat-little', 'eu fat', '0.5', '< 0.5'],
    ['EU-53-saturates-tenths', 'eu saturated fat', '7.84', '7.8'],
    ['EU-53-saturates-little', 'eu saturated fat', '0.09', '< 0.1'],
    ['EU-54-salt-tenths', 'eu salt', '1.84', '1.8'],
    ['EU-54-salt-hundredths', 'eu salt', '0.165', '0.17'],
    ['EU-54-salt-little', 'eu salt', '0.0125', '< 0.01'],
    ['EU-51-energy', 'whole', '971.77', '972'],
  ]),
  ...rows('the same guidance, on sodium', 'from memory, verify', [
    ['EU-55-sodium-hundredths', 'eu sodium', '0.704', '0.70'],
    ['EU-55-sodium-little', 'eu sodium', '0.005', '< 0.01'],
  ]),
  ...rows('Food and Drug Regulations, table to B.01.401', 'official', [
    ['CA-34-calories-ones', 'ca calories', '3.4', '3'],
    ['CA-34-calories-tens', 'ca calories', '254', '250'],
    ['CA-34-fat-tenths', 'ca fat', '0.44', '0.4'],
    ['CA-34-fat-halves', 'ca fat', '4.6', '4.5'],
    ['CA-34-sodium-ones', 'ca sodium', '3.4', '3'],
    ['CA-34-sodium-tens', 'ca sodium', '144', '140'],
    ['CA-34-cholesterol', 'ca cholesterol', '78', '80'],
    ['CA-34-carbohydrate-none', 'ca carbohydrate', '0.49', '0'],
    ['CA-34-protein-tenths', 'ca protein', '0.44', '0.4'],
    ['CA-34-potassium-tens', 'ca potassium', '43', '40'],
    ['CA-34-potassium-twenty-fives', 'ca potassium', '110', '100'],
    ['CA-34-calcium-fifties', 'ca calcium', '280', '300'],
  ]),
];
