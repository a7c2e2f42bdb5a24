import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axesOf, costAt, fatAt, xOf, yOf } from '../../../src/page/blend/curve-shape.ts';

const FRAME = { width: 420, height: 230, left: 56, right: 14, top: 14, bottom: 40 };

describe('the picture of cost against fat', () => {
  it('has every point within its frame', () => {
    const point = fc.record({
      fat: fc.double({ min: 10, max: 30, noNaN: true }),
      cost: fc.double({ min: 0.01, max: 20, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 12 }), (points) => {
        const axes = axesOf(points, [10, 30]);
        for (const { fat, cost } of points) {
          expect(xOf(fat, axes, FRAME)).toBeGreaterThanOrEqual(FRAME.left - 1e-9);
          expect(xOf(fat, axes, FRAME)).toBeLessThanOrEqual(FRAME.width - FRAME.right + 1e-9);
          expect(yOf(cost, axes, FRAME)).toBeGreaterThanOrEqual(FRAME.top - 1e-9);
          expect(yOf(cost, axes, FRAME)).toBeLessThanOrEqual(FRAME.height - FRAME.bottom + 1e-9);
        }
      }),
    );
  });

  it('gives back the fat of a place to half a point', () => {
    const axes = axesOf(
      [
        { fat: 17, cost: 1 },
        { fat: 33, cost: 2 },
      ],
      [17, 33],
    );
    for (let fat = 17; fat <= 33; fat += 0.5) expect(fatAt(xOf(fat, axes, FRAME), axes, FRAME)).toBe(fat);
    expect(fatAt(-100, axes, FRAME)).toBe(17);
    expect(fatAt(1000, axes, FRAME)).toBe(33);
  });

  it('is straight between its points and nothing beyond them', () => {
    const points = [
      { fat: 20, cost: 2 },
      { fat: 24, cost: 1 },
    ];
    expect(costAt(points, 22)).toBeCloseTo(1.5);
    expect(costAt(points, 20)).toBe(2);
    expect(costAt(points, 25)).toBeUndefined();
  });
});
