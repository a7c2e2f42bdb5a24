import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TrimLine } from '../../src/batch/composition.ts';
import { type Lot, type Supply, supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import { type Material, MEAT_KINDS } from '../../src/batch/material.ts';
import type { Plant, Scale } from '../../src/batch/plant.ts';
import type { Product, SeasoningLine } from '../../src/batch/product.ts';
import { correct } from '../../src/correct/correct.ts';
import type { Correction, CorrectionRequest } from '../../src/correct/correction.ts';
import { type MixLine, testedMix } from '../../src/correct/tested-mix.ts';
import { add, compare, type Exact, exact, multiply, ratio, sum, toNumber } from '../../src/exact.ts';
import { houseLimits } from '../../src/formulate/house-limits.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { inForceOn } from '../../src/rules/limit.ts';
import { rowsOf } from '../../src/rules/row.ts';
import { javascriptLpSolver } from '../../src/solver/engines/javascript-lp-solver.ts';
import { toRow } from '../../src/solver/exact-model.ts';
import type { LinearModel } from '../../src/solver/model.ts';
import { KILOGRAMS_PER, type MassUnit } from '../../src/units.ts';
import { solveWithHighs } from '../helpers/highs.ts';
import { material, standardOf, testProduct } from '../helpers/materials.ts';

const TODAY = '2031-05-14';

/** Fatty tissue without ash: what is not fat is three parts water and one part protein, nearly. */
const LINE: TrimLine = {
  species: 'any',
  water: { intercept: 0.77, slope: -0.77 },
  protein: { intercept: 0.22, slope: -0.22 },
  ash: { intercept: 0.01, slope: -0.01 },
  saturatedFat: { intercept: 0, slope: 0.4 },
  cholesterolMgPerKg: { intercept: 600, slope: 200 },
  sodiumMgPerKg: { intercept: 700, slope: -500 },
};

function meat(
  id: string,
  species: 'beef' | 'pork',
  fatFraction: number,
  lot: Partial<Lot> & { readonly sd?: number } = {},
): Supply {
  const { sd, ...rest } = lot;
  const own = material(id, 'skeletal meat', {
    species,
    trimLine: LINE,
    composition: {
      fatFraction,
      waterFraction: 0.77 * (1 - fatFraction),
      proteinFraction: 0.22 * (1 - fatFraction),
    },
  });
  const made: Lot = {
    id,
    materialId: id,
    onHandKg: 1000,
    costPerKg: 4,
    receivedDate: '2031-05-01',
    useByDate: '2031-05-30',
    state: 'chilled',
    ...(sd !== undefined && { measuredFat: { fatFraction, method: 'test', sdFraction: sd } }),
    ...rest,
  };
  return supplyOfLot(made, own);
}

const seasoning = (
  id: string,
  kind: Material['kind'],
  substances: Material['substances'],
  costPerKg: number,
) =>
  supplyOfMaterial(
    material(id, kind, { substances, composition: { saltFraction: substances.salt ?? 0 } }),
    costPerKg,
  );
const SALT = seasoning('salt', 'salt', { salt: 1 }, 1);
const PEPPER = seasoning('pepper', 'spice', { pepper: 1 }, 12);
const CURE = seasoning('cure', 'cure', { 'sodium nitrite': 0.0625, salt: 0.9375 }, 3);

const line = (materialId: string, fraction: number): SeasoningLine => ({
  materialId,
  basis: 'green weight',
  minFraction: fraction,
  maxFraction: fraction,
});

const scale = (id: string, unit: MassUnit, division: string, capacity: number): Scale => ({
  id,
  name: `${id} scale`,
  unit,
  division,
  capacity,
});

const POUNDS: Plant = {
  name: 'Plant',
  establishment: '00000',
  jurisdiction: 'us',
  currency: 'USD',
  units: 'lb',
  timeZone: 'UTC',
  mixerCapacityKg: 400,
  scales: [
    scale('floor', 'lb', '0.1', 500),
    scale('bench', 'lb', '0.01', 30),
    scale('gram', 'g', '1', 5000),
    scale('fine', 'g', '0.1', 500),
  ],
};

const pounds = (value: number | string): Exact => multiply(exact(value), KILOGRAMS_PER.lb);
const inPounds = (massKg: number) => massKg / 0.45359237;

const meatBlock: Product['meatBlock'] = [{ name: 'meat', kinds: MEAT_KINDS }];
const GROUND = testProduct('ground-beef', { meatBlock, targets: [{ measure: 'fat', max: 0.2 }] });

type Asked = Partial<CorrectionRequest> &
  Pick<CorrectionRequest, 'inMixer'> & { readonly tested: number; readonly sd?: number };

function ask({ tested, sd = 0.006, ...request }: Asked): Correction {
  const product = request.product ?? GROUND;
  return correct({
    product,
    standard: standardOf(product.standard.productClass),
    date: TODAY,
    plant: POUNDS,
    engines: [javascriptLpSolver],
    supplies: [],
    testedFat: { fatFraction: tested, sdFraction: sd, method: 'test' },
    ...request,
  });
}

function outcomeOf<O extends Correction['outcome']>(correction: Correction, outcome: O) {
  if (correction.outcome !== outcome)
    throw new Error(`${correction.outcome}: ${JSON.stringify(correction, short)}`);
  return correction as Extract<Correction, { outcome: O }>;
}

const short = (_: string, value: unknown) => (typeof value === 'bigint' ? String(value) : value);

const TRIM = meat('trim-80', 'beef', 0.2);
const LEAN = meat('lean-90', 'beef', 0.1, { costPerKg: 8, sd: 0.005 });
const LEANER = meat('lean-95', 'beef', 0.05, { costPerKg: 9, sd: 0.005 });

describe('the fat of a mix that was tested', () => {
  const mix = (...lines: [Supply, number][]): MixLine[] =>
    lines.map(([supply, massKg]) => ({ supply, massKg: exact(massKg) }));
  const fats = (lines: readonly MixLine[] | undefined) =>
    lines?.map(({ supply }) => supply.composition.fatFraction);

  it('lies in the lines by variance times weight: 1 to 4 on equal weights with sd 1 and 2 points', () => {
    const sure = meat('sure', 'beef', 0.1, { sd: 0.01 });
    const unsure = meat('unsure', 'beef', 0.3, { sd: 0.02 });
    // Said 20 %, found 22.5 %: five points on two equal lines, one on the first, four on the second.
    expect(fats(testedMix(mix([sure, 50], [unsure, 50]), 0.225))).toEqual([0.11, 0.34]);
  });

  it('stays between nothing and all, and the rest of it goes to the other lines', () => {
    const dry = meat('dry', 'beef', 0.02, { sd: 0.05 });
    const other = meat('other', 'beef', 0.3, { sd: 0.001 });
    expect(fats(testedMix(mix([dry, 50], [other, 50]), 0.1))).toEqual([0, 0.2]);
  });

  it('takes water and protein along the line of the trim', () => {
    const [moved] = testedMix(mix([TRIM, 100]), 0.23) ?? [];
    expect(moved?.supply.composition).toMatchObject({
      fatFraction: 0.23,
      waterFraction: 0.5929,
      proteinFraction: 0.1694,
    });
  });

  it('is none where no meat can make it', () => {
    expect(testedMix(mix([TRIM, 10], [SALT, 90]), 0.2)).toBeUndefined();
  });

  it('is, weighed together, what the test says', () => {
    const oneLine = fc.record({
      fat: fc.integer({ min: 1, max: 90 }),
      sd: fc.integer({ min: 0, max: 50 }),
      grams: fc.integer({ min: 1, max: 300_000 }),
    });
    fc.assert(
      fc.property(
        fc.array(oneLine, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 1, max: 950 }),
        (made, tested) => {
          const lines = made.map(({ fat, sd, grams }, index) => ({
            supply: meat(`lot-${index}`, 'beef', fat / 100, { sd: sd / 1000 }),
            massKg: exact(`${grams}e-3`),
          }));
          const found = testedMix(lines, tested / 1000) ?? [];
          const fat = sum(
            found.map(({ supply, massKg }) => multiply(massKg, exact(supply.composition.fatFraction))),
          );
          const total = sum(lines.map(({ massKg }) => massKg));
          expect(Math.abs(ratio(fat, total) - tested / 1000)).toBeLessThan(1e-11);
          for (const { supply } of found) {
            expect(supply.composition.fatFraction).toBeGreaterThanOrEqual(0);
            expect(supply.composition.fatFraction).toBeLessThanOrEqual(1);
          }
        },
      ),
    );
  });
});

