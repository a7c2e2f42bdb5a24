import fc from 'fast-check';
import type { Composition, TrimLine } from '../../src/batch/composition.ts';
import { type Lot, type Supply, supplyOfLot, supplyOfMaterial } from '../../src/batch/lot.ts';
import { type Material, MEAT_KINDS, SPECIES, type Species } from '../../src/batch/material.ts';
import type { Plant, Scale } from '../../src/batch/plant.ts';
import type { MeatPart, Product, SeasoningLine, Target } from '../../src/batch/product.ts';
import { toNumber } from '../../src/exact.ts';
import type { BatchSize, FormulationRequest } from '../../src/formulate/request.ts';
import { forbiddenBy } from '../../src/rules/eligibility.ts';
import { coefficient, formsOf } from '../../src/rules/form.ts';
import { FORMS } from '../../src/rules/forms.ts';
import { inForceOn } from '../../src/rules/limit.ts';
import type { Standard } from '../../src/rules/standard.ts';
import { ALL_STANDARDS } from './materials.ts';

/** Random plants, lots and products for every product class: nothing in them is anyone's. */

export const BATCH_DATE = '2031-05-14';

export type RandomRequest = Omit<FormulationRequest, 'engines'>;

const NOTHING: Composition = {
  waterFraction: 0,
  fatFraction: 0,
  proteinFraction: 0,
  carbohydrateFraction: 0,
  ashFraction: 0,
  saltFraction: 0,
  collagenFraction: 0,
};

type Draw = {
  readonly whole: (min: number, max: number) => number;
  /** A decimal of so many places. */
  readonly decimal: (min: number, max: number, places: number) => number;
  readonly pick: <T>(values: readonly T[]) => T;
  /** True in so many of a hundred cases. */
  readonly chance: (percent: number) => boolean;
};

/** Without the usual leaning to extremes: a chance of 3 % must stay one. */
const evenly = (min: number, max: number) => fc.noBias(fc.integer({ min, max }));

/** @param classes the standards to draw from; all when left out. */
export function arbitraryRequest(classes: typeof ALL_STANDARDS = ALL_STANDARDS): fc.Arbitrary<RandomRequest> {
  return fc.gen().map((generate) => {
    const whole = (min: number, max: number) => generate(evenly, min, max);
    const draw: Draw = {
      whole,
      decimal: (min, max, places) =>
        Number(
          (whole(Math.round(min * 10 ** places), Math.round(max * 10 ** places)) / 10 ** places).toFixed(
            places,
          ),
        ),
      pick: (values) => values[whole(0, values.length - 1)] as (typeof values)[number],
      chance: (percent) => whole(1, 100) > 100 - percent,
    };
    return drawRequest(draw, classes);
  });
}

function drawRequest(draw: Draw, classes: typeof ALL_STANDARDS): RandomRequest {
  const { ruleSet, standard } = draw.pick(classes);
  const batchKg = draw.pick([
    draw.whole(5, 40),
    draw.whole(40, 300),
    draw.whole(300, 2000),
    draw.decimal(5, 200, 2),
  ]);
  const process = drawProcess(draw, standard);
  const allowed = allowedBy(standard, process);
  const meat = drawMeat(draw, allowed, batchKg);
  const seasoning = drawSeasonings(draw, standard, allowed, batchKg, process);
  const pieceKg = draw.pick([0.0567, 0.085, 0.113398, 0.1, 0.45359237]);
  const product: Product = {
    id: 'product',
    name: 'Product',
    standard: { jurisdiction: ruleSet.jurisdiction, productClass: standard.productClass },
    meatBlock: drawParts(draw, meat.materials),
    seasoning: seasoning.lines,
    targets: drawTargets(draw, meat.supplies, process.yieldFraction),
    process,
    form: { shape: 'link', pieceKg },
    label: {
      storage: 'keep refrigerated',
      ...(standard.naming.leanPair && draw.chance(20) && { leanPercent: draw.pick([70, 73, 75, 80]) }),
    },
  };
  return {
    product,
    standard,
    supplies: [...meat.supplies, ...seasoning.supplies],
    size: drawSize(draw, batchKg, pieceKg),
    date: BATCH_DATE,
    plant: drawPlant(draw, batchKg),
  };
}

