import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Material } from '../../src/batch/material.ts';
import type { Product } from '../../src/batch/product.ts';
import type { BlendLine } from '../../src/formulate/blend.ts';
import { ingredientStatement } from '../../src/labels/ingredients/ingredient-statement.ts';
import { MARKETS, marketOf } from '../../src/labels/markets/all.ts';
import {
  ALL_STANDARDS,
  blendLine,
  blendOf,
  material,
  standardOf,
  testMaterial,
  testProduct,
} from '../helpers/materials.ts';
import { linesArbitrary, milligrams } from './arbitraries.ts';

type Line = readonly [of: string | Material, massKg: string];

const batchOf = (lines: readonly Line[], finishedKg?: number) => {
  const blend = blendOf(
    lines.map(([of, massKg]) => blendLine(typeof of === 'string' ? testMaterial(of) : of, massKg)),
  );
  return finishedKg === undefined ? blend : { ...blend, finishedKg };
};

/** The statement of a market, with its quantities where it has them. */
function statement(
  jurisdiction: string,
  productClass: string,
  lines: readonly Line[],
  { name = 'House Product', finishedKg, ...given }: Partial<Product> & { finishedKg?: number } = {},
) {
  const product = testProduct(productClass, { ...given, name, standard: { jurisdiction, productClass } });
  const standard = standardOf(productClass, jurisdiction);
  return ingredientStatement(marketOf(jurisdiction), batchOf(lines, finishedKg), { product, standard, name });
}

const pork = material('pork-trim', 'skeletal meat', {
  declaredName: 'pork',
  species: 'pork',
  composition: { fatFraction: 0.2, waterFraction: 0.6, proteinFraction: 0.18, collagenFraction: 0.02 },
});
const fatPork = material('fat-pork', 'skeletal meat', {
  declaredName: 'pork',
  species: 'pork',
  composition: { fatFraction: 0.4, waterFraction: 0.45, proteinFraction: 0.14, collagenFraction: 0.02 },
});
const rusk = material('rusk', 'binder', { allergens: ['wheat'], subIngredients: ['wheat flour', 'salt'] });

describe('the statement of every market', () => {
  it('has label rules for every place that has standards', () => {
    for (const { ruleSet } of ALL_STANDARDS) {
      expect(marketOf(ruleSet.jurisdiction).jurisdiction).toBe(ruleSet.jurisdiction);
    }
    expect(() => marketOf('atlantis')).toThrow(/no label rules of atlantis/);
  });

  it('joins from its runs, and stands in the order of the weights on either side of the last group', () => {
    fc.assert(
      fc.property(linesArbitrary, fc.constantFrom(...MARKETS), (lines, market) => {
        const { text, runs = [], ingredients } = ingredientStatement(market, blendOf(lines));
        expect(runs.map((run) => run.text).join('')).toBe(text);
        for (const inSmall of [false, true]) {
          const shares = ingredients
            .filter(({ inSmallGroup }) => inSmallGroup === inSmall)
            .map(({ fraction }) => fraction);
          expect(shares).toEqual([...shares].sort((a, b) => b - a));
        }
        const firstSmall = ingredients.findIndex(({ inSmallGroup }) => inSmallGroup);
        if (firstSmall >= 0)
          expect(ingredients.slice(firstSmall).every((entry) => entry.inSmallGroup)).toBe(true);
      }),
    );
  });

  // At most 2 % in the United States (9 CFR 317.2(f)(1)(vi)) and Canada (B.01.008.2(4)), below it in the European Union
  // and Great Britain (Annex VII part A 6; secondary); no such group elsewhere.
  it('has nothing in its last group that is more than the law lets stand there', () => {
    fc.assert(
      fc.property(linesArbitrary, fc.constantFrom(...MARKETS), (lines, market) => {
        const total = lines.reduce((sum, line) => sum + milligrams(line), 0n);
        const massOf = (which: (line: BlendLine) => boolean) =>
          lines.filter(which).reduce((sum, line) => sum + milligrams(line), 0n);
        const { ingredients } = ingredientStatement(market, blendOf(lines));
        for (const { name } of ingredients.filter((entry) => entry.inSmallGroup)) {
          // Spices and the sugars of Canada stand under names of their own.
          const elsewhere = market.statement.sugars ? ['spice', 'sweetener'] : ['spice'];
          const own = massOf(
            ({ supply: { material: m } }) => m.declaredName === name && !elsewhere.includes(m.kind),
          );
          const upTo = own * 50n <= total;
          const below = own * 50n < total;
          const allowed = { us: upTo, ca: upTo, eu: below, gb: below, codex: false, anz: false };
          expect(allowed[market.jurisdiction as keyof typeof allowed], name).toBe(true);
        }
      }),
    );
  });
});

