import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reworkMaterial } from '../../../src/batch/rework.ts';
import type { BlendLine } from '../../../src/formulate/blend.ts';
import { allergenDeclaration } from '../../../src/labels/ingredients/allergens.ts';
import { ingredientStatement } from '../../../src/labels/ingredients/ingredient-statement.ts';
import { marketOf } from '../../../src/labels/markets/all.ts';
import { US_MARKET } from '../../../src/labels/markets/us.ts';
import { blendLine, blendOf, material, testMaterial } from '../../helpers/materials.ts';
import { linesArbitrary, milligrams } from '../arbitraries.ts';

const statementOf = (lines: readonly BlendLine[]) => ingredientStatement(US_MARKET, blendOf(lines));

/** Names and their milligrams, added up by hand. */
function weighed(lines: readonly BlendLine[]): Map<string, bigint> {
  const byName = new Map<string, bigint>();
  for (const line of lines) {
    const { kind, declaredName, subIngredients } = line.supply.material;
    const name = kind === 'spice' && subIngredients.length === 0 ? 'spices' : declaredName;
    byName.set(name, (byName.get(name) ?? 0n) + milligrams(line));
  }
  return byName;
}

const GROUP = 'contains 2% or less of:';

/** The statement as its reader takes it apart. */
function read(text: string): { readonly large: string[]; readonly small: string[] } {
  const bare = text
    .toLowerCase()
    .replace(/\.$/, '')
    .replace(/ \([^)]*\)/g, '');
  const [large = '', small = ''] = bare.split(GROUP);
  const names = (list: string) =>
    list
      .split(/,| and /)
      .map((name) => name.trim())
      .filter(Boolean);
  return { large: names(large), small: names(small) };
}

