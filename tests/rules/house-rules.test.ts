import { describe, expect, it } from 'vitest';
import { type HouseRules, NO_HOUSE_RULES } from '../../src/batch/house-rules.ts';
import { applyHouseRules, houseRuleProblems } from '../../src/rules/house-rules.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { checkOne, limitOf, standardOf, testProduct } from '../helpers/materials.ts';

const rules = (given: Partial<HouseRules>): HouseRules => ({ ...NO_HOUSE_RULES, ...given });
const FRANKFURTER = standardOf('frankfurter');
const PRODUCT = testProduct('frankfurter');
const FAT = 'us-319.180a-fat';

const problemsOf = (given: Partial<HouseRules>) =>
  houseRuleProblems(rules(given), RULE_SETS).map(({ path, message }) => `${path.join('.')}: ${message}`);

describe('a tighter limit of the house', () => {
  it('stands beside the limit of the law with its own bound and names the law it is inside of', () => {
    const { limits } = applyHouseRules(
      FRANKFURTER.limits,
      rules({ tighter: [{ limitId: FAT, bound: 28, reason: 'the label of a customer' }] }),
      PRODUCT,
    );
    const house = limits.find(({ id }) => id === `house-${FAT}`);
    expect(limits).toContain(limitOf(FAT));
    expect(house).toMatchObject({ bound: 0.28, authority: 'house', note: 'the label of a customer' });
    expect(house?.citation).toContain(limitOf(FAT).citation);
    const pork = (fat: string, lean: string) =>
      house &&
      checkOne(house, [
        ['pork-fat-40', fat],
        ['pork-fat-20', lean],
      ]).holds;
    expect([pork('40', '60'), pork('40.1', '59.9')]).toEqual([true, false]);
  });

  it.each([
    [
      'a bound beyond the law',
      { limitId: FAT, bound: 31 },
      'tighter.0.bound: 31 is no tighter than the 30 percent',
    ],
    ['the bound of the law itself', { limitId: FAT, bound: 30 }, 'write a figure below it'],
    [
      'a minimum below the law',
      { limitId: 'us-319.145a-meat', bound: 80 },
      'tighter.0.bound: 80 is no tighter than the 85 percent',
    ],
    [
      'a limit of nothing',
      { limitId: 'us-319.15-no-binder', bound: 0 },
      'has no bound that could be tighter',
    ],
    ['an id that no rule set has', { limitId: 'us-319.1-nothing', bound: 1 }, 'is no limit of any rule set'],
  ])('is refused for %s', (_, tighter, message) => {
    expect(problemsOf({ tighter: [tighter] }).join()).toContain(message);
  });
});

describe('rules that fight each other', () => {
  it('are refused: a limit cannot be tighter and switched off for all', () => {
    const tighter = [{ limitId: FAT, bound: 28 }];
    const off = { limitId: FAT, reason: 'sold under a waiver that the inspector holds' };
    expect(problemsOf({ tighter, switchedOff: [off] }).join()).toContain('is switched off as well');
    expect(problemsOf({ tighter, switchedOff: [{ ...off, products: ['another'] }] })).toEqual([]);
  });
});

describe("a limit of the house's own", () => {
  const own = {
    id: 'salt',
    says: 'Salt added is at most 2 % of the finished product.',
    numerator: 'saltPutIn',
    basis: 'finished',
    sense: 'max',
    bound: 2,
    unit: 'percent',
  } as const;

  it('follows from data alone', () => {
    const { limits } = applyHouseRules([], rules({ own: [own] }), PRODUCT);
    expect(limits).toHaveLength(1);
    const [salt] = limits;
    const holds = (mass: string) =>
      salt &&
      checkOne(salt, [
        ['salt', mass],
        ['pork', '98'],
      ]).holds;
    expect([holds('2'), holds('2.0001')]).toEqual([true, false]);
  });

  it('holds for the products and classes it names and for no other', () => {
    const limitsOf = (given: Partial<typeof own> & { products?: string[]; productClasses?: string[] }) =>
      applyHouseRules([], rules({ own: [{ ...own, ...given }] }), PRODUCT).limits.length;
    expect(limitsOf({ products: [PRODUCT.id] })).toBe(1);
    expect(limitsOf({ products: ['another'] })).toBe(0);
    expect(limitsOf({ productClasses: ['frankfurter'] })).toBe(1);
    expect(limitsOf({ productClasses: ['ground-beef'] })).toBe(0);
  });

  it('is refused when a form is not known, with the forms that are', () => {
    expect(problemsOf({ own: [{ ...own, numerator: 'saltiness' }] }).join()).toMatch(
      /own\.0\.numerator: "saltiness" is no form; choose one of .*saltPutIn/,
    );
    // The worst of several forms has no meaning below the line.
    expect(problemsOf({ own: [{ ...own, basis: 'addedWater' }] }).join()).toContain('own.0.basis');
  });
});

describe('a limit that is switched off', () => {
  const off = { limitId: 'us-319.180a-poultry', reason: 'sold under a waiver that the inspector holds' };

  it('is held no longer and is handed on with its reason', () => {
    const { limits, switchedOff } = applyHouseRules(
      FRANKFURTER.limits,
      rules({ switchedOff: [off] }),
      PRODUCT,
    );
    expect(limits.map(({ id }) => id)).not.toContain(off.limitId);
    expect(limits).toHaveLength(FRANKFURTER.limits.length - 1);
    expect(switchedOff).toEqual([{ limit: limitOf(off.limitId), reason: off.reason }]);
  });

  it('stays on for products that the rule does not name', () => {
    const { switchedOff } = applyHouseRules(
      FRANKFURTER.limits,
      rules({ switchedOff: [{ ...off, products: ['another'] }] }),
      PRODUCT,
    );
    expect(switchedOff).toEqual([]);
  });

  it('is none that keeps nitrite or nitrate from being too much', () => {
    const most = FRANKFURTER.limits.filter(({ id }) => /nitrite|nitrate/.test(id));
    expect(most.length).toBeGreaterThan(0);
    for (const { id } of [...most, limitOf('us-not-cured')]) {
      expect(problemsOf({ switchedOff: [{ ...off, limitId: id }] }).join(), id).toContain(
        'cannot be switched off',
      );
    }
    expect(problemsOf({ switchedOff: [off] })).toEqual([]);
  });
});