function drawSize(draw: Draw, batchKg: number, pieceKg: number): BatchSize {
  return draw.pick<BatchSize>([
    { by: 'total', massKg: batchKg },
    { by: 'meat', massKg: batchKg },
    { by: 'finished', massKg: batchKg },
    { by: 'pieces', pieces: Math.max(1, Math.round(batchKg / pieceKg)) },
  ]);
}

type Allowed = (material: Material) => boolean;

/** Whether the standard lets a material in at all. */
function allowedBy({ limits }: Standard, process: Product['process']): Allowed {
  const inForce = inForceOn(limits, BATCH_DATE);
  return (material) => forbiddenBy(inForce, supplyOfMaterial(material, 1), process) === undefined;
}

/** Mostly a species that the standard takes; now and then one that it does not. */
function drawSpecies(draw: Draw, allowed: Allowed): Species {
  const some: readonly Species[] = [...SPECIES, 'beef', 'pork', 'pork'];
  const fitting = some.filter((species) =>
    MEAT_KINDS.some((kind) => allowed({ ...material('probe', kind, NOTHING), species })),
  );
  return fitting.length > 0 && draw.chance(92) ? draw.pick(fitting) : draw.pick(some);
}

const PRICES = [0, 1.5, 2.2, 2.2, 3.1, 4.05, 6.4] as const;

function drawMeat(draw: Draw, allowed: Allowed, batchKg: number) {
  const lots = draw.pick([draw.whole(2, 6), draw.whole(4, 12), draw.whole(10, 25)]);
  const materials: Material[] = [];
  const supplies: Supply[] = [];
  const centre = draw.decimal(0.08, 0.45, 2);
  for (let index = 0; index < lots; index++) {
    if (materials.length === 0 || draw.chance(75))
      materials.push(drawMeatMaterial(draw, allowed, index, centre));
    const material = draw.pick(materials);
    const lot = drawLot(draw, `lot-${index + 1}`, material, batchKg * draw.decimal(0.05, 2.4, 2), [
      draw.pick(PRICES),
      draw.decimal(0.4, 9, 4),
    ]);
    const fatFraction = Math.min(
      0.95,
      Math.max(0.01, material.composition.fatFraction + draw.decimal(-0.05, 0.05, 4)),
    );
    supplies.push(
      supplyOfLot(
        draw.chance(50)
          ? { ...lot, measuredFat: { fatFraction: Number(fatFraction.toFixed(4)), method: 'test' } }
          : lot,
        material,
      ),
    );
  }
  return { materials, supplies };
}

/** Liver and skeletal meat first: some classes ask for the one or the other. */
const USUAL_KINDS = ['skeletal meat', 'skeletal meat', 'liver', 'skeletal meat'] as const;

function drawMeatMaterial(draw: Draw, allowed: Allowed, index: number, centre: number): Material {
  const species = drawSpecies(draw, allowed);
  const fits = (kind: Material['kind']) => allowed({ ...material('probe', kind, NOTHING), species });
  const usual = USUAL_KINDS[index % USUAL_KINDS.length] ?? 'skeletal meat';
  const fitting = [usual, ...USUAL_KINDS, ...MEAT_KINDS].find(fits) ?? 'skeletal meat';
  const kind = draw.chance(84) ? fitting : draw.pick(MEAT_KINDS);
  const near = draw.chance(60) ? centre + draw.decimal(-0.2, 0.2, 3) : draw.decimal(0.01, 0.9, 3);
  const fatFraction = Number(Math.min(0.92, Math.max(0.01, kind === 'fat' ? 0.85 : near)).toFixed(3));
  const trimLine = draw.chance(40) ? drawTrimLine(draw) : undefined;
  const lean = 1 - fatFraction;
  const proteinFraction = Number((lean * draw.decimal(0.19, 0.23, 3)).toFixed(5));
  const composition: Composition = {
    fatFraction,
    proteinFraction,
    waterFraction: Number((lean * draw.decimal(0.73, 0.76, 3)).toFixed(5)),
    ashFraction: Number((lean * 0.011).toFixed(5)),
    carbohydrateFraction: 0,
    saltFraction: 0,
    collagenFraction: Number((proteinFraction * draw.pick([0.05, 0.1, 0.12, 0.2, 0.35])).toFixed(6)),
  };
  return {
    ...material(`meat-${index + 1}`, kind, composition),
    species,
    // A trim line of its own says nothing of collagen; the share of the protein goes along.
    ...(trimLine && { trimLine }),
  };
}

