import { describe, expect, it } from 'vitest';
import { type CostCurve, costCurve } from '../../src/formulate/curve.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import { demoProductJson, demoRequest, pounds } from '../helpers/demo-requests.ts';

type Found = Extract<CostCurve, { outcome: 'curve' }>;

function found(curve: CostCurve): Found {
  if (curve.outcome !== 'curve') throw new Error(JSON.stringify(curve));
  return curve;
}

/** Least cost before rounding, of the request itself. */
function leastCost(request: FormulationRequest): number {
  const formulation = formulate(request);
  if (formulation.outcome !== 'blend') throw new Error(formulation.outcome);
  return formulation.blend.unroundedCost;
}

/** Height of the curve between its corners. */
function heightAt({ points }: Found, at: number): number {
  const index = points.findIndex((point) => point.at >= at);
  const [left, right] = [points[Math.max(0, index - 1)], points[index]];
  if (!left || !right) throw new Error(`${at} is outside`);
  if (right.at === left.at) return right.cost;
  return left.cost + ((right.cost - left.cost) * (at - left.at)) / (right.at - left.at);
}

const GROUND_BEEF = demoRequest({ product: 'ground-beef-80-20', batchSize: { total: pounds(500) } });
const SAUSAGE = demoRequest({ product: 'smoked-sausage', batchSize: { finished: pounds(300) } });

describe('the least cost along a limit', () => {
  it.each([
    ['ground beef, fat', GROUND_BEEF, 'house-fat-max', 17, 25],
    ['smoked sausage, fat', SAUSAGE, 'house-fat-max', 25, 30],
    ['smoked sausage, protein', SAUSAGE, 'house-protein-min', 10, 18],
  ] as const)(
    '%s: has every corner, and is what the blend itself costs in between',
    (_, request, limitId, from, to) => {
      const curve = found(costCurve(request, { limitId, from, to }));
      expect(curve.corners).toBe(true);
      expect(curve.points.length).toBeGreaterThanOrEqual(2);
      const { from: first, to: last } = curve.feasible;
      for (let step = 1; step < 12; step++) {
        const bound = Number((first + ((last - first) * step) / 12).toPrecision(9));
        const cost = leastCost({ ...request, insteadOf: [{ limitId, bound }] });
        expect(heightAt(curve, bound) / cost).toBeCloseTo(1, 6);
      }
    },
  );

  it('goes through the blend of today', () => {
    const curve = found(costCurve(SAUSAGE, { limitId: 'house-fat-max', from: 25, to: 30 }));
    expect(curve.today).toBe(0.28);
    expect(heightAt(curve, 0.28) / leastCost(SAUSAGE)).toBeCloseTo(1, 7);
  });

  it('bends one way: each corner is no steeper than the one before', () => {
    const { points } = found(costCurve(SAUSAGE, { limitId: 'house-protein-min', from: 10, to: 18 }));
    const slopes = points.slice(1).map(({ at, cost }, index) => {
      const before = points[index];
      if (!before) throw new Error('no point before');
      return (cost - before.cost) / (at - before.at);
    });
    expect(slopes.length).toBeGreaterThan(3);
    slopes.slice(1).forEach((slope, index) => {
      expect(slope).toBeGreaterThanOrEqual((slopes[index] ?? 0) - 1e-6 * Math.abs(slope));
    });
  });

  it('is sampled where the basis is not fixed, and says so', () => {
    const byMeat = demoRequest({ product: 'smoked-sausage', batchSize: { meat: pounds(300) } });
    const curve = found(costCurve(byMeat, { limitId: 'house-fat-max', from: 25, to: 30 }));
    expect(curve.corners).toBe(false);
    expect(curve.points.length).toBeGreaterThan(20);
  });

  it('is sampled where a margin is asked, and dearer than without one', () => {
    const sure = { ...SAUSAGE, certainty: [{ limitId: 'house-fat-max', confidence: 0.95 }] };
    const curve = found(costCurve(sure, { limitId: 'house-fat-max', from: 26.5, to: 30 }));
    const plain = found(costCurve(SAUSAGE, { limitId: 'house-fat-max', from: 26.5, to: 30 }));
    expect(curve.corners).toBe(false);
    for (const { at, cost } of curve.points) expect(cost).toBeGreaterThan(heightAt(plain, at) - 1e-6);
  });

  it('starts where a blend begins to exist', () => {
    const product = {
      ...demoProductJson('ground-beef-80-20'),
      targets: [],
      label: { storage: 'keep refrigerated' },
    };
    const request = demoRequest({
      product: { ...product, targets: [{ measure: 'fat', max: 0.2 }] },
      batchSize: { total: pounds(500) },
    });
    const { feasible, points } = found(costCurve(request, { limitId: 'house-fat-max', from: 1, to: 30 }));
    // 480 lb of the 95 % lean lot and 20 lb of the leanest after it.
    expect(feasible.from).toBeGreaterThan(0.045);
    expect(feasible.from).toBeLessThan(0.055);
    expect(points[0]?.at).toBe(feasible.from);
  });

  it('tells only where a blend was found when a margin is asked', () => {
    const lean = demoRequest({ product: 'ground-beef-90-10', batchSize: { total: pounds(200) } });
    const sure = { ...lean, certainty: [{ limitId: 'house-fat-max', confidence: 0.95 }] };
    const curve = found(costCurve(sure, { limitId: 'house-fat-max', from: 8, to: 12 }));
    expect(curve.feasible.from).toBe(curve.points[0]?.at);
    const below = { ...sure, insteadOf: [{ limitId: 'house-fat-max', bound: curve.feasible.from - 0.002 }] };
    expect(formulate(below).outcome).toBe('no blend');
  });

  it('never goes past the law', () => {
    const { feasible, points } = found(
      costCurve(SAUSAGE, { limitId: 'us-424.21c-nitrite-comminuted', from: 100, to: 300 }),
    );
    expect(feasible.to).toBe(0.000156);
    expect(points.at(-1)?.at).toBe(0.000156);
  });

  it('is refused along a limit that counts nothing in the batch', () => {
    const refused = costCurve(GROUND_BEEF, { limitId: 'us-319.15-beef-only', from: 0, to: 5 });
    expect(refused.outcome).toBe('refused');
  });

  it('carries the weight of each batch where the size fixes the meat alone', () => {
    const byMeat = demoRequest({ product: 'bratwurst', batchSize: { meat: pounds(100) } });
    const { points } = found(costCurve(byMeat, { limitId: 'house-line-water-max', from: 0, to: 3 }));
    const [first, last] = [points[0], points.at(-1)];
    expect((last?.batchKg ?? 0) - (first?.batchKg ?? 0)).toBeGreaterThan(1);
    for (const { batchKg, massesKg } of points) {
      expect([...massesKg.values()].reduce((sum, kg) => sum + kg, 0)).toBeCloseTo(batchKg, 4);
    }
  });

  it('refuses a limit that the product lacks, with those it has', () => {
    const refused = costCurve(GROUND_BEEF, { limitId: 'us-nothing', from: 1, to: 2 });
    expect(refused.outcome === 'refused' && refused.issues[0]?.message).toMatch(
      /Choose one of .*house-fat-max/,
    );
  });
});

