import { describe, expect, it } from 'vitest';
import type { Composition } from '../../src/batch/composition.ts';
import { type Lot, type Supply, supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import { type Material, MEAT_KINDS, type Species } from '../../src/batch/material.ts';
import type { Plant, Scale } from '../../src/batch/plant.ts';
import type { Product, SeasoningLine } from '../../src/batch/product.ts';
import type { Blend } from '../../src/formulate/blend.ts';
import { formulate } from '../../src/formulate/formulate.ts';
import type { FormulationRequest } from '../../src/formulate/request.ts';
import { findStandard } from '../../src/rules/standard.ts';
import { US } from '../../src/standards/us/us.ts';
import { ENGINES } from '../helpers/engines.ts';

const TODAY = '2031-05-14';

const EMPTY: Composition = {
  waterFraction: 0,
  fatFraction: 0,
  proteinFraction: 0,
  carbohydrateFraction: 0,
  ashFraction: 0,
  saltFraction: 0,
};

function material(id: string, kind: Material['kind'], rest: Partial<Material> = {}): Material {
  return {
    id,
    name: id,
    declaredName: id,
    kind,
    composition: EMPTY,
    substances: {},
    allergens: [],
    subIngredients: [],
    source: 'made up for this test',
    ...rest,
  };
}

function meat(id: string, species: Species, fat: number, lot: Partial<Lot> = {}): Supply {
  const lean = 1 - fat;
  const composition = {
    ...EMPTY,
    fatFraction: fat,
    waterFraction: 0.75 * lean,
    proteinFraction: 0.22 * lean,
  };
  return supplyOfLot(
    {
      id,
      materialId: id,
      onHandKg: 500,
      costPerKg: 4,
      receivedDate: '2031-05-01',
      useByDate: '2031-05-30',
      state: 'chilled',
      ...lot,
    },
    material(id, 'skeletal meat', { species, composition }),
  );
}

const SALT = supplyOfMaterial(
  material('salt', 'salt', { substances: { salt: 1 }, composition: { ...EMPTY, saltFraction: 1 } }),
  1,
);
const PEPPER = supplyOfMaterial(material('pepper', 'spice', { substances: { pepper: 1 } }), 12);
const FENNEL = supplyOfMaterial(material('fennel', 'spice', { substances: { 'fennel or anise': 1 } }), 11);
const CURE = supplyOfMaterial(
  material('cure', 'cure', {
    substances: { 'sodium nitrite': 0.0625, salt: 0.9375 },
    composition: { ...EMPTY, saltFraction: 0.9375 },
  }),
  3,
);
const PHOSPHATE = supplyOfMaterial(material('phosphate', 'phosphate', { substances: { phosphate: 1 } }), 4);
const WATER = supplyOfMaterial(
  material('water', 'water', { composition: { ...EMPTY, waterFraction: 1 } }),
  0.002,
);

const line = (
  materialId: string,
  minFraction: number,
  basis: SeasoningLine['basis'] = 'batch',
  maxFraction = minFraction,
): SeasoningLine => ({ materialId, basis, minFraction, maxFraction });

const scale = (id: string, unit: Scale['unit'], division: string, capacity: number): Scale => ({
  id,
  name: `${id} scale`,
  unit,
  division,
  capacity,
});
const FLOOR = scale('floor', 'kg', '0.5', 600);
const BENCH = scale('bench', 'kg', '0.01', 30);
const FINE = scale('fine', 'g', '0.1', 3000);

interface Asked extends Partial<Pick<FormulationRequest, 'size' | 'supplies'>> {
  readonly productClass: string;
  readonly product?: Partial<Product>;
  readonly plant?: Partial<Plant>;
}

function ask({ productClass, product, plant, size, supplies = [] }: Asked) {
  const standard = findStandard(US, productClass);
  if (!standard) throw new Error(`no standard for ${productClass}`);
  return formulate({
    standard,
    supplies,
    size: size ?? { by: 'total', massKg: 100 },
    date: TODAY,
    engines: ENGINES,
    product: {
      id: 'product',
      name: 'Product',
      standard: { jurisdiction: 'us', productClass },
      meatBlock: [{ name: 'meat', kinds: MEAT_KINDS }],
      seasoning: [],
      targets: [],
      process: {
        cooking: standard.cooking[0] ?? 'raw',
        smoked: false,
        yieldFraction: 1,
        fatLossFraction: 0,
        grindPlates: [],
        mixing: [],
      },
      form: { shape: 'bulk' },
      label: { storage: 'keep refrigerated' },
      ...product,
    },
    plant: {
      name: 'Plant',
      establishment: 'M0',
      jurisdiction: 'us',
      currency: 'USD',
      units: 'kg',
      timeZone: 'UTC',
      mixerCapacityKg: 1000,
      scales: [FLOOR, BENCH, FINE],
      ...plant,
    },
  });
}

function blendOf(outcome: ReturnType<typeof formulate>): Blend {
  if (outcome.outcome !== 'blend') throw new Error(`no blend: ${JSON.stringify(outcome)}`);
  return outcome.blend;
}

function messages(outcome: ReturnType<typeof formulate>): string[] {
  if (outcome.outcome === 'blend') throw new Error('a blend came out');
  return (outcome.outcome === 'refused' ? outcome.issues : outcome.because).map(({ message }) => message);
}

function codes(outcome: ReturnType<typeof formulate>): string[] {
  if (outcome.outcome !== 'refused') throw new Error(`not refused: ${outcome.outcome}`);
  return outcome.issues.map(({ code }) => code);
}

const kgOf = ({ lines }: Blend, id: string) => lines.find(({ supply }) => supply.id === id)?.massKg;
const textOf = ({ lines }: Blend, id: string) => lines.find(({ supply }) => supply.id === id)?.weight.text;

const LEAN = meat('lean', 'beef', 0.1, { costPerKg: 8 });
const FATTY = meat('fatty', 'beef', 0.5, { costPerKg: 3 });

describe('a blend', () => {
  it('is the least-cost mix by hand: 80/20 from 10 % and 50 % fat is three to one', () => {
    const blend = blendOf(
      ask({
        productClass: 'ground-beef',
        supplies: [LEAN, FATTY],
        product: { targets: [{ measure: 'fat', max: 0.2 }] },
      }),
    );
    // 0.1 x + 0.5 (100 - x) = 20 gives x = 75 kg: 75 × 8 + 25 × 3 = 675.
    expect(blend.unroundedCost).toBeCloseTo(675, 6);
    expect(Math.abs(blend.batchKg - 100)).toBeLessThanOrEqual(0.5);
    expect(kgOf(blend, 'lean')).toBeGreaterThanOrEqual(75);
    expect(kgOf(blend, 'lean')).toBeLessThanOrEqual(76);
    expect(blend.finished.fatFraction).toBeLessThanOrEqual(0.2);
  });

  it('is brought to the asked size by the finer of its scales', () => {
    const blend = blendOf(
      ask({
        productClass: 'ground-beef',
        supplies: [LEAN, FATTY],
        product: { targets: [{ measure: 'fat', max: 0.2 }] },
      }),
    );
    // 75.5 kg on the floor scale and 24.5 kg on the bench scale hold 19.8 % fat.
    expect(blend.batchKg).toBe(100);
  });

  it.each(['0.1', '0.5', '1', '2', '5'])('keeps its fat limit on a scale of %s kg', (division) => {
    const blend = blendOf(
      ask({
        productClass: 'ground-beef',
        supplies: [LEAN, FATTY],
        size: { by: 'total', massKg: 137.3 },
        plant: { scales: [scale('only', 'kg', division, 1000)] },
      }),
    );
    const fat = blend.lines.reduce(
      (sum, { massKg, supply }) => sum + massKg * supply.composition.fatFraction,
      0,
    );
    expect(fat / blend.batchKg).toBeLessThanOrEqual(0.3);
    expect(
      blend.lines.every(({ massKg }) => Number.isInteger(Number((massKg / Number(division)).toFixed(9)))),
    ).toBe(true);
    expect(Math.abs(blend.batchKg - 137.3)).toBeLessThanOrEqual(Number(division));
  });

  // 9 CFR 424.21(c): 156 ppm of the green weight. 6.25 % × 0.2496 % is 156 ppm exactly.
  it('holds a cure asked for exactly at 156 ppm, and not a division more', () => {
    const blend = blendOf(
      ask({
        productClass: 'frankfurter',
        supplies: [meat('trim', 'pork', 0.25), CURE],
        size: { by: 'meat', massKg: 100 },
        product: { seasoning: [line('cure', 0.002496, 'green weight')] },
      }),
    );
    expect(textOf(blend, 'trim')).toBe('100.0');
    expect(textOf(blend, 'cure')).toBe('249.6');
    const check = blend.checks.find(({ limit }) => limit.id === 'us-424.21c-nitrite-comminuted');
    expect(check).toMatchObject({ holds: true, value: 0.000156, room: 0 });
  });

  it('by pieces weighs the pieces, by finished weight the raw weight that leaves it, by meat the meat', () => {
    const supplies = [meat('trim', 'pork', 0.25), SALT];
    const seasoning = [line('salt', 0.02, 'green weight')];
    const made = (size: FormulationRequest['size'], product: Partial<Product> = {}) =>
      blendOf(ask({ productClass: 'cooked-sausage', supplies, size, product: { seasoning, ...product } }));
    // Never short of what was promised, and over it by less than one division of the floor scale.
    const pieces = made({ by: 'pieces', pieces: 500 }, { form: { shape: 'link', pieceKg: 0.1 } }).batchKg;
    expect(pieces).toBeGreaterThanOrEqual(50);
    expect(pieces).toBeLessThan(50.5);
    expect(made({ by: 'meat', massKg: 80 })).toMatchObject({ greenWeightKg: 80, batchKg: 81.6 });
    const cooked = { cooking: 'cooked', smoked: true, yieldFraction: 0.9, fatLossFraction: 0.01 } as const;
    const finished = made(
      { by: 'finished', massKg: 90 },
      { process: { ...cooked, grindPlates: [], mixing: [] } },
    );
    expect(finished.batchKg).toBeCloseTo(100, 0);
    expect(finished.finishedKg).toBeCloseTo(90, 0);
  });

  it('too big for the mixer is made in equal loads', () => {
    const blend = blendOf(
      ask({
        productClass: 'ground-beef',
        supplies: [LEAN],
        size: { by: 'total', massKg: 100 },
        plant: { mixerCapacityKg: 30 },
      }),
    );
    expect(blend.loads).toBe(4);
    expect(textOf(blend, 'lean')).toBe('25.00');
    expect(blend.batchKg).toBe(100);
  });

  it('uses a cheap lot up to its last division', () => {
    const cheap = meat('cheap', 'beef', 0.2, { costPerKg: 1, onHandKg: 40.3 });
    const blend = blendOf(ask({ productClass: 'ground-beef', supplies: [cheap, LEAN] }));
    expect(textOf(blend, 'cheap')).toBe('40.0');
    expect(textOf(blend, 'lean')).toBe('60.0');
  });

  it('leaves out a lot past its use-by date, with the reason', () => {
    const old = meat('old', 'beef', 0.2, { costPerKg: 1, useByDate: '2031-05-13' });
    const blend = blendOf(ask({ productClass: 'ground-beef', supplies: [old, LEAN] }));
    expect(kgOf(blend, 'old')).toBeUndefined();
    expect(blend.leftOut).toMatchObject([
      { supply: { id: 'old' }, because: 'past its use-by date 2031-05-13' },
    ]);
  });

  it('still uses a lot on its use-by date', () => {
    const last = meat('last', 'beef', 0.2, { costPerKg: 1, useByDate: TODAY });
    expect(kgOf(blendOf(ask({ productClass: 'ground-beef', supplies: [last, LEAN] })), 'last')).toBe(100);
  });
});

describe('no blend', () => {
  it('comes of a fat target above what any lot reaches; the nearest is said', () => {
    const outcome = ask({
      productClass: 'beef-patties',
      supplies: [LEAN, FATTY],
      product: { targets: [{ measure: 'fat', min: 0.6 }] },
    });
    expect(outcome.outcome).toBe('no blend');
    expect(messages(outcome)).toEqual([
      expect.stringMatching(
        /fat of the finished product is at least 60 %.*nearest blend has 50 percent.*at least 60 is asked/,
      ),
    ]);
  });

  it('comes of a batch bigger than the stock; the largest is said', () => {
    const outcome = ask({
      productClass: 'ground-beef',
      supplies: [LEAN],
      size: { by: 'total', massKg: 700 },
    });
    expect(outcome.outcome).toBe('no blend');
    expect(messages(outcome)).toEqual([expect.stringMatching(/at most 500\.00 kg .* 700\.00 kg is asked/)]);
  });

  it('always has a reason, also where a limit in parts per million is missed by a hair', () => {
    // BHA at 100.05 ppm of the fat: 0.0005 × 0.02001 / 0.1 against 0.0001, a miss of half a milligram.
    const bha = supplyOfMaterial(material('bha', 'antioxidant', { substances: { BHA: 0.02001 } }), 30);
    const outcome = ask({
      productClass: 'fresh-beef-sausage',
      supplies: [LEAN, bha],
      size: { by: 'meat', massKg: 10 },
      product: { seasoning: [line('bha', 0.0005, 'green weight')] },
    });
    expect(outcome.outcome).toBe('no blend');
    expect(messages(outcome)).toEqual([expect.stringContaining('BHA')]);
  });
});

describe('a request is refused', () => {
  it('without any meat', () => {
    expect(codes(ask({ productClass: 'ground-beef', supplies: [SALT] }))).toEqual(['no-meat']);
  });

  it('when the only meat is of a species that the standard does not take', () => {
    const outcome = ask({ productClass: 'ground-beef', supplies: [meat('trim', 'pork', 0.2)] });
    expect(codes(outcome)).toEqual(['no-meat']);
    expect(messages(outcome)[0]).toContain('Only beef goes in.');
  });

  it('when a seasoning that the standard wants present may be left at nothing', () => {
    const outcome = ask({
      productClass: 'italian-sausage',
      supplies: [meat('trim', 'pork', 0.3), SALT, PEPPER, FENNEL],
      product: {
        seasoning: [line('salt', 0.02), line('pepper', 0, 'batch', 0.003), line('fennel', 0.003)],
      },
    });
    expect(codes(outcome)).toEqual(['against-the-standard']);
    expect(messages(outcome)[0]).toContain(
      'Add a seasoning line for pepper, with more than 0 as its least rate',
    );
  });

  it('when a seasoning has neither a lot nor a price', () => {
    const outcome = ask({
      productClass: 'uncooked-sausage',
      supplies: [LEAN],
      product: { seasoning: [line('salt', 0.02)] },
    });
    expect(codes(outcome)).toEqual(['no-supply']);
    expect(messages(outcome)[0]).toContain('salt has neither a usable lot nor a price');
  });

  it('when the standard forbids a seasoning: phosphate in fresh sausage (9 CFR 319.140)', () => {
    const outcome = ask({
      productClass: 'fresh-pork-sausage',
      supplies: [meat('trim', 'pork', 0.3), PHOSPHATE],
      product: { seasoning: [line('phosphate', 0.003)] },
    });
    expect(codes(outcome)).toEqual(['against-the-standard']);
    expect(messages(outcome)[0]).toContain('9 CFR 319.140');
  });

  it('when Italian sausage has no fennel or anise (9 CFR 319.145)', () => {
    const outcome = ask({
      productClass: 'italian-sausage',
      supplies: [meat('trim', 'pork', 0.3), SALT, PEPPER],
      product: { seasoning: [line('salt', 0.02), line('pepper', 0.002)] },
    });
    expect(codes(outcome)).toEqual(['against-the-standard']);
    expect(messages(outcome)[0]).toContain('fennel or anise');
  });

  it('when a seasoning is too little for the finest scale', () => {
    const outcome = ask({
      productClass: 'uncooked-sausage',
      supplies: [LEAN, PEPPER],
      size: { by: 'total', massKg: 5 },
      plant: { scales: [BENCH] },
      product: { seasoning: [line('pepper', 0.0008)] },
    });
    expect(codes(outcome)).toEqual(['below-the-scale']);
    expect(messages(outcome)[0]).toContain('4.00 g in a load');
  });

  it('when pieces are asked of a product without a piece weight', () => {
    const outcome = ask({
      productClass: 'ground-beef',
      supplies: [LEAN],
      size: { by: 'pieces', pieces: 10 },
    });
    expect(codes(outcome)).toEqual(['no-piece-weight']);
  });
});

describe('a plant is not stopped', () => {
  it('by the last gram of an old lot of salt when another lot holds enough', () => {
    const lotOf = (id: string, onHandKg: number, costPerKg: number) =>
      supplyOfLot(
        { id, materialId: 'salt', onHandKg, costPerKg, receivedDate: '2031-05-01', state: 'chilled' },
        SALT.material,
      );
    const blend = blendOf(
      ask({
        productClass: 'uncooked-sausage',
        supplies: [LEAN, lotOf('old-salt', 0.00005, 0.5), lotOf('new-salt', 20, 1)],
        product: { seasoning: [line('salt', 0.02)] },
      }),
    );
    expect(kgOf(blend, 'new-salt')).toBeCloseTo(2, 2);
  });

  it('by an optional seasoning whose only lot is spoiled: the batch goes without it', () => {
    const spoiled = supplyOfLot(
      {
        id: 'old-pepper',
        materialId: 'pepper',
        onHandKg: 2,
        costPerKg: 9,
        receivedDate: '2031-05-01',
        useByDate: '2031-05-13',
        state: 'chilled',
      },
      PEPPER.material,
    );
    const blend = blendOf(
      ask({
        productClass: 'uncooked-sausage',
        supplies: [LEAN, spoiled],
        product: { seasoning: [line('pepper', 0, 'batch', 0.003)] },
      }),
    );
    expect(blend.leftOut.map(({ supply }) => supply.id)).toEqual(['old-pepper']);
  });

  it('by a free optional water line: the water that the limit allows goes in', () => {
    const blend = blendOf(
      ask({
        productClass: 'uncooked-sausage',
        supplies: [LEAN, WATER],
        product: { seasoning: [line('water', 0, 'batch', 0.03)] },
      }),
    );
    expect(kgOf(blend, 'water')).toBeGreaterThan(2.9);
    expect(kgOf(blend, 'water')).toBeLessThanOrEqual(0.03 * blend.batchKg);
  });
});