describe('a load of ground beef', () => {
  const inMixer = [{ supply: TRIM, massKg: pounds(500) }];

  it('of 500 lb at 23 % takes 150 lb of 10 % lean to come to 20 % (Pearson square, common practice)', () => {
    // Square: 20 − 10 = 10 parts of the mix to 23 − 20 = 3 parts of lean; 500 × 3 / 10 = 150 lb.
    const found = outcomeOf(ask({ tested: 0.23, inMixer, supplies: [LEAN] }), 'additions');
    expect(found.lines.map(({ supply, weight }) => [supply.id, weight.text, weight.scale.unit])).toEqual([
      ['lean-90', '150.0', 'lb'],
    ]);
    expect(found.unroundedCost).toBeCloseTo(150 * 0.45359237 * 8, 3);
    expect(inPounds(found.after.totalKg)).toBeCloseTo(650, 9);
    expect(found.before.raw.fatFraction).toBeCloseTo(0.23, 12);
    expect(found.after.raw.fatFraction).toBeCloseTo(0.2, 12);
    expect(found.roomLeftKg).toBeCloseTo(400 - 650 * 0.45359237, 9);
    const target = (checks: readonly { limit: { id: string }; holds: boolean }[]) =>
      checks.find(({ limit }) => limit.id === 'house-fat-max')?.holds;
    expect([target(found.before.checks), target(found.after.checks)]).toEqual([false, true]);
    expect(found.cautions.join(' ')).toMatch(/HACCP.*new weighing.*test the fat again/s);
  });

  it('is left alone when it is right', () => {
    const found = outcomeOf(ask({ tested: 0.195, inMixer, supplies: [LEAN] }), 'right as it is');
    expect(found.before.checks.every(({ holds }) => holds)).toBe(true);
  });

  it('takes the lean that is cheapest for the work, and no more than there is of it', () => {
    // A pound of 5 % lean takes away 15 points for 9, one of 10 % lean 10 points for 8.
    const little = { ...LEANER, onHandKg: toNumber(pounds(40)) };
    const found = outcomeOf(ask({ tested: 0.23, inMixer, supplies: [LEAN, little] }), 'additions');
    const weights = Object.fromEntries(
      found.lines.map(({ supply, weight }) => [supply.id, Number(weight.text)]),
    );
    expect(weights['lean-95']).toBeLessThanOrEqual(40);
    // 500 × 3 = 40 × 15 + x × 10 gives x = 90 lb.
    expect(weights['lean-95']).toBeGreaterThan(39);
    expect(weights['lean-90']).toBeLessThan(92);
  });

  it('takes fat trim when it tested too lean', () => {
    const fat = meat('fat-50', 'beef', 0.5, { costPerKg: 2, sd: 0.01 });
    const product = { ...GROUND, targets: [{ measure: 'fat', min: 0.18, max: 0.2 }] as const };
    // 500 × (18 − 15) / (50 − 18) = 46.875 lb.
    const found = outcomeOf(ask({ product, tested: 0.15, inMixer, supplies: [fat, LEAN] }), 'additions');
    expect(found.lines.map(({ weight }) => weight.text)).toEqual(['46.9']);
  });

  it('takes more when the test is to be reckoned with: 1.2816 × 0.6 points on a confidence of 90 %', () => {
    const found = outcomeOf(ask({ tested: 0.23, confidence: 0.9, inMixer, supplies: [LEAN] }), 'additions');
    // Test and added lot together: √((0.6 × 500)² + (0.5 × 190.3)²) / 500 = 0.6294 points; the mix as
    // 23 + 1.281552 × 0.6294 = 23.8066 %: 500 × 3.8066 / 10 = 190.33 lb (z from the normal table).
    expect(found.lines.map(({ weight }) => weight.text)).toEqual(['190.4']);
    expect(found.after.onUnsafeSide?.every(({ holds }) => holds)).toBe(true);
    expect(found.after.raw.fatFraction).toBeLessThan(0.2);
  });

  it('holds with the confidence asked when test and added lot are both drawn, a hundred thousand times', () => {
    const unsure = meat('lean-88', 'beef', 0.12, { sd: 0.02 });
    const found = outcomeOf(ask({ tested: 0.23, confidence: 0.9, inMixer, supplies: [unsure] }), 'additions');
    const addedLb = found.lines.reduce((sum, { massKg }) => sum + inPounds(massKg), 0);
    let state = 20310514;
    const uniform = () => {
      state = (state * 48271) % 2147483647;
      return state / 2147483647;
    };
    // Box and Muller, Annals of Mathematical Statistics 29 (1958).
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const draws = 100_000;
    let held = 0;
    for (let draw = 0; draw < draws; draw++) {
      const fatLb = (0.23 + 0.006 * normal()) * 500 + (0.12 + 0.02 * normal()) * addedLb;
      if (fatLb <= 0.2 * (500 + addedLb)) held++;
    }
    const standardError = Math.sqrt((0.9 * 0.1) / draws);
    expect(held / draws).toBeGreaterThan(0.9 - 3 * standardError);
    expect(held / draws).toBeLessThan(0.91);
  });

  it('warns of a test that lots and test hardly explain, and of lots nobody tested or thawed', () => {
    const frozen = meat('lean-92', 'beef', 0.08, { state: 'frozen' });
    const far = outcomeOf(ask({ tested: 0.29, inMixer, supplies: [frozen] }), 'additions');
    expect(far.cautions.join(' ')).toMatch(/9\.0 points from what the lots said \(20\.0 %\).*test again/);
    expect(far.cautions.join(' ')).toMatch(/Fat of lean-92 is the figure of its class/);
    expect(far.cautions.join(' ')).toMatch(/lean-92 is frozen: temper it/);
    const near = outcomeOf(ask({ tested: 0.23, inMixer, supplies: [LEAN] }), 'additions');
    expect(near.cautions.join(' ')).not.toMatch(/points from what the lots said|temper it|class/);
  });

  it('is not right as it is where the test may well have read too low', () => {
    expect(ask({ tested: 0.195, inMixer, supplies: [LEAN] }).outcome).toBe('right as it is');
    expect(ask({ tested: 0.195, confidence: 0.95, inMixer, supplies: [LEAN] }).outcome).toBe('additions');
  });

  it('adds two weighings of one lot together', () => {
    const twice = [
      { supply: TRIM, massKg: pounds(300) },
      { supply: TRIM, massKg: pounds(200) },
    ];
    const found = outcomeOf(ask({ tested: 0.23, inMixer: twice, supplies: [LEAN] }), 'additions');
    expect(found.mix.map(({ massKg }) => inPounds(toNumber(massKg)))).toEqual([500]);
    expect(found.lines[0]?.weight.text).toBe('150.0');
  });
});

