import { describe, expect, it } from 'vitest';
import { supplyOfMaterial } from '../../src/batch/lot.ts';
import { SUBSTANCES } from '../../src/batch/material.ts';
import { compare, exact, multiply, sum, toNumber } from '../../src/exact.ts';
import { checkLimits, describeCheck } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { forbiddenBy } from '../../src/rules/eligibility.ts';
import { coefficient, type Form, MissingFigure, mayLack } from '../../src/rules/form.ts';
import { FORMS } from '../../src/rules/forms.ts';
import { inForceOn, type Limit, shownBound } from '../../src/rules/limit.ts';
import { rowsOf } from '../../src/rules/row.ts';
import { findStandard } from '../../src/rules/standard.ts';
import { toRow } from '../../src/solver/exact-model.ts';
import { US } from '../../src/standards/us/us.ts';
import {
  ALL_LIMITS,
  COOKED,
  checkOne,
  LIMITS_BY_ID,
  limitOf,
  material,
  RAW,
  TEST_MATERIALS,
  testSupply,
  type Weighed,
} from '../helpers/materials.ts';
import { AT_THE_BOUND, BRINGS, KEPT_OUT } from './cases/all.ts';
import type { AtTheBound, Bracket } from './cases/case.ts';

const unique = [...LIMITS_BY_ID.values()];
const withFigure = unique.filter(({ sense, bound }) => sense !== 'present' && bound > 0);
const ofNothing = unique.filter(({ sense, bound }) => sense === 'max' && bound === 0);
const present = unique.filter(({ sense }) => sense === 'present');
const isExact = (id: string) => Array.isArray(AT_THE_BOUND[id]);
const bracketed = withFigure.filter(({ id }) => !isExact(id));
const ids = (limits: readonly Limit[]) => limits.map(({ id }) => id).sort();

function exactCase(id: string): AtTheBound {
  const found = AT_THE_BOUND[id];
  if (!Array.isArray(found)) throw new RangeError(`${id} has no weights at its bound`);
  return found as unknown as AtTheBound;
}

function bracketCase(id: string): Bracket {
  const found = AT_THE_BOUND[id];
  if (!found || !('holds' in found)) throw new RangeError(`${id} has no batches on both sides`);
  return found;
}

describe('the cases of these tests', () => {
  it('name every limit of every standard exactly once', () => {
    expect(Object.keys(AT_THE_BOUND).sort()).toEqual(ids(withFigure));
    expect(Object.keys(KEPT_OUT).sort()).toEqual(ids(ofNothing));
    expect(Object.keys(BRINGS).sort()).toEqual(ids(present));
    expect(withFigure.length + ofNothing.length + present.length).toBe(unique.length);
  });
});

/** The smallest change that a test makes to a weight: one hundredth of a milligram. */
const STEP = exact('0.00000001');

