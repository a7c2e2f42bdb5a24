import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultFatSd } from '../../src/batch/fat-certainty.ts';
import {
  classBelief,
  type FatTest,
  learnTrim,
  nextLotSd,
  ownTests,
  trimKnowledge,
  updateBelief,
} from '../../src/batch/trim-learning.ts';
import { material } from '../helpers/materials.ts';

const trim = (id: string, fatFraction: number) =>
  material(id, 'skeletal meat', { species: 'beef', composition: { fatFraction } });
const BEEF_65 = trim('beef-65', 0.35);
const BEEF_50 = trim('beef-50', 0.5);
const MATERIALS = new Map([BEEF_65, BEEF_50].map((entry) => [entry.id, entry]));
const PRIOR = { materialId: 'beef-65', supplierEstablishment: '00001', belief: classBelief(BEEF_65) };

const fatTest = (fatFraction: number, given: Partial<FatTest> = {}): FatTest => ({
  materialId: 'beef-65',
  supplierEstablishment: '00001',
  date: '2026-11-18',
  fatFraction,
  method: 'NIR',
  ...given,
});

const fats = fc.array(
  fc.integer({ min: 0, max: 1000 }).map((tenths) => tenths / 1000),
  {
    minLength: 1,
    maxLength: 30,
  },
);

describe('the class figure before any test', () => {
  it.each([0.05, 0.2, 0.35, 0.9])('expects the default spread at a fat of %d', (fatFraction) => {
    const material = trim('trim', fatFraction);
    expect(nextLotSd(classBelief(material))).toBeCloseTo(defaultFatSd(material), 12);
  });

  it('is refused for what is no meat', () => {
    expect(() => classBelief(material('cheese', 'dairy'))).toThrow(
      'material cheese is dairy; only the fat of meat is learned',
    );
  });
});

describe('an example by hand', () => {
  // Formulas of Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.3, in points of fat. Class 35 with sd 3.5;
  // sigma0^2 = 3.5^2 / (3/2 x 5/3) = 4.9. Six lots: mean 32, sum of squares about it 10.
  const tests = [33, 31, 34, 32, 30, 32].map((points) => fatTest(points / 100));
  const known = learnTrim(PRIOR, tests);

  it('the mean is (2 x 35 + 6 x 32) / 8 = 32.75, a quarter of it the class', () => {
    expect(known).toMatchObject({
      materialId: 'beef-65',
      supplierEstablishment: '00001',
      tests: 6,
      lots: 6,
      classMeanFraction: 0.35,
      testedMeanFraction: 0.32,
      meanFraction: 0.3275,
      shrinkage: 0.25,
      latestDate: '2026-11-18',
    });
  });

  it('the variance is (5 x 4.9 + 10 + 2 x 6 / 8 x 3^2) x 9 / 8 / (11 - 2) = 6', () => {
    expect(known.sdFraction).toBeCloseTo(Math.sqrt(6) / 100, 12);
  });
});

describe('a published example', () => {
  // Clyde et al., An Introduction to Bayesian Thinking, "Example: TTHM in Tapwater": prior mean 35, size 25, variance
  // 156.25 with 24 degrees of freedom; 28 results, mean 55.5239, s 23.254. Posterior: 45.8428, 53, 459.9, 52, and a
  // scale of the mean of 2.9457. Only mean and s count, so half the results lie as far above the mean as half below.
  it('comes out as the book has it', () => {
    const [mean, away] = [55.5239, 23.254 * Math.sqrt(27 / 28)];
    const results = Array.from({ length: 28 }, (_, index) => mean + (index % 2 === 0 ? away : -away));
    const prior = { meanFraction: 35, weightLots: 25, degreesOfFreedom: 24, variance: 156.25 };
    const learned = updateBelief(prior, results);
    expect(learned).toMatchObject({ weightLots: 53, degreesOfFreedom: 52 });
    expect(learned.meanFraction).toBeCloseTo(45.8428, 4);
    // The book rounds the mean and the variance of its results to one decimal for this figure.
    expect(Math.abs(learned.variance - 459.9)).toBeLessThan(0.1);
    expect(Math.sqrt(learned.variance / learned.weightLots)).toBeCloseTo(2.9457, 3);
  });
});