// Article 18 and Annex VII of Regulation (EU) No 1169/2011, secondary: EU-31 to EU-42 of what was read.
describe('the statement of the European Union', () => {
  const sausage: readonly Line[] = [
    [fatPork, '70'],
    ['water', '15'],
    [rusk, '10'],
    ['pork-fat', '2'],
    ['salt', '1.8'],
    ['black-pepper', '0.7'],
    ['sage', '0.5'],
  ];

  // 70 of pork with 40 % fat: 60 as pork, 10 as pork fat (the steps of UK guidance of 2003, p. 61).
  it('gives the meat as the law counts it, its excess fat as an ingredient, and marks allergens', () => {
    const { text, runs } = statement('eu', 'fresh-sausage', sausage);
    expect(text).toBe('Pork 60%, water, pork fat, rusk (wheat flour, salt), salt, spices, herbs.');
    expect(runs?.filter(({ emphasized }) => emphasized)).toEqual([{ text: 'wheat', emphasized: true }]);
    expect(statement('gb', 'breakfast-sausage', sausage).text).toBe(text);
  });

  it('orders water by what is left of it, and leaves it out where none is', () => {
    const lines: readonly Line[] = [
      [pork, '60'],
      ['water', '30'],
      ['potato', '10'],
    ];
    const text = (finishedKg: number) => statement('eu', 'cooked-sausage', lines, { finishedKg }).text;
    expect(text(100)).toBe('Pork 60%, water, potato.');
    expect(text(79)).toBe('Pork 76%, potato, water.');
    expect(text(71)).toBe('Pork 85%, potato, water.');
    expect(text(70)).toBe('Pork 86%, potato.');
  });

  // Where moisture was lost and the figure passes 100 %, grams for 100 g (as a legal text quotes the notice of 2017).
  it('gives grams for 100 g where the meat comes to more than the product', () => {
    const { text } = statement(
      'eu',
      'dried-sausage',
      [
        [pork, '100'],
        ['salt', '3'],
      ],
      { finishedKg: 80 },
    );
    expect(text).toBe('Pork 125 g per 100 g of the finished product, salt.');
  });

  it('gives no amount of what the name only sounds like', () => {
    const meat = material('meat', 'skeletal meat', { declaredName: 'goat', species: 'goat' });
    const [oats, corn] = [material('oats', 'binder'), material('corn starch', 'binder')];
    const amounts = (name: string) =>
      statement(
        'anz',
        'manufactured-meat',
        [
          [meat, '80'],
          [oats, '12'],
          [corn, '8'],
        ],
        { name },
      ).text;
    expect(amounts('Corned goat')).toBe('Goat 80%, oats, corn starch.');
    expect(amounts('Goat with oat and corn')).toBe('Goat 80%, oats 12%, corn starch 8%.');
  });

  // 0.56 + 0.33 + 0.11 is more than 1 in doubles.
  it('gives percent where the meats come to just the product', () => {
    const meat = (id: 'beef' | 'pork' | 'veal') => material(id, 'skeletal meat', { species: id });
    const { text } = statement('anz', 'manufactured-meat', [
      [meat('beef'), '56'],
      [meat('pork'), '33'],
      [meat('veal'), '11'],
    ]);
    expect(text).toBe('Beef 56%, pork 33%, veal 11%.');
  });

  it('gives the amount of what the name mentions, and not of what only flavors', () => {
    const apples = material('apples', 'vegetable');
    const garlic = material('garlic', 'flavoring');
    const lines: readonly Line[] = [
      [pork, '85'],
      [apples, '12.4'],
      [garlic, '2.6'],
    ];
    expect(statement('eu', 'fresh-sausage', lines, { name: 'Pork and Apple Sausage with Garlic' }).text).toBe(
      'Pork 85%, apples 12%, garlic.',
    );
    expect(statement('eu', 'fresh-sausage', lines, { name: 'House Links' }).text).toBe(
      'Pork 85%, apples, garlic.',
    );
  });

  it('groups spices up to 2 % of the food and names those that are allergens', () => {
    const mustard = material('mustard-seed', 'spice', { allergens: ['mustard'] });
    const text = (pepper: string) =>
      statement('eu', 'fresh-sausage', [
        [pork, String(99 - Number(pepper))],
        ['black-pepper', pepper],
        [mustard, '1'],
      ]);
    const grouped = text('1');
    expect(grouped.text).toBe('Pork 98%, spices (mustard seed).');
    expect(grouped.runs?.find(({ emphasized }) => emphasized)?.text).toBe('mustard');
    expect(text('1.000001').text).toBe('Pork 98%, black pepper, mustard seed.');
  });

  it('puts an allergen behind a name that does not tell it', () => {
    const whey = material('whey-powder', 'dairy', { allergens: ['milk'] });
    const mix = material('seasoning', 'flavoring', {
      allergens: ['celery', 'soy'],
      subIngredients: ['salt', 'soy sauce'],
    });
    const { text, runs = [] } = statement('eu', 'fresh-sausage', [
      [pork, '90'],
      [whey, '6'],
      [mix, '4'],
    ]);
    expect(text).toBe('Pork 90%, whey powder (milk), seasoning (salt, soy sauce; contains celery).');
    expect(runs.filter(({ emphasized }) => emphasized).map((run) => run.text)).toEqual([
      'milk',
      'soy',
      'celery',
    ]);
  });

  // What a shrimp is, a name does not tell everybody: the group of Annex II stands behind (common practice).
  it('puts the group behind the kind of shellfish or fish', () => {
    const of = (id: string, allergen: 'crustacean shellfish' | 'fish' | 'molluscs' | 'tree nuts') =>
      material(id, 'vegetable', { allergens: [allergen] });
    const { text } = statement('eu', 'fresh-sausage', [
      [pork, '80'],
      [of('prawns', 'crustacean shellfish'), '8'],
      [of('anchovies', 'fish'), '5'],
      [of('squid', 'molluscs'), '4'],
      [of('hazelnuts', 'tree nuts'), '3'],
    ]);
    expect(text).toBe('Pork 80%, prawns (crustaceans), anchovies (fish), squid (molluscs), hazelnuts.');
  });

  it('names additives by what they do, and sulfites as an allergen', () => {
    const cure = material('curing-salt', 'cure', { subIngredients: ['salt', 'sodium nitrite'] });
    const agent = material('sodium-metabisulfite', 'preservative', {
      substances: { 'sulfur dioxide': 0.674 },
    });
    const { text, runs = [] } = statement('eu', 'breakfast-sausage', [
      [pork, '97'],
      [cure, '2'],
      ['sodium-ascorbate', '0.9'],
      [agent, '0.1'],
    ]);
    expect(text).toBe(
      'Pork 97%, curing salt (salt, preservative: sodium nitrite), antioxidant: sodium ascorbate, preservative: sodium metabisulfite.',
    );
    expect(runs.find(({ emphasized }) => emphasized)?.text).toBe('metabisulfite');
  });
});