describe('a limit with a figure', () => {
  for (const { standard, limit } of ALL_LIMITS.filter(({ limit }) => isExact(limit.id))) {
    it(`holds just inside and exactly at the bound and fails just outside: ${standard.productClass}, ${limit.id}`, () => {
      const [[countedId, at], [otherId, other]] = exactCase(limit.id);
      const coefficients = new Coefficients([testSupply(countedId), testSupply(otherId)], RAW);
      const holds = (steps: number) => {
        const counted = sum([exact(at), multiply(STEP, exact(steps))]);
        return checkLimits([limit], coefficients, [counted, exact(other)])[0]?.holds;
      };
      const inward = limit.sense === 'max' ? -1 : 1;
      expect([holds(inward), holds(0), holds(-inward)]).toEqual([true, true, false]);
    });
  }

  it.each(bracketed.map((limit) => [limit.id, limit] as const))(
    'holds on one side of the bound and fails a tenth of a percent beyond: %s',
    (id, limit) => {
      const { holds, fails } = bracketCase(id);
      const [inside, outside] = [checkOne(limit, holds), checkOne(limit, fails)];
      expect([inside.holds, outside.holds]).toEqual([true, false]);
      expect([inside.room >= 0, outside.room < 0]).toEqual([true, true]);
      expect(Math.abs(outside.value / inside.value - 1)).toBeLessThan(0.001);
      const away = Math.abs(inside.value / limit.bound - 1) - (limit.within ?? 0);
      expect(Math.abs(away), `${inside.value} of ${limit.bound}`).toBeLessThan(0.001);
    },
  );

  it.each(withFigure.filter(({ id }) => isExact(id)).map((limit) => [limit.id, limit] as const))(
    'shows no room at the bound and its sign on either side: %s',
    (id, limit) => {
      const [counted, other] = exactCase(id);
      const room = (mass: string) => checkOne(limit, [[counted[0], mass], other]).room;
      expect(Math.abs(room(counted[1]))).toBeLessThanOrEqual(1e-15);
      const side = limit.sense === 'max' ? -1 : 1;
      expect(side * room(String(Number(counted[1]) * 1.01))).toBeGreaterThan(0);
      expect(side * room(String(Number(counted[1]) * 0.99))).toBeLessThan(0);
    },
  );

  it('fails an empty basis that has a numerator and holds an empty batch', () => {
    const nitrite = limitOf('us-424.21c-nitrite-comminuted');
    expect(checkOne(nitrite, [['sodium-nitrite', '0.001']])).toMatchObject({
      holds: false,
      value: Number.NaN,
    });
    expect(checkOne(nitrite, [['pork', '0']]).holds).toBe(true);
  });

  it('reads the finished product at the yield of the process', () => {
    // 27 of 90 kg is 30 %; the fat that is lost does not count.
    const fat = limitOf('us-319.180a-fat');
    const lines: Weighed[] = [
      ['pork-fat-40', '35'],
      ['pork-fat-20', '65'],
    ];
    const at90 = { ...COOKED, yieldFraction: 0.9 };
    expect(checkOne(fat, lines, at90)).toMatchObject({ holds: true, numeratorKg: 27, basisKg: 90 });
    expect(checkOne(fat, lines, { ...at90, yieldFraction: 0.8999 }).holds).toBe(false);
    const losing = { ...at90, yieldFraction: 0.88, fatLossFraction: 0.006 };
    expect(checkOne(fat, lines, losing)).toMatchObject({ holds: true, numeratorKg: 26.4, basisKg: 88 });
  });

  it('counts isolated soy protein and caseinate at 3.5/2 of their weight among the binders', () => {
    const binders = limitOf('us-424.21c-binders');
    // 1 % of soy protein counts as 1.75 %, which leaves 1.75 % for flour.
    const lines = (flour: string): Weighed[] => [
      ['isolated-soy-protein', '1'],
      ['soy-flour', flour],
      ['pork', '97.25'],
    ];
    expect(checkOne(binders, lines('1.75')).holds).toBe(true);
    expect(checkOne(binders, lines('1.7501')).holds).toBe(false);
  });

  it('adds the antioxidants up where each alone would do', () => {
    const together = limitOf('us-424.21c-antioxidants-fresh-sausage');
    const lines: Weighed[] = [
      ['BHA', '0.05'],
      ['BHT', '0.05'],
      ['propyl-gallate', '0.0001'],
      ['pork-fat-50', '1000'],
    ];
    expect(checkOne(limitOf('us-424.21c-bha-fresh-sausage'), lines).holds).toBe(true);
    expect(checkOne(together, lines).holds).toBe(false);
  });

  it('takes citric acid only in the place of accelerators, whichever of them there are', () => {
    const citric = limitOf('us-424.21c-citric-acid');
    const lines = (acid: string): Weighed[] => [
      ['citric-acid', acid],
      ['ascorbic-acid', '0.2'],
      ['sodium-erythorbate', '0.3'],
      ['pork', '1000'],
    ];
    expect(checkOne(citric, lines('0.5')).holds).toBe(true);
    expect(checkOne(citric, lines('0.5001')).holds).toBe(false);
    // With no accelerator there is nothing to replace.
    expect(
      checkOne(citric, [
        ['citric-acid', '0.0001'],
        ['pork', '1000'],
      ]).holds,
    ).toBe(false);
  });

  it('tells the citric acid of the cure from the citric acid of the antioxidant', () => {
    const cure: Weighed[] = [
      ['citric-acid', '1'],
      ['pork', '1'],
    ];
    const mixedCure: Weighed[] = [
      ['cure-with-citric-acid', '1'],
      ['pork', '1'],
    ];
    const antioxidant: Weighed[] = [
      ['BHA-and-citric-acid', '1'],
      ['pork', '1'],
    ];
    const ofCure = limitOf('us-424.21c-citric-acid');
    const ofAntioxidant = limitOf('us-424.21c-citric-acid-fresh-sausage');
    expect(checkOne(ofCure, antioxidant)).toMatchObject({ holds: true, numeratorKg: 0 });
    expect(checkOne(ofCure, cure)).toMatchObject({ holds: false, numeratorKg: 1 });
    expect(checkOne(ofCure, mixedCure)).toMatchObject({ holds: false, numeratorKg: 0.5, basisKg: 0.5 });
    expect(checkOne(ofAntioxidant, cure)).toMatchObject({ holds: true, numeratorKg: 0 });
    expect(checkOne(ofAntioxidant, antioxidant)).toMatchObject({ holds: false, numeratorKg: 0.5 });
  });

  it('does not count mechanically separated poultry as mechanically separated species', () => {
    const share = limitOf('us-319.6-mechanically-separated-share');
    expect(checkOne(share, [['chicken-separated', '1']])).toMatchObject({ holds: true, numeratorKg: 0 });
  });
});

