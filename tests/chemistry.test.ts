import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as chemistry from '../src/chemistry.ts';
import type { Mark } from './published/row.ts';

const { agentKgFor, ingoingPpm, massShare, molarMass, p2o5Share, PHOSPHATE_SALTS } = chemistry;

/** A figure as its source prints it; the found one may differ by no more than `within`. */
type Printed = readonly [printed: number, within: number, mark: Mark, source: string];

const JECFA =
  'specification of the FAO/WHO expert committee on food additives (JECFA), read in a public copy';
const EU_231 = 'Commission Regulation (EU) No 231/2012';

/** Formula weights as specifications print them, some from older atomic weights. */
const FORMULA_WEIGHTS: readonly (readonly [formula: string, ...Printed])[] = [
  ['NaNO2', 69.0, 0.01, 'secondary', `${JECFA}, INS 250`],
  ['KNO2', 85.1, 0.01, 'secondary', `${JECFA}, INS 249`],
  ['NaNO3', 85.0, 0.01, 'from memory, verify', EU_231],
  ['KNO3', 101.11, 0.01, 'secondary', `${JECFA}, INS 252`],
  ['NaHSO3', 104.06, 0.01, 'official', 'JECFA specification of INS 222, page of the FAO'],
  ['C6H8O6', 176.13, 0.01, 'secondary', 'a data book of food additives, ascorbic acid and isomers'],
  ['C6H7O6Na.H2O', 216.13, 0.01, 'secondary', `${JECFA}, sodium erythorbate`],
  ['Na5P3O10', 367.86, 0.01, 'from memory, verify', EU_231],
  ['Na4P2O7', 265.94, 0.05, 'from memory, verify', EU_231],
  ['Na2S2O5', 190.11, 0.02, 'secondary', `${JECFA}, INS 223`],
];

describe('molar masses', () => {
  it.each(FORMULA_WEIGHTS)('%s is %f (± %f; %s: %s)', (formula, printed, within) => {
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
    ['Na0', 'is no formula'],
    ['(H2O)0', 'is no formula'],
    ['NaXe', '"Xe" in "NaXe" has no atomic mass here; the elements are H, C, N'],
  ])('refuse %j', (formula, message) => {
    expect(() => molarMass(formula)).toThrow(RangeError);
    expect(() => molarMass(formula)).toThrow(message);
  });
});

const OWN = 'worked out on paper from the atomic masses';
const EU_TRADE = 'Commission Regulation (EU) 2023/2108 as a trade page reports it, for 100 mg of the salt';
const STPP_PAGE = 'page of a phosphate industry body on tripolyphosphate, dry weight';
const FSAI_17 = 'guidance note 17 of the Food Safety Authority of Ireland, 8.1';
const EU_LABEL = 'Regulation (EU) No 1169/2011, Annex I';

