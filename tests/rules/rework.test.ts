import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { supplyOfMaterial } from '../../src/batch/lot.ts';
import { isMeat, type Material } from '../../src/batch/material.ts';
import { type ReworkLine, reworkMaterial } from '../../src/batch/rework.ts';
import { compare, type Exact, exact, multiply, subtract, toNumber } from '../../src/exact.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { forbiddenBy } from '../../src/rules/eligibility.ts';
import { formsOf } from '../../src/rules/form.ts';
import { FORMS } from '../../src/rules/forms.ts';
import { formsOfLimit } from '../../src/rules/limit.ts';
import { MASS_BALANCE } from '../../src/rules/mass-balance.ts';
import { spreadRows, uncertain } from '../../src/rules/spread.ts';
import {
  ALL_LIMITS,
  COOKED,
  limitOf,
  RAW,
  TEST_MATERIALS,
  testMaterial,
  testSupply,
} from '../helpers/materials.ts';

/** Every form that a rule may count; a price is paid for rework, not for what is in it. */
const EVERY_FORM = [
  ...new Set([
    ...Object.values(FORMS).flatMap(formsOf),
    ...ALL_LIMITS.flatMap(({ limit }) => formsOfLimit(limit)),
    ...MASS_BALANCE.flatMap(formsOfLimit),
  ]),
].filter((form) => form !== FORMS.cost);

const meats = TEST_MATERIALS.filter(isMeat);
const PROCESS = { yieldFraction: 0.9, fatLossFraction: 0.02 };

const reworkOf = (lines: readonly ReworkLine[], finishedKg?: Exact): Material =>
  reworkMaterial({
    id: 'rework',
    name: 'rework',
    productId: 'any',
    lines,
    process: PROCESS,
    ...(finishedKg && { finishedKg }),
  });

const grams = (count: number): Exact => ({ digits: BigInt(count), scale: 3 });

/** A meat and other things, in grams. */
const batchArbitrary = fc
  .tuple(
    fc.tuple(fc.constantFrom(...meats), fc.integer({ min: 1, max: 90_000 })),
    fc.array(fc.tuple(fc.constantFrom(...TEST_MATERIALS), fc.integer({ min: 1, max: 90_000 })), {
      maxLength: 6,
    }),
  )
  .map(([first, others]) => [first, ...others] as const);

/** The lines made up to a ton, so that each share is a finite decimal. */
const toOneTon = (lines: readonly (readonly [Material, number])[]): ReworkLine[] => {
  const [[main, first], ...others] = lines as [
    readonly [Material, number],
    ...(readonly [Material, number])[],
  ];
  const rest = 1_000_000 - others.reduce((total, [, count]) => total + count, first);
  return [[main, first + rest] as const, ...others].map(([material, count]) => ({
    material,
    massKg: grams(count),
  }));
};

const totals = (lines: readonly ReworkLine[], process = RAW) => {
  const coefficients = new Coefficients(
    lines.map(({ material }) => supplyOfMaterial(material, 1)),
    process,
  );
  const masses = lines.map(({ massKg }) => massKg);
  return EVERY_FORM.map((form) => coefficients.total(form, masses));
};

describe('what was put in directly and what came back as rework', () => {
  it('count the same, exactly, in every form of every rule', () => {
    fc.assert(
      fc.property(
        batchArbitrary,
        batchArbitrary,
        fc.integer({ min: 1, max: 99_999 }),
        (left, into, count) => {
          const lines = toOneTon(left);
          const back = grams(count);
          const fresh = into.map(([material, own]) => ({ material, massKg: grams(own) }));
          const direct = lines.map(({ material, massKg }) => ({
            material,
            massKg: multiply(multiply(massKg, back), exact('0.001')),
          }));
          const process = { ...COOKED, ...PROCESS };
          const asRework = totals([...fresh, { material: reworkOf(lines), massKg: back }], process);
          const asItself = totals([...fresh, ...direct], process);
          EVERY_FORM.forEach((form, index) => {
            const apart = subtract(asRework[index] ?? exact(0), asItself[index] ?? exact(0));
            expect(apart.digits, form.id).toBe(0n);
          });
        },
      ),
      { numRuns: 60, seed: 77 },
    );
  });

  it('count the same where rework went into rework, of weights that do not divide', () => {
    fc.assert(
      fc.property(batchArbitrary, batchArbitrary, (left, into) => {
        const lines = left.map(([material, count]) => ({ material, massKg: grams(count) }));
        const fresh = into.map(([material, count]) => ({ material, massKg: grams(count) }));
        const leftKg = lines.reduce((total, { massKg }) => total + toNumber(massKg), 0);
        const freshKg = fresh.reduce((total, { massKg }) => total + toNumber(massKg), 0);
        const inner = reworkOf(lines);
        const outer = reworkOf([...fresh, { material: inner, massKg: exact(10) }]);
        const found = totals([{ material: outer, massKg: exact(1) }]).map(toNumber);
        const ofFresh = totals(fresh).map(toNumber);
        const ofLeft = totals(lines).map(toNumber);
        EVERY_FORM.forEach((form, index) => {
          const wanted = ((ofFresh[index] ?? 0) + (10 * (ofLeft[index] ?? 0)) / leftKg) / (freshKg + 10);
          expect(Math.abs((found[index] ?? 0) - wanted), form.id).toBeLessThan(1e-10);
        });
      }),
      { numRuns: 40, seed: 78 },
    );
  });
});