describe('learning from tests', () => {
  it('stays between the class and the lots tested', () => {
    fc.assert(
      fc.property(fats, (values) => {
        const known = learnTrim(
          PRIOR,
          values.map((value) => fatTest(value)),
        );
        const { classMeanFraction, testedMeanFraction, meanFraction } = known;
        const dust = 1e-12;
        expect(meanFraction).toBeGreaterThanOrEqual(Math.min(classMeanFraction, testedMeanFraction) - dust);
        expect(meanFraction).toBeLessThanOrEqual(Math.max(classMeanFraction, testedMeanFraction) + dust);
        expect(known.shrinkage).toBeCloseTo(2 / (2 + values.length), 12);
      }),
    );
  });

  it('never leaves 0 to 1', () => {
    const all = (fat: number) => fc.array(fc.constant(fat), { minLength: 1, maxLength: 200 });
    fc.assert(
      fc.property(fc.oneof(all(0), all(1), fats), fc.constantFrom(0, 0.35, 1), (values, fatFraction) => {
        const { meanFraction } = learnTrim(
          { ...PRIOR, belief: classBelief(trim('trim', fatFraction)) },
          values.map((value) => fatTest(value)),
        );
        expect(meanFraction).toBeGreaterThanOrEqual(0);
        expect(meanFraction).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('does not mind the order of the tests', () => {
    const shuffled = fats.chain((values) =>
      fc.tuple(
        fc.constant(values),
        fc.shuffledSubarray(values, { minLength: values.length, maxLength: values.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([values, mixed]) => {
        const [one, other] = [values, mixed].map((list) =>
          learnTrim(
            PRIOR,
            list.map((value) => fatTest(value)),
          ),
        );
        expect(other?.meanFraction).toBeCloseTo(one?.meanFraction ?? Number.NaN, 11);
        expect(other?.sdFraction).toBeCloseTo(one?.sdFraction ?? Number.NaN, 11);
      }),
    );
  });

  it('comes to the same one by one as all at once', () => {
    fc.assert(
      fc.property(fats, (values) => {
        const atOnce = updateBelief(PRIOR.belief, values);
        const stepwise = values.reduce((belief, value) => updateBelief(belief, [value]), PRIOR.belief);
        expect(stepwise.weightLots).toBe(atOnce.weightLots);
        expect(stepwise.degreesOfFreedom).toBe(atOnce.degreesOfFreedom);
        expect(stepwise.meanFraction).toBeCloseTo(atOnce.meanFraction, 12);
        expect(stepwise.variance).toBeCloseTo(atOnce.variance, 12);
      }),
    );
  });

  it('changes nothing without a lot', () => {
    expect(updateBelief(PRIOR.belief, [])).toEqual(PRIOR.belief);
  });

  it('finds the true spread and mean of a supplier when there are many tests', () => {
    const [trueMean, trueSd] = [0.31, 0.012];
    const draws = normalDraws(20261125, 2000).map((z) => trueMean + trueSd * z);
    const learnedFrom = (lots: number) => {
      const belief = updateBelief(PRIOR.belief, draws.slice(0, lots));
      return { mean: belief.meanFraction, sd: nextLotSd(belief) };
    };
    const sds = [0, 5, 50, 500, 2000].map((lots) => learnedFrom(lots).sd);
    expect(sds).toEqual([...sds].sort((a, b) => b - a));
    // The error of a standard deviation from 2000 normal draws is some 1.6 %, of their mean 0.03 points.
    expect(Math.abs(learnedFrom(2000).sd / trueSd - 1)).toBeLessThan(0.06);
    expect(Math.abs(learnedFrom(2000).mean - trueMean)).toBeLessThan(0.001);
  });

  it('grows less sure when the tests disagree with the class', () => {
    const sd = (fat: number) => learnTrim(PRIOR, [fatTest(fat)]).sdFraction;
    expect(sd(0.35)).toBeLessThan(defaultFatSd(BEEF_65));
    expect(sd(0.5)).toBeGreaterThan(defaultFatSd(BEEF_65));
  });

  it('counts several tests of one lot as one lot of their mean', () => {
    const twice = learnTrim(PRIOR, [
      fatTest(0.3, { lotId: 'A' }),
      fatTest(0.32, { lotId: 'A' }),
      fatTest(0.33),
    ]);
    const once = learnTrim(PRIOR, [fatTest(0.31, { lotId: 'A' }), fatTest(0.33)]);
    expect(twice).toEqual({ ...once, tests: 3 });
    expect(once.lots).toBe(2);
  });

  it('takes tests without a lot for lots of their own', () => {
    expect(learnTrim(PRIOR, [fatTest(0.3), fatTest(0.3)]).lots).toBe(2);
  });

  it('is refused without a test', () => {
    expect(() => learnTrim(PRIOR, [])).toThrow('tests of beef-65 is empty; give at least one test');
  });
});

describe('what is known on a day', () => {
  const tests = [
    fatTest(0.33, { supplierEstablishment: '00002', date: '2026-11-17' }),
    fatTest(0.31, { date: '2026-11-20' }),
    fatTest(0.5, { materialId: 'beef-50', date: '2026-11-18' }),
    fatTest(0.3, { date: '2026-11-19' }),
    fatTest(0.52, { materialId: 'beef-50', date: '2026-11-16' }),
  ];

  it('is told by supplier and then by material', () => {
    expect(
      trimKnowledge(tests, MATERIALS, '2026-11-25').map((known) => [
        known.supplierEstablishment,
        known.materialId,
        known.tests,
        known.latestDate,
      ]),
    ).toEqual([
      ['00001', 'beef-50', 2, '2026-11-18'],
      ['00001', 'beef-65', 2, '2026-11-20'],
      ['00002', 'beef-65', 1, '2026-11-17'],
    ]);
  });

  it('ends with that day', () => {
    const on = (day: string) =>
      trimKnowledge(tests, MATERIALS, day).find(
        ({ supplierEstablishment, materialId }) =>
          supplierEstablishment === '00001' && materialId === 'beef-65',
      );
    expect(on('2026-11-18')).toBeUndefined();
    expect(on('2026-11-19')).toMatchObject({ tests: 1, testedMeanFraction: 0.3 });
    expect(on('2026-11-20')).toMatchObject({ tests: 2, testedMeanFraction: 0.305 });
  });

  it('is refused for a material that nobody knows', () => {
    expect(() => trimKnowledge([fatTest(0.3, { materialId: 'beef-64' })], MATERIALS, '2026-11-25')).toThrow(
      'materialId beef-64 of a fat test is no known material',
    );
  });
});

/** Standard normal draws, the same for the same seed: mulberry32 and the polar form of Box and Muller. */
function normalDraws(seed: number, count: number): number[] {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const draws: number[] = [];
  while (draws.length < count) {
    const [x, y] = [2 * uniform() - 1, 2 * uniform() - 1];
    const square = x * x + y * y;
    if (square > 0 && square < 1) draws.push(x * Math.sqrt((-2 * Math.log(square)) / square));
  }
  return draws;
}

describe('tests of a lot itself', () => {
  const test = (lotId: string, fatFraction: number, date: string): FatTest => ({
    lotId,
    materialId: 'beef-trim-80',
    supplierEstablishment: '00001',
    date,
    fatFraction,
    method: 'NIR',
  });
  const lot = { id: 'L1', materialId: 'beef-trim-80' };

  it('are its measured fat: their mean, with less doubt the more there are', () => {
    const one = ownTests([test('L1', 0.2, '2026-11-01')], lot, '2026-11-25');
    const two = ownTests([test('L1', 0.2, '2026-11-01'), test('L1', 0.22, '2026-11-03')], lot, '2026-11-25');
    // One composite of 20 % fat by NIR: √(0.7² + 0.4²) = 0.806 points; two of 20 and 22 %: √(0.65 + 0.6836)/2.
    expect(one).toMatchObject({ fatFraction: 0.2, method: 'NIR' });
    expect(one?.sdFraction).toBeCloseTo(0.0080623, 6);
    expect(two).toMatchObject({ fatFraction: 0.21, method: '2 tests by NIR' });
    expect(two?.sdFraction).toBeCloseTo(0.0057741, 6);
  });

  it('never make it surer than sampling can', () => {
    const many = Array.from({ length: 30 }, () => test('L1', 0.2, '2026-11-01'));
    expect(ownTests(many, lot, '2026-11-25')?.sdFraction).toBe(0.004);
  });

  it('are those of this lot and of no later day', () => {
    const tests = [test('L2', 0.2, '2026-11-01'), test('L1', 0.2, '2026-11-26')];
    expect(ownTests(tests, lot, '2026-11-25')).toBeUndefined();
    expect(ownTests(tests, { ...lot, materialId: 'beef-trim-85' }, '2026-11-30')).toBeUndefined();
  });
});
