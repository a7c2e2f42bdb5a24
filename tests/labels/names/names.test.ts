import { describe, expect, it } from 'vitest';
import { type Lot, supplyOfLot } from '../../../src/batch/lot.ts';
import type { Material } from '../../../src/batch/material.ts';
import type { Product } from '../../../src/batch/product.ts';
import { marketOf } from '../../../src/labels/markets/all.ts';
import { productName } from '../../../src/labels/names/product-name.ts';
import { addedPercent, solutionPercent } from '../../../src/labels/names/united-states.ts';
import {
  blendLine,
  blendOf,
  COOKED,
  DRIED,
  material,
  standardOf,
  testMaterial,
  testProduct,
} from '../../helpers/materials.ts';

type Line = readonly [of: string | Material, massKg: string];
type Given = Partial<Product> & { readonly finishedKg?: number; readonly casing?: Material };

const linesOf = (lines: readonly Line[]) =>
  lines.map(([of, massKg]) => blendLine(typeof of === 'string' ? testMaterial(of) : of, massKg));

function named(
  jurisdiction: string,
  productClass: string,
  lines: ReturnType<typeof linesOf>,
  given: Given = {},
) {
  const { finishedKg, casing, ...rest } = given;
  const product = testProduct(productClass, { ...rest, standard: { jurisdiction, productClass } });
  const blend = blendOf(lines);
  const batch = finishedKg === undefined ? blend : { ...blend, finishedKg };
  const standard = standardOf(productClass, jurisdiction);
  return productName(marketOf(jurisdiction), { product, standard, batch, casing });
}

const us = (productClass: string, lines: readonly Line[], given: Given = {}) =>
  named('us', productClass, linesOf(lines), given);
const texts = ({ qualifiers }: ReturnType<typeof named>) => qualifiers.map(({ text }) => text);

/** Meat out of a lot in some state. */
function lotLine(id: string, state: Lot['state'], materialId = 'beef') {
  const of = testMaterial(materialId);
  const lot: Lot = { id, materialId, onHandKg: 1, costPerKg: 1, receivedDate: '2026-11-20', state };
  return { ...blendLine(of, '1'), supply: supplyOfLot(lot, of) };
}

