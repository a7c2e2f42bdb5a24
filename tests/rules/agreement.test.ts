import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Supply } from '../../src/batch/lot.ts';
import { MATERIAL_KINDS, MEAT_KINDS, SPECIES, SUBSTANCES } from '../../src/batch/material.ts';
import { type Exact, exact, multiply, subtract, toNumber } from '../../src/exact.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { MASS_BALANCE } from '../../src/rules/mass-balance.ts';
import { rowsOf } from '../../src/rules/row.ts';
import { ALL_LIMITS, LIMITS_BY_ID, material, RAW } from '../helpers/materials.ts';

/** A share of 1 in ten-thousandths, as a table gives it. */
const share = (most: number) =>
  fc.integer({ min: 0, max: Math.round(most * 10_000) }).map((parts) => parts / 10_000);

const substances = fc.dictionary(fc.constantFrom(...SUBSTANCES), share(1), { maxKeys: 10 });

const supplyArbitrary = fc
  .record({
    kind: fc.oneof(fc.constantFrom(...MEAT_KINDS), fc.constantFrom(...MATERIAL_KINDS)),
    species: fc.constantFrom(...SPECIES),
    fatFraction: share(0.5),
    waterFraction: share(0.5),
    proteinFraction: share(0.25),
    collagenFraction: share(0.06),
    substances,
    costPerKg: share(20),
  })
  .map(({ kind, species, substances: some, costPerKg, ...composition }): Supply => {
    const isMeat = (MEAT_KINDS as readonly string[]).includes(kind);
    const made = material('random', kind, {
      composition,
      substances: { P2O5: 0.5, ...some },
      ...(isMeat && { species }),
    });
    return {
      id: 'random',
      material: made,
      composition: made.composition,
      costPerKg,
      onHandKg: Number.POSITIVE_INFINITY,
    };
  });

const lineArbitrary = fc.record({
  supply: supplyArbitrary,
  grams: fc.integer({ min: 0, max: 5_000_000 }),
});

const processArbitrary = fc
  .record({ yieldFraction: share(0.3), fatLossFraction: share(0.2) })
  .map(({ yieldFraction, fatLossFraction }) => ({
    ...RAW,
    yieldFraction: toNumber(subtract(exact(1), exact(yieldFraction))),
    fatLossFraction,
  }));

const batchArbitrary = fc.record({
  lines: fc.array(lineArbitrary, { minLength: 1, maxLength: 8 }),
  process: processArbitrary,
});

const limits = [...LIMITS_BY_ID.values(), ...MASS_BALANCE].filter(({ sense }) => sense !== 'present');

/** Float noise of a row, relative to the size of its terms. */
const TOLERANCE = 1e-12;

describe('the row of the linear problem and the exact check', () => {
  it('agree on random batches for every limit of every standard', () => {
    const decided = new Map<string, Set<boolean>>();
    fc.assert(
      fc.property(batchArbitrary, ({ lines, process }) => {
        const coefficients = new Coefficients(
          lines.map(({ supply }) => supply),
          process,
        );
        const masses: Exact[] = lines.map(({ grams }) => multiply(exact(grams), exact('0.001')));
        for (const { limit, holds } of checkLimits(limits, coefficients, masses)) {
          const sides = rowsOf(limit, coefficients).map((row) => {
            const parts = row.terms.map(({ column, coefficient }) => {
              const line = lines[column];
              if (!line) throw new Error(`${limit.id} has a term outside of the batch`);
              return (coefficient * line.grams) / 1000;
            });
            const activity = parts.reduce((total, part) => total + part, 0);
            const size = parts.reduce((total, part) => total + Math.abs(part), 0);
            const over = row.upper === 0 ? activity : -activity;
            return { broken: over > TOLERANCE * size, kept: over < -TOLERANCE * size };
          });
          if (sides.length === 0) throw new Error(`${limit.id} has no row`);
          const broken = sides.some((side) => side.broken);
          const kept = sides.every((side) => side.kept);
          const message = `${limit.id}: rows ${JSON.stringify(sides)}, check ${holds}`;
          if (broken) expect(holds, message).toBe(false);
          if (kept) expect(holds, message).toBe(true);
          if (broken || kept) decided.set(limit.id, (decided.get(limit.id) ?? new Set()).add(holds));
        }
      }),
      { numRuns: 600, seed: 424 },
    );
    // The property means something only where batches fell on both sides; a limit of nothing has one side.
    const undecided = limits.filter(({ id, bound }) => {
      const seen = decided.get(id);
      return bound > 0 ? seen?.size !== 2 : !seen?.has(false);
    });
    expect(undecided.map(({ id }) => id)).toEqual([]);
  });

  it('cover every limit that a standard has', () => {
    const seen = new Set(limits.map(({ id }) => id));
    expect(ALL_LIMITS.filter(({ limit }) => limit.sense !== 'present' && !seen.has(limit.id))).toEqual([]);
  });
});