describe('the least cost along the lean point', () => {
  const curve = found(costCurve(GROUND_BEEF, { leanFrom: 72, leanTo: 94 }));

  it('sets the other fat targets of the house aside, and rises with every point of lean', () => {
    expect(curve.corners).toBe(true);
    expect(curve.feasible.from).toBeCloseTo(0.06, 9);
    expect(curve.feasible.to).toBeCloseTo(0.28, 9);
    const costs = curve.points.map(({ cost }) => cost);
    expect(costs).toEqual([...costs].sort((a, b) => b - a));
    expect(costs[0]).toBeGreaterThan((costs.at(-1) ?? 0) * 1.15);
  });

  it('goes through what a product of that lean point alone costs', () => {
    for (const lean of [75, 80, 85, 90]) {
      const product = { ...demoProductJson('ground-beef-80-20'), targets: [] };
      const request = demoRequest({
        product: { ...product, label: { leanPercent: lean, storage: 'keep refrigerated' } },
        batchSize: { total: pounds(500) },
      });
      expect(heightAt(curve, (100 - lean) / 100) / leastCost(request)).toBeCloseTo(1, 6);
    }
  });

  it('is refused for a product without any', () => {
    const product = {
      ...demoProductJson('ground-beef-80-20'),
      targets: [],
      label: { storage: 'keep frozen' },
    };
    const refused = costCurve(demoRequest({ product, batchSize: { total: pounds(500) } }), {
      leanFrom: 70,
      leanTo: 90,
    });
    expect(refused.outcome === 'refused' && refused.issues[0]?.message).toMatch(
      /no fat target and no lean percent/,
    );
  });
});

describe('the least cost along a price', () => {
  it('has every corner, and is what the blend costs at each price', () => {
    const curve = found(costCurve(GROUND_BEEF, { supplyId: 'B85-1119', from: 4, to: 10 }));
    expect(curve.corners).toBe(true);
    expect(curve.points.length).toBeGreaterThan(3);
    for (let step = 0; step <= 12; step++) {
      const costPerKg = 4 + step / 2;
      const supplies = GROUND_BEEF.supplies.map((supply) =>
        supply.id === 'B85-1119' ? { ...supply, costPerKg } : supply,
      );
      expect(heightAt(curve, costPerKg) / leastCost({ ...GROUND_BEEF, supplies })).toBeCloseTo(1, 7);
    }
  });

  it('uses less of a lot as it grows dearer', () => {
    const { points } = found(costCurve(GROUND_BEEF, { supplyId: 'B85-1119', from: 4, to: 10 }));
    const used = [points[0], points.at(-1)].map((point) => point?.massesKg.get('B85-1119') ?? 0);
    expect(used[0]).toBeGreaterThan(used[1] ?? 0);
  });

  it('moves a target on the cost of a kilogram with the price', () => {
    const product = demoProductJson('ground-beef-80-20');
    const request = demoRequest({
      product: { ...product, targets: [...product.targets, { measure: 'cost per kg', max: 6.21 }] },
      batchSize: { total: pounds(500) },
    });
    const curve = found(costCurve(request, { supplyId: 'B85-1119', from: 6, to: 9 }));
    expect(curve.corners).toBe(false);
    for (const { cost, batchKg } of curve.points) expect(cost / batchKg).toBeLessThanOrEqual(6.21 + 1e-9);
    expect(curve.feasible.to).toBeLessThan(8);
  });

  it('refuses a supply that cannot go in', () => {
    const refused = costCurve(GROUND_BEEF, { supplyId: 'P72-1121', from: 1, to: 2 });
    expect(refused.outcome === 'refused' && refused.issues[0]?.message).toMatch(/cannot go into this batch/);
  });
});
