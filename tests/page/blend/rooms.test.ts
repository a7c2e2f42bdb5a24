import { describe, expect, it } from 'vitest';
import { priceRows, scaleOf } from '../../../src/page/blend/price-rows.ts';
import { type Check, isBan, isUntouched, toShow, usedShare } from '../../../src/page/blend/room-order.ts';

const check = (limit: object, value: number, holds = true): Check =>
  ({
    limit: {
      id: 'x',
      says: '',
      sense: 'max',
      bound: 30,
      unit: 'percent',
      authority: 'law',
      citation: '',
      ...limit,
    },
    value,
    holds,
    room: 0,
    contributions: [],
  }) as unknown as Check;

describe('how far a limit is used', () => {
  it('is a share of a most, and of the value for a least', () => {
    expect(usedShare(check({ bound: 30 }, 15))).toBe(0.5);
    expect(usedShare(check({ sense: 'min', bound: 12 }, 16))).toBe(0.75);
    expect(usedShare(check({ sense: 'min', bound: 12 }, 0))).toBe(1);
    expect(usedShare(check({ sense: 'target', bound: 10, within: 0.1 }, 10.5))).toBeCloseTo(0.5);
  });

  it('puts what is broken first, then the tightest; bans and balances of nature stand apart', () => {
    const broken = check({ id: 'broken' }, 31, false);
    const tight = check({ id: 'tight', authority: 'house' }, 29.9);
    const roomy = check({ id: 'roomy' }, 3);
    const ban = check({ id: 'ban', bound: 0 }, 0);
    const nature = check({ id: 'nature', citation: 'mass balance' }, 10);
    expect(toShow([roomy, ban, tight, nature, broken]).map(({ limit }) => limit.id)).toEqual([
      'broken',
      'tight',
      'roomy',
    ]);
    expect(isBan(ban)).toBe(true);
    expect(isUntouched(check({}, 0))).toBe(true);
    expect(isUntouched(check({ sense: 'min' }, 0))).toBe(false);
  });
});

describe('the rows of the price ranges', () => {
  const rows = priceRows({
    limits: [],
    lines: [],
    used: [{ supplyId: 'A', material: 'a', costPerKg: 4, bestFromPerKg: 0, bestToPerKg: 4.4 }],
    notUsed: [
      { supplyId: 'FAR', material: 'f', costPerKg: 8, wouldEnterBelowPerKg: 2 },
      { supplyId: 'NEAR', material: 'n', costPerKg: 5, wouldEnterBelowPerKg: 4.9 },
      { supplyId: 'NEVER', material: 'v', costPerKg: 5 },
    ],
  });

  it('begin with what is in the blend and go on with what is nearest to going in', () => {
    expect(rows.map(({ supplyId }) => supplyId)).toEqual(['A', 'NEAR', 'FAR']);
  });

  it('share one scale that holds every price', () => {
    const at = scaleOf(rows);
    for (const { price } of rows) {
      expect(at(price)).toBeGreaterThan(0);
      expect(at(price)).toBeLessThan(1);
    }
    expect(at(0)).toBe(0);
  });
});
