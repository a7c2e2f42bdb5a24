import { describe, expect, it } from 'vitest';
import { isMeat } from '../../src/batch/material.ts';
import type { Blend } from '../../src/formulate/blend.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import { nearBest } from '../../src/formulate/near-best.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import { demoRequest, pounds } from '../helpers/demo-requests.ts';

const GROUND_BEEF = demoRequest({ product: 'ground-beef-80-20', batchSize: { total: pounds(500) } });
const SAUSAGE = demoRequest({ product: 'smoked-sausage', batchSize: { finished: pounds(300) } });

function blendOf(request: FormulationRequest): Blend {
  const formulation = formulate(request);
  if (formulation.outcome !== 'blend') throw new Error(formulation.outcome);
  return formulation.blend;
}

const lotsOf = ({ lines }: Blend) =>
  new Set(lines.flatMap(({ supply }) => (isMeat(supply.material) ? supply.id : [])));

describe.each([
  ['ground beef', GROUND_BEEF],
  ['smoked sausage', SAUSAGE],
])('the next best blends of %s', (_, request) => {
  const best = blendOf(request);
  const others = nearBest(request, best, { count: 5, withinFraction: 0.05 });

  it('are there, from cheap to dear, none cheaper than the best and none beyond the share', () => {
    expect(others.length).toBeGreaterThanOrEqual(3);
    others.forEach(({ aboveFraction }, index) => {
      // Rounding to the scales can cost the best a hair more than the next.
      expect(aboveFraction).toBeGreaterThan(-2e-4);
      expect(aboveFraction).toBeLessThanOrEqual(0.05 + 1e-9);
      expect(aboveFraction).toBeGreaterThanOrEqual((others[index - 1]?.aboveFraction ?? 0) - 1e-9);
    });
  });

  it('each do without a lot of every one before', () => {
    const before = [lotsOf(best)];
    for (const { blend, without } of others) {
      const lots = lotsOf(blend);
      expect(without.length).toBeGreaterThan(0);
      for (const earlier of before) expect([...earlier].some((id) => !lots.has(id))).toBe(true);
      before.push(lots);
    }
  });

  it('keep every limit on printed weights', () => {
    for (const { blend } of others) expect(blend.checks.every(({ holds }) => holds)).toBe(true);
  });

  it('start with the best that taking one lot away leaves', () => {
    // Doing without at least one lot of the best blend: the cheapest of them is the best of "all without lot i".
    const cheapest = [...lotsOf(best)].flatMap((id) => {
      const formulation = formulate({
        ...request,
        supplies: request.supplies.filter((supply) => supply.id !== id),
      });
      return formulation.outcome === 'blend' ? formulation.blend.unroundedCost : [];
    });
    const least = Math.min(...cheapest);
    expect((others[0]?.aboveFraction ?? 0) + 1).toBeCloseTo(least / best.unroundedCost, 3);
  });
});

describe('other blends', () => {
  it('are none within no share at all', () => {
    expect(nearBest(SAUSAGE, blendOf(SAUSAGE), { count: 3, withinFraction: 0 })).toEqual([]);
  });

  it.each([
    ['few lots', { wishes: { mostLots: 2 } }],
    ['a confidence', { certainty: [{ limitId: 'house-fat-max', confidence: 0.8 }] }],
    ['older lots first', { wishes: { olderFirstWithin: 0.03 } }],
  ])('are compared with the blend that is printed, with %s', (_, extra) => {
    const request = { ...GROUND_BEEF, ...extra };
    const best = blendOf(request);
    const others = nearBest(request, best, { count: 3, withinFraction: 0.05 });
    expect(others.length).toBeGreaterThan(0);
    for (const { blend, aboveFraction } of others) {
      expect([...lotsOf(blend)].sort()).not.toEqual([...lotsOf(best)].sort());
      expect(aboveFraction).toBeCloseTo(blend.cost / blend.batchKg / (best.cost / best.batchKg) - 1, 12);
      if ('certainty' in extra) {
        const sure = blend.certainty.find(({ limit }) => limit.id === 'house-fat-max');
        expect(sure?.probability).toBeGreaterThanOrEqual(0.8);
      }
    }
  });
});
