import fc from 'fast-check';
import { ALLERGENS, OTHER_KINDS, SPECIES } from '../../src/batch/material.ts';
import type { BlendLine } from '../../src/formulate/blend.ts';
import { blendLine, material } from '../helpers/materials.ts';

/** Words none of which stands inside another, nor inside the fixed words of a statement. */
export const WORDS = [
  'alder',
  'birch',
  'cedar',
  'damson',
  'elm',
  'fir',
  'hazel',
  'juniper',
  'larch',
  'maple',
];
const PARTS = ['quartz', 'mica', 'opal', 'jade'];

const meatMaterial = fc
  .tuple(fc.constantFrom(...WORDS), fc.constantFrom(...SPECIES))
  .map(([declaredName, species]) => material('random', 'skeletal meat', { declaredName, species }));

const otherMaterial = fc
  .tuple(
    fc.constantFrom(...WORDS),
    fc.constantFrom(...OTHER_KINDS),
    fc.uniqueArray(fc.constantFrom(...ALLERGENS), { maxLength: 3 }),
    fc.uniqueArray(fc.constantFrom(...PARTS), { maxLength: 3 }),
  )
  .map(([declaredName, kind, allergens, subIngredients]) =>
    material('random', kind, { declaredName, allergens, subIngredients }),
  );

/** From a milligram to a ton, so that both sides of two percent are met, and ties with them. */
const mass = fc
  .oneof(fc.constantFrom(20_000, 980_000, 1_000_000), fc.integer({ min: 1, max: 1_000_000_000 }))
  .map((milligrams) => {
    const text = String(milligrams).padStart(7, '0');
    return `${text.slice(0, -6)}.${text.slice(-6)}`;
  });

export const linesArbitrary: fc.Arbitrary<BlendLine[]> = fc.array(
  fc.tuple(fc.oneof(meatMaterial, otherMaterial), mass).map(([supplied, kg]) => blendLine(supplied, kg)),
  { minLength: 1, maxLength: 12 },
);

/** Whole milligrams of a line, to add up without the module under test. */
export function milligrams({ weight }: BlendLine): bigint {
  return BigInt(weight.text.replace('.', ''));
}