function drawTrimLine(draw: Draw): TrimLine {
  const line = (intercept: number, slope: number) => ({ intercept, slope });
  return {
    species: 'any',
    water: line(draw.decimal(0.74, 0.78, 4), -draw.decimal(0.74, 0.8, 4)),
    protein: line(draw.decimal(0.2, 0.23, 4), -draw.decimal(0.2, 0.24, 4)),
    ash: line(0.011, -0.012),
    saturatedFat: line(0, 0.4),
    cholesterolMgPerKg: line(600, 200),
    sodiumMgPerKg: line(700, -500),
  };
}

function material(id: string, kind: Material['kind'], composition: Composition): Material {
  return {
    id,
    name: id,
    declaredName: id,
    kind,
    composition,
    substances: {},
    allergens: [],
    subIngredients: [],
    source: 'random',
  };
}

function drawLot(
  draw: Draw,
  id: string,
  { id: materialId, species }: Material,
  onHandKg: number,
  prices: readonly number[],
): Lot {
  // Seasonings are seldom spoiled: each that is stops the whole batch.
  const spoiled = draw.chance(species ? 7 : 1);
  return {
    id,
    materialId,
    onHandKg: draw.chance(species ? 3 : 1) ? 0 : Number(onHandKg.toFixed(draw.pick([0, 2, 4]))),
    costPerKg: draw.pick(prices),
    receivedDate: draw.chance(species ? 3 : 1) ? '2031-05-15' : '2031-05-02',
    state: 'chilled',
    ...((spoiled || draw.chance(60)) && {
      useByDate: spoiled ? '2031-05-13' : draw.pick([BATCH_DATE, '2031-06-30']),
    }),
  };
}

function drawParts(draw: Draw, materials: readonly Material[]): MeatPart[] {
  const everything: MeatPart = { name: 'any meat', kinds: MEAT_KINDS };
  if (draw.chance(40)) return [everything];
  const min = draw.chance(50) ? draw.pick([0, 0.05, 0.1, 0.25, 0.4]) : undefined;
  const max = draw.chance(50) ? draw.pick([0.45, 0.6, 0.8, 1]) : undefined;
  const shares = {
    ...(min !== undefined && { minFraction: min }),
    ...(max !== undefined && { maxFraction: max }),
  };
  const chosen = materials.filter(() => draw.chance(60)).map(({ id }) => id);
  const first: MeatPart =
    draw.chance(60) && chosen.length > 0
      ? { name: 'first part', materialIds: chosen, ...shares }
      : { name: 'first part', species: [draw.pick(materials).species ?? 'beef'], ...shares };
  return draw.chance(80) ? [first, everything] : [first];
}

interface Offer {
  readonly id: string;
  readonly kind: Material['kind'];
  readonly substances?: Material['substances'];
  readonly composition?: Partial<Composition>;
  readonly rates: readonly number[];
  readonly ranges?: readonly (readonly [number, number])[];
  readonly basis?: SeasoningLine['basis'];
  readonly price: number;
  /** In how many of a hundred products of this class. */
  readonly percent: number;
}