const line = (id: string, massKg: string): ReworkLine => ({
  material: testMaterial(id),
  massKg: exact(massKg),
});
const FRANK = [
  line('pork', '50'),
  line('beef-cheek', '20'),
  line('pork-fat', '4'),
  line('water', '20'),
  line('nonfat-dry-milk', '3'),
  line('isolated-soy-protein', '1'),
  line('salt', '1.88'),
  line('cure-6.25', '0.1'),
  line('BHA', '0.02'),
];

describe('rework by hand, 100 kg put in of which 80 kg came out', () => {
  const cooked = supplyOfMaterial(reworkOf(FRANK, exact(80)), 2);
  const of = (name: Exclude<keyof typeof FORMS, 'addedWater' | 'fatAndAddedWater'>, process = RAW) => {
    const form = FORMS[name];
    if (!('terms' in form)) throw new RangeError(`${name} is more than one form`);
    return toNumber(new Coefficients([cooked], process).total(form, [exact(80)]));
  };

  it('weighs what it weighs, and costs what is paid for it', () => {
    expect([of('formula'), of('finished'), of('cost')]).toEqual([80, 80, 160]);
  });

  it('keeps the green weight, the cure, the binders and the cheek meat that went in', () => {
    expect(of('greenWeight')).toBe(74);
    expect(of('nitrite')).toBe(0.00625);
    expect(of('cheekMeat')).toBe(20);
    expect(of('notPork')).toBe(20);
    expect(of('fatAsSuch')).toBe(4);
    // 3 kg of milk powder and 1 kg of isolated soy protein counted at 3.5/2 of its weight.
    expect(of('binder')).toBe(4.75);
    expect(of('saltPutIn')).toBe(1.97375);
  });

  it('keeps the water put in, and leaves it out of the weight without water', () => {
    expect(of('waterPutIn')).toBe(20);
    expect(of('formulaWithoutWater')).toBe(60);
  });

  it('lost water and fat: a fifth of the loss is fat by its process', () => {
    // Fat 10 + 2.8 + 3.6 less 4; water 30 + 13.2 + 0.32 + 20 less 16.
    expect(of('fat')).toBeCloseTo(12.4, 12);
    expect(of('water')).toBeCloseTo(47.52, 12);
    expect(of('finishedWater', { ...COOKED, yieldFraction: 0.9, fatLossFraction: 0 })).toBeCloseTo(39.52, 12);
  });

  it('brings its antioxidant to the fat that is left', () => {
    const limit = limitOf(
      ALL_LIMITS.find(({ limit: { numerator, basis } }) => numerator.id === 'BHA' && basis.id === 'fat')
        ?.limit.id ?? '',
    );
    const [check] = checkLimits([limit], new Coefficients([cooked], RAW), [exact(80)]);
    expect(check?.value).toBeCloseTo(0.02 / 12.4, 12);
  });

  it('never makes up with its loss for what is not meat', () => {
    expect(of('notMeat')).toBe(26);
    expect(of('notMeatNorSalt')).toBeCloseTo(24.12, 12);
  });
});

describe('eligibility', () => {
  const whyNot = (id: string, lines: readonly ReworkLine[], finishedKg?: string) => {
    const rework = supplyOfMaterial(reworkOf(lines, finishedKg ? exact(finishedKg) : undefined), 1);
    return forbiddenBy([limitOf(id)], rework, RAW)?.id;
  };
  const beef = line('beef', '9');

  it.each([
    ['us-319.15-no-added-water', 'water'],
    ['us-319.15-no-added-water', 'wine'],
    ['us-319.15-no-binder', 'soy-flour'],
    ['us-319.15-no-phosphate', 'sodium-tripolyphosphate'],
  ])('%s keeps out rework with a little %s in it', (limitId, other) => {
    const little = line(other, '0.001');
    expect(whyNot(limitId, [beef, little])).toBe(limitId);
    expect(whyNot(limitId, [beef, little], '8')).toBe(limitId);
    expect(whyNot(limitId, [beef])).toBeUndefined();
  });

  it('is not moved by what the process took', () => {
    const [limit] = ALL_LIMITS.filter(
      ({ limit: { numerator, bound, sense } }) =>
        numerator.id === 'notMeat' && bound === 0 && sense === 'max',
    );
    const id = limit?.limit.id ?? 'no limit of nothing but meat';
    expect(whyNot(id, [beef, line('salt', '0.01')], '7')).toBe(id);
    expect(whyNot(id, [beef], '7')).toBeUndefined();
  });
});

describe('the uncertain fat of rework', () => {
  it('moves the fat of its meat, and the water and protein with it', () => {
    const rework = supplyOfMaterial(reworkOf(FRANK), 2);
    const coefficients = new Coefficients([rework, testSupply('pork')], RAW);
    const limit = {
      ...MASS_BALANCE[0],
      numerator: FORMS.fat,
      basis: FORMS.formula,
    } as (typeof MASS_BALANCE)[number];
    const [row] = spreadRows(limit, uncertain(coefficients));
    expect(toNumber(row?.sds[0] ?? exact(0))).toBeCloseTo(rework.fat?.sdFraction ?? 0, 10);
    const [water] = spreadRows({ ...limit, numerator: FORMS.water }, uncertain(coefficients));
    expect(compare(water?.sds[0] ?? exact(0), exact(0))).toBeGreaterThan(0);
  });
});
