import { performance } from 'node:perf_hooks';
import type { Composition } from '../src/batch/composition.ts';
import { type Supply, supplyOfLot, supplyOfMaterial } from '../src/batch/lot.ts';
import { type Material, MEAT_KINDS } from '../src/batch/material.ts';
import type { Product } from '../src/batch/product.ts';
import { exact } from '../src/exact.ts';
import { batchModel } from '../src/formulate/batch-model.ts';
import { formulate } from '../src/formulate/formulate.ts';
import { houseLimits } from '../src/formulate/house-limits.ts';
import type { FormulationRequest } from '../src/formulate/request.ts';
import { checkLimits } from '../src/rules/check.ts';
import { Coefficients } from '../src/rules/coefficients.ts';
import { FORMS } from '../src/rules/forms.ts';
import { findStandard } from '../src/rules/standard.ts';
import { loadEngines } from '../src/solver/engines/load.ts';
import { solve } from '../src/solver/solve.ts';
import { US } from '../src/standards/us/us.ts';

/**
 * What formulation costs on top of its engine, on one frankfurter of 8, 20 and 60 lots. One JSON object per
 * line; times are of one call. Run as: node --import tsx bench/bench.ts
 */

const { engines: ENGINES } = await loadEngines();
const LOTS = [8, 20, 60];
const WARM_UP_MS = 400;
const MEASURE_MS = 2500;
const LEAST_CALLS = 30;
const TODAY = '2031-05-14';

/** A small multiplicative generator (Park and Miller 1988), so that every run measures the same plants. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

const NOTHING: Composition = {
  waterFraction: 0,
  fatFraction: 0,
  proteinFraction: 0,
  carbohydrateFraction: 0,
  ashFraction: 0,
  saltFraction: 0,
};

function material(id: string, kind: Material['kind'], rest: Partial<Material>): Material {
  return {
    id,
    name: id,
    declaredName: id,
    kind,
    composition: NOTHING,
    substances: {},
    allergens: [],
    subIngredients: [],
    source: 'made up for the bench',
    ...rest,
  };
}

function meatLots(count: number): Supply[] {
  const random = randomFrom(7 + count);
  const decimal = (low: number, high: number, places: number) =>
    Number((low + (high - low) * random()).toFixed(places));
  return Array.from({ length: count }, (_, index) => {
    const fatFraction = decimal(0.04, 0.6, 3);
    const lean = 1 - fatFraction;
    const composition = {
      ...NOTHING,
      fatFraction,
      waterFraction: Number((0.75 * lean).toFixed(5)),
      proteinFraction: Number((decimal(0.2, 0.225, 3) * lean).toFixed(5)),
    };
    const id = `lot-${index + 1}`;
    const species = random() < 0.5 ? 'pork' : 'beef';
    return supplyOfLot(
      {
        id,
        materialId: id,
        onHandKg: decimal(40, 200, 1),
        costPerKg: decimal(1.5, 7, 2),
        receivedDate: '2031-05-01',
        state: 'chilled',
      },
      material(id, 'skeletal meat', { species, composition }),
    );
  });
}

const SEASONINGS: readonly Supply[] = [
  supplyOfMaterial(material('salt', 'salt', { substances: { salt: 1 } }), 0.9),
  supplyOfMaterial(material('pepper', 'spice', { substances: { pepper: 1 } }), 14),
  supplyOfMaterial(material('cure', 'cure', { substances: { 'sodium nitrite': 0.0625, salt: 0.9375 } }), 3),
  supplyOfMaterial(material('water', 'water', { composition: { ...NOTHING, waterFraction: 1 } }), 0.002),
];

const PRODUCT: Product = {
  id: 'bench',
  name: 'Bench frankfurter',
  standard: { jurisdiction: 'us', productClass: 'frankfurter' },
  meatBlock: [
    { name: 'pork', species: ['pork'], minFraction: 0.3 },
    { name: 'any meat', kinds: MEAT_KINDS },
  ],
  seasoning: [
    { materialId: 'salt', basis: 'batch', minFraction: 0.0175, maxFraction: 0.0175 },
    { materialId: 'pepper', basis: 'batch', minFraction: 0.002, maxFraction: 0.002 },
    { materialId: 'cure', basis: 'green weight', minFraction: 0.0024, maxFraction: 0.0024 },
    { materialId: 'water', basis: 'batch', minFraction: 0, maxFraction: 0.25 },
  ],
  targets: [
    { measure: 'fat', min: 0.24, max: 0.28 },
    { measure: 'protein', min: 0.12 },
  ],
  process: {
    cooking: 'cooked',
    smoked: true,
    yieldFraction: 0.92,
    fatLossFraction: 0.01,
    grindPlates: [],
    mixing: [],
  },
  form: { shape: 'link', pieceKg: 0.0567 },
  label: { storage: 'keep refrigerated' },
};

function requestOf(lots: number): FormulationRequest {
  const standard = findStandard(US, PRODUCT.standard.productClass);
  if (!standard) throw new Error('the standard of the bench is not there');
  return {
    product: PRODUCT,
    standard,
    supplies: [...meatLots(lots), ...SEASONINGS],
    size: { by: 'total', massKg: 200 },
    date: TODAY,
    engines: ENGINES,
    plant: {
      name: 'Bench plant',
      establishment: 'M0',
      jurisdiction: 'us',
      currency: 'USD',
      units: 'lb',
      timeZone: 'UTC',
      mixerCapacityKg: 120,
      scales: [
        { id: 'floor', name: 'floor scale', unit: 'lb', division: '0.5', capacity: 1000 },
        { id: 'bench', name: 'bench scale', unit: 'lb', division: '0.02', capacity: 60 },
        { id: 'fine', name: 'fine scale', unit: 'g', division: '0.1', capacity: 2000 },
      ],
    },
  };
}

interface Timing {
  readonly medianUs: number;
  readonly p95Us: number;
  readonly n: number;
}

/** Times every subject in turn within each round, so that a slow spell of the machine falls on all of them. */
function timeTogether(subjects: Readonly<Record<string, () => unknown>>): Record<string, Timing> {
  const names = Object.keys(subjects);
  const times = new Map(names.map((name) => [name, [] as number[]]));
  const round = (record: boolean) => {
    for (const [name, run] of Object.entries(subjects)) {
      const start = performance.now();
      run();
      const tookUs = (performance.now() - start) * 1000;
      if (record) times.get(name)?.push(tookUs);
    }
  };
  for (const until = performance.now() + WARM_UP_MS; performance.now() < until; ) round(false);
  const until = performance.now() + MEASURE_MS;
  for (let calls = 0; calls < LEAST_CALLS || performance.now() < until; calls++) round(true);
  return Object.fromEntries(
    names.map((name) => {
      const sorted = [...(times.get(name) ?? [])].sort((a, b) => a - b);
      const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN;
      return [name, { medianUs: at(0.5), p95Us: at(0.95), n: sorted.length }];
    }),
  );
}

