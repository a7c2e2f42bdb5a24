import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keepOpen } from '../../src/solver/keep-open.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';
import { type CurvePoint, corners } from '../../src/solver/parametric.ts';
import { ENGINES } from '../helpers/engines.ts';
import { solveWithHighs } from '../helpers/highs.ts';

interface Line {
  readonly slope: number;
  readonly rise: number;
}

/** The highest of some lines, with the slope of the first that is highest. */
const highest =
  (lines: readonly Line[]) =>
  (at: number): CurvePoint => {
    const points = lines.map(({ slope, rise }) => ({ at, value: slope * at + rise, slope }));
    return points.reduce((best, point) => (point.value > best.value + 1e-12 ? point : best));
  };

describe('the corners of a curve known by heart', () => {
  // −2 t, 1 − t, t − 1 and 3 t − 9 meet at −1, 1 and 4.
  const lines = [
    { slope: -2, rise: 0 },
    { slope: -1, rise: 1 },
    { slope: 1, rise: -1 },
    { slope: 3, rise: -9 },
  ];

  it('are all found, in order, with their heights', () => {
    const found = corners(highest(lines), -3, 6);
    expect(found.map(({ at, value }) => [at, value])).toEqual([
      [-3, 6],
      [-1, 2],
      [1, 0],
      [4, 3],
      [6, 9],
    ]);
  });

  it('are none on a straight line', () => {
    const found = corners(highest([{ slope: 2, rise: 1 }]), 0, 10);
    expect(found.map(({ at }) => at)).toEqual([0, 10]);
  });

  it('are the same when an end lies on a corner and tells the slope of the other side', () => {
    // At −1 the line that ends there is told, at 4 the one that begins there.
    expect(corners(highest(lines), -1, 6).map(({ at }) => at)).toEqual([-1, 1, 4, 6]);
    expect(corners(highest([...lines].reverse()), -3, 4).map(({ at }) => at)).toEqual([-3, -1, 1, 4]);
  });

  it('are asked for no more often than there are corners and pieces', () => {
    let asked = 0;
    corners(
      (at) => {
        asked++;
        return highest(lines)(at);
      },
      -3,
      6,
    );
    expect(asked).toBeLessThanOrEqual(2 + 2 * 3);
  });

  it('begin and end where the curve is there at all', () => {
    const from = highest(lines);
    expect(corners((at) => (at > 5 ? undefined : from(at)), -3, 6)).toEqual([from(-3)]);
    expect(corners((at) => (at < 0 ? undefined : from(at)), -3, 6)).toEqual([from(6)]);
    expect(corners(() => undefined, 0, 1)).toEqual([]);
  });

  it('are found of any convex curve of whole lines', () => {
    let cornered = 0;
    const line = fc.record({
      slope: fc.integer({ min: -20, max: 20 }),
      rise: fc.integer({ min: -50, max: 50 }),
    });
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 8 }), (random) => {
        const curve = highest(random);
        const found = corners(curve, -7.3, 8.1);
        cornered += found.length - 2;
        for (let at = -7.3; at <= 8.1; at += 0.35) {
          const next = found.findIndex((point) => point.at >= at);
          const [left, right] = [found[Math.max(0, next - 1)], found[next]] as [CurvePoint, CurvePoint];
          const share = right.at === left.at ? 0 : (at - left.at) / (right.at - left.at);
          if (Math.abs(left.value + share * (right.value - left.value) - curve(at).value) > 1e-6)
            return false;
        }
        return true;
      }),
      { numRuns: 500, seed: 1976 },
    );
    expect(cornered).toBeGreaterThan(500);
  });
});

const row = (name: string, coefficients: readonly number[], lower: number, upper: number): Row => ({
  name,
  lower,
  upper,
  terms: coefficients.map((coefficient, column) => ({ column, coefficient })),
});

const decimal = (min: number, max: number, places: number) =>
  fc
    .integer({ min: Math.round(min * 10 ** places), max: Math.round(max * 10 ** places) })
    .map((whole) => Number((whole / 10 ** places).toFixed(places)));

