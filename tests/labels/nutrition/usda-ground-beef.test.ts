import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { NUTRIENTS } from '../../../src/labels/nutrition/nutrient.ts';
import type { Nutrition } from '../../../src/labels/nutrition/nutrition.ts';
import { unitOf } from '../../../src/labels/nutrition/reading.ts';
import { beyondTolerance } from '../../../src/labels/nutrition/tolerance.ts';
import {
  COLUMNS,
  COOKED_ROWS,
  type Compared,
  type Found,
  found,
  RAW_ROWS,
  workedOut,
} from './usda-ground-beef.ts';

/**
 * Source: USDA National Nutrient Database for Standard Reference 28, rows by NDB number. The lines of trims were not
 * fitted to these rows: ground beef is held out (ingredient-tables/fit.ts).
 */
const PAGE = join(import.meta.dirname, '../../../docs/nutrition-read.md');
const COMPARED = [...Object.keys(COLUMNS), 'energy'] as readonly Compared[];

const RAW = RAW_ROWS.map((ndbNo) => found(ndbNo));
const COOKED = COOKED_ROWS.map(([ndbNo, raw]) => found(ndbNo, raw));

/** The most that a figure may be off, as was measured and a little more; low and high for 100 g. */
const RAW_BOUNDS: Readonly<Record<Compared, readonly [low: number, high: number]>> = {
  fat: [0.02, 0.02],
  'saturated fat': [0.5, 0.95],
  'trans fat': [0.1, 0.25],
  cholesterol: [1, 7],
  sodium: [12, 4],
  carbohydrate: [0, 0],
  protein: [0.1, 1.8],
  'vitamin D': [0.05, 0.1],
  calcium: [14, 8],
  iron: [0.35, 0.3],
  potassium: [14, 45],
  energy: [6, 6],
};
const COOKED_BOUNDS: typeof RAW_BOUNDS = {
  fat: [1, 0.02],
  'saturated fat': [1.1, 0.8],
  'trans fat': [0.1, 0.4],
  cholesterol: [15, 40],
  sodium: [4, 22],
  carbohydrate: [0, 0],
  protein: [0.1, 2.5],
  'vitamin D': [0.01, 0.15],
  calcium: [16, 13],
  iron: [0.4, 0.7],
  potassium: [0, 145],
  energy: [16, 4],
};

describe('ground beef of the USDA tables, made again of two trims', () => {
  it('is at least seven raw rows from 70 to 97 percent lean, and cooked ones', () => {
    expect(RAW.length).toBeGreaterThanOrEqual(7);
    expect(COOKED.length).toBeGreaterThanOrEqual(5);
    const fats = RAW.map(({ usda }) => usda.fat ?? Number.NaN);
    expect([Math.min(...fats), Math.max(...fats)]).toEqual([3, 30]);
  });

  it.each([
    ...RAW.map((row) => [row.description, row, RAW_BOUNDS] as const),
    ...COOKED.map((row) => [row.description, row, COOKED_BOUNDS] as const),
  ])('comes within its bounds: %s', (_, row, bounds) => {
    for (const nutrient of COMPARED) {
      const usda = row.usda[nutrient];
      if (usda === undefined) continue;
      const [low, high] = bounds[nutrient];
      const off = workedOut(row, nutrient) - usda;
      expect.soft(off, nutrient).toBeGreaterThanOrEqual(-low - 1e-9);
      expect.soft(off, nutrient).toBeLessThanOrEqual(high + 1e-9);
    }
  });

  it('has a panel with every row', () => {
    for (const { nutrition } of [...RAW, ...COOKED]) expect(nutrition.panel?.rows).toHaveLength(14);
  });

  it('stands on the page with its errors', () => {
    const text = pageText();
    if (process.env.UPDATE_DOCS === '1') writeFileSync(PAGE, text);
    expect(readFileSync(PAGE, 'utf8')).toBe(text);
  });
});

/** The row as if it had been found by analysis of what the panel was printed for. */
function analyzed({ nutrition, usda }: Found): Nutrition {
  const per100g = Object.fromEntries(
    NUTRIENTS.flatMap((nutrient) => {
      const amount = usda[nutrient as Compared];
      const figure = nutrition.per100g[nutrient];
      return figure ? [[nutrient, { ...figure, amount: amount ?? figure.amount }]] : [];
    }),
  );
  return { ...nutrition, per100g, energyKcalPer100g: usda.energy ?? nutrition.energyKcalPer100g };
}

function pageText(): string {
  return [
    ...READ,
    '## Ground beef of the USDA tables, made again of two trims',
    '',
    'Printed by `UPDATE_DOCS=1 npx vitest run tests/labels/nutrition/usda-ground-beef.test.ts`. A beef trim of 2 % and one of',
    '50 % fat are blended to the fat of a row of USDA SR28 by the least-cost blend, the label is declared, and its figures for',
    '100 g are held against the row: worked out − row, and the row behind it. The trim lines were not fitted to these rows.',
    'Energy of a row is by factors of its own for meat (protein 4.27, fat 9.02 kcal), ours by 4-4-9.',
    '',
    ...table(RAW),
    'Raw rows of USDA put as an analysis against the panel that was worked out (20 % more or less, 9 CFR 317.309(h)(4), (5)):',
    '',
    ...RAW.map((row) => `- ${row.ndbNo}: ${issuesText(row)}`),
    '',
    '### Cooked',
    '',
    'The yield is what the protein of the raw and the cooked row gives, the fat lost what their fat gives then; where more fat',
    'is left than there was, none is lost. Cholesterol, sodium and potassium are counted as staying in the meat. That is too',
    'much where fat melts out of fat beef, and too little for cholesterol of very lean beef.',
    '',
    ...table(COOKED),
    'Cooked rows put as an analysis against the panel:',
    '',
    ...COOKED.map((row) => `- ${row.ndbNo}: ${issuesText(row)}`),
    '',
  ].join('\n');
}