describe('the name in the United States', () => {
  // 9 CFR 319.180(b), (d)
  it('says with byproducts where a cooked sausage of that kind holds any', () => {
    const bologna = { name: 'Bologna', process: COOKED };
    expect(
      us(
        'cooked-sausage',
        [
          ['pork', '9'],
          ['pork-heart', '1'],
        ],
        bologna,
      ).name,
    ).toBe('Bologna with Byproducts');
    // Fat is among them: 319.180(g), official.
    expect(
      us(
        'cooked-sausage',
        [
          ['pork', '9'],
          ['pork-fat', '1'],
        ],
        bologna,
      ).name,
    ).toBe('Bologna with Byproducts');
    expect(us('cooked-sausage', [['pork', '10']], bologna).name).toBe('Bologna');
    expect(
      us(
        'cooked-sausage',
        [
          ['pork', '9'],
          ['pork-heart', '1'],
        ],
        { name: 'House Loaf' },
      ).name,
    ).toBe('House Loaf');
  });

  // 9 CFR 319.104(a), note 3: the most that is added, in percent of the finished weight.
  it('states how much of a water product is added, rounded up', () => {
    const lines: readonly Line[] = [
      ['pork', '80'],
      ['water', '18'],
      ['cure-6.25', '2'],
    ];
    expect(us('ham-and-water-product', lines, { process: COOKED, finishedKg: 100 }).name).toBe(
      'Ham and Water Product - 20% of Weight is Added Ingredients',
    );
    const added = (finishedKg: number) => addedPercent({ ...blendOf(linesOf(lines)), finishedKg });
    expect(added(99.9)).toBe(20);
    expect(added(90)).toBe(12);
    // The water is gone, the cure is not.
    expect(added(80)).toBe(3);
  });

  // The figure of the name, unrounded: 9 CFR 319.104(a) and 318.19.
  it('warns where cured pork does not earn it', () => {
    const meat = (proteinFraction: number) =>
      material('ham-meat', 'skeletal meat', {
        species: 'pork',
        composition: { proteinFraction, fatFraction: 0.047 },
      });
    const cautions = (protein: number) =>
      us(
        'ham-water-added',
        [
          [meat(protein), '99.8'],
          ['cure-6.25', '0.2'],
        ],
        { process: COOKED },
      ).cautions;
    expect(cautions(0.1624)).toEqual([]);
    expect(cautions(0.1622)[0]).toMatch(/does not earn the name Ham Water Added: its PFF is 16\.98/);
  });

  // 9 CFR 317.17(c)(1); the line for vegetable powder is labeling policy, from memory, verify.
  it('says uncured, and by what nitrite came in of itself', () => {
    const celery = material('celery-powder', 'flavoring', { substances: { 'sodium nitrate': 0.02 } });
    const plain = us('frankfurter', [['beef', '1']]);
    expect(plain.name).toBe('Uncured Beef Frankfurter');
    const cold = 'Not Preserved - Keep Refrigerated Below 40 °F. At All Times';
    expect(texts(plain)).toEqual(['No Nitrate or Nitrite Added', cold]);
    expect(texts(us('pepperoni', [['beef', '1']], { process: DRIED }))).toEqual([
      'No Nitrate or Nitrite Added',
    ]);
    expect(plain.cautions[0]).toContain('Not Preserved');
    const natural = us('frankfurter', [
      ['beef', '1'],
      [celery, '0.01'],
    ]);
    expect(natural.name).toBe('Uncured Beef Frankfurter');
    expect(texts(natural)).toEqual([
      'No Nitrate or Nitrite Added Except for Those Naturally Occurring in celery powder',
      cold,
    ]);
    expect(
      us('frankfurter', [
        ['beef', '1'],
        [celery, '0.01'],
        ['cure-6.25', '0.01'],
      ]).name,
    ).toBe('Beef Frankfurter');
  });

  // 9 CFR 317.2(e)(2): solution over the raw meat without it.
  it('states the solution in raw meat without a standard of part 319', () => {
    const lines: readonly Line[] = [
      ['pork', '100'],
      ['water', '13.5'],
      ['salt', '1.5'],
    ];
    const line = 'Containing 15% added solution of water and salt';
    expect(texts(us('ground-pork', lines))).toEqual([line]);
    expect(texts(us('ground-pork', lines, { process: COOKED }))).toEqual([]);
    expect(texts(us('breakfast-sausage', lines))).toEqual([]);
    expect(
      texts(
        us('ground-pork', [
          ['pork', '100'],
          ['salt', '1.5'],
        ]),
      ),
    ).toEqual([]);
    const percent = (water: string) =>
      solutionPercent(
        blendOf(
          linesOf([
            ['pork', '100'],
            ['water', water],
          ]),
        ),
      );
    expect([percent('15'), percent('15.000001'), percent('14.999999'), percent('0.1')]).toEqual([
      15, 16, 15, 1,
    ]);
  });

  // 9 CFR 317.2(j)(3) and 316.11(d)
  it('tells an artificial smoke flavor from another', () => {
    const artificial = material('smoke', 'flavoring', {
      declaredName: 'artificial smoke flavor',
      substances: { 'smoke flavor': 1 },
    });
    expect(
      texts(
        us('cooked-sausage', [
          ['pork', '1'],
          [artificial, '0.01'],
        ]),
      ),
    ).toEqual(['Artificial smoke flavoring added']);
    expect(
      texts(
        us('cooked-sausage', [
          ['pork', '1'],
          [artificial, '0.01'],
          ['smoke-flavor', '0.01'],
        ]),
      ),
    ).toEqual(['Smoke flavoring added', 'Artificial smoke flavoring added']);
  });

  // 9 CFR 317.2(j)(10) and 316.11(f)
  it('names the antioxidants of a mix, not the mix', () => {
    expect(
      texts(
        us('fresh-pork-sausage', [
          ['pork', '1'],
          ['BHA-and-BHT', '0.0001'],
        ]),
      ),
    ).toEqual(['BHA and BHT added to help protect flavor']);
    expect(
      texts(
        us('fresh-pork-sausage', [
          ['pork', '1'],
          ['tocopherols', '0.0001'],
        ]),
      ),
    ).toEqual(['Tocopherols added to help protect flavor']);
  });

  // 9 CFR 317.8(b)(39)
  it('says formed where an enzyme binds pieces to a cut', () => {
    const lines: readonly Line[] = [
      ['beef', '99'],
      ['transglutaminase', '0.05'],
    ];
    expect(us('cooked-sausage', lines, { name: 'Beef Tenderloin' }).name).toBe('Formed Beef Tenderloin');
    expect(us('cooked-sausage', lines, { name: 'Beef Sausage' }).name).toBe('Beef Sausage');
    expect(us('cooked-sausage', [['beef', '1']], { name: 'Beef Tenderloin' }).name).toBe('Beef Tenderloin');
  });

  // 9 CFR 317.8(b)(6), (34) and 317.2(e)(2)(v)
  it.each([
    ['Fresh Links', 'cure-6.25', true],
    ['Fresh Links', 'salt', false],
    ['All Beef Links', 'salt', true],
    ['All Beef Links', 'beef', false],
    ['100% Beef', 'salt', true],
    ['Enhanced Beef', 'beef', true],
    ['Small Links', 'salt', false],
  ])('warns of a word that is false: %s with %s', (name, id, isFalse) => {
    expect(
      us(
        'uncooked-sausage',
        [
          ['beef', '9'],
          [id, '1'],
        ],
        { name },
      ).cautions,
    ).toHaveLength(isFalse ? 1 : 0);
  });

  // 9 CFR 317.8(b)(37), (38)
  it.each([
    ['pork casing', []],
    ['sheep casing', ['In sheep casing']],
    ['collagen casing', ['In collagen casing']],
    ['fibrous casing', []],
    ['natural casing', ['In natural casing']],
  ])('of pork in %s', (declaredName, lines) => {
    const casing = material('casing', 'casing', { declaredName });
    expect(texts(us('italian-sausage', [['pork', '1']], { casing }))).toEqual(lines);
  });
});