const FAT = 1;
/** Blends of 100 kg, their fat at most what is still to be said. */
const blends: fc.Arbitrary<LinearModel> = fc
  .array(
    fc.record({
      cost: fc.oneof(fc.constantFrom(2, 3, 4), decimal(1, 9, 2)),
      fat: decimal(0.03, 0.6, 2),
      protein: decimal(0.1, 0.22, 2),
      upper: fc.constantFrom(15, 30, 60, 100),
    }),
    { minLength: 4, maxLength: 12 },
  )
  .map((lots) => ({
    columns: lots.map(({ cost, upper }) => ({ cost, lower: 0, upper })),
    rows: [
      row(
        'size',
        lots.map(() => 1),
        100,
        100,
      ),
      row(
        'fat',
        lots.map(({ fat }) => fat),
        Number.NEGATIVE_INFINITY,
        100,
      ),
      row(
        'protein',
        lots.map(({ protein }) => protein),
        13,
        Number.POSITIVE_INFINITY,
      ),
    ],
  }));

const withFat = ({ columns, rows }: LinearModel, upper: number): LinearModel => ({
  columns,
  rows: rows.map((each, index) => (index === FAT ? { ...each, upper } : each)),
});

/** The least fat of any blend, by another code; undefined where there is none. */
function leastFat({ columns, rows }: LinearModel): number | undefined {
  const perKg = rows[FAT]?.terms ?? [];
  const answer = solveWithHighs({
    columns: columns.map((column, index) => ({ ...column, cost: perKg[index]?.coefficient ?? 0 })),
    rows,
  });
  return answer.status === 'optimal' ? answer.cost : undefined;
}

describe('the least cost of random blends against the fat that is allowed', () => {
  const curves = fc.sample(blends, { seed: 20310514, numRuns: 80 }).flatMap((model) => {
    const least = leastFat(model);
    if (least === undefined) return [];
    const from = Math.ceil(least * 100) / 100;
    const to = 40;
    if (from >= to) return [];
    const points = keepOpen(model, ENGINES, (kept) =>
      corners(
        (at) => {
          kept.setRow(FAT, Number.NEGATIVE_INFINITY, at);
          const outcome = kept.solve();
          if (outcome.status !== 'optimal') return undefined;
          return { at, value: outcome.cost, slope: outcome.rowPrices[FAT] ?? 0 };
        },
        from,
        to,
      ),
    );
    return [{ model, points }];
  });
  const anew = (model: LinearModel, at: number): number => {
    const answer = solveWithHighs(withFat(model, at));
    if (answer.status !== 'optimal') throw new Error(`no blend with ${at} kg of fat`);
    return answer.cost;
  };

  it('has corners, and is exact at each of them', () => {
    const found = curves.reduce((sum, { points }) => sum + points.length - 2, 0);
    console.log(`curves: ${curves.length}, corners between their ends: ${found}`);
    expect(curves.length).toBeGreaterThan(50);
    expect(found).toBeGreaterThan(150);
    for (const { model, points } of curves) {
      for (const { at, value } of points) expect(value).toBeCloseTo(anew(model, at), 5);
    }
  });

  it('is straight between them, solved anew at thirds', () => {
    for (const { model, points } of curves) {
      points.slice(1).forEach((right, index) => {
        const left = points[index] as CurvePoint;
        for (const share of [1 / 3, 2 / 3]) {
          const at = left.at + share * (right.at - left.at);
          expect(left.value + share * (right.value - left.value)).toBeCloseTo(anew(model, at), 5);
        }
      });
    }
  });

  it('falls as more fat is allowed, and ever less', () => {
    for (const { points } of curves) {
      const slopes = points.slice(1).map((right, index) => {
        const left = points[index] as CurvePoint;
        return (right.value - left.value) / (right.at - left.at);
      });
      slopes.forEach((slope, index) => {
        expect(slope).toBeLessThan(1e-6);
        if (index > 0) expect(slope).toBeGreaterThan((slopes[index - 1] as number) - 1e-5);
      });
    }
  });
});
