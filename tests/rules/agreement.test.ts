import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Supply } from '../../src/batch/lot.ts';
import { MATERIAL_KINDS, MEAT_KINDS, SPECIES, SUBSTANCES } from '../../src/batch/material.ts';
import { type Exact, exact, multiply, subtract, toNumber } from '../../src/exact.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import type { Limit } from '../../src/rules/limit.ts';
import { MASS_BALANCE } from '../../src/rules/mass-balance.ts';
import { rowsOf } from '../../src/rules/row.ts';
import { toRow } from '../../src/solver/exact-model.ts';
import {
  ALL_LIMITS,
  LIMITS_BY_ID,
  limitOf,
  material,
  RAW,
  type Weighed,
  weigh,
} from '../helpers/materials.ts';
import { AT_THE_BOUND } from './cases/all.ts';

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

/** How rows and check decided, by limit: the property means something only where batches fell on both sides. */
type Decided = Map<string, Set<boolean>>;

/** Holds the rows of limits against their exact checks on one batch. */
function compare(
  among: readonly Limit[],
  coefficients: Coefficients,
  massesKg: readonly Exact[],
  decided: Decided,
): void {
  for (const { limit, holds } of checkLimits(among, coefficients, massesKg)) {
    const sides = rowsOf(limit, coefficients)
      .map(toRow)
      .map((row) => {
        const parts = row.terms.map(
          ({ column, coefficient }) => coefficient * toNumber(massesKg[column] ?? exact(0)),
        );
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
}

describe('the rows of the linear problem and the exact check', () => {
  const decided: Decided = new Map();

  it('agree on random batches for every limit of every standard', () => {
    fc.assert(
      fc.property(batchArbitrary, ({ lines, process }) => {
        const coefficients = new Coefficients(
          lines.map(({ supply }) => supply),
          process,
        );
        const masses = lines.map(({ grams }) => multiply(exact(grams), exact('0.001')));
        compare(limits, coefficients, masses, decided);
      }),
      { numRuns: 500, seed: 424 },
    );
  });

  it('agree on batches near the bound of each limit', () => {
    const near = fc.array(fc.integer({ min: 900, max: 1100 }), { minLength: 4, maxLength: 4 });
    for (const [id, found] of Object.entries(AT_THE_BOUND)) {
      const lines: readonly Weighed[] = 'holds' in found ? found.holds : found;
      const { coefficients, massesKg } = weigh(lines);
      fc.assert(
        fc.property(near, (factors) => {
          const masses = massesKg.map((mass, index) =>
            multiply(mass, exact((factors[index] ?? 1000) / 1000)),
          );
          compare([limitOf(id)], coefficients, masses, decided);
        }),
        { numRuns: 60, seed: 425 },
      );
      compare([limitOf(id)], coefficients, massesKg, decided);
    }
  });

  it('fell on both sides of every limit; of a limit of nothing on the one there is', () => {
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