// Food and Drug Regulations B.01.008.2 and B.01.008.3, official text.
describe('the statement of Canada', () => {
  it('groups sugars, the most first, and puts small seasonings and additives last whatever they weigh', () => {
    const { text } = statement('ca', 'fresh-sausage', [
      ['pork', '90'],
      ['black-pepper', '1.2'],
      ['salt', '0.5'],
      ['sugar', '0.4'],
      [material('dextrose', 'sweetener'), '0.3'],
      [material('dextrose', 'sweetener'), '0.3'],
      [material('maltodextrin', 'sweetener'), '0.2'],
      ['sodium-erythorbate', '0.6'],
    ]);
    expect(text).toBe('Pork, Sugars (dextrose, sugar), Salt, Maltodextrin, Spices, Sodium erythorbate.');
  });

  it('keeps seasonings in their place where together they are more than 2 %', () => {
    const text = (pepper: string) =>
      statement('ca', 'fresh-sausage', [
        ['pork', String(97 - Number(pepper))],
        ['black-pepper', pepper],
        ['onion', '1'],
        ['salt', '2'],
      ]).text;
    expect(text('1')).toBe('Pork, Salt, Onion, Spices.');
    expect(text('1.000001')).toBe('Pork, Salt, Spices, Onion.');
  });
});

