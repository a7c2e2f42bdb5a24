import type { Composition } from '../src/batch/composition.ts';
import { type Supply, supplyOfLot, supplyOfMaterial } from '../src/batch/lot.ts';
import { type Material, MEAT_KINDS } from '../src/batch/material.ts';
import type { Product } from '../src/batch/product.ts';
import type { FormulationRequest } from '../src/formulate/request.ts';
import { findStandard } from '../src/rules/standard.ts';
import type { Engine } from '../src/solver/model.ts';
import { US } from '../src/standards/us/us.ts';

/** One frankfurter out of any number of lots, the same in every run. */

const TODAY = '2031-05-14';

/** A small multiplicative generator (Park and Miller 1988), so that every run measures the same plants. */
export function randomFrom(seed: number): () => number {
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
        boxKg: 10,
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

export function requestOf(lots: number, engines: readonly Engine[]): FormulationRequest {
  const standard = findStandard(US, PRODUCT.standard.productClass);
  if (!standard) throw new Error('the standard of the bench is not there');
  return {
    product: PRODUCT,
    standard,
    supplies: [...meatLots(lots), ...SEASONINGS],
    size: { by: 'total', massKg: 200 },
    date: TODAY,
    engines,
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
