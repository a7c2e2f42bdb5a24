import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as chemistry from '../src/chemistry.ts';

const { agentKgFor, ingoingPpm, massShare, molarMass, p2o5Share, PHOSPHATE_SALTS } = chemistry;

/** Formula weights as specifications print them (Commission Regulation (EU) No 231/2012; from memory, verify). */
const FORMULA_WEIGHTS: readonly (readonly [formula: string, printed: number, within: number])[] = [
  ['NaNO2', 69.0, 0.01],
  ['KNO2', 85.11, 0.01],
  ['NaNO3', 85.0, 0.01],
  ['KNO3', 101.11, 0.01],
  ['C6H8O6', 176.13, 0.01],
  ['C6H7NaO6.H2O', 216.13, 0.01],
  ['Na5P3O10', 367.86, 0.01],
  ['Na4P2O7', 265.94, 0.05],
  ['Na2S2O5', 190.11, 0.02],
];

describe('molar masses', () => {
  it.each(FORMULA_WEIGHTS)('%s is %f', (formula, printed, within) => {
    expect(Math.abs(molarMass(formula) - printed)).toBeLessThanOrEqual(within);
  });

  it('add up over parts, groups and water of crystallization', () => {
    const elements = fc.constantFrom('H', 'C', 'N', 'O', 'Na', 'P', 'S', 'Cl', 'K');
    const count = fc.integer({ min: 1, max: 12 });
    fc.assert(
      fc.property(elements, count, elements, count, count, (first, a, second, b, times) => {
        const one = molarMass(`${first}${a}`) + molarMass(`${second}${b}`);
        expect(molarMass(`${first}${a}${second}${b}`)).toBeCloseTo(one, 6);
        expect(molarMass(`(${first}${a}${second}${b})${times}`)).toBeCloseTo(times * one, 6);
        expect(molarMass(`${first}${a}.${second}${b}`)).toBeCloseTo(one, 6);
        const share = massShare(`${first}${a}`, `${first}${a}${second}${b}`);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThanOrEqual(1);
      }),
    );
  });

  it.each([
    ['', 'is no formula'],
    ['salt', 'is no formula'],
    ['Na2HPO4.', 'is no formula'],
    ['Na(', 'is no formula'],
    ['NaXe', '"Xe" in "NaXe" has no atomic mass here; the elements are H, C, N'],
  ])('refuse %j', (formula, message) => {
    expect(() => molarMass(formula)).toThrow(RangeError);
    expect(() => molarMass(formula)).toThrow(message);
  });
});

/** Ways of counting, each to the digits of its source; where none is named the answer was worked out on paper. */
const FACTORS: readonly (readonly [name: string, found: number, printed: number, within: number])[] = [
  ['nitrite ion of sodium nitrite', chemistry.NITRITE_ION_PER_SODIUM_NITRITE, 0.66679, 5e-6],
  ['nitrite ion of potassium nitrite', chemistry.NITRITE_ION_PER_POTASSIUM_NITRITE, 0.54058, 1e-5],
  ['sodium nitrite for potassium nitrite', chemistry.SODIUM_NITRITE_PER_POTASSIUM_NITRITE, 0.81072, 1e-5],
  ['nitrate ion of sodium nitrate', chemistry.NITRATE_ION_PER_SODIUM_NITRATE, 0.72951, 1e-5],
  ['nitrate ion of potassium nitrate', chemistry.NITRATE_ION_PER_POTASSIUM_NITRATE, 0.61328, 1e-5],
  ['sodium nitrate for potassium nitrate', chemistry.SODIUM_NITRATE_PER_POTASSIUM_NITRATE, 0.84067, 1e-5],
  ['erythorbate without its water', 1 / chemistry.SODIUM_ERYTHORBATE_PER_MONOHYDRATE, 1.0909, 5e-5],
  ['erythorbic acid of erythorbate', chemistry.ERYTHORBIC_ACID_PER_SODIUM_ERYTHORBATE, 0.88904, 1e-5],
  ['phosphorus of its pentoxide', chemistry.PHOSPHORUS_PER_P2O5, 0.43643, 1e-5],
  ['pentoxide of disodium phosphate', chemistry.P2O5_PER_DISODIUM_PHOSPHATE, 0.49995, 1e-5],
  ['disodium phosphate for pentoxide', chemistry.DISODIUM_PHOSPHATE_PER_P2O5, 2.0002, 1e-4],
  ['sulfur dioxide of metabisulfite', chemistry.SO2_PER_SODIUM_METABISULFITE, 0.6739, 1e-4],
  ['sodium of salt', 1 / chemistry.SODIUM_PER_SALT, 2.542, 5e-4],
  ['connective tissue of collagen', chemistry.CONNECTIVE_TISSUE_PER_COLLAGEN, 4.625, 0],
  ['connective tissue of hydroxyproline', chemistry.CONNECTIVE_TISSUE_PER_COLLAGEN * 8, 37, 0],
  ['collagen of 0.45 % hydroxyproline', 0.45 * chemistry.COLLAGEN_PER_HYDROXYPROLINE, 3.6, 1e-12],
];

