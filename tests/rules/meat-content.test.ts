import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { supplyOfMaterial } from '../../src/batch/lot.ts';
import { exact, toNumber } from '../../src/exact.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { formsOf } from '../../src/rules/form.ts';
import { declarableMeat, type MeatDefinition } from '../../src/rules/forms/meat-content.ts';
import { FORMS } from '../../src/rules/forms.ts';
import { declaredMeat } from '../../src/rules/meat-content.ts';
import { material, RAW, testSupply } from '../helpers/materials.ts';

/**
 * Declarable meat against the steps as the guidance prints them, one after the other on plain numbers (UK guidance of
 * 2003 on meat products, p. 61; factor 37/8 of guidance note 17 of the Irish authority; step 1 from memory, verify).
 */
const PORK: MeatDefinition = {
  id: 'test-pork',
  says: 'pork',
  meat: { kinds: ['skeletal meat'], species: ['pork'] },
  fat: 0.3,
  collagenOfProtein: 0.25,
};

function byTheSteps(meat: number, fat: number, protein: number, collagen: number): number {
  const [f, p, c] = [fat, protein, collagen].map((kg) => (100 * kg) / meat) as [number, number, number];
  const excessCollagen = Math.max(0, (c - 0.25 * p) / 0.75);
  const tissue = excessCollagen * 4.625;
  const allowedFat = (30 * (100 - tissue - f)) / 70;
  const excessFat = Math.max(0, f - allowedFat);
  return (meat * (100 - excessFat - tissue)) / 100;
}

const percent = (least: number, most: number) =>
  fc.integer({ min: least * 10, max: most * 10 }).map((tenths) => tenths / 1000);
const cut = fc
  .record({
    fatFraction: percent(1, 75),
    leanOfProtein: percent(10, 20),
    collagenOfProtein: percent(2, 60),
    grams: fc.integer({ min: 1, max: 50_000 }),
  })
  .map(({ fatFraction, leanOfProtein, collagenOfProtein, grams }) => {
    const proteinFraction = Number(((1 - fatFraction) * leanOfProtein).toFixed(6));
    const collagenFraction = Number((proteinFraction * collagenOfProtein).toFixed(6));
    return { fatFraction, proteinFraction, collagenFraction, grams };
  });

describe('declarable meat', () => {
  it('is what the steps of the guidance give, whatever is in excess', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(fc.array(cut, { minLength: 1, maxLength: 5 }), (cuts) => {
        const supplies = cuts.map(({ grams: _, ...composition }, index) =>
          supplyOfMaterial(material(`cut-${index}`, 'skeletal meat', { species: 'pork', composition }), 1),
        );
        const masses = cuts.map(({ grams }) => exact(grams));
        const coefficients = new Coefficients(supplies, RAW);
        const found = declaredMeat(PORK, coefficients, masses);
        const sum = (of: (one: (typeof cuts)[number]) => number) =>
          cuts.reduce((total, one) => total + one.grams * of(one), 0);
        const expected = byTheSteps(
          sum(() => 1),
          sum(({ fatFraction }) => fatFraction),
          sum(({ proteinFraction }) => proteinFraction),
          sum(({ collagenFraction }) => collagenFraction),
        );
        expect(Math.abs(found.declaredKg - expected)).toBeLessThan(1e-6 * found.usedKg);
        // The least of the four linear forms is the same meat: that is what a minimum holds against.
        const least = Math.min(
          ...formsOf(declarableMeat(PORK)).map((form) => toNumber(coefficients.total(form, masses))),
        );
        expect(Math.abs(least - found.declaredKg)).toBeLessThan(1e-6 * found.usedKg);
        seen.add(`fat ${found.excessFatKg > 0}, tissue ${found.excessConnectiveTissueKg > 0}`);
      }),
      { numRuns: 2000, seed: 1169 },
    );
    expect(seen.size).toBe(4);
  });

  it('counts no meat of another species and nothing that is not meat', () => {
    const coefficients = new Coefficients(
      ['pork', 'beef', 'pork-fat', 'pork-liver', 'water'].map((id) => testSupply(id)),
      RAW,
    );
    const found = declaredMeat(
      PORK,
      coefficients,
      [10, 20, 30, 40, 50].map((kg) => exact(kg)),
    );
    expect(found).toMatchObject({ usedKg: 10, declaredKg: 10, excessFatKg: 0, excessConnectiveTissueKg: 0 });
  });

  it('under a minimum shows the figure that decides, not the meat that was put in', () => {
    const limit = {
      id: 'test',
      says: 'Pork is at least 42 %.',
      numerator: declarableMeat(PORK),
      basis: FORMS.finished,
      sense: 'min',
      bound: 0.42,
      unit: 'percent',
      authority: 'law',
      citation: 'a test',
      read: 'official',
    } as const;
    // 60 of half-fat pork: 30 of fat where 12.857 are allowed, so 42.857 remain.
    const coefficients = new Coefficients([testSupply('pork-fat-50'), testSupply('water')], RAW);
    const [check] = checkLimits([limit], coefficients, [exact(60), exact(40)]);
    expect(check?.holds).toBe(true);
    expect(check?.value).toBeCloseTo(0.4285714, 6);
    expect(checkLimits([limit], coefficients, [exact(58.7), exact(41.3)])[0]?.holds).toBe(false);
  });
});