describe('a limit of nothing', () => {
  for (const { standard, limit } of ALL_LIMITS.filter(({ limit }) => ofNothing.includes(limitOf(limit.id)))) {
    it(`keeps out what it names and nothing else: ${standard.productClass}, ${limit.id}`, () => {
      const refused = TEST_MATERIALS.filter(
        ({ id }) => forbiddenBy([limit], testSupply(id), RAW) !== undefined,
      ).map(({ id }) => id);
      expect(refused.sort()).toEqual([...(KEPT_OUT[limit.id] ?? [])].sort());
    });

    it(`fails on a hundredth of a milligram in a ton: ${standard.productClass}, ${limit.id}`, () => {
      for (const id of KEPT_OUT[limit.id] ?? []) {
        const other = KEPT_OUT[limit.id]?.includes('salt') ? 'pork' : 'salt';
        const coefficients = new Coefficients([testSupply(id), testSupply(other)], RAW);
        const check = (mass: string) => checkLimits([limit], coefficients, [exact(mass), exact(1000)])[0];
        expect(check('0')?.holds, id).toBe(true);
        // Held against a basis that may itself be empty: the numerator alone decides.
        expect(check('0.00000001')?.holds, id).toBe(false);
      }
    });
  }

  it('is the first in the order of the standard that is named', () => {
    const limits = [...ofNothing];
    const found = forbiddenBy(limits, testSupply('chicken-skin'), RAW);
    const first = limits.find(({ id }) => KEPT_OUT[id]?.includes('chicken-skin'));
    expect(found).toBe(first);
  });

  it('is not mistaken for a small figure or a minimum of nothing', () => {
    const water = limitOf('us-319.140-water');
    expect(forbiddenBy([water], testSupply('water'), RAW)).toBeUndefined();
    expect(forbiddenBy([{ ...water, bound: 0, sense: 'min' }], testSupply('water'), RAW)).toBeUndefined();
    expect(forbiddenBy([{ ...water, bound: 0 }], testSupply('water'), RAW)?.id).toBe(water.id);
  });
});

describe('a limit that asks for something', () => {
  for (const limit of present) {
    it(`holds with any of it and fails without: ${limit.id}`, () => {
      const brings = BRINGS[limit.id] ?? [];
      for (const { id } of TEST_MATERIALS) {
        const { holds } = checkOne(limit, [
          [id, '0.00000001'],
          ['pork', '1000'],
        ]);
        expect(holds, id).toBe(brings.includes(id));
      }
      for (const id of brings) expect(checkOne(limit, [[id, '0']]).holds, id).toBe(false);
    });

    it(`puts no row into the linear problem: ${limit.id}`, () => {
      expect(rowsOf(limit, new Coefficients([testSupply('salt')], RAW))).toEqual([]);
    });
  }
});

describe('the row of a limit', () => {
  it('is one-sided around zero and leaves out what does not matter to it', () => {
    const coefficients = new Coefficients(
      ['water', 'pork', 'salt'].map((id) => testSupply(id)),
      RAW,
    );
    const nitrite = limitOf('us-424.21c-nitrite-comminuted');
    expect(rowsOf(nitrite, coefficients).map(toRow)[0]).toEqual({
      name: nitrite.id,
      lower: Number.NEGATIVE_INFINITY,
      upper: 0,
      terms: [{ column: 1, coefficient: -0.000156 }],
    });
    const meat = limitOf('us-319.145a-meat');
    expect(rowsOf(meat, coefficients).map(toRow)[0]).toEqual({
      name: meat.id,
      lower: 0,
      upper: Number.POSITIVE_INFINITY,
      terms: [
        { column: 0, coefficient: -0.85 },
        { column: 1, coefficient: 0.15 },
        { column: 2, coefficient: -0.85 },
      ],
    });
  });
});