describe('a load that cannot be brought back', () => {
  const inMixer = [{ supply: TRIM, massKg: pounds(380) }];
  const capacityKg = toNumber(pounds(400));

  it('for want of room says the least total, and takes out what makes the rest right', () => {
    const request = { tested: 0.23, inMixer, capacityKg, supplies: [LEAN] };
    const found = outcomeOf(ask(request), 'cannot be brought back');
    // 380 × 1.3 = 494 lb are needed; 400 / 1.3 = 307.69 lb may stay, so 72.31 lb go out.
    expect(inPounds(found.leastTotalKg ?? 0)).toBeCloseTo(494, 4);
    expect(found.because.map(({ message }) => message).join(' ')).toMatch(
      /stays broken.*494\.00 lb.*400\.00 lb/s,
    );
    const out = found.takeOut;
    if (!out) throw new Error('nothing to take out');
    expect(Number(out.weight.text)).toBeGreaterThan(72.3);
    expect(Number(out.weight.text)).toBeLessThan(73);
    const again = outcomeOf(ask({ ...request, inMixer: out.rest }), 'additions');
    if (out.afterwards.outcome !== 'additions') throw new Error('the rest is said to need nothing');
    expect(again.lines.map(({ weight }) => weight.text)).toEqual(
      out.afterwards.lines.map(({ weight }) => weight.text),
    );
    expect(again.after.totalKg).toBeLessThanOrEqual(capacityKg);
    expect(again.after.checks.every(({ holds }) => holds)).toBe(true);
  });

  it('for want of lean says how much of which lot is missing, and what could go out instead', () => {
    const little = { ...LEAN, onHandKg: toNumber(pounds(60)) };
    const found = outcomeOf(ask({ tested: 0.23, inMixer, supplies: [little] }), 'cannot be brought back');
    expect(found.leastTotalKg).toBeUndefined();
    // 380 × 3 / 10 = 114 lb of lean, of which 60 are there.
    expect(found.because.map(({ message }) => message).join(' ')).toContain('54.00 lb more of lean-90');
    // 60 lb of lean bring back 200 lb.
    expect(Number(found.takeOut?.weight.text)).toBeCloseTo(180, 0);
  });

  it('by any amount says so, and which limit stays broken', () => {
    const fatter = meat('fat-50', 'beef', 0.5, { sd: 0.01 });
    const found = outcomeOf(ask({ tested: 0.23, inMixer, supplies: [fatter] }), 'cannot be brought back');
    expect(found.because[0]?.limit?.id).toBe('house-fat-max');
    expect(found.because.at(-1)?.message).toContain('No amount');
    expect(found.takeOut).toBeUndefined();
  });

  it('may fit another product, and only one that has a place for every line', () => {
    const fatty = testProduct('ground-beef', {
      id: 'ground-75',
      name: 'Ground 75',
      meatBlock,
      targets: [{ measure: 'fat', max: 0.25 }],
    });
    const pork = testProduct('ground-pork', { id: 'pork', meatBlock: [{ name: 'pork', species: ['pork'] }] });
    const lean = testProduct('ground-beef', {
      id: 'ground-90',
      meatBlock,
      targets: [{ measure: 'fat', max: 0.1 }],
    });
    const others = [pork, lean, fatty].map((product) => ({
      product,
      standard: standardOf(
        product.standard.productClass === 'ground-pork' ? 'uncooked-sausage' : 'ground-beef',
      ),
    }));
    const found = outcomeOf(
      ask({ tested: 0.23, inMixer, capacityKg, supplies: [LEAN], others }),
      'cannot be brought back',
    );
    expect(found.fits).toMatchObject([
      { productId: 'ground-75', outcome: 'right as it is', cost: 0, lines: [] },
    ]);
    expect(found.fits[0]?.cautions.join(' ')).toContain(
      'must be allowed and declared on the label of Ground 75',
    );
  });

  it('because something is in it that the product has no place for', () => {
    const salted = [...inMixer, { supply: SALT, massKg: pounds(5) }];
    const found = outcomeOf(
      ask({ tested: 0.19, inMixer: salted, supplies: [LEAN] }),
      'cannot be brought back',
    );
    expect(found.because.map(({ message }) => message)).toEqual([expect.stringContaining('no place')]);
  });
});

