import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BlendLine } from '../../src/formulate/blend.ts';
import { ingredientStatement } from '../../src/labels/ingredient-statement.ts';
import { US_MARKET } from '../../src/labels/markets/us.ts';
import { blendLine, blendOf, material, testMaterial } from '../helpers/materials.ts';
import { linesArbitrary, milligrams } from './arbitraries.ts';

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