function issuesText(row: Found): string {
  const issues = beyondTolerance(row.nutrition, analyzed(row));
  return issues.length === 0 ? 'within' : issues.join('; ');
}

function table(rows: readonly Found[]): string[] {
  const unit = (nutrient: Compared) => (nutrient === 'energy' ? 'kcal' : unitOf(nutrient));
  const cell = (row: Found, nutrient: Compared) => {
    const usda = row.usda[nutrient];
    if (usda === undefined) return '–';
    const off = workedOut(row, nutrient) - usda;
    const text = Math.abs(off) < 0.005 ? '0' : off.toFixed(2);
    return `${off >= 0.005 ? '+' : ''}${text} (${usda})`;
  };
  const heads = COMPARED.map((nutrient) => `${nutrient}, ${unit(nutrient)}`);
  return [
    `| row | ${heads.join(' | ')} |`,
    `| --- | ${heads.map(() => '---').join(' | ')} |`,
    ...rows.map((row) => `| ${row.ndbNo} | ${COMPARED.map((nutrient) => cell(row, nutrient)).join(' | ')} |`),
    '',
    ...rows.map(({ ndbNo, description }) => `- ${ndbNo}: ${description}`),
    '',
  ];
}

const READ: readonly string[] = [
  '# Nutrition: which rules were read, and how near the figures come',
  '',
  '| what | source | read |',
  '| --- | --- | --- |',
  '| Rounding of calories, fats, cholesterol, sodium, carbohydrate, fiber, sugars, protein | 9 CFR 317.309(c)(1) to (7) | official, edition of 2015 |',
  '| Percent of vitamins and minerals in steps of 2, 5 and 10 | 9 CFR 317.309(c)(8)(iii) | official, edition of 2015 |',
  '| Energy by 4-4-9 from amounts before rounding | 9 CFR 317.309(c)(1)(i)(B) | official, edition of 2015 |',
  '| % Daily Value of the amount before rounding (either is allowed) | 9 CFR 317.309(d)(7)(ii) | official, edition of 2015 |',
  '| Servings: pieces, ounces of 28 g, whole packs, count, "varied" | 9 CFR 317.309(b)(4) to (10) | official, edition of 2015 |',
  '| Reference amounts | 9 CFR 317.312(b), 381.412(b) | official, edition of 2015; which class is which kind is our reading |',
  '| 20 % more or less, records, no relief for ground product | 9 CFR 317.309(h)(4) to (9) | official, edition of 2015 |',
  '| Exemption of small businesses | 9 CFR 317.400(a)(1), 381.500(a)(1) | official, edition of 2015 |',
  '| Rows, their order and words, footnote and simplified format of 2016 | 21 CFR 101.9(c), (d)(9), (f) | official, a complete copy of title 21 of after 2021; its tables and samples are stripped. "(DV)" in the footnote is of the sample labels, from memory |',
  '| Daily Values of 2016 | 21 CFR 101.9(c)(8)(iv), (c)(9) | secondary, a public table that names the Federal Register of May 2016; the example of (d)(8), official, fits vitamin D, calcium, iron and potassium |',
  '| That the inspection service lets the format of 2016 be used | its Constituent Update of 10 November 2016 | official for the leave; that the first label goes in as a sketch is of the trade press |',
  '| Vitamins and minerals: amounts to the places of their Daily Value, below 2 % may be zero | 21 CFR 101.9(c)(8)(iii) | official, the same copy |',
  '| Iron and vitamin D to 0.1, calcium and potassium to 10 | preamble of the final rule of 2016, guidance of 2019 | tenths secondary, tens from memory, verify |',
  '| Rounding of the European Union | guidance of the Commission, December 2012 | secondary |',
  '| What has to stand on the declaration of the European Union | Regulation (EU) 1169/2011, Article 30(1), as retained | official; its order, kilojoules first, secondary |',
  '| Tolerances of the European Union | the same guidance | from memory, verify |',
  '| Energy factors of the European Union | Regulation (EU) 1169/2011, Annex XIV | official |',
  '| Rounding of Canada | Food and Drug Regulations, table to B.01.401 | official; steps of iron from memory, verify |',
  '| Daily values and reference amounts of Canada | incorporated tables | from memory, verify |',
  '| Front-of-package symbol of Canada | Food and Drug Regulations, B.01.350 | official |',
  '',
  'Choices where a rule leaves one: what lies half way goes up, as 5 % of potassium does in the example of 21 CFR',
  '101.9(d)(8); what is declared as nothing is 0 % of its Daily Value; 2 to 5 mg of cholesterol are "less than 5mg"; less than a',
  'gram of carbohydrate, fiber, sugars or protein, from half a gram on, is "less than 1g"; a vitamin or mineral below 2 % of',
  'its Daily Value is shown as zero, amount and percent; the simplified format needs eight insignificant nutrients, as the',
  'format of 2016 does, though 9 CFR 317.309(f) asks for any; carbohydrate is the sum of what the tables give, for the',
  'difference of the whole would show the errors of the trim lines as carbohydrate.',
  '',
];
