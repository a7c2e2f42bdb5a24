import { describe, expect, it } from 'vitest';
import { supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import type { Material } from '../../src/batch/material.ts';
import type { Product, SeasoningLine } from '../../src/batch/product.ts';
import { reworkMaterial } from '../../src/batch/rework.ts';
import { testedMix } from '../../src/correct/tested-mix.ts';
import { exact, toNumber } from '../../src/exact.ts';
import type { Blend } from '../../src/formulate/blend.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import { houseLimits } from '../../src/formulate/house-limits.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import { roundingOf } from '../../src/formulate/round.ts';
import { checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import { FORMS } from '../../src/rules/forms.ts';
import { ENGINES } from '../helpers/engines.ts';
import { COOKED, limitOf, standardOf, testMaterial, testProduct } from '../helpers/materials.ts';

const DATE = '2026-11-25';
/** 9 CFR 424.21(c): 156 ppm of the green weight. */
const NITRITE = 'us-424.21c-nitrite-comminuted';

const lotOf = (id: string, material: Material, onHandKg: number, costPerKg: number) =>
  supplyOfLot(
    { id, materialId: material.id, onHandKg, costPerKg, receivedDate: '2026-11-24', state: 'chilled' },
    material,
  );

const fixed = (materialId: string, rate: number): SeasoningLine => ({
  materialId,
  basis: 'green weight',
  minFraction: rate,
  maxFraction: rate,
});

const FRANKFURTERS = testProduct('frankfurter', {
  id: 'frankfurters',
  meatBlock: [{ name: 'pork', species: ['pork'] }],
  seasoning: [fixed('water', 0.1), fixed('salt', 0.02), fixed('cure-6.25', 0.002496)],
  process: { ...COOKED, yieldFraction: 0.9 },
  rework: { productIds: ['frankfurters'], maxFraction: 0.1 },
});

/** A cooked batch of 100 kg of pork with so much cure. */
const leftOver = (cureKg: string, productId = 'frankfurters'): Material =>
  reworkMaterial({
    id: 'rework-a',
    name: 'Rework of frankfurters',
    productId,
    lines: [
      { material: testMaterial('pork'), massKg: exact('100') },
      { material: testMaterial('water'), massKg: exact('10') },
      { material: testMaterial('salt'), massKg: exact('2') },
      { material: testMaterial('cure-6.25'), massKg: exact(cureKg) },
    ],
    finishedKg: exact('101'),
    process: { yieldFraction: 0.9, fatLossFraction: 0 },
  });

/** Cure of 6.25 % nitrite on 100 kg of pork: 156 ppm, and 180 ppm. */
const [AT_THE_LIMIT, STRONG] = ['0.2496', '0.288'].map((cureKg) => leftOver(cureKg)) as [Material, Material];

const SEASONINGS = [
  supplyOfMaterial(testMaterial('water'), 0.01),
  supplyOfMaterial(testMaterial('salt'), 1),
  supplyOfMaterial(testMaterial('cure-6.25'), 3),
];
const PORK = lotOf('P1', testMaterial('pork'), 500, 4);
const SCALES = [
  { id: 'floor', name: 'floor scale', unit: 'kg', division: '0.1', capacity: 600 },
  { id: 'fine', name: 'fine scale', unit: 'g', division: '0.1', capacity: 3000 },
] as const;

function ask(rework: Material, product: Product = FRANKFURTERS, given: Partial<FormulationRequest> = {}) {
  return formulate({
    product,
    standard: standardOf(product.standard.productClass),
    supplies: [PORK, lotOf('R1', rework, 40, 1), ...SEASONINGS],
    size: { by: 'total', massKg: 100 },
    date: DATE,
    plant: {
      name: 'Demo Plant',
      establishment: '00000',
      jurisdiction: 'us',
      currency: 'USD',
      units: 'kg',
      timeZone: 'UTC',
      mixerCapacityKg: 500,
      scales: SCALES,
    },
    engines: ENGINES,
    ...given,
  });
}

function blendOf(outcome: ReturnType<typeof formulate>): Blend {
  if (outcome.outcome !== 'blend') throw new Error(JSON.stringify(outcome));
  return outcome.blend;
}

const kgOf = ({ lines }: Blend, id: string) => lines.find(({ supply }) => supply.id === id)?.massKg ?? 0;
const checkOf = ({ checks }: Blend, id: string) => checks.find(({ limit }) => limit.id === id);

describe('rework in a cured cooked sausage', () => {
  it('goes in up to its share, and the fixed lines are on what is fresh', () => {
    const blend = blendOf(ask(AT_THE_LIMIT));
    expect(kgOf(blend, 'R1')).toBeCloseTo(10, 6);
    expect(checkOf(blend, 'house-rework-max')).toMatchObject({ holds: true });
    const porkKg = kgOf(blend, 'P1');
    expect(kgOf(blend, 'salt') / porkKg).toBeCloseTo(0.02, 5);
    expect(kgOf(blend, 'cure-6.25') / porkKg).toBeLessThanOrEqual(0.002496);
    expect(blend.lines.find(({ supply }) => supply.id === 'salt')?.asked?.actualFraction).toBeCloseTo(
      0.02,
      5,
    );
    // 10 kg of 101 kg that 100 kg of meat went into.
    expect(blend.greenWeightKg).toBeCloseTo(porkKg + 1000 / 101, 9);
  });

  it('at the limit of nitrite keeps it there, to the last digit, beside fresh meat that is at it too', () => {
    const blend = blendOf(
      ask(AT_THE_LIMIT, FRANKFURTERS, {
        supplies: [
          { ...PORK, leastKg: 100, mostKg: 100 },
          { ...lotOf('R1', AT_THE_LIMIT, 10, 1) },
          ...SEASONINGS,
        ],
        size: { by: 'total', massKg: 122.2496 },
      }),
    );
    expect(kgOf(blend, 'P1')).toBe(100);
    expect(kgOf(blend, 'R1')).toBeGreaterThan(9);
    expect(kgOf(blend, 'cure-6.25')).toBe(0.2496);
    expect(checkOf(blend, NITRITE)).toMatchObject({ holds: true, value: 0.000156 });
  });

  it('of a stronger cure leaves no room for a fixed rate at the limit', () => {
    const supplies = [PORK, { ...lotOf('R1', STRONG, 40, 1), leastKg: 8 }, ...SEASONINGS];
    const outcome = ask(STRONG, FRANKFURTERS, { supplies });
    expect(outcome.outcome).toBe('no blend');
    if (outcome.outcome !== 'no blend') return;
    expect(outcome.proven).toBe(true);
    expect(outcome.because.map(({ limit }) => limit?.id)).toEqual([NITRITE]);
  });

  it('takes its nitrite out of what fresh cure may bring; uncounted it would break the limit', () => {
    const product: Product = {
      ...FRANKFURTERS,
      seasoning: [
        fixed('water', 0.1),
        fixed('salt', 0.02),
        { materialId: 'cure-6.25', basis: 'green weight', minFraction: 0.002, maxFraction: 0.003 },
      ],
    };
    const houseRules = {
      tighter: [],
      switchedOff: [],
      own: [
        {
          id: 'nitrite',
          says: 'The house wants its cure near the limit.',
          numerator: 'nitrite',
          basis: 'greenWeight',
          sense: 'min',
          bound: 155.8,
          unit: 'ppm',
        },
      ],
    } as const;
    const supplies = (rework: Material) => [
      PORK,
      { ...lotOf('R1', rework, 40, 1), leastKg: 10, mostKg: 10 },
      ...SEASONINGS,
    ];
    const counted = blendOf(ask(STRONG, product, { houseRules, supplies: supplies(STRONG) }));
    const value = checkOf(counted, NITRITE)?.value ?? 0;
    expect(kgOf(counted, 'R1')).toBe(10);
    expect(value).toBeGreaterThanOrEqual(0.0001558);
    expect(value).toBeLessThanOrEqual(0.000156);
    // By hand: cure of the fresh meat alone is below 156 ppm, since the rework stands at 180.
    expect((kgOf(counted, 'cure-6.25') * 0.0625) / kgOf(counted, 'P1')).toBeLessThan(0.000154);

    const { madeOf = [], ...others } = STRONG;
    const uncounted: Material = {
      ...others,
      substances: {},
      madeOf: madeOf.map((part) => ({ ...part, material: { ...part.material, substances: {} } })),
    };
    const blind = blendOf(ask(uncounted, product, { houseRules, supplies: supplies(uncounted) }));
    const truly = new Coefficients(
      blind.lines.map(({ supply }) => (supply.id === 'R1' ? lotOf('R1', STRONG, 40, 1) : supply)),
      product.process,
    );
    const [check] = checkLimits(
      [limitOf(NITRITE)],
      truly,
      blind.lines.map(({ exactMassKg }) => exactMassKg),
    );
    expect(check?.holds).toBe(false);
    expect(check?.value).toBeGreaterThan(0.000173);
  });

  it('counts toward a batch by its meat with the green weight it holds', () => {
    const blend = blendOf(ask(AT_THE_LIMIT, FRANKFURTERS, { size: { by: 'meat', massKg: 100 } }));
    expect(kgOf(blend, 'R1')).toBeGreaterThan(10);
    expect(Math.abs(blend.greenWeightKg - 100)).toBeLessThanOrEqual(0.1);
  });

  it('comes with its cautions', () => {
    const { cautions } = blendOf(ask(AT_THE_LIMIT));
    expect(cautions.join('\n')).toMatch(/Rework goes in \(R1\).*HACCP plan/);
    expect(cautions.join('\n')).toMatch(/yield is reckoned on the rework as well/);
    expect(cautions.join('\n')).toMatch(/Fat of R1 is worked out from the batch/);
  });

  it('never rounds up, for it carries cure', () => {
    expect(roundingOf(AT_THE_LIMIT)).toBe('down');
    const plain = reworkMaterial({
      id: 'plain',
      name: 'plain',
      productId: 'ground',
      lines: [{ material: testMaterial('beef'), massKg: exact('1') }],
      process: COOKED,
    });
    expect(roundingOf(plain)).toBe('free');
  });
});

describe('a mix in the mixer that holds rework', () => {
  it.each([0.15, 0.197, 0.26])('has the fat of its test, %s, in all that rules count', (tested) => {
    const mix = [
      { supply: PORK, massKg: exact('80') },
      { supply: lotOf('R1', AT_THE_LIMIT, 40, 1), massKg: exact('20') },
    ];
    const lines = testedMix(mix, tested) ?? [];
    const coefficients = new Coefficients(
      lines.map(({ supply }) => supply),
      COOKED,
    );
    const masses = lines.map(({ massKg }) => massKg);
    expect(toNumber(coefficients.total(FORMS.fat, masses))).toBeCloseTo(100 * tested, 8);
    // The test moves no nitrite and no meat: 20 of 101 kg that 100 kg of pork went into.
    expect(toNumber(coefficients.total(FORMS.greenWeight, masses))).toBeCloseTo(80 + 2000 / 101, 9);
  });
});

describe('like into like', () => {
  const { rework: _, ...without } = FRANKFURTERS;

  it.each([
    ['a product that says nothing of rework', AT_THE_LIMIT, without],
    ['a product that takes rework of others', leftOver('0.2496', 'bologna'), FRANKFURTERS],
  ])('none goes into %s', (_what, rework, product) => {
    expect(kgOf(blendOf(ask(rework, product)), 'R1')).toBe(0);
  });

  it('is refused by name where a part of it may not go in', () => {
    const beside = reworkMaterial({
      id: 'with-phosphate',
      name: 'with phosphate',
      productId: 'patties',
      lines: [
        { material: testMaterial('beef'), massKg: exact('9') },
        { material: testMaterial('sodium-tripolyphosphate'), massKg: exact('0.03') },
      ],
      process: COOKED,
    });
    const product = testProduct('ground-beef', {
      meatBlock: [{ name: 'beef', species: ['beef'] }],
      rework: { productIds: ['patties'], maxFraction: 0.2 },
    });
    const beef = lotOf('B1', testMaterial('beef'), 500, 4);
    const blend = blendOf(ask(beside, product, { supplies: [beef, lotOf('R1', beside, 40, 1)] }));
    expect(blend.leftOut.map(({ supply }) => supply.id)).toEqual(['R1']);
    expect(blend.leftOut[0]?.because).toMatch(/phosphate/i);
  });

  it('does not make a batch by itself', () => {
    const outcome = ask(AT_THE_LIMIT, FRANKFURTERS, {
      supplies: [lotOf('R1', AT_THE_LIMIT, 400, 1), ...SEASONINGS],
    });
    expect(outcome).toMatchObject({ outcome: 'refused', issues: [{ code: 'no-meat' }] });
  });

  it('is a limit of the house only where rework is allowed', () => {
    const ids = (product: Product) => houseLimits(product, { citation: '9 CFR 319.180' }).map(({ id }) => id);
    expect(ids(FRANKFURTERS)).toContain('house-rework-max');
    expect(ids(without)).not.toContain('house-rework-max');
  });
});
