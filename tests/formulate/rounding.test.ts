import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toNumber } from '../../src/exact.ts';
import {
  countedStepKg,
  countsIn,
  fillUp,
  type LoadSize,
  loadSize,
  loadsOf,
  missingKg,
  sizeTolerance,
} from '../../src/formulate/load-size.ts';
import { mend } from '../../src/formulate/mend.ts';
import { type Problem, prepare, problemOf } from '../../src/formulate/prepare.ts';
import { lineKg, roundingOf, roundToScale, type WeighedLine } from '../../src/formulate/round.ts';
import type { Limit } from '../../src/rules/limit.ts';
import { rowsOf } from '../../src/rules/row.ts';
import { toRow } from '../../src/solver/exact-model.ts';
import { solve } from '../../src/solver/solve.ts';
import { arbitraryRequest } from '../helpers/arbitrary-plants.ts';
import { ENGINES } from '../helpers/engines.ts';

/** Rounding by steps that only add up what a move changes, against the same rules gone through in full each time. */

interface Rounded {
  readonly lines: readonly WeighedLine[];
  readonly size: LoadSize;
  readonly problem: Problem;
  readonly limits: readonly Limit[];
}

const rounded = fc
  .sample(arbitraryRequest(), { seed: 20310601, numRuns: 400 })
  .flatMap((asked): Rounded[] => {
    const request = { ...asked, engines: ENGINES };
    const prepared = prepare(request);
    if (!prepared.ok) return [];
    const problem = problemOf(request, prepared.ready);
    const outcome = solve(problem.model, ENGINES);
    if (outcome.status !== 'optimal') return [];
    const loads = loadsOf(outcome.values, request.plant);
    const lines = roundToScale(problem.coefficients.supplies, outcome.values, loads, request.plant.scales);
    const size = loadSize(problem.size, loads, problem.coefficients);
    return [{ lines, size, problem, limits: prepared.ready.limits }];
  });

const at = (values: readonly number[], index: number) => values[index] ?? 0;
const divisionsOf = (lines: readonly WeighedLine[]) => lines.map(({ divisions }) => divisions);

describe('filling up', () => {
  function inFull(lines: readonly WeighedLine[], size: LoadSize, eachAtMostOnce: boolean): WeighedLine[] {
    const filled = [...lines];
    const raised = new Set<number>();
    let missing = missingKg(lines, size);
    for (;;) {
      const lostKg = (line: WeighedLine) => line.wantedKg - toNumber(lineKg(line));
      const open = filled
        .map((line, index) => ({ line, index, stepKg: countedStepKg(line, size) }))
        .filter(({ line, index }) => {
          const isFree = roundingOf(line.supply.material) === 'free' && countsIn(line, size);
          return isFree && line.divisions < line.mostDivisions && !(eachAtMostOnce && raised.has(index));
        })
        .sort((a, b) => b.stepKg - a.stepKg || lostKg(b.line) - lostKg(a.line));
      const finest = size.isLeast && missing > 1e-7 ? open.at(-1) : undefined;
      const next = open.find(({ stepKg }) => missing >= stepKg / 2) ?? finest;
      if (!next) return filled;
      filled[next.index] = { ...next.line, divisions: next.line.divisions + 1 };
      raised.add(next.index);
      missing -= next.stepKg;
    }
  }

  it('gives each line what sorting all of them before every step gives it', () => {
    let raised = 0;
    for (const { lines, size } of rounded) {
      for (const eachAtMostOnce of [true, false]) {
        const filled = divisionsOf(fillUp(lines, size, eachAtMostOnce));
        expect(filled).toEqual(divisionsOf(inFull(lines, size, eachAtMostOnce)));
        raised += filled.filter((divisions, index) => divisions > at(divisionsOf(lines), index)).length;
      }
    }
    expect(raised).toBeGreaterThan(100);
  });
});

describe('mending', () => {
  /** By how much limits and size are missed, added up from nothing. */
  function badnessOf({ lines, size, problem, limits }: Rounded) {
    const rows = limits
      .flatMap((limit) => rowsOf(limit, problem.coefficients).map(toRow))
      .filter(({ terms }) => terms.length > 0)
      .map(({ terms, upper }) => {
        const largest = Math.max(...terms.map(({ coefficient }) => Math.abs(coefficient)));
        const perKg = (column: number) => terms.find((term) => term.column === column)?.coefficient ?? 0;
        return lines.map(({ column }) => ((upper === 0 ? 1 : -1) * perKg(column)) / largest);
      });
    const steps = lines.map(({ divisionKg }) => toNumber(divisionKg));
    const counted = lines.map((line) => toNumber(size.perKg(line)));
    const start = divisionsOf(lines);
    const startMissing = missingKg(lines, size);
    const tolerance = sizeTolerance(lines, size);
    return (counts: readonly number[]): number => {
      const over = rows.map((row) =>
        Math.max(
          0,
          row.reduce((sum, a, index) => sum + a * at(counts, index) * at(steps, index), 1e-12),
        ),
      );
      const moved = counts.reduce(
        (sum, count, index) => sum + at(counted, index) * (count - at(start, index)) * at(steps, index),
        0,
      );
      const missing = startMissing - moved;
      const short = size.isLeast ? Math.max(0, missing - 1e-12) : 0;
      return over.reduce((a, b) => a + b, short) + Math.max(0, Math.abs(missing) - tolerance);
    };
  }

  function mayBe({ supply, divisions, leastDivisions, mostDivisions }: WeighedLine, count: number): boolean {
    if (count < leastDivisions || count > mostDivisions) return false;
    const rounding = roundingOf(supply.material);
    const moved = count - divisions;
    return rounding === 'free' || moved === 0 || moved === -1 || (moved === 1 && rounding === 'nearest');
  }

  /** The least that one move leads to, by going through all of them. */
  function bestOfOne({ lines }: Rounded, counts: readonly number[], badness: (of: number[]) => number) {
    let least = Number.POSITIVE_INFINITY;
    for (const step of [1, 2, 4, 8, 16]) {
      for (let up = -1; up < lines.length; up++) {
        for (let down = -1; down < lines.length; down++) {
          if (up === down) continue;
          const next = [...counts];
          if (up >= 0) next[up] = at(next, up) + step;
          if (down >= 0) next[down] = at(next, down) - step;
          const isAllowed = [up, down].every(
            (index) => index < 0 || mayBe(lines[index] as WeighedLine, at(next, index)),
          );
          if (isAllowed) least = Math.min(least, badness(next));
        }
      }
    }
    return least;
  }

  it('ends right, or where no single move makes it better, and never moves a line further than it may', () => {
    const seen = { mended: 0, stuck: 0 };
    for (const one of rounded) {
      const { lines, size, problem, limits } = one;
      const badness = badnessOf(one);
      const before = badness(divisionsOf(lines));
      const counts = divisionsOf(mend(lines, size, problem.coefficients, limits));
      const after = badness(counts);
      expect(after).toBeLessThanOrEqual(before);
      counts.forEach((count, index) => {
        const line = lines[index] as WeighedLine;
        if (count !== line.divisions) expect(mayBe(line, count)).toBe(true);
      });
      if (after === 0) {
        if (before > 0) seen.mended++;
        continue;
      }
      seen.stuck++;
      expect(bestOfOne(one, counts, badness)).toBeGreaterThan(after - 1e-9);
    }
    console.log(`mending: ${JSON.stringify(seen)} of ${rounded.length}`);
    expect(seen.mended).toBeGreaterThan(50);
  });
});