/** Ways of counting, each to the digits of its source. */
const FACTORS: readonly (readonly [name: string, found: number, ...Printed])[] = [
  [
    'nitrite ion of sodium nitrite',
    chemistry.NITRITE_ION_PER_SODIUM_NITRITE,
    0.66679,
    5e-6,
    'constructed',
    OWN,
  ],
  [
    'sodium nitrite for its ion',
    1 / chemistry.NITRITE_ION_PER_SODIUM_NITRITE,
    1.49972,
    1e-5,
    'constructed',
    OWN,
  ],
  ['mg of nitrite ion', 100 * chemistry.NITRITE_ION_PER_SODIUM_NITRITE, 67, 0.5, 'secondary', EU_TRADE],
  [
    'µg/ml of nitrite ion of 0.750 g of sodium nitrite a litre',
    750 * chemistry.NITRITE_ION_PER_SODIUM_NITRITE,
    500,
    0.5,
    'secondary',
    `${JECFA}, INS 252, nitrite standard`,
  ],
  [
    'nitrite ion of potassium nitrite',
    chemistry.NITRITE_ION_PER_POTASSIUM_NITRITE,
    0.54058,
    1e-5,
    'constructed',
    OWN,
  ],
  [
    'sodium nitrite for potassium nitrite',
    chemistry.SODIUM_NITRITE_PER_POTASSIUM_NITRITE,
    0.81072,
    1e-5,
    'constructed',
    OWN,
  ],
  [
    'nitrate ion of sodium nitrate',
    chemistry.NITRATE_ION_PER_SODIUM_NITRATE,
    0.72951,
    1e-5,
    'constructed',
    OWN,
  ],
  ['mg of nitrate ion', 100 * chemistry.NITRATE_ION_PER_SODIUM_NITRATE, 73, 0.5, 'secondary', EU_TRADE],
  [
    'nitrate ion of potassium nitrate',
    chemistry.NITRATE_ION_PER_POTASSIUM_NITRATE,
    0.61328,
    1e-5,
    'constructed',
    OWN,
  ],
  [
    'sodium nitrate for potassium nitrate',
    chemistry.SODIUM_NITRATE_PER_POTASSIUM_NITRATE,
    0.84067,
    1e-5,
    'constructed',
    OWN,
  ],
  [
    'erythorbate with its water',
    1 / chemistry.SODIUM_ERYTHORBATE_PER_MONOHYDRATE,
    1.0909,
    5e-5,
    'constructed',
    OWN,
  ],
  [
    'erythorbic acid of erythorbate',
    chemistry.ERYTHORBIC_ACID_PER_SODIUM_ERYTHORBATE,
    0.88904,
    1e-5,
    'constructed',
    OWN,
  ],
  ['phosphorus of its pentoxide', chemistry.PHOSPHORUS_PER_P2O5, 0.43643, 1e-5, 'constructed', OWN],
  // The page prints 43.7, a tenth more than its own 25.3 of 57.9.
  [
    '% of phosphorus in its pentoxide',
    100 * chemistry.PHOSPHORUS_PER_P2O5,
    43.7,
    0.1,
    'secondary',
    STPP_PAGE,
  ],
  [
    '% of pentoxide in tripolyphosphate',
    100 * p2o5Share('sodium tripolyphosphate'),
    57.9,
    0.05,
    'secondary',
    STPP_PAGE,
  ],
  [
    '% of phosphorus in tripolyphosphate',
    100 * massShare('P', 'Na5P3O10', 3),
    25.3,
    0.05,
    'secondary',
    STPP_PAGE,
  ],
  [
    'pentoxide of disodium phosphate',
    chemistry.P2O5_PER_DISODIUM_PHOSPHATE,
    0.49995,
    1e-5,
    'constructed',
    OWN,
  ],
  [
    'disodium phosphate for pentoxide',
    chemistry.DISODIUM_PHOSPHATE_PER_P2O5,
    2.0002,
    1e-4,
    'constructed',
    OWN,
  ],
  [
    'sulfur dioxide of metabisulfite',
    chemistry.SO2_PER_SODIUM_METABISULFITE,
    0.6739,
    1e-4,
    'constructed',
    OWN,
  ],
  ['salt for sodium by chemistry', 1 / chemistry.SODIUM_PER_SALT, 2.542, 5e-4, 'constructed', OWN],
  ['salt for sodium on a label', chemistry.LABEL_SALT_PER_SODIUM, 2.5, 0, 'official', `${EU_LABEL}, 11`],
  ['protein for nitrogen', chemistry.PROTEIN_PER_NITROGEN, 6.25, 0, 'official', `${EU_LABEL}, 10`],
  ['connective tissue of collagen', chemistry.CONNECTIVE_TISSUE_PER_COLLAGEN, 4.625, 0, 'official', FSAI_17],
  [
    'connective tissue of hydroxyproline',
    chemistry.CONNECTIVE_TISSUE_PER_COLLAGEN * 8,
    37,
    0,
    'official',
    FSAI_17,
  ],
  [
    '% of collagen of 0.45 % hydroxyproline',
    0.45 * chemistry.COLLAGEN_PER_HYDROXYPROLINE,
    3.6,
    1e-12,
    'constructed',
    'Regulation (EU) No 1169/2011, Annex VII part B 17: hydroxyproline times 8',
  ],
  [
    '% of connective tissue of 0.45 % hydroxyproline',
    0.45 * chemistry.COLLAGEN_PER_HYDROXYPROLINE * chemistry.CONNECTIVE_TISSUE_PER_COLLAGEN,
    16.65,
    1e-12,
    'constructed',
    FSAI_17,
  ],
];

