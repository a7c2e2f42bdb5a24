import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { controlChart, RUN_OF } from '../../../src/page/records/control-chart.ts';

describe('the control chart of individual values', () => {
  it('has the limits of the published example', () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, flow rates of ten batches: mean 50.81, mean moving range
    // 1.8778, limits 45.8159 and 55.8041 (secondary: the results as quoted by others; the ten values from memory, verify).
    const rates = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
    const { limits, points } = controlChart(rates);
    expect(limits?.mean).toBeCloseTo(50.81, 10);
    expect(limits?.meanMovingRange).toBeCloseTo(1.8778, 4);
    const threeSd = 3 * (limits?.sd ?? 0);
    expect(50.81 + threeSd).toBeCloseTo(55.8041, 4);
    expect(50.81 - threeSd).toBeCloseTo(45.8159, 4);
    expect(threeSd / (limits?.meanMovingRange ?? 1)).toBeCloseTo(2.66, 2);
    expect(points.map(({ standing }) => standing)).toEqual(rates.map(() => 'within'));
  });

  it('marks what lies beyond two and three standard deviations', () => {
    // Moving ranges of 0 and 1: the mean 0.2, the standard deviation 0.4/1.128 or so.
    const { points } = controlChart([10, 10, 10, 10, 10, 10, 10, 10, 10, 10, 13]);
    expect(points.at(-1)).toMatchObject({ standing: 'outside', side: 'above' });
    expect(points[0]).toMatchObject({ standing: 'within', side: 'below', inRun: true });
  });

  it.each([
    [RUN_OF - 1, false],
    [RUN_OF, true],
  ])('of %i values on one side says run: %s', (count, isRun) => {
    const low = Array.from({ length: count }, (_, at) => 9 + (at % 2) / 10);
    const { points } = controlChart([...low, 12, 13]);
    expect(points.slice(0, count).map(({ inRun }) => inRun)).toEqual(low.map(() => isRun));
    expect(points.slice(count).some(({ inRun }) => inRun)).toBe(false);
  });

  it('draws no limits through one value or none', () => {
    expect(controlChart([])).toEqual({ points: [] });
    expect(controlChart([0.3])).not.toHaveProperty('limits');
  });

  it('stays the same when all values move or are measured in other units', () => {
    const values = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 2, maxLength: 40 });
    fc.assert(
      fc.property(values, fc.integer({ min: 1, max: 9 }), (given, by) => {
        const plain = controlChart(given);
        const other = controlChart(given.map((value) => value * by));
        expect(other.limits?.sd).toBeCloseTo((plain.limits?.sd ?? 0) * by, 8);
        const near = (at: number) => {
          const { mean, sd } = plain.limits ?? { mean: 0, sd: 0 };
          const apart = Math.abs((given[at] ?? 0) - mean);
          return [0, 2 * sd, 3 * sd].some((edge) => Math.abs(apart - edge) < 1e-9);
        };
        // A value on a limit falls to either side of it by the last digit of a double.
        plain.points.forEach(({ standing }, at) => {
          if (!near(at)) expect(other.points[at]?.standing).toBe(standing);
        });
      }),
    );
  });
});
