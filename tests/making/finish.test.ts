import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Process } from '../../src/batch/product.ts';
import { kilogramsOfMicrograms } from '../../src/ledger/micrograms.ts';
import {
  costsPerKg,
  isOddYield,
  lossUg,
  type Outcome,
  processAsFound,
  STAGES,
  yieldFraction,
} from '../../src/making/finish.ts';

const process = (given: Partial<Process>): Process => ({
  cooking: 'raw',
  smoked: false,
  yieldFraction: 1,
  fatLossFraction: 0,
  grindPlates: [],
  mixing: [],
  ...given,
});

const massUg = fc.integer({ min: 1, max: 500_000_000_000 });
const parts = fc.array(fc.record({ stage: fc.constantFrom(...STAGES), massUg }), { maxLength: 5 });
const outcomes: fc.Arbitrary<Outcome> = fc.record({
  weighedUg: fc.integer({ min: 1, max: 2_000_000_000_000 }),
  outputUg: massUg,
  rework: parts,
  discarded: parts,
});

const KG = 1_000_000_000;
const outcome = (given: Partial<Outcome>): Outcome => ({
  weighedUg: 100 * KG,
  outputUg: 90 * KG,
  rework: [],
  discarded: [],
  ...given,
});

describe('mass balance', () => {
  test('what was weighed in is product, rework, discarded or lost, to the microgram', () => {
    fc.assert(
      fc.property(outcomes, (given) => {
        const out = [...given.rework, ...given.discarded].reduce(
          (sum, part) => sum + part.massUg,
          given.outputUg,
        );
        expect(BigInt(out) + BigInt(lossUg(given))).toBe(BigInt(given.weighedUg));
      }),
    );
  });

  test('the cost of what was weighed in is that of what was kept', () => {
    fc.assert(
      fc.property(outcomes, fc.double({ min: 0.01, max: 1e5, noNaN: true }), (given, cost) => {
        const { raw, finished } = costsPerKg(cost, given);
        const kept = given.rework.reduce(
          (sum, part) => sum + kilogramsOfMicrograms(part.massUg) * (part.stage === 'raw' ? raw : finished),
          kilogramsOfMicrograms(given.outputUg) * finished,
        );
        const largest =
          cost * (1 + (Math.abs(raw * kilogramsOfMicrograms(given.weighedUg)) + Math.abs(kept)) / cost);
        expect(Math.abs(kept - cost)).toBeLessThan(1e-9 * largest + 1e-6 * Math.abs(finished) * 1e-3 + 1e-9);
      }),
    );
  });
});

describe('yield', () => {
  test('is what came out over what went through', () => {
    expect(yieldFraction(outcome({}))).toBe(0.9);
    // 10 kg of raw rework never went through; 9 kg of cooked rework did.
    const aside = [
      { stage: 'raw', massUg: 10 * KG },
      { stage: 'finished', massUg: 9 * KG },
    ] as const;
    expect(yieldFraction(outcome({ outputUg: 72 * KG, rework: aside }))).toBe(0.9);
    expect(yieldFraction(outcome({ discarded: [{ stage: 'raw', massUg: 100 * KG }] }))).toBeUndefined();
  });

  test('is odd far from the declared one, or above what was weighed in', () => {
    const cooked = process({ cooking: 'cooked', yieldFraction: 0.9 });
    const oddAt = (outputKg: number, of = cooked) => {
      const given = outcome({ outputUg: outputKg * KG });
      return isOddYield(given, yieldFraction(given) ?? 0, of);
    };
    expect([87.9, 88.1, 91.9, 92.1].map((kg) => oddAt(kg))).toEqual([true, false, false, true]);
    expect([97.9, 98.1, 100.1, 100.3].map((kg) => oddAt(kg, process({})))).toEqual([
      true,
      false,
      false,
      true,
    ]);
  });

  test('of a raw product changes nothing of it but by a gain', () => {
    const raw = process({});
    expect(processAsFound(raw, 0.98).yieldFraction).toBe(1);
    expect(processAsFound(raw, 1.001).yieldFraction).toBe(1);
    expect(processAsFound(raw, 1.03).yieldFraction).toBe(1.03);
    expect(processAsFound(process({ cooking: 'cooked', yieldFraction: 0.9 }), 0.88).yieldFraction).toBe(0.88);
    expect(processAsFound(process({ smoked: true }), 0.97).yieldFraction).toBe(0.97);
  });
});