describe('a correction is refused', () => {
  const codes = (correction: Correction) =>
    outcomeOf(correction, 'refused').issues.map(({ code, path }) => `${code} ${path.join('.')}`);

  it('where the mix cannot be what the test says, the mixer is empty or the confidence is none', () => {
    const mixed = [
      { supply: TRIM, massKg: exact(10) },
      { supply: SALT, massKg: exact(90) },
    ];
    const product = {
      ...GROUND,
      standard: { jurisdiction: 'us', productClass: 'uncooked-sausage' },
      seasoning: [line('salt', 9)],
    };
    expect(codes(ask({ product, tested: 0.2, inMixer: mixed }))).toEqual([
      'impossible-test testedFat.fatFraction',
    ]);
    expect(codes(ask({ tested: 0.2, inMixer: [] }))).toEqual(['empty-mixer inMixer']);
    const inMixer = [{ supply: TRIM, massKg: exact(10) }];
    expect(codes(ask({ tested: 0.2, confidence: 0.4, inMixer }))).toEqual(['bad-confidence confidence']);
    expect(codes(ask({ tested: 1.2, inMixer }))).toEqual(['impossible-test testedFat.fatFraction']);
  });
});

describe('a sausage', () => {
  const pork = meat('pork-70', 'pork', 0.3, { costPerKg: 3 });
  const lean = meat('pork-90', 'pork', 0.1, { costPerKg: 5, sd: 0.005 });
  const product = testProduct('cooked-sausage', {
    meatBlock,
    seasoning: [line('salt', 0.018), line('pepper', 0.003), line('cure', 0.002496)],
    targets: [{ measure: 'fat', max: 0.28 }],
    process: {
      cooking: 'cooked',
      smoked: true,
      yieldFraction: 1,
      fatLossFraction: 0,
      grindPlates: [],
      mixing: [],
    },
  });
  // 100 kg of meat with its seasoning, cure exactly at 156 ppm of the green weight (9 CFR 424.21(c)).
  const inMixer = [
    { supply: pork, massKg: exact(100) },
    { supply: SALT, massKg: exact('1.8') },
    { supply: PEPPER, massKg: exact('0.3') },
    { supply: CURE, massKg: exact('0.2496') },
  ];
  const supplies = [pork, lean, SALT, PEPPER, CURE];
  const found = outcomeOf(ask({ product, tested: 0.31, inMixer, supplies }), 'additions');
  const added = (id: string) => found.lines.find(({ supply }) => supply.id === id)?.massKg ?? 0;

  it('has its seasoning topped up in step with the meat', () => {
    // The mix of 102.3496 kg holds 31.728376 kg of fat; with x lean and 2.3496 % seasoning on it:
    // 31.728376 + 0.1 x = 0.28 (102.3496 + 1.023496 x) gives x = 16.45 kg.
    expect(added('pork-90')).toBeGreaterThan(16.4);
    expect(added('pork-90')).toBeLessThan(16.8);
    const greenKg = 100 + added('pork-90');
    expect(Math.abs(1.8 + added('salt') - 0.018 * greenKg)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(0.3 + added('pepper') - 0.003 * greenKg)).toBeLessThanOrEqual(0.001);
    expect(found.lines[0]?.supply.id).toBe('pork-90');
  });

  it('never has its cure above its limit or its rate, however near it is', () => {
    const greenKg = 100 + added('pork-90');
    expect(added('cure')).toBeGreaterThan(0);
    const cureKg = 0.2496 + added('cure');
    expect(cureKg - 0.002496 * greenKg).toBeLessThanOrEqual(1e-12);
    expect(cureKg - 0.002496 * greenKg).toBeGreaterThan(-0.0002);
    const nitrite = found.after.checks.find(({ limit }) => limit.id === 'us-424.21c-nitrite-comminuted');
    expect(nitrite).toMatchObject({ holds: true });
    expect(found.cautions.join(' ')).toMatch(/never add cure a second time/);
  });

  it('is not brought back where its cure has run out', () => {
    const without = supplies.filter(({ id }) => id !== 'cure');
    const none = outcomeOf(
      ask({ product, tested: 0.31, inMixer, supplies: without }),
      'cannot be brought back',
    );
    expect(none.because.map(({ message }) => message).join(' ')).toContain('No amount');
  });

  it('with its salt a hair above its rate by rounding is right as it is', () => {
    const rounded = inMixer.map((one) =>
      one.supply.id === 'salt' ? { ...one, massKg: exact('1.8004') } : one,
    );
    expect(ask({ product, tested: 0.27, inMixer: rounded, supplies }).outcome).toBe('right as it is');
  });

  it('with far too much salt needs meat for it', () => {
    const salty = inMixer.map((one) => (one.supply.id === 'salt' ? { ...one, massKg: exact('2') } : one));
    const more = outcomeOf(ask({ product, tested: 0.27, inMixer: salty, supplies }), 'additions');
    // 2 / 0.018 is 111.11 kg of meat; less 0.01 lb of salt that the bench scale may round, and the salt of 0.1 lb of meat.
    const greenKg = more.lines.reduce(
      (total, { supply, massKg }) => total + (supply.material.species ? massKg : 0),
      100,
    );
    expect(greenKg).toBeGreaterThan(110.8);
    expect(greenKg).toBeLessThan(111.5);
  });

  it('says which allergens an addition brings that the mix does not hold', () => {
    const milky = supplyOfMaterial(
      material('milk', 'binder', { allergens: ['milk'], composition: { proteinFraction: 0.35 } }),
      5,
    );
    const withMilk = { ...product, seasoning: [...product.seasoning, line('milk', 0.02)] };
    const brought = outcomeOf(
      ask({ product: withMilk, tested: 0.27, inMixer, supplies: [...supplies, milky] }),
      'additions',
    );
    expect(brought.cautions.join(' ')).toContain('brings milk');
  });
});