describe('ways of counting one substance', () => {
  it.each(FACTORS)('%s: %f for %f (± %f; %s: %s)', (_, found, printed, within) => {
    expect(Math.abs(found - printed)).toBeLessThanOrEqual(within);
  });

  // official: 9 CFR 424.22(b)(1) prints both figures, whole
  it.each([
    [120, 148],
    [100, 123],
    [40, 49],
    [80, 99],
  ])('%i ppm of sodium nitrite are %i ppm of potassium nitrite', (sodium, potassium) => {
    expect(Math.round(sodium / chemistry.SODIUM_NITRITE_PER_POTASSIUM_NITRITE)).toBe(potassium);
  });

  // constructed: worked out on paper from the atomic masses
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

  // constructed: arithmetic from 5 g/kg as P2O5, the limit of Regulation (EC) No 1333/2008, Annex II, 08.2
  it.each([
    ['sodium tripolyphosphate', 8.639],
    ['tetrasodium pyrophosphate', 9.366],
    ['sodium acid pyrophosphate', 7.818],
    ['sodium hexametaphosphate', 7.183],
  ] as const)('5 g/kg of phosphorus pentoxide are all brought by %s at %f g/kg', (salt, gPerKg) => {
    expect(Math.abs(5 / p2o5Share(salt) - gPerKg)).toBeLessThanOrEqual(5e-4);
  });

  it('leaves no phosphate without its share', () => {
    for (const salt of Object.keys(PHOSPHATE_SALTS) as chemistry.PhosphateSalt[]) {
      expect(p2o5Share(salt), salt).toBeGreaterThan(0.4);
    }
  });
});

describe('a dose of an agent of any strength', () => {
  const NOTE = 'a public note of 2026 that quotes 9 CFR 424.21(c)';
  const LESSON = 'images.elk.pl/c/163/8997, a lesson on curing with worked exercises';

  it.each([
    ['6.25 % cure at 2.5 g per kg of meat', 0.0025, 0.0625, 1, 156.25, 0, 'secondary', NOTE],
    [
      '0.25 % of a 6.25 % cure',
      0.25,
      0.0625,
      100,
      156,
      0.5,
      'secondary',
      'wedlinydomowe.pl, forum topic 7411',
    ],
    ['1 g of nitrite in 5 kg', 0.001, 1, 5, 200, 0, 'secondary', LESSON],
    ['0.75 g of nitrite in 5 kg', 0.00075, 1, 5, 150, 0, 'secondary', LESSON],
    ['1 lb of nitrite in 5000 lb', 1, 1, 5000, 200, 0, 'secondary', LESSON],
    ['30 g of 0.6 % salt in 1 kg, 0.18 g', 0.03, 0.006, 1, 180, 0, 'secondary', LESSON],
    ['20 g of 0.6 % salt in 1 kg', 0.02, 0.006, 1, 120, 0, 'constructed', 'plain arithmetic'],
  ] as const satisfies readonly (readonly [string, number, number, number, ...Printed])[])(
    '%s (%f kg at %f on %f kg): %f ppm (± %f; %s: %s)',
    (_, agentKg, strengthFraction, basisKg, ppm, within) => {
      expect(Math.abs(ingoingPpm({ agentKg, strengthFraction, basisKg }) - ppm)).toBeLessThanOrEqual(within);
    },
  );

  // constructed: 120 ppm of sodium nitrite is a hair over the 80 mg/kg as ion of Regulation (EU) 2023/2108
  it('counts 20 g/kg of a 0.6 % salt as 80.01 mg/kg of ion, over 80', () => {
    const ppm = ingoingPpm({ agentKg: 0.02, strengthFraction: 0.006, basisKg: 1 });
    const ion = ppm * chemistry.NITRITE_ION_PER_SODIUM_NITRITE;
    expect(ion).toBeGreaterThan(80);
    expect(Math.abs(ion - 80.01)).toBeLessThanOrEqual(0.005);
  });

  // constructed: the inverse of 9 CFR 424.21(c) for 250 lb of meat at 156 ppm, 9.984 oz
  it('needs 0.624 lb of a 6.25 % cure for 156 ppm on 250 lb', () => {
    expect(agentKgFor({ ppm: 156, strengthFraction: 0.0625, basisKg: 250 })).toBe(0.624);
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