/** What a recipe may hold where the standard lets it in. */
function offers({ productClass, cooking }: Standard): Offer[] {
  const isGround = /ground|hamburger|patties|minced|burger/.test(productClass);
  const isCooked = cooking.includes('cooked');
  return [
    {
      id: 'salt',
      kind: 'salt',
      substances: { salt: 1 },
      rates: [0.012, 0.0175, 0.02],
      ranges: [[0.01, 0.02]],
      price: 0.9,
      percent: isGround ? 10 : 90,
    },
    {
      id: 'pepper',
      kind: 'spice',
      substances: { pepper: 1 },
      rates: [0.002, 0.0035],
      ranges: [[0.001, 0.004]],
      price: 14,
      percent: isGround ? 5 : 60,
    },
    {
      id: 'fennel',
      kind: 'spice',
      substances: { 'fennel or anise': 1 },
      rates: [0.003, 0.005],
      price: 11,
      percent: 5,
    },
    {
      id: 'sugar',
      kind: 'sweetener',
      rates: [0.004, 0.01, 0.012],
      ranges: [[0, 0.015]],
      price: 1.1,
      percent: isGround ? 3 : 35,
    },
    {
      id: 'cure',
      kind: 'cure',
      substances: { 'sodium nitrite': 0.0625, salt: 0.9375 },
      rates: [0.0012, 0.0018, 0.0019, 0.00192, 0.0024, 0.002496, 0.00249],
      basis: 'green weight',
      price: 3,
      percent: 80,
    },
    {
      id: 'ascorbate',
      kind: 'cure accelerator',
      substances: { 'sodium ascorbate': 1 },
      rates: [0.0005, 0.000547, 0.00054],
      basis: 'green weight',
      price: 12,
      percent: 50,
    },
    {
      id: 'phosphate',
      kind: 'phosphate',
      substances: { phosphate: 1, P2O5: 0.57879 },
      rates: [0.003, 0.004, 0.005],
      basis: 'finished weight',
      price: 4,
      percent: isCooked ? 60 : 10,
    },
    {
      id: 'milk-powder',
      kind: 'binder',
      composition: { waterFraction: 0.04, fatFraction: 0.01, proteinFraction: 0.35 },
      rates: [0.02, 0.03],
      ranges: [
        [0, 0.035],
        [0.01, 0.03],
      ],
      basis: 'finished weight',
      price: 5,
      percent: 40,
    },
    {
      id: 'soy-isolate',
      kind: 'binder',
      substances: { 'isolated soy protein': 1 },
      composition: { waterFraction: 0.05, fatFraction: 0.01, proteinFraction: 0.86 },
      rates: [0.01, 0.02],
      ranges: [[0, 0.02]],
      basis: 'finished weight',
      price: 6,
      percent: 15,
    },
    {
      id: 'lactate',
      kind: 'antimicrobial',
      substances: { lactate: 0.6 },
      composition: { waterFraction: 0.4 },
      rates: [0.02, 0.03, 0.08],
      ranges: [[0.02, 0.05]],
      price: 3.3,
      percent: isGround ? 3 : 15,
    },
    {
      id: 'antioxidant',
      kind: 'antioxidant',
      substances: { BHA: 0.2, 'propyl gallate': 0.2 },
      rates: [0.00005, 0.0001],
      basis: 'green weight',
      price: 30,
      percent: 8,
    },
    {
      id: 'wine',
      kind: 'flavoring',
      substances: { 'free water': 0.87 },
      composition: { waterFraction: 0.87 },
      rates: [0.005, 0.01],
      ranges: [[0, 0.02]],
      price: 2.5,
      percent: 6,
    },
    {
      id: 'seasoning-mix',
      kind: 'flavoring',
      substances: { 'isolated soy protein': 0.3, salt: 0.4 },
      composition: { waterFraction: 0.05, proteinFraction: 0.27 },
      rates: [0.005, 0.02],
      price: 5,
      percent: 6,
    },
    {
      id: 'potato',
      kind: 'vegetable',
      composition: { waterFraction: 0.79, proteinFraction: 0.02 },
      rates: [0.05, 0.1],
      price: 0.8,
      percent: 2,
    },
    {
      id: 'cheese',
      kind: 'dairy',
      composition: { waterFraction: 0.38, fatFraction: 0.33, proteinFraction: 0.25 },
      rates: [0.08, 0.15],
      price: 9,
      percent: 3,
    },
    {
      id: 'water',
      kind: 'water',
      composition: { waterFraction: 1 },
      rates: isCooked ? [0.08, 0.12, 0.2] : [0.02, 0.03],
      ranges: isCooked
        ? [
            [0, 0.3],
            [0.05, 0.25],
          ]
        : [[0, 0.03]],
      price: 0.002,
      percent: 75,
    },
  ];
}