describe('the name in the European Union and Great Britain', () => {
  const europe = (jurisdiction: string, productClass: string, lines: readonly Line[], given: Given = {}) =>
    named(jurisdiction, productClass, linesOf(lines), given);

  // Regulation (EU) No 1169/2011, Annex VI part A 6: more than 5 % (read on a page with fragments of the act).
  it('has added water above 5 % in it where the product looks like a cut', () => {
    const lines: readonly Line[] = [
      ['pork', '95'],
      ['water', '20'],
    ];
    const name = (finishedKg: number, productName = 'Cooked Ham') =>
      europe('eu', 'cooked-sausage', lines, { name: productName, process: COOKED, finishedKg }).name;
    expect(name(100)).toBe('Cooked Ham');
    expect(name(100.1)).toBe('Cooked Ham with added water');
    expect(name(115, 'Cooked Sausage')).toBe('Cooked Sausage');
    expect(name(115, 'Ham Sausage')).toBe('Ham Sausage');
  });

  // Annex VI part A 5, from memory, verify.
  it('names proteins of another animal', () => {
    const name = (id: string, meat = 'beef') =>
      europe(
        'eu',
        'fresh-sausage',
        [
          [meat, '9'],
          [id, '1'],
        ],
        { name: 'Links' },
      ).name;
    expect(name('sodium-caseinate')).toBe('Links with added milk protein');
    expect(name('pork-collagen')).toBe('Links with added pork protein');
    expect(name('pork-collagen', 'pork')).toBe('Links');
    expect(name('gelatin')).toBe('Links with added gelatine');
    expect(name('soy-flour')).toBe('Links');
  });

  // SI 2014/3001, Schedule 1.
  it('has the reserved description beside a name that leaves it out', () => {
    const lines = [['pork', '1']] as const;
    expect(texts(europe('gb', 'pork-sausage', lines, { name: 'House Links of Pork' }))).toEqual([
      'Pork sausage',
    ]);
    expect(texts(europe('gb', 'pork-sausage', lines, { name: 'Pork Chipolatas' }))).toEqual([]);
    expect(texts(europe('gb', 'beef-burger', lines, { name: 'Beefburger' }))).toEqual([]);
    expect(texts(europe('gb', 'economy-burger', lines, { name: 'Burger' }))).toEqual(['Economy burger']);
  });

  // Annex VI part B 2 for the two statements (secondary); its table for the figures.
  it('states what fat and collagen of minced meat are under', () => {
    expect(texts(europe('eu', 'minced-pure-beef', [['beef', '1']]))).toEqual([
      'Percentage of fat content under 20 %',
      'Collagen/meat protein ratio under 15 %',
    ]);
    expect(texts(europe('eu', 'fresh-sausage', [['beef', '1']]))).toEqual([]);
  });

  // Annex VI part A 2 (secondary).
  it('says defrosted where all meat came frozen and the product is sold chilled and raw', () => {
    const lines = [lotLine('a', 'frozen'), lotLine('b', 'frozen')];
    expect(texts(named('eu', 'fresh-sausage', lines))).toEqual(['Defrosted']);
    expect(texts(named('gb', 'sausage', lines, { name: 'Beef Sausage' }))).toEqual(['Defrosted']);
    expect(texts(named('eu', 'fresh-sausage', [...lines, lotLine('c', 'chilled')]))).toEqual([]);
    expect(texts(named('eu', 'fresh-sausage', lines, { label: { storage: 'keep frozen' } }))).toEqual([]);
  });
});

