import { describe, expect, it } from 'vitest';
import { type Limit, limitsOnce, searched } from '../../../src/page/rules/find-limits.ts';

const limit = (id: string, given: Partial<Limit>): Limit => ({
  id,
  says: 'A limit.',
  numerator: 'fat',
  basis: 'finished product',
  sense: 'max',
  bound: 30,
  unit: 'percent',
  authority: 'law',
  citation: '9 CFR 319.15(a)',
  read: 'official',
  ...given,
});
const standard = (productClass: string, limits: Limit[]) => ({
  productClass,
  says: productClass,
  citation: '9 CFR',
  cooking: ['raw' as const],
  limits,
  switchedOff: [],
  laboratory: [],
});
const FAT = limit('fat', { says: 'Ground beef holds at most 30 % fat.' });
const NITRITE = limit('nitrite', {
  says: 'Ingoing nitrite is at most 156 ppm.',
  numerator: 'nitrite, by the weight of the salt',
  citation: '9 CFR 424.21(c)',
});
const ALL = limitsOnce([standard('hamburger', [FAT]), standard('cooked-sausage', [FAT, NITRITE])]);
const ids = (typed: string, say = (text: string) => text) =>
  searched(ALL, typed, say).map((found) => found.limit.id);

describe('limits of a market', () => {
  it('stand once, each with the classes that have it', () => {
    expect(ALL.map(({ limit: of, classes }) => [of.id, classes.map((each) => each.productClass)])).toEqual([
      ['fat', ['hamburger', 'cooked-sausage']],
      ['nitrite', ['cooked-sausage']],
    ]);
  });

  it('are found by what they say, count and cite, in either language', () => {
    expect(ids('156')).toEqual(['nitrite']);
    expect(ids('weight of the salt')).toEqual(['nitrite']);
    expect(ids('319.15')).toEqual(['fat']);
    expect(ids('9 cfr')).toEqual(['fat', 'nitrite']);
    expect(ids('nitrito', (text) => text.replace('nitrite', 'nitrito'))).toEqual(['nitrite']);
    expect(ids('sugar')).toEqual([]);
  });
});
