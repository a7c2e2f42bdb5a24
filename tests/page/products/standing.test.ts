import { describe, expect, it } from 'vitest';
import {
  type Check,
  differing,
  type LineLimit,
  standings,
  tightest,
  verdictOf,
} from '../../../src/page/products/standing.ts';

const limit = (given: Partial<Check['limit']>): Check['limit'] => ({
  id: 'limit',
  says: 'A limit.',
  numerator: 'salt',
  basis: 'finished product',
  sense: 'max',
  bound: 2,
  unit: 'percent',
  authority: 'law',
  citation: '9 CFR',
  read: 'official',
  ...given,
});
const check = (id: string, value: number, given: Partial<Check['limit']> = {}, from = ['salt']): Check => ({
  limit: limit({ id, ...given }),
  holds: true,
  value,
  room: 0,
  numeratorKg: 1,
  basisKg: 1,
  contributions: from.map((supplyId) => ({ supplyId, massKg: 1 })),
});
const blend = (checks: Check[]) =>
  ({
    checks,
    lines: [
      { supplyId: 'PORK-1', materialId: 'pork' },
      { supplyId: 'S-1', materialId: 'salt', asked: { fraction: 0.02, basis: 'green weight' } },
    ],
  }) as unknown as Parameters<typeof standings>[0];

describe('limits of the example batch', () => {
  it('come with the least room first, what is absent apart, bookkeeping left out', () => {
    const { counted, absent } = standings(
      blend([
        check('wide', 0.5),
        check('tight', 1.9),
        check('min', 13, { sense: 'min', bound: 12 }),
        check('nothing', 0, {}, []),
        check('mass-balance-fat', 1),
      ]),
    );
    expect(counted.map((standing) => standing.check.limit.id)).toEqual(['tight', 'min', 'wide']);
    expect(absent.map((each) => each.limit.id)).toEqual(['nothing']);
  });

  it('name the seasoning that brings most of what is counted', () => {
    const [standing] = standings(blend([check('salt', 1, {}, ['S-1', 'PORK-1'])])).counted;
    expect(standing?.pressedBy).toBe('salt');
    expect(standings(blend([check('fat', 1, {}, ['PORK-1', 'S-1'])])).counted[0]).not.toHaveProperty(
      'pressedBy',
    );
  });

  it('count what is beyond its bound as more than used up', () => {
    const beyond = { ...check('none', 0.1, { bound: 0 }), holds: false };
    expect(standings(blend([check('tight', 2), beyond])).counted.map(({ used }) => used)).toEqual([2, 1]);
  });
});

describe('limits of a line', () => {
  const line = (given: Partial<LineLimit>, of: Partial<Check['limit']> = {}): LineLimit => ({
    limit: limit(of),
    value: 1,
    atMostFraction: 0.02,
    holds: true,
    bringsMost: true,
    ...given,
  });

  it('are above, reached by a range, forbidden, or held', () => {
    expect(verdictOf(line({}), 0.01)).toBe('holds');
    expect(verdictOf(line({ holds: false }), 0.03)).toBe('above');
    expect(verdictOf(line({ holds: false }), 0.01)).toBe('reaches');
    expect(verdictOf(line({ holds: false, atMostFraction: 0 }, { bound: 0 }), 0.01)).toBe('forbidden');
  });

  it('are shown where the line can hold them: the law, and the house where it is tighter', () => {
    const law = line({ atMostFraction: 0.02 });
    const tighter = line({ atMostFraction: 0.01 }, { authority: 'house' });
    const looser = line({ atMostFraction: 0.03 }, { authority: 'house' });
    expect(tightest([tighter, law])).toEqual([law, tighter]);
    expect(tightest([law, looser])).toEqual([law]);
    expect(tightest([looser])).toEqual([looser]);
    expect(tightest([line({ bringsMost: false }), law])).toEqual([law]);
  });
});

it('two versions of a product differ by their parts', () => {
  const one = { name: 'One', seasoning: [{ materialId: 'salt' }], targets: [] };
  expect(differing(one, { ...one, name: 'Two', targets: [{ measure: 'fat' }] })).toEqual(['name', 'targets']);
  expect(differing(one, { ...one })).toEqual([]);
});