/** A standard that aims at a figure, or asks for a substance, mostly finds it in the recipe. */
function wantedOf(
  standard: Standard,
  own: Material,
  process: Product['process'],
): 'present' | number | undefined {
  for (const { sense, bound, numerator } of inForceOn(standard.limits, BATCH_DATE)) {
    if (sense === 'max') continue;
    const [form] = formsOf(numerator);
    const perKg = form ? toNumber(coefficient(form, supplyOfMaterial(own, 1), process)) : 0;
    if (perKg > 0) return sense === 'target' ? Number((bound / perKg).toPrecision(6)) : 'present';
  }
  return undefined;
}

function drawSeasonings(
  draw: Draw,
  standard: Standard,
  allowed: Allowed,
  batchKg: number,
  process: Product['process'],
) {
  const lines: SeasoningLine[] = [];
  const supplies: Supply[] = [];
  for (const offer of offers(standard)) {
    const own: Material = {
      ...material(offer.id, offer.kind, {
        ...NOTHING,
        saltFraction: offer.substances?.salt ?? 0,
        ...offer.composition,
      }),
      substances: offer.substances ?? {},
    };
    const wanted = allowed(own) ? wantedOf(standard, own, process) : undefined;
    const percent = wanted !== undefined ? 98 : allowed(own) ? offer.percent : 1;
    if (!draw.chance(percent)) continue;
    const ranged = wanted === undefined && offer.ranges !== undefined && draw.chance(45);
    const rate = typeof wanted === 'number' ? wanted : draw.pick(offer.rates);
    const [minFraction, maxFraction] = ranged ? draw.pick(offer.ranges ?? []) : [rate, rate];
    lines.push({
      materialId: offer.id,
      basis: offer.basis ?? draw.pick(['batch', 'batch', 'green weight', 'finished weight']),
      minFraction,
      maxFraction,
    });
    if (draw.chance(65)) {
      if (draw.chance(99)) supplies.push(supplyOfMaterial(own, offer.price));
      continue;
    }
    const needKg = 2 * batchKg * maxFraction;
    for (let lot = 1; lot <= draw.pick([1, 1, 2]); lot++) {
      const id = `${offer.id}-lot-${lot}`;
      const onHandKg = Math.max(0.05, needKg * draw.pick([0.4, 1, 5]));
      const prices = [offer.price, Number((offer.price * 1.2).toFixed(4))];
      supplies.push(supplyOfLot(drawLot(draw, id, own, onHandKg, prices), own));
    }
  }
  return { lines, supplies };
}

/** A raw product loses nothing, a smoked one some water, a cooked one water and fat, a dried one much water. */
function drawProcess(draw: Draw, standard: Standard): Product['process'] {
  const { cooking, productClass } = standard;
  const made = draw.pick(cooking);
  const most = mostOfGreenWeight(standard);
  const smoked = made === 'raw' && (most !== undefined || /smoked|bacon/.test(productClass));
  const isByMoisture = inForceOn(standard.limits, BATCH_DATE).some(
    ({ numerator, basis }) => numerator === FORMS.finishedWater && basis === FORMS.protein,
  );
  const usual = {
    raw: smoked ? [1, 0.95] : [1],
    cooked: [0.9, 0.92, 0.955, 0.85, 1],
    dried: [0.65, 0.75, 0.8],
  };
  const yieldFraction =
    most === undefined
      ? draw.pick(isByMoisture ? [0.4, 0.45, 0.55, 0.7] : usual[made])
      : Number((most * draw.pick([0.65, 0.75, 0.85])).toFixed(3));
  return {
    cooking: made,
    smoked,
    yieldFraction,
    fatLossFraction: made === 'cooked' && yieldFraction < 1 ? draw.pick([0, 0.005, 0.012]) : 0,
    grindPlates: [],
    mixing: [],
  };
}

