import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ALLERGENS, type Allergen } from '../../src/batch/material.ts';
import { allergenDeclaration } from '../../src/labels/allergens.ts';
import { blendLine, material, testMaterial } from '../helpers/materials.ts';
import { linesArbitrary } from './arbitraries.ts';

/** The names in the line of a label: 'Contains: Milk, Soy.' */
function named(text = ''): string[] {
  const [, list = ''] = /^Contains: (.*)\.$/.exec(text) ?? [];
  return list
    .toLowerCase()
    .replace(/ \([^)]*\)/g, '')
    .split(', ');
}

describe('the allergens of a batch', () => {
  it('are never missing and never made up', () => {
    fc.assert(
      fc.property(linesArbitrary, (lines) => {
        const declared = allergenDeclaration(lines);
        const carries = (allergen: Allergen) =>
          lines.some(({ supply }) => supply.material.allergens.includes(allergen));
        for (const allergen of ALLERGENS) {
          expect(declared.allergens.includes(allergen), allergen).toBe(carries(allergen));
          expect(named(declared.text).includes(allergen), allergen).toBe(carries(allergen));
        }
      }),
    );
  });

  it('are declared for the least trace that is weighed in', () => {
    const lines = [
      blendLine(testMaterial('pork'), '1000'),
      blendLine(testMaterial('nonfat-dry-milk'), '0.000001'),
    ];
    expect(allergenDeclaration(lines).text).toBe('Contains: Milk.');
  });

  it('stand once each in the order of the law', () => {
    const all = [...ALLERGENS]
      .reverse()
      .flatMap((allergen) =>
        [1, 2].map((number) => material(`${allergen}-${number}`, 'binder', { allergens: [allergen] })),
      );
    const { allergens, text } = allergenDeclaration(all.map((entry) => blendLine(entry, '1')));
    expect(allergens).toEqual(ALLERGENS);
    expect(named(text)).toEqual(ALLERGENS);
  });

  // The kind of nut, fish or shellfish is what is declared: 21 U.S.C. 343(w)(2), from memory, verify.
  it('name the kind of nut, fish or shellfish', () => {
    const lines = [
      blendLine(testMaterial('pork'), '10'),
      blendLine(
        material('pistachios', 'vegetable', { declaredName: 'pistachios', allergens: ['tree nuts'] }),
        '1',
      ),
      blendLine(material('pecans', 'vegetable', { declaredName: 'pecans', allergens: ['tree nuts'] }), '1'),
      blendLine(testMaterial('nonfat-dry-milk'), '1'),
    ];
    expect(allergenDeclaration(lines).text).toBe('Contains: Milk, Tree nuts (pistachios, pecans).');
  });

  // Nine since sesame was added on 1 January 2023: 21 U.S.C. 321(qq), from memory, verify.
  it('are the nine of the law', () => {
    expect([...ALLERGENS].sort()).toEqual([
      'crustacean shellfish',
      'eggs',
      'fish',
      'milk',
      'peanuts',
      'sesame',
      'soy',
      'tree nuts',
      'wheat',
    ]);
  });

  it('leave no line where none is in the batch', () => {
    expect(allergenDeclaration([blendLine(testMaterial('pork'), '1')])).toEqual({ allergens: [] });
  });
});