function print(name: string, value: number, unit: string, lots: number, n: number): void {
  const rounded = Number(value.toPrecision(4));
  console.log(JSON.stringify({ name, value: rounded, unit, lots, n, node: process.version }));
}

for (const lots of LOTS) {
  const request = requestOf(lots);
  const { product, standard, supplies } = request;
  const outcome = formulate(request);
  if (outcome.outcome !== 'blend') throw new Error(`the bench of ${lots} lots has no blend`);

  const limits = [...standard.limits, ...houseLimits(product)];
  const coefficients = new Coefficients(supplies, product.process);
  const buildModel = (of: Coefficients) =>
    batchModel(of, product, limits, { form: FORMS.formula, massKg: 200, isLeast: false });
  const model = buildModel(coefficients);
  const masses = supplies.map(
    (supply) => outcome.blend.lines.find((line) => line.supply === supply)?.exactMassKg ?? exact(0),
  );

  const timings = timeTogether({
    ...Object.fromEntries(
      ENGINES.map(({ name, solve: ask }) => [`engine ${name}`, () => ask(model)]),
    ),
    solve: () => solve(model, request.engines),
    'build model': () => buildModel(new Coefficients(supplies, product.process)),
    'exact check': () => checkLimits(limits, coefficients, masses),
    formulate: () => formulate(request),
  });
  for (const [name, { medianUs, p95Us, n }] of Object.entries(timings)) {
    print(`${name}, median`, medianUs, 'µs', lots, n);
    print(`${name}, 95th percentile`, p95Us, 'µs', lots, n);
  }
  const { engine } = timings;
  for (const name of ['solve', 'formulate', 'exact check']) {
    const timing = timings[name];
    if (!timing || !engine) throw new Error(`${name} was not timed`);
    print(`${name} over engine, medians`, timing.medianUs / engine.medianUs, 'ratio', lots, timing.n);
  }
}
