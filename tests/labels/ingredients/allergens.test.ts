import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ALLERGENS, type Allergen, type Material } from '../../../src/batch/material.ts';
import type { Plant } from '../../../src/batch/plant.ts';
import { reworkMaterial } from '../../../src/batch/rework.ts';
import { exact } from '../../../src/exact.ts';
import { declare } from '../../../src/labels/declaration.ts';
import { allergenDeclaration, unlistedAllergens } from '../../../src/labels/ingredients/allergens.ts';
import { ingredientStatement } from '../../../src/labels/ingredients/ingredient-statement.ts';
import { MARKETS, marketOf } from '../../../src/labels/markets/all.ts';
import { US_MARKET } from '../../../src/labels/markets/us.ts';
import {
  blendLine,
  blendOf,
  material,
  standardOf,
  testMaterial,
  testProduct,
} from '../../helpers/materials.ts';
import { linesArbitrary } from '../arbitraries.ts';

const PLANT: Plant = {
  name: 'Demo Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'America/Chicago',
  mixerCapacityKg: 100,
  scales: [],
};

/** The lists as they are written down in the texts; which text, and how it was read, stands with each. */
const NINE: readonly Allergen[] = [
  'milk',
  'eggs',
  'fish',
  'crustacean shellfish',
  'tree nuts',
  'wheat',
  'peanuts',
  'soy',
  'sesame',
];
const GRAINS: readonly Allergen[] = ['rye', 'barley', 'oats'];
const LISTS: Readonly<Record<string, readonly Allergen[]>> = {
  // Nine since sesame was added on 1 January 2023: 21 U.S.C. 321(qq), from memory, verify.
  us: NINE,
  // Regulation (EU) No 1169/2011, Annex II: fourteen with sulfites, the grains being one. From memory, verify.
  eu: ALLERGENS,
  gb: ALLERGENS,
  // Food and Drug Regulations B.01.010.1: nuts, peanut, sesame, wheat, egg, milk, soy, crustacean, mollusc, fish, mustard
  // and the grains of gluten; celery and lupin are none. Official text.
  ca: [...NINE, ...GRAINS, 'molluscs', 'mustard'],
  // CXS 1-1985, 4.2.1.4, the longer list before 2024. From memory, verify.
  codex: [...NINE, ...GRAINS],
  // Food Standards Code, Standard 1.2.3. From memory, verify.
  anz: [...NINE, ...GRAINS, 'lupin', 'molluscs'],
};

const carriers = (ids: readonly Allergen[]) =>
  ids.map((allergen) => blendLine(material(`x-${allergen}`, 'binder', { allergens: [allergen] }), '1'));