// Food Standards Code, Standard 1.2.10, and CXS 1-1985, 5.1: from memory, verify.
describe('the statement elsewhere', () => {
  it.each([
    ['anz', 'fresh-sausage'],
    ['codex', 'comminuted-meat'],
  ])('orders by what went in and gives the percent of meat: %s', (jurisdiction, productClass) => {
    const { text, ingredients } = statement(jurisdiction, productClass, [
      [pork, '70'],
      ['water', '29'],
      ['salt', '1'],
    ]);
    expect(text).toBe('Pork 70%, water, salt.');
    expect(ingredients.some(({ inSmallGroup }) => inSmallGroup)).toBe(false);
  });
});

// 9 CFR 317.2(f)(1)(v): official. Both together at least 70 % of meat and byproduct, each at least 30 %.
describe('two meats that may change places', () => {
  const text = (...lines: readonly Line[]) => ingredientStatement(marketOf('us'), batchOf(lines)).text;

  it('are joined by "and" at 30 % and at 70 %, not below', () => {
    expect(text(['pork', '40'], ['beef', '30'], ['pork-heart', '30'])).toContain('Pork and beef, pork heart');
    expect(text(['pork', '70'], ['beef', '30'])).toBe('Pork and beef.');
    expect(text(['pork', '70.000001'], ['beef', '29.999999'])).toBe('Pork, beef.');
    expect(text(['pork', '39.999999'], ['beef', '30'], ['pork-byproduct', '30.000001'])).toBe(
      'Pork, pork byproduct, beef.',
    );
    expect(text(['pork', '36'], ['beef', '33.999999'], ['pork-byproduct', '30.000001'])).toBe(
      'Pork, beef, pork byproduct.',
    );
  });

  it('are neither poultry nor byproducts nor apart', () => {
    expect(text(['pork', '60'], ['chicken', '40'])).toBe('Pork, chicken.');
    expect(text(['pork', '60'], ['pork-byproduct', '40'])).toBe('Pork, pork byproduct.');
    expect(text(['pork', '50'], ['water', '45'], ['beef', '40'])).toBe('Pork, water, beef.');
  });
});

// 9 CFR 317.2(f)(1)(i) and 317.8(b)(7)(ii): official.
describe('spices and flavorings of the United States', () => {
  it('name what colors and what is no spice, and the animal that a flavor is of', () => {
    const spice = (id: string) => material(id, 'spice');
    const stock = material('stock', 'flavoring', { declaredName: 'dried stock', species: 'chicken' });
    const { text } = ingredientStatement(
      marketOf('us'),
      batchOf([
        ['pork', '95'],
        ['sage', '0.5'],
        ['black-pepper', '0.5'],
        [spice('paprika'), '0.9'],
        [spice('turmeric'), '0.8'],
        [spice('garlic-powder'), '0.7'],
        [spice('celery-powder'), '0.6'],
        [stock, '0.1'],
      ]),
    );
    expect(text).toBe(
      'Pork, contains 2% or less of: spices, paprika, turmeric, garlic powder, celery powder, chicken dried stock.',
    );
  });
});