describe('ways of counting one substance', () => {
  it.each(FACTORS)('%s', (_, found, printed, within) => {
    expect(Math.abs(found - printed)).toBeLessThanOrEqual(within);
  });

  // 9 CFR 424.22(b)(1): the same nitrite as potassium nitrite, printed whole
  it.each([
    [120, 148],
    [100, 123],
    [40, 49],
    [80, 99],
  ])('%i ppm of sodium nitrite are %i ppm of potassium nitrite', (sodium, potassium) => {
    expect(Math.round(sodium / chemistry.SODIUM_NITRITE_PER_POTASSIUM_NITRITE)).toBe(potassium);
  });

  it.each([
    ['monosodium phosphate', 0.59155],
    ['disodium phosphate', 0.49995],
    ['trisodium phosphate', 0.43291],
    ['monopotassium phosphate', 0.52153],
    ['dipotassium phosphate', 0.40747],
    ['sodium acid pyrophosphate', 0.63956],
    ['tetrasodium pyrophosphate', 0.53382],
    ['tetrapotassium pyrophosphate', 0.42969],
    ['sodium tripolyphosphate', 0.57879],
    ['potassium tripolyphosphate', 0.47483],
    ['sodium hexametaphosphate', 0.69607],
  ] as const)('%s holds %f of phosphorus pentoxide', (salt, share) => {
    expect(Math.abs(p2o5Share(salt) - share)).toBeLessThanOrEqual(1.5e-5);
  });

  it('leaves no phosphate without its share', () => {
    for (const salt of Object.keys(PHOSPHATE_SALTS) as chemistry.PhosphateSalt[]) {
      expect(p2o5Share(salt), salt).toBeGreaterThan(0.4);
    }
  });
});

describe('a dose of an agent of any strength', () => {
  // The first three as worked out in public notes that quote 9 CFR 424.21(c) (secondary); the last by the division.
  it.each([
    ['6.25 % cure at 2.5 g per kg of meat', 0.0025, 0.0625, 1, 156.25],
    ['1 g of nitrite in 5 kg', 0.001, 1, 5, 200],
    ['0.75 g of nitrite in 5 kg', 0.00075, 1, 5, 150],
    ['30 g of 0.6 % salt in 1 kg', 0.03, 0.006, 1, 180],
  ])('%s', (_, agentKg, strengthFraction, basisKg, ppm) => {
    expect(ingoingPpm({ agentKg, strengthFraction, basisKg })).toBe(ppm);
  });

  it('is found back from its parts per million', () => {
    const amount = fc.integer({ min: 1, max: 1_000_000 });
    fc.assert(
      fc.property(amount, amount, amount, (agentMg, strength, basisG) => {
        const dose = { strengthFraction: strength / 1e6, basisKg: basisG / 1000 };
        const ppm = ingoingPpm({ agentKg: agentMg / 1e6, ...dose });
        const found = agentKgFor({ ppm, ...dose });
        expect(Math.abs(found - agentMg / 1e6)).toBeLessThanOrEqual(1e-9 * found);
      }),
    );
  });

  it('is refused on nothing, and from what brings nothing', () => {
    expect(() => ingoingPpm({ agentKg: 1, strengthFraction: 1, basisKg: 0 })).toThrow(RangeError);
    expect(() => agentKgFor({ ppm: 100, strengthFraction: 0, basisKg: 1 })).toThrow(RangeError);
  });
});
