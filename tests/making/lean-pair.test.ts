import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plant } from '../../src/batch/plant.ts';
import { exact } from '../../src/exact.ts';
import { leanPair } from '../../src/labels/lean-pair.ts';
import { falseOnLabel, standingOf } from '../../src/making/standing.ts';
import { blendLine, blendOf, material, standardOf, testProduct } from '../helpers/materials.ts';

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
const standard = standardOf('ground-beef');
const beef = (id: string, fatFraction: number) =>
  material(id, 'skeletal meat', { species: 'beef', composition: { fatFraction } });

/** A batch of lean and of fat: whether its label keeps the pair, and whether its product is held for it. */
function judged(leanPercent: number, leanGrams: number, fatGrams: number) {
  const product = testProduct('ground-beef', { label: { leanPercent, storage: 'keep refrigerated' } });
  const kilograms = (grams: number) => (grams / 1000).toFixed(3);
  const lines = [
    blendLine(beef('lean', 0.1), kilograms(leanGrams)),
    blendLine(beef('fat', 0.5), kilograms(fatGrams)),
  ];
  const { limits } = standingOf(
    { product, standard, edition: 'us', plant: PLANT, date: '2026-11-25' },
    lines.map(({ supply, massKg }) => ({ supply, massKg: exact(massKg) })),
  );
  return {
    isShown: leanPair(product, standard, blendOf(lines)).pair !== undefined,
    isHeld: falseOnLabel(limits).length > 0,
  };
}

// 9 CFR 317.362(f) has the pair; that its fat may be missed by a hundredth of it is the plant's own judgement.
describe('the lean and fat on a label', () => {
  test('are dropped from the declaration just where the product is held for them', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(73, 80, 85, 87.5, 89.8),
        fc.integer({ min: 1, max: 100_000 }),
        fc.integer({ min: -600, max: 600 }),
        (leanPercent, leanGrams, off) => {
          // So much of the fat one makes the label's fat: 0.1 + 0.4 s = f.
          const share = (100 - leanPercent - 10) / 40;
          const fatGrams = Math.max(1, Math.round((leanGrams * share) / (1 - share)) + off);
          const { isShown, isHeld } = judged(leanPercent, leanGrams, fatGrams);
          expect(isShown).toBe(!isHeld);
        },
      ),
      { numRuns: 200 },
    );
  });

  test('stay for a gram of fat, and for just a hundredth of what they promise', () => {
    expect(judged(80, 75_000, 25_000)).toEqual({ isShown: true, isHeld: false });
    expect(judged(80, 75_000, 25_001)).toEqual({ isShown: true, isHeld: false });
    // 20.2 % fat: 0.1 × 745 + 0.5 × 255 = 202 of 1000.
    expect(judged(80, 74_500, 25_500)).toEqual({ isShown: true, isHeld: false });
    expect(judged(80, 74_500, 25_501)).toEqual({ isShown: false, isHeld: true });
  });
});