describe('the allergens of a batch', () => {
  it.each(MARKETS.map((market) => [market.jurisdiction, market] as const))(
    'are the list of the law: %s',
    (jurisdiction, market) => {
      const { allergens } = allergenDeclaration(market, blendOf(carriers(ALLERGENS)));
      expect([...allergens].sort()).toEqual([...(LISTS[jurisdiction] ?? [])].sort());
    },
  );

  it('are never missing and never made up, on any market, within rework or not', () => {
    fc.assert(
      fc.property(linesArbitrary, fc.boolean(), (lines, inRework) => {
        const pork = blendLine(testMaterial('pork'), '1');
        const leftOver = () =>
          reworkMaterial({
            id: 'rework',
            name: 'Rework',
            productId: 'product',
            lines: [...lines, pork].map((line) => ({
              material: line.supply.material,
              massKg: line.exactMassKg,
            })),
            process: { yieldFraction: 1, fatLossFraction: 0 },
          });
        const batch = blendOf(inRework ? [pork, blendLine(leftOver(), '1')] : [pork, ...lines]);
        const carries = (allergen: Allergen) =>
          lines.some(({ supply }) => supply.material.allergens.includes(allergen));
        for (const market of MARKETS) {
          const { allergens } = allergenDeclaration(market, batch);
          const statement = ingredientStatement(market, batch);
          const marked = (statement.runs ?? []).filter(({ emphasized }) => emphasized);
          for (const allergen of LISTS[market.jurisdiction] ?? []) {
            expect(allergens.includes(allergen), `${market.jurisdiction} ${allergen}`).toBe(
              carries(allergen),
            );
            const declaring = statement.ingredients.some((entry) => entry.allergens?.includes(allergen));
            expect(declaring, `${market.jurisdiction} ${allergen}`).toBe(carries(allergen));
          }
          expect(marked.length > 0).toBe(market.allergens.emphasized && allergens.length > 0);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('name every one of the nine on the line of the United States', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const { text = '' } = allergenDeclaration(US_MARKET, blendOf(lines));
        const names = text
          .toLowerCase()
          .replace(/^contains: |\.$/g, '')
          .replace(/ \([^)]*\)/g, '')
          .split(', ');
        for (const allergen of NINE) {
          const carries = lines.some(({ supply }) => supply.material.allergens.includes(allergen));
          expect(names.includes(allergen), allergen).toBe(carries);
        }
      }),
    );
  });

  it('are declared for the least trace that is weighed in', () => {
    const lines = [
      blendLine(testMaterial('pork'), '1000'),
      blendLine(testMaterial('nonfat-dry-milk'), '0.000001'),
    ];
    expect(allergenDeclaration(US_MARKET, blendOf(lines)).text).toBe('Contains: Milk.');
  });

  it('count what only the casing has', () => {
    const casing = material('coated-casing', 'casing', { allergens: ['milk'] });
    const batch = blendOf([blendLine(testMaterial('pork'), '1')]);
    for (const market of MARKETS) {
      expect(allergenDeclaration(market, batch, casing).allergens, market.jurisdiction).toEqual(['milk']);
    }
  });

  // The kind of nut, fish or shellfish is what is declared: 21 U.S.C. 343(w)(2), from memory, verify.
  it('name the kind of nut, fish or shellfish, that of a mix by its parts', () => {
    const nuts = (id: string, subIngredients: string[] = []) =>
      blendLine(material(id, 'vegetable', { allergens: ['tree nuts'], subIngredients }), '1');
    const lines = [
      blendLine(testMaterial('pork'), '10'),
      nuts('pistachios'),
      nuts('nut mix', ['pecans', 'salt']),
      blendLine(
        material('fish sauce', 'flavoring', { allergens: ['fish'], subIngredients: ['anchovies', 'salt'] }),
        '1',
      ),
      blendLine(testMaterial('nonfat-dry-milk'), '1'),
    ];
    expect(allergenDeclaration(US_MARKET, blendOf(lines)).text).toBe(
      'Contains: Milk, Fish (anchovies), Tree nuts (pistachios, pecans).',
    );
  });

  it('leave no line where none is in the batch', () => {
    for (const market of MARKETS) {
      const declared = allergenDeclaration(market, blendOf([blendLine(testMaterial('pork'), '1')]));
      expect(declared.allergens).toEqual([]);
      expect(declared.text).toBeUndefined();
    }
  });

  it('have a line of their own in words of the market', () => {
    const lines = carriers(['wheat', 'barley', 'milk']);
    const text = (jurisdiction: string) => allergenDeclaration(marketOf(jurisdiction), blendOf(lines)).text;
    expect(text('us')).toBe('Contains: Milk, Wheat.');
    expect(text('ca')).toBe('Contains: Wheat, Milk, Barley.');
    expect(text('anz')).toBe('Contains: Wheat, Gluten, Milk.');
    expect(text('eu')).toBeUndefined();
  });

  it('are looked for in names whose table lists none', () => {
    const hidden: Material = material('batter', 'binder', { subIngredients: ['wheat flour', 'milk powder'] });
    const known = material('flour', 'binder', { declaredName: 'wheat flour', allergens: ['wheat'] });
    expect(unlistedAllergens(US_MARKET, blendOf([blendLine(hidden, '1'), blendLine(known, '1')]))).toEqual([
      'batter speaks of milk in its name or parts, but its table lists no milk',
      'batter speaks of wheat in its name or parts, but its table lists no wheat',
    ]);
  });

  it.each([
    ['milk', 'whey powder'],
    ['milk', 'sodium caseinate'],
    ['milk', 'pepper jack cheese'],
    ['milk', 'butter'],
    ['eggs', 'albumen'],
    ['fish', 'Worcestershire sauce'],
    ['wheat', 'toasted bread crumbs'],
    ['soy', 'tamari'],
    ['sesame', 'tahini'],
    ['barley', 'malt extract'],
  ] as const)('are looked for in what is made of them: %s in %s', (allergen, part) => {
    const hidden = blendLine(material('mix', 'flavoring', { subIngredients: ['salt', part] }), '1');
    expect(unlistedAllergens(marketOf('codex'), blendOf([hidden]))).toEqual([
      `mix speaks of ${allergen} in its name or parts, but its table lists no ${allergen}`,
    ]);
  });

  it('are not looked for in what only sounds like them', () => {
    const innocent = ['cocoa butter', 'cream of tartar', 'butter beans', 'corn syrup solids', 'ginger'];
    const line = blendLine(material('mix', 'flavoring', { subIngredients: innocent }), '1');
    for (const market of MARKETS) expect(unlistedAllergens(market, blendOf([line]))).toEqual([]);
  });

  it('are looked for in the parts of the casing and of rework in rework', () => {
    const casing = material('coated casing', 'casing', { subIngredients: ['collagen', 'wheat gluten'] });
    const reworked = (id: string, of: Material): Material =>
      reworkMaterial({
        id,
        name: id,
        productId: 'product',
        lines: [
          { material: testMaterial('pork'), massKg: exact('9') },
          { material: of, massKg: exact('1') },
        ],
        process: { yieldFraction: 1, fatLossFraction: 0 },
      });
    const hidden = material('batter', 'binder', { subIngredients: ['whey'] });
    const batch = blendOf([blendLine(reworked('second', reworked('first', hidden)), '1')]);
    expect(unlistedAllergens(US_MARKET, batch, casing)).toEqual([
      'batter speaks of milk in its name or parts, but its table lists no milk',
      'coated casing speaks of wheat in its name or parts, but its table lists no wheat',
    ]);
    const open = { ...hidden, allergens: ['milk'] as const };
    const again = blendOf([blendLine(reworked('second', reworked('first', open)), '1')]);
    for (const market of MARKETS) {
      expect(allergenDeclaration(market, again).allergens, market.jurisdiction).toEqual(['milk']);
      const shown = ingredientStatement(market, again).ingredients.flatMap(({ allergens = [] }) => allergens);
      expect(shown, market.jurisdiction).toEqual(['milk']);
    }
  });

  it('are all declared of materials that share a name', () => {
    const seasoning = (id: string, allergen: Allergen, part: string) =>
      blendLine(
        material(id, 'flavoring', {
          declaredName: 'seasoning',
          allergens: [allergen],
          subIngredients: [part],
        }),
        '1',
      );
    const batch = blendOf([
      blendLine(testMaterial('pork'), '50'),
      seasoning('a', 'soy', 'hydrolyzed soy protein'),
      seasoning('b', 'milk', 'lactose'),
    ]);
    for (const market of MARKETS) {
      const { allergens, text = '' } = allergenDeclaration(market, batch);
      expect([...allergens].sort(), market.jurisdiction).toEqual(['milk', 'soy']);
      const statement = ingredientStatement(market, batch).text;
      expect(statement).toMatch(/hydrolyzed soy protein, lactose/);
      expect(`${text} ${statement}`.toLowerCase(), market.jurisdiction).toMatch(/milk/);
    }
  });
});

// More than 10 mg/kg in the European Union, 10 mg/kg and more elsewhere: Regulation (EU) No 1169/2011, Annex II 12 (read in a
// note on it), Food and Drug Regulations B.01.010.2 (official), Food Standards Code and CXS 1 (from memory, verify).
describe('sulfites', () => {
  const sulfite = material('sulfite', 'preservative', { substances: { 'sulfur dioxide': 0.5 } });
  const batchWith = (sulfiteKg: string, porkKg: string) =>
    blendOf([blendLine(testMaterial('pork'), porkKg), blendLine(sulfite, sulfiteKg)]);

  it.each([
    ['eu', false],
    ['gb', false],
    ['ca', true],
    ['codex', true],
    ['anz', true],
  ])('are declared from 10 mg/kg of the finished product on, or only beyond: %s', (jurisdiction, atTen) => {
    const market = marketOf(jurisdiction);
    const isDeclared = (sulfiteKg: string, porkKg: string) =>
      allergenDeclaration(market, batchWith(sulfiteKg, porkKg)).allergens.includes('sulfites');
    // 0.002 kg of half sulfur dioxide in 100 kg: just 10 mg/kg.
    expect(isDeclared('0.002', '99.998')).toBe(atTen);
    expect(isDeclared('0.002001', '99.997999')).toBe(true);
    expect(isDeclared('0.001999', '99.998001')).toBe(false);
  });

  it('are counted on the finished weight and within rework', () => {
    const rework = reworkMaterial({
      id: 'rework',
      name: 'Rework',
      productId: 'product',
      lines: [
        { material: testMaterial('pork'), massKg: exact('9') },
        { material: sulfite, massKg: exact('1') },
      ],
      process: { yieldFraction: 1, fatLossFraction: 0 },
    });
    const batch = {
      ...blendOf([blendLine(testMaterial('pork'), '9'), blendLine(rework, '1')]),
      finishedKg: 8,
    };
    expect(allergenDeclaration(marketOf('eu'), batch).sulfitesMgPerKg).toBeCloseTo((0.05 / 8) * 1e6, 6);
  });

  it('are looked for where a name has them and the table has no sulfur dioxide', () => {
    const wine = material('wine', 'flavoring', { subIngredients: ['grapes', 'sodium metabisulfite'] });
    const batch = blendOf([blendLine(wine, '1'), blendLine(testMaterial('pork'), '9')]);
    expect(unlistedAllergens(US_MARKET, batch)).toEqual([
      'wine speaks of sulfites in its name or parts, but its table lists no sulfur dioxide',
    ]);
  });

  // From 10 ppm on: 21 CFR 101.100(a)(4), from memory, verify. 97.7 kg, so that a double of the quotient could miss it.
  it('are told in the United States at just 10 ppm and not below', () => {
    const told = (sulfiteKg: string, porkKg: string) => {
      const product = testProduct('uncooked-sausage');
      const batch = batchWith(sulfiteKg, porkKg);
      return declare(product, standardOf('uncooked-sausage'), batch, PLANT).cautions.some((text) =>
        text.startsWith('Sulfites come to'),
      );
    };
    expect(told('0.001954', '97.698046')).toBe(true);
    expect(told('0.001953', '97.698047')).toBe(false);
  });

  it('stand on the line by the word of the market, and on no line in the United States', () => {
    const batch = batchWith('0.1', '99.9');
    expect(allergenDeclaration(marketOf('ca'), batch).text).toBe('Contains: Sulphites.');
    expect(allergenDeclaration(US_MARKET, batch).text).toBeUndefined();
  });
});