describe('corrections of random loads', () => {
  const FLOORS = [
    scale('floor', 'lb', '0.1', 500),
    scale('floor', 'kg', '0.5', 600),
    scale('floor', 'kg', '1', 1500),
  ];
  const lotFat = fc.integer({ min: 3, max: 60 }).map((percent) => percent / 100);
  const arbitraryLoad = fc.record({
    mixed: fc.array(fc.record({ fat: lotFat, grams: fc.integer({ min: 5000, max: 200_000 }) }), {
      minLength: 1,
      maxLength: 4,
    }),
    lots: fc.array(
      fc.record({
        fat: lotFat,
        cents: fc.integer({ min: 50, max: 900 }),
        stock: fc.integer({ min: 1, max: 300 }),
      }),
      { minLength: 1, maxLength: 6 },
    ),
    tested: fc.integer({ min: -60, max: 60 }),
    target: fc.integer({ min: 150, max: 350 }),
    width: fc.constantFrom(5, 20, 50),
    room: fc.constantFrom(1.05, 1.3, 2, 4),
    floor: fc.constantFrom(...FLOORS),
    confidence: fc.constantFrom(undefined, undefined, 0.8, 0.95),
    seasoned: fc.boolean(),
  });

  function requestOf(
    load: typeof arbitraryLoad extends fc.Arbitrary<infer T> ? T : never,
  ): CorrectionRequest {
    const recipe = load.seasoned ? [line('salt', 0.018), line('pepper', 0.003), line('cure', 0.0024)] : [];
    const inMixer: MixLine[] = load.mixed.map(({ fat, grams }, index) => ({
      supply: meat(`in-${index}`, 'pork', fat),
      massKg: exact(`${grams}e-3`),
    }));
    const greenKg = sum(inMixer.map(({ massKg }) => massKg));
    const said = ratio(
      sum(inMixer.map(({ supply, massKg }) => multiply(massKg, exact(supply.composition.fatFraction)))),
      greenKg,
    );
    // Seasonings as a scale of a gram left them: never above the rate.
    const rated = recipe.map(({ materialId, minFraction }) => ({
      supply: [SALT, PEPPER, CURE].find(({ id }) => id === materialId) as Supply,
      massKg: exact(Math.max(0.001, Math.floor(toNumber(greenKg) * minFraction * 1000) / 1000)),
    }));
    const product = testProduct('cooked-sausage', {
      meatBlock,
      seasoning: recipe,
      targets: [{ measure: 'fat', min: (load.target - load.width) / 1000, max: load.target / 1000 }],
      process: {
        cooking: 'cooked',
        smoked: true,
        yieldFraction: 1,
        fatLossFraction: 0,
        grindPlates: [],
        mixing: [],
      },
    });
    const all = [...inMixer, ...rated];
    return {
      product,
      standard: standardOf('cooked-sausage'),
      date: TODAY,
      plant: { ...POUNDS, scales: [load.floor, ...POUNDS.scales.slice(1)] },
      engines: [javascriptLpSolver],
      inMixer: all,
      testedFat: {
        fatFraction: Number(Math.max(0.01, said * 0.97 + load.tested / 1000).toFixed(4)),
        sdFraction: 0.006,
        method: 'test',
      },
      supplies: [
        ...load.lots.map(({ fat, cents, stock }, index) =>
          meat(`lot-${index}`, 'pork', fat, { costPerKg: cents / 100, onHandKg: stock, sd: 0.007 }),
        ),
        SALT,
        PEPPER,
        CURE,
      ],
      capacityKg: Number((toNumber(sum(all.map(({ massKg }) => massKg))) * load.room).toFixed(3)),
      ...(load.confidence !== undefined && { confidence: load.confidence }),
    };
  }

  const made = fc.sample(arbitraryLoad, { seed: 20310514, numRuns: 400 }).map((load) => {
    const request = requestOf(load);
    return { request, found: correct(request) };
  });
  const corrected = made.flatMap(({ request, found }) =>
    found.outcome === 'additions' ? [{ request, found }] : [],
  );

  it('come out in every way', () => {
    const count = (outcome: Correction['outcome']) =>
      made.filter(({ found }) => found.outcome === outcome).length;
    expect(corrected.length).toBeGreaterThan(60);
    expect(count('right as it is')).toBeGreaterThan(10);
    expect(count('cannot be brought back')).toBeGreaterThan(30);
    expect(count('refused')).toBe(0);
  });

  it('keep every limit exactly on the whole, within the mixer and the lots, and take nothing out', () => {
    for (const { request, found } of corrected) {
      const { product, standard, inMixer, capacityKg = 0, testedFat } = request;
      const mix = testedMix(inMixer, testedFat.fatFraction) ?? [];
      const whole = [
        ...mix.map(({ supply, massKg }) => ({ supply, massKg })),
        ...found.lines.map(({ supply, exactMassKg }) => ({ supply, massKg: exactMassKg })),
      ];
      const coefficients = new Coefficients(
        whole.map(({ supply }) => supply),
        product.process,
      );
      const limits = [...inForceOn(standard.limits, TODAY), ...houseLimits(product, standard)];
      const broken = checkLimits(
        limits,
        coefficients,
        whole.map(({ massKg }) => massKg),
      ).filter(({ holds }) => !holds);
      expect(broken.map(({ limit }) => limit.id)).toEqual([]);
      expect(compare(sum(whole.map(({ massKg }) => massKg)), exact(capacityKg))).toBeLessThanOrEqual(0);
      expect(found.after.checks.every(({ holds }) => holds)).toBe(true);
      expect((found.after.onUnsafeSide ?? []).every(({ holds }) => holds)).toBe(true);
      expect(found.lines.every(({ supply, massKg }) => massKg > 0 && massKg <= supply.onHandKg)).toBe(true);
      expect(found.mix.map(({ massKg }) => toNumber(massKg))).toEqual(
        inMixer.map(({ massKg }) => toNumber(massKg)),
      );
    }
  });

  it('have fixed lines at their rate of the whole within a division, and cure never above it', () => {
    for (const { request, found } of corrected) {
      const weighed = (id: string) =>
        [
          ...request.inMixer,
          ...found.lines.map(({ supply, exactMassKg }) => ({ supply, massKg: exactMassKg })),
        ]
          .filter(({ supply }) => (id === 'meat' ? supply.material.species : supply.id === id))
          .reduce((total, { massKg }) => add(total, massKg), exact(0));
      for (const { materialId, minFraction } of request.product.seasoning) {
        const off = toNumber(weighed(materialId)) - minFraction * toNumber(weighed('meat'));
        expect(Math.abs(off)).toBeLessThanOrEqual(0.01 * 0.45359237 + 1e-9);
        if (materialId === 'cure') expect(off).toBeLessThanOrEqual(1e-12);
      }
    }
  });

  it('never cost less than the least cost that another engine finds for the limits and the mixer alone', () => {
    for (const { request, found } of corrected) {
      const best = solveWithHighs(bareModel(request));
      if (best.status !== 'optimal') throw new Error(`HiGHS says ${best.status}`);
      expect(found.cost).toBeGreaterThanOrEqual(best.cost - 1e-6 * Math.max(1, best.cost));
      if (request.product.seasoning.length > 0) continue;
      const own = found.unroundedCost;
      if (request.confidence === undefined)
        expect(Math.abs(own - best.cost)).toBeLessThan(1e-4 * Math.max(1, best.cost));
      else expect(own).toBeGreaterThanOrEqual(best.cost - 1e-6 * Math.max(1, best.cost));
    }
  });

  it('take out what really makes the rest right when it is asked again', () => {
    const outs = made.flatMap(({ request, found }) =>
      found.outcome === 'cannot be brought back' && found.takeOut ? [{ request, out: found.takeOut }] : [],
    );
    expect(outs.length).toBeGreaterThan(10);
    for (const { request, out } of outs) {
      const again = correct({ ...request, inMixer: out.rest });
      expect(again.outcome).toBe(out.afterwards.outcome);
    }
  });

  /** Limits, mixer and stocks alone, without the rates of fixed lines: no correction costs less. */
  function bareModel({
    product,
    standard,
    inMixer,
    supplies,
    testedFat,
    capacityKg = 0,
  }: CorrectionRequest): LinearModel {
    const mix = testedMix(inMixer, testedFat.fatFraction) ?? [];
    const placed = supplies.filter(
      ({ material: { id, species } }) =>
        species || product.seasoning.some(({ materialId }) => materialId === id),
    );
    const all = [...mix.map(({ supply }) => supply), ...placed];
    const coefficients = new Coefficients(all, product.process);
    const limits = [...inForceOn(standard.limits, TODAY), ...houseLimits(product, standard)];
    return {
      columns: [
        ...mix.map(({ massKg }) => ({ cost: 0, lower: toNumber(massKg), upper: toNumber(massKg) })),
        ...placed.map(({ costPerKg, onHandKg }) => ({
          cost: costPerKg,
          lower: 0,
          upper: Math.min(onHandKg, 1e6),
        })),
      ],
      rows: [
        {
          name: 'mixer',
          lower: Number.NEGATIVE_INFINITY,
          upper: capacityKg,
          terms: all.map((_, column) => ({ column, coefficient: 1 })),
        },
        ...limits
          .flatMap((limit) => rowsOf(limit, coefficients).map(toRow))
          .filter(({ terms }) => terms.length > 0),
      ],
    };
  }
});