describe('the forms', () => {
  it('have their key as their id', () => {
    expect(Object.entries(FORMS).filter(([key, { id }]) => key !== id)).toEqual([]);
  });

  it('are worked out once for one list of supplies', () => {
    const coefficients = new Coefficients([testSupply('pork')], RAW);
    expect(coefficients.of(FORMS.fat)).toBe(coefficients.of(FORMS.fat));
  });

  it('count every kilogram of any material in the formula', () => {
    for (const { id } of TEST_MATERIALS) {
      expect(toNumber(coefficient(FORMS.formula, testSupply(id), RAW)), id).toBe(1);
    }
  });

  it('refuse a figure that a material does not have, by name', () => {
    const collagen = {
      id: 'collagen',
      says: 'collagen',
      terms: [{ of: { constituent: 'collagen' }, times: 1 }],
    } as const;
    expect(() => coefficient(collagen, testSupply('soy-flour'), RAW)).toThrow(MissingFigure);
    expect(() => coefficient(collagen, testSupply('soy-flour'), RAW)).toThrow(
      'soy-flour has no figure for collagen; add it to its table',
    );
  });

  it('know which figures a material may lack', () => {
    const constituents = [
      'water',
      'fat',
      'protein',
      'carbohydrate',
      'ash',
      'salt',
      'collagen',
      'saturatedFat',
    ] as const;
    const bare = supplyOfMaterial(material('bare', 'phosphate', { substances: { phosphate: 1 } }), 1);
    const forms: Form[] = [
      ...constituents.map((constituent) => ({
        id: constituent,
        says: '',
        terms: [{ of: { constituent }, times: 1 }],
      })),
      ...SUBSTANCES.map((substance) => ({
        id: substance,
        says: '',
        terms: [{ of: { substance }, times: 1 }],
      })),
    ];
    const lacking = forms.filter((form) => {
      try {
        coefficient(form, bare, RAW);
        return false;
      } catch {
        return true;
      }
    });
    expect(lacking.map(({ id }) => id)).toEqual(['collagen', 'saturatedFat', 'P2O5']);
    expect(forms.filter(mayLack).map(({ id }) => id)).toEqual(lacking.map(({ id }) => id));
  });

  it('split the formula into the water put in and the rest', () => {
    for (const { id } of TEST_MATERIALS) {
      const of = (form: Form) => coefficient(form, testSupply(id), RAW);
      expect(compare(sum([of(FORMS.waterPutIn), of(FORMS.formulaWithoutWater)]), exact(1)), id).toBe(0);
    }
  });

  it('keep the balance of the finished product: what is lost is water and fat', () => {
    const process = { ...COOKED, yieldFraction: 0.88, fatLossFraction: 0.03 };
    for (const id of ['pork', 'beef-fat-40', 'water']) {
      const of = (form: Form) => coefficient(form, testSupply(id), process);
      const lost = sum([
        of(FORMS.fat),
        of(FORMS.water),
        multiply(exact(-1), of(FORMS.finishedFat)),
        multiply(exact(-1), of(FORMS.finishedWater)),
      ]);
      expect(compare(lost, exact(0.12)), id).toBe(0);
    }
  });
});

describe('the words for a check', () => {
  it('say the value, the basis and the bound in the unit of the limit', () => {
    const [counted, other] = exactCase('us-319.15a-cheek-meat');
    expect(describeCheck(checkOne(limitOf('us-319.15a-cheek-meat'), [counted, other]))).toBe(
      'cheek meat 25 percent of green weight of meat, poultry and their byproducts, at most 25',
    );
    expect(
      describeCheck(
        checkOne(limitOf('us-319.145a-meat'), [
          ['pork', '8'],
          ['onion', '2'],
        ]),
      ),
    ).toBe('meat and fat 80 percent of all ingredients, water included, at least 85');
    expect(
      describeCheck(
        checkOne(limitOf('us-424.21c-nitrite-comminuted'), [
          ['cure-6.25', '2.5', 'g'],
          ['pork', '1'],
        ]),
      ),
    ).toContain('156.25 ppm of green weight of meat, poultry and their byproducts, at most 156');
    expect(describeCheck(checkOne(limitOf('us-319.145a-pepper'), [['pork', '1']]))).toBe(
      'pepper must be there',
    );
  });

  it('show a bound as people write it', () => {
    expect(shownBound({ bound: 0.000156, unit: 'ppm' })).toBe(156);
    expect(shownBound({ bound: 0.035, unit: 'percent' })).toBe(3.5);
    expect(shownBound({ bound: 4.4092, unit: 'price per kg' })).toBe(4.4092);
  });
});

describe('the dates of a limit', () => {
  const water = limitOf('us-319.140-water');
  const on = (inForce: NonNullable<Limit['inForce']>, date: string) =>
    inForceOn([{ ...water, inForce }], date).length === 1;

  it('count from the first day to the day before the end', () => {
    const span = { from: '2026-01-01', until: '2026-07-01' };
    expect(on(span, '2025-12-31')).toBe(false);
    expect(on(span, '2026-01-01')).toBe(true);
    expect(on(span, '2026-06-30')).toBe(true);
    expect(on(span, '2026-07-01')).toBe(false);
  });

  it('may be open at either end', () => {
    expect(on({ from: '2026-01-01' }, '2099-01-01')).toBe(true);
    expect(on({ until: '2026-01-01' }, '1999-01-01')).toBe(true);
    expect(inForceOn([water], '1999-01-01')).toEqual([water]);
  });
});

describe('looking up a standard', () => {
  it('finds it by its class and nothing by another name', () => {
    expect(findStandard(US, 'hamburger')?.says).toBe('Hamburger');
    expect(findStandard(US, 'Hamburger')).toBeUndefined();
  });
});