/** Some cuts may not weigh more than so much of what they weighed fresh. */
function mostOfGreenWeight({ limits }: Standard): number | undefined {
  return inForceOn(limits, BATCH_DATE).find(
    ({ numerator, basis, sense }) =>
      numerator.id.startsWith('finished') && basis === FORMS.greenWeight && sense === 'max',
  )?.bound;
}

function drawTargets(draw: Draw, supplies: readonly Supply[], yieldFraction: number): Target[] {
  const targets: Target[] = [];
  const some = draw.pick(supplies).composition;
  const other = draw.pick(supplies).composition;
  if (draw.chance(70)) {
    const middle = Math.min(0.48, (some.fatFraction + other.fatFraction) / 2 / yieldFraction) * 0.97;
    const width = draw.chance(4) ? 0 : draw.pick([0.0005, 0.002, 0.01, 0.05]);
    const end = (value: number) => Number(Math.max(0, value).toFixed(4));
    targets.push({
      measure: 'fat',
      ...(draw.chance(65) && { min: end(middle - width) }),
      max: end(middle + width),
    });
  }
  if (draw.chance(20)) {
    targets.push({
      measure: 'protein',
      min: Number((some.proteinFraction * draw.decimal(0.8, 1, 2)).toFixed(4)),
    });
  }
  if (draw.chance(8)) targets.push({ measure: 'water', max: draw.decimal(0.45, 0.75, 2) });
  if (draw.chance(6)) targets.push({ measure: 'salt', max: draw.decimal(0.012, 0.03, 3) });
  if (draw.chance(8)) targets.push({ measure: 'cost per kg', max: draw.decimal(2, 7, 2) });
  return targets;
}

const scale = (id: string, unit: Scale['unit'], division: string, capacity: number): Scale => ({
  id,
  name: `${id} scale`,
  unit,
  division,
  capacity,
});

const FLOOR = [
  scale('floor', 'kg', '1', 1500),
  scale('floor', 'kg', '0.5', 600),
  scale('floor', 'lb', '0.5', 1000),
  scale('floor', 'lb', '2', 2000),
  scale('floor', 'kg', '0.05', 300),
];
const BENCH = [
  scale('bench', 'lb', '0.02', 60),
  scale('bench', 'kg', '0.01', 30),
  scale('bench', 'g', '5', 15000),
  scale('bench', 'oz', '0.5', 500),
];
const FINE = [
  scale('fine', 'g', '0.1', 2000),
  scale('fine', 'g', '1', 6000),
  scale('fine', 'oz', '0.01', 100),
];

function drawPlant(draw: Draw, batchKg: number): Plant {
  const sets = draw.pick([
    [draw.pick(FLOOR), draw.pick(BENCH), draw.pick(FINE)],
    [draw.pick(FLOOR), draw.pick(BENCH), draw.pick(FINE)],
    [draw.pick(FLOOR), draw.pick(FINE)],
    [draw.pick(BENCH), draw.pick(FINE)],
    [draw.pick(FLOOR), draw.pick(BENCH)],
  ]);
  return {
    name: 'Random plant',
    establishment: 'M0',
    jurisdiction: 'us',
    currency: 'USD',
    units: draw.pick(['kg', 'lb']),
    timeZone: 'UTC',
    mixerCapacityKg: draw.pick([draw.whole(20, 120), draw.whole(100, 1000), Math.ceil(batchKg * 1.3)]),
    scales: sets,
  };
}