describe('the name elsewhere', () => {
  // Food and Drug Regulations B.01.080: official.
  it('says in Canada what was frozen before', () => {
    const frozen = lotLine('a', 'frozen');
    const chilled = lotLine('b', 'chilled');
    expect(texts(named('ca', 'fresh-sausage', [frozen]))).toEqual(['Previously frozen']);
    expect(texts(named('ca', 'fresh-sausage', [frozen, chilled]))).toEqual([
      'Made from fresh and frozen portions',
    ]);
    expect(texts(named('ca', 'fresh-sausage', [chilled]))).toEqual([]);
  });

  // Food and Drug Regulations B.14.021 and B.01.090: official.
  it('states in Canada the least meat protein of a cured cut', () => {
    expect(
      texts(
        named(
          'ca',
          'cured-cut-cooked',
          linesOf([
            ['pork', '90'],
            ['water', '10'],
          ]),
          { process: COOKED },
        ),
      ),
    ).toEqual(['Minimum 13% meat protein']);
  });

  // Standard 2.2.1 of the Food Standards Code: secondary.
  it('states in Australia and New Zealand the most fat of mince and how fermented meat was heated', () => {
    const lean = { label: { leanPercent: 92.5, storage: 'keep refrigerated' } } as const;
    const beef = linesOf([['beef-fat-06', '1']]);
    expect(texts(named('anz', 'mince', beef, lean))).toEqual(['Maximum 7.5 g fat per 100 g']);
    expect(named('anz', 'mince', beef, { name: 'Premium Mince' }).cautions).toHaveLength(1);
    expect(named('anz', 'mince', beef, { name: 'Mince' }).cautions).toEqual([]);
    expect(texts(named('anz', 'fermented-sausage', beef, { process: DRIED }))).toEqual(['Not heat treated']);
  });

  it('is the common name, smoked where it was', () => {
    const smoked = { name: 'House Sausage', process: { ...COOKED, smoked: true } };
    for (const [jurisdiction, productClass] of [
      ['eu', 'cooked-sausage'],
      ['gb', 'cooked-sausage'],
      ['ca', 'cooked-sausage'],
      ['codex', 'comminuted-meat'],
      ['anz', 'cooked-sausage'],
    ] as const) {
      expect(named(jurisdiction, productClass, linesOf([['pork', '1']]), smoked).name).toBe(
        'Smoked House Sausage',
      );
    }
  });
});