// Descending order of weight and the group of two percent: 9 CFR 317.2(f)(1); the order from memory, verify.
describe('the ingredient statement', () => {
  it('declares every name that was weighed in, each exactly once', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const { large, small } = read(statementOf(lines).text);
        expect([...large, ...small].sort()).toEqual([...weighed(lines).keys()].sort());
      }),
    );
  });

  it('stands in descending order of the weights as put in', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const masses = weighed(lines);
        const { large, small } = read(statementOf(lines).text);
        const found = [...large, ...small].map((name) => masses.get(name) ?? -1n);
        const sorted = [...found].sort((a, b) => (a > b ? -1 : a < b ? 1 : 0));
        expect(found).toEqual(sorted);
      }),
    );
  });

  it('has nothing above two percent in its last group and everything else before it', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const masses = weighed(lines);
        const total = [...masses.values()].reduce((sum, mass) => sum + mass, 0n);
        const isSmall = (name: string) => (masses.get(name) ?? 0n) * 50n <= total;
        const { large, small } = read(statementOf(lines).text);
        expect(small.filter((name) => !isSmall(name))).toEqual([]);
        expect(large.filter(isSmall)).toEqual([]);
      }),
    );
  });

  it('gives shares that add up to the whole', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const shares = statementOf(lines).ingredients.map(({ fraction }) => fraction);
        expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1)).toBeLessThanOrEqual(1e-14);
      }),
    );
  });

  it('declares every part of every multi-part ingredient that is no spice', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const { ingredients, text } = statementOf(lines);
        for (const { supply } of lines) {
          if (supply.material.kind === 'spice') continue;
          const { declaredName, subIngredients } = supply.material;
          const entry = ingredients.find(({ name }) => name === declaredName);
          for (const part of subIngredients) {
            expect(entry?.parts.filter((known) => known === part)).toEqual([part]);
            expect(text.toLowerCase()).toMatch(new RegExp(`${declaredName} \\([^)]*${part}`));
          }
        }
      }),
    );
  });

  it('does not depend on the order of the lines', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const there = statementOf(lines).ingredients.map(({ name }) => name);
        const back = statementOf([...lines].reverse()).ingredients.map(({ name }) => name);
        expect(back).toEqual(there);
      }),
    );
  });

  it('reads as a label does', () => {
    const cure = material('cure', 'cure', {
      declaredName: 'curing salt',
      subIngredients: ['salt', 'sodium nitrite'],
    });
    const lines = [
      blendLine(testMaterial('black-pepper'), '0.3'),
      blendLine(testMaterial('pork'), '60'),
      blendLine(testMaterial('water'), '6'),
      blendLine(testMaterial('salt'), '1.8'),
      blendLine(testMaterial('beef'), '31'),
      blendLine(testMaterial('sage'), '0.2'),
      blendLine(cure, '0.25'),
      blendLine(testMaterial('nonfat-dry-milk'), '3'),
    ];
    expect(statementOf(lines).text).toBe(
      'Pork and beef, water, nonfat dry milk, contains 2% or less of: salt, spices, curing salt (salt, sodium nitrite).',
    );
  });

  it('puts exactly two percent into the last group and a milligram more before it', () => {
    const statement = (salt: string, pork: string) =>
      statementOf([blendLine(testMaterial('pork'), pork), blendLine(testMaterial('salt'), salt)]).text;
    expect(statement('2', '98')).toBe('Pork, contains 2% or less of: salt.');
    expect(statement('2.000001', '97.999999')).toBe('Pork, salt.');
  });

  it('adds trims of one declared name up before it orders', () => {
    const trim = (id: string) => material(id, 'skeletal meat', { declaredName: 'pork', species: 'pork' });
    const lines = [
      blendLine(testMaterial('beef'), '5'),
      blendLine(trim('lean'), '3'),
      blendLine(trim('fat'), '3'),
    ];
    expect(statementOf(lines).text).toBe('Pork and beef.');
  });

  it('counts water where it stands by weight', () => {
    const lines = [blendLine(testMaterial('water'), '6'), blendLine(testMaterial('onion'), '5')];
    expect(statementOf(lines).text).toBe('Water, onion.');
  });

  it('declares names that differ in case alone as one, and their parts once', () => {
    const cheese = (id: string, declaredName: string, subIngredients: readonly string[]) =>
      material(id, 'dairy', { declaredName, subIngredients, allergens: ['milk'] });
    const lines = [
      blendLine(testMaterial('pork'), '94'),
      blendLine(cheese('a', 'Cheddar cheese', ['Milk', 'salt']), '1.6'),
      blendLine(cheese('b', 'cheddar cheese', ['milk', 'salt', 'annatto']), '1.5'),
      blendLine(material('s', 'salt', { declaredName: 'Salt' }), '1.2'),
      blendLine(testMaterial('salt'), '1.7'),
    ];
    expect(statementOf(lines).text).toBe('Pork, Cheddar cheese (Milk, salt, annatto), salt.');
  });

  it('declares nothing of a line that weighs nothing', () => {
    const lines = [
      blendLine(testMaterial('pork'), '10'),
      blendLine(testMaterial('salt'), '0'),
      blendLine(testMaterial('nonfat-dry-milk'), '0.000'),
    ];
    expect(statementOf(lines).text).toBe('Pork.');
    expect(allergenDeclaration(US_MARKET, blendOf(lines)).allergens).toEqual([]);
  });

  // 9 CFR 317.2(f)(1)(iv): two meats that make up the meat block, wherever it stands in the product.
  it('joins no meat of the last group to another one', () => {
    const statement = (beef: string) =>
      statementOf([
        blendLine(testMaterial('potato'), '96'),
        blendLine(testMaterial('pork'), '2.1'),
        blendLine(testMaterial('beef'), beef),
      ]).text;
    expect(statement('1.9')).toBe('Potato, pork, contains 2% or less of: beef.');
    expect(statement('2.1')).toBe('Potato, beef and pork.');
  });

  it('joins no meats with something between them', () => {
    const lines = [
      blendLine(testMaterial('pork'), '40'),
      blendLine(testMaterial('water'), '35'),
      blendLine(testMaterial('beef'), '30'),
    ];
    expect(statementOf(lines).text).toBe('Pork, water, beef.');
  });

  // Water as what is left of it: Regulation (EU) No 1169/2011, Annex VII part A 1, secondary.
  it('counts what is left of ice and water once, under the name of which there is more', () => {
    const ice = material('ice', 'water', { declaredName: 'ice' });
    const lines = [
      blendLine(testMaterial('pork'), '80'),
      blendLine(testMaterial('water'), '12'),
      blendLine(ice, '8'),
    ];
    const { ingredients, text } = ingredientStatement(marketOf('eu'), {
      ...blendOf(lines),
      finishedKg: 95,
    });
    expect(text).toBe('Pork, water.');
    expect(ingredients.map(({ fraction }) => Number((fraction * 95).toFixed(9)))).toEqual([80, 15]);
  });

  it('drops no water that brings an allergen, however little is left', () => {
    const whey = material('whey', 'water', { declaredName: 'liquid whey', allergens: ['milk'] });
    const lines = [blendLine(testMaterial('pork'), '90'), blendLine(whey, '10')];
    const { text } = ingredientStatement(marketOf('eu'), { ...blendOf(lines), finishedKg: 70 });
    expect(text).toContain('liquid whey (milk)');
  });

  it('names the spice that is an allergen within its class, and no other', () => {
    const sesame = material('sesame', 'spice', { declaredName: 'sesame seed', allergens: ['sesame'] });
    const lines = [
      blendLine(testMaterial('pork'), '98'),
      blendLine(testMaterial('black-pepper'), '0.5'),
      blendLine(sesame, '0.3'),
    ];
    expect(statementOf(lines).text).toBe('Pork, contains 2% or less of: spices (sesame seed).');
  });

  // 9 CFR 317.2(f)(1): the group may be printed with 2, 1.5, 1 or 0.5 %; from memory, verify.
  it('has exactly what is two percent or less in its last group, out of cooked rework too', () => {
    fc.assert(
      fc.property(linesArbitrary, linesArbitrary, fc.integer({ min: 1, max: 3 }), (fresh, left, parts) => {
        // Rework that lost a thirty-second of its weight: 31 kg of it count as 32 kg put in.
        const pork = blendLine(testMaterial('pork'), '1000.000000');
        const before = [...left, pork];
        const rawMg = before.reduce((total, line) => total + milligrams(line), 0n);
        const rework = reworkMaterial({
          id: 'rework',
          name: 'Rework',
          productId: 'product',
          lines: before.map((line) => ({ material: line.supply.material, massKg: line.exactMassKg })),
          finishedKg: { digits: rawMg * 96_875n, scale: 11 },
          process: { yieldFraction: 0.96875, fatLossFraction: 0 },
        });
        const lines = [...fresh, blendLine(rework, String(parts))];
        // Milligrams times 31 and the raw weight, so that all are whole numbers.
        const units = new Map<string, bigint>();
        const count = (of: readonly BlendLine[], times: bigint) => {
          for (const [name, mass] of weighed(of)) units.set(name, (units.get(name) ?? 0n) + mass * times);
        };
        count(fresh, 31n * rawMg);
        count(before, 32n * BigInt(parts) * 1_000_000n);
        const total = [...units.values()].reduce((sum, mass) => sum + mass, 0n);
        const { large, small } = read(statementOf(lines).text);
        const massOf = (name: string) => units.get(name) ?? -1n;
        expect(small.filter((name) => massOf(name) * 50n > total)).toEqual([]);
        expect(large.filter((name) => massOf(name) * 50n < total)).toEqual([]);
        const order = [...large].sort((a, b) => (massOf(a) > massOf(b) ? -1 : massOf(a) < massOf(b) ? 1 : 0));
        expect(large.map(massOf)).toEqual(order.map(massOf));
        expect([...large, ...small].sort()).toEqual([...units.keys()].sort());
      }),
    );
  });

  // Parts of a multi-part ingredient are declared: 9 CFR 317.2(f), from memory, verify.
  it('does not lose the parts of a seasoning blend that is kept as a spice', () => {
    const blend = material('house-blend', 'spice', {
      declaredName: 'seasoning',
      subIngredients: ['wheat starch', 'pepper'],
      allergens: ['wheat'],
    });
    const lines = [blendLine(testMaterial('pork'), '95'), blendLine(blend, '5')];
    expect(statementOf(lines).text).toContain('wheat starch');
  });
});
