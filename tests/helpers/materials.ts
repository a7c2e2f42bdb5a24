import type { Composition } from '../../src/batch/composition.ts';
import { type Supply, supplyOfMaterial } from '../../src/batch/lot.ts';
import type { Material, MaterialKind, Species } from '../../src/batch/material.ts';
import type { Process, Product } from '../../src/batch/product.ts';
import { type Exact, exact, multiply, toNumber } from '../../src/exact.ts';
import type { Blend, BlendLine } from '../../src/formulate/blend.ts';
import { type Check, checkLimits } from '../../src/rules/check.ts';
import { Coefficients } from '../../src/rules/coefficients.ts';
import type { Limit } from '../../src/rules/limit.ts';
import { findStandard, type RuleSet, type Standard } from '../../src/rules/standard.ts';
import { RULE_SETS } from '../../src/standards/all.ts';
import { KILOGRAMS_PER, type MassUnit } from '../../src/units.ts';

/** Invented materials with round figures, so that the answer to a test can be worked out on paper. */

const NOTHING: Composition = {
  waterFraction: 0,
  fatFraction: 0,
  proteinFraction: 0,
  carbohydrateFraction: 0,
  ashFraction: 0,
  saltFraction: 0,
};

/** A material that holds nothing but what is given. */
export function material(
  id: string,
  kind: MaterialKind,
  given: Partial<Omit<Material, 'composition'>> & { readonly composition?: Partial<Composition> } = {},
): Material {
  return {
    id,
    name: id,
    declaredName: id.replaceAll('-', ' '),
    kind,
    substances: {},
    allergens: [],
    subIngredients: [],
    source: 'invented for a test',
    ...given,
    composition: { ...NOTHING, ...given.composition },
  };
}

type Makeup = readonly [fat: number, water: number, protein: number, collagen?: number];

/** Collagen is a tenth of the protein where nothing else is said. */
const carcass = (
  id: string,
  kind: MaterialKind,
  species: Species,
  [
    fatFraction,
    waterFraction,
    proteinFraction,
    collagen = toNumber(multiply(exact(proteinFraction), exact('0.1'))),
  ]: Makeup,
): Material =>
  material(id, kind, {
    species,
    composition: { fatFraction, waterFraction, proteinFraction, collagenFraction: collagen },
  });

const pure = (id: string, kind: MaterialKind, substances: Material['substances']): Material =>
  material(id, kind, { substances });

const catalog = [
  carcass('beef', 'skeletal meat', 'beef', [0.2, 0.62, 0.17]),
  carcass('beef-fat-06', 'skeletal meat', 'beef', [0.06, 0.72, 0.21]),
  carcass('beef-fat-20', 'skeletal meat', 'beef', [0.2, 0.62, 0.17]),
  carcass('beef-fat-25', 'skeletal meat', 'beef', [0.25, 0.58, 0.16]),
  carcass('beef-fat-27', 'skeletal meat', 'beef', [0.27, 0.56, 0.16]),
  carcass('beef-fat-40', 'skeletal meat', 'beef', [0.4, 0.46, 0.13]),
  carcass('beef-cheek', 'cheek meat', 'beef', [0.14, 0.66, 0.19]),
  carcass('beef-head', 'head meat', 'beef', [0.14, 0.66, 0.19]),
  carcass('beef-heart', 'heart meat', 'beef', [0.1, 0.7, 0.17]),
  carcass('beef-tongue', 'tongue meat', 'beef', [0.16, 0.64, 0.15]),
  carcass('beef-liver', 'liver', 'beef', [0.04, 0.7, 0.2]),
  carcass('beef-byproduct', 'other byproduct', 'beef', [0.1, 0.7, 0.15]),
  carcass('beef-defatted-tissue', 'partially defatted tissue', 'beef', [0.1, 0.7, 0.18]),
  carcass('beef-fat', 'fat', 'beef', [0.9, 0.08, 0.02]),
  carcass('beef-separated', 'mechanically separated', 'beef', [0.2, 0.64, 0.14]),
  carcass('veal', 'skeletal meat', 'veal', [0.1, 0.7, 0.19]),
  carcass('veal-separated', 'mechanically separated', 'veal', [0.2, 0.64, 0.14]),
  carcass('pork', 'skeletal meat', 'pork', [0.2, 0.6, 0.15]),
  carcass('pork-fat-20', 'skeletal meat', 'pork', [0.2, 0.6, 0.15]),
  carcass('pork-fat-30', 'skeletal meat', 'pork', [0.3, 0.54, 0.15]),
  carcass('pork-fat-40', 'skeletal meat', 'pork', [0.4, 0.46, 0.13]),
  carcass('pork-fat-50', 'skeletal meat', 'pork', [0.5, 0.38, 0.11]),
  carcass('pork-fat-70', 'skeletal meat', 'pork', [0.7, 0.22, 0.06]),
  carcass('pork-jowl', 'skeletal meat', 'pork', [0.7, 0.22, 0.06]),
  carcass('pork-head', 'head meat', 'pork', [0.2, 0.6, 0.15]),
  carcass('pork-cheek', 'cheek meat', 'pork', [0.15, 0.65, 0.18]),
  carcass('pork-heart', 'heart meat', 'pork', [0.1, 0.7, 0.17]),
  carcass('pork-tongue', 'tongue meat', 'pork', [0.16, 0.64, 0.15]),
  carcass('pork-liver', 'liver', 'pork', [0.04, 0.7, 0.2]),
  carcass('pork-byproduct', 'other byproduct', 'pork', [0.1, 0.7, 0.15]),
  carcass('pork-defatted-tissue', 'partially defatted tissue', 'pork', [0.1, 0.7, 0.18]),
  carcass('pork-skin', 'skin', 'pork', [0.3, 0.4, 0.28]),
  carcass('pork-fat', 'fat', 'pork', [0.9, 0.08, 0.02]),
  carcass('pork-separated', 'mechanically separated', 'pork', [0.25, 0.6, 0.14]),
  carcass('lamb', 'skeletal meat', 'lamb', [0.2, 0.62, 0.17]),
  carcass('rabbit', 'skeletal meat', 'rabbit', [0.05, 0.74, 0.2]),
  carcass('pork-sinewy', 'skeletal meat', 'pork', [0.1, 0.64, 0.2, 0.1]),
  carcass('beef-sinewy', 'skeletal meat', 'beef', [0.1, 0.64, 0.2, 0.1]),
  carcass('duck', 'skeletal meat', 'duck', [0.05, 0.74, 0.2]),
  carcass('chicken', 'skeletal meat', 'chicken', [0.05, 0.74, 0.2]),
  carcass('chicken-skin', 'skin', 'chicken', [0.4, 0.45, 0.13]),
  carcass('chicken-fat', 'fat', 'chicken', [0.9, 0.08, 0.02]),
  carcass('chicken-separated', 'mechanically separated', 'chicken', [0.15, 0.68, 0.15]),
  carcass('turkey-fat', 'fat', 'turkey', [0.9, 0.08, 0.02]),
  // A finished product of 28 % fat, 56 % moisture, 11.5 % meat protein.
  carcass('emulsion', 'skeletal meat', 'pork', [0.28, 0.56, 0.115]),

  material('water', 'water', { composition: { waterFraction: 1 } }),
  material('ice', 'water', { composition: { waterFraction: 1 } }),
  pure('salt', 'salt', { salt: 1 }),
  material('sugar', 'sweetener'),
  pure('black-pepper', 'spice', { pepper: 1 }),
  pure('fennel-seed', 'spice', { 'fennel or anise': 1 }),
  material('sage', 'spice'),
  material('onion', 'flavoring', { composition: { waterFraction: 0.9 } }),
  material('potato', 'vegetable', { composition: { waterFraction: 0.8 } }),
  material('green-pepper', 'vegetable', {
    composition: { waterFraction: 0.9 },
    substances: { 'red or green pepper': 1 },
  }),
  material('cheese', 'dairy', { composition: { fatFraction: 0.3, waterFraction: 0.4 }, allergens: ['milk'] }),
  material('wine', 'flavoring', { composition: { waterFraction: 0.9 }, substances: { 'free water': 0.9 } }),
  pure('mix-with-soy', 'flavoring', { 'isolated soy protein': 0.2, 'sodium caseinate': 0.1 }),
  pure('mix-with-lactate', 'flavoring', { lactate: 0.3, diacetate: 0.1 }),
  pure('smoke-flavor', 'flavoring', { 'smoke flavor': 1 }),
  material('soy-flour', 'binder', { composition: { proteinFraction: 0.5 }, allergens: ['soy'] }),
  material('nonfat-dry-milk', 'binder', { composition: { proteinFraction: 0.35 }, allergens: ['milk'] }),
  material('isolated-soy-protein', 'binder', {
    composition: { proteinFraction: 0.9 },
    substances: { 'isolated soy protein': 1 },
    allergens: ['soy'],
  }),
  material('sodium-caseinate', 'binder', {
    composition: { proteinFraction: 0.9 },
    substances: { 'sodium caseinate': 1 },
    allergens: ['milk'],
  }),
  pure('carrageenan', 'binder', { carrageenan: 1 }),
  pure('modified-starch', 'binder', { 'modified food starch': 1 }),
  pure('soy-concentrate', 'binder', { 'soy protein concentrate': 1 }),
  pure('methyl-cellulose', 'binder', { 'methyl cellulose': 1 }),
  pure('transglutaminase', 'binder', { transglutaminase: 1 }),
  pure('pork-collagen', 'binder', { 'pork collagen': 1 }),
  material('gelatin', 'binder', { composition: { proteinFraction: 0.85 }, substances: { gelatin: 0.85 } }),
  pure('corn-syrup-solids', 'sweetener', { 'corn syrup solids': 1 }),
  pure('sorbitol', 'sweetener', { sorbitol: 1 }),
  pure('sodium-nitrite', 'cure', { 'sodium nitrite': 1 }),
  pure('potassium-nitrite', 'cure', { 'potassium nitrite': 1 }),
  pure('cure-6.25', 'cure', { 'sodium nitrite': 0.0625, salt: 0.9375 }),
  pure('cure-0.6', 'cure', { 'sodium nitrite': 0.006, salt: 0.994 }),
  // 2 lb of nitrite in 100 gal of pickle of 10 lb a gallon.
  pure('pickle-nitrite', 'cure', { 'sodium nitrite': 0.002 }),
  // 7 lb of nitrate in 100 gal of pickle of 10 lb a gallon.
  pure('pickle-nitrate', 'cure', { 'sodium nitrate': 0.007 }),
  pure('sodium-nitrate', 'cure', { 'sodium nitrate': 1 }),
  pure('potassium-nitrate', 'cure', { 'potassium nitrate': 1 }),
  pure('ascorbic-acid', 'cure accelerator', { 'ascorbic acid': 1 }),
  pure('erythorbic-acid', 'cure accelerator', { 'erythorbic acid': 1 }),
  pure('sodium-ascorbate', 'cure accelerator', { 'sodium ascorbate': 1 }),
  pure('sodium-erythorbate', 'cure accelerator', { 'sodium erythorbate': 1 }),
  pure('sodium-erythorbate-hydrate', 'cure accelerator', { 'sodium erythorbate monohydrate': 1 }),
  pure('fumaric-acid', 'cure accelerator', { 'fumaric acid': 1 }),
  pure('glucono-delta-lactone', 'cure accelerator', { 'glucono delta lactone': 1 }),
  pure('cure-with-citric-acid', 'cure', { 'sodium nitrite': 0.0625, 'citric acid': 0.5 }),
  pure('citric-acid', 'cure accelerator', { 'citric acid': 1 }),
  pure('sodium-tripolyphosphate', 'phosphate', { phosphate: 1, P2O5: 0.57879 }),
  pure('sodium-acid-pyrophosphate', 'phosphate', {
    phosphate: 1,
    P2O5: 0.63956,
    'sodium acid pyrophosphate': 1,
  }),
  pure('sulfite', 'preservative', { 'sulfur dioxide': 0.67 }),
  pure('sodium-lactate', 'antimicrobial', { lactate: 1 }),
  pure('sodium-diacetate', 'antimicrobial', { diacetate: 1 }),
  pure('BHA', 'antioxidant', { BHA: 1 }),
  pure('BHT', 'antioxidant', { BHT: 1 }),
  pure('propyl-gallate', 'antioxidant', { 'propyl gallate': 1 }),
  pure('TBHQ', 'antioxidant', { TBHQ: 1 }),
  pure('tocopherols', 'antioxidant', { tocopherols: 1 }),
  pure('BHA-and-BHT', 'antioxidant', { BHA: 0.5, BHT: 0.5 }),
  pure('BHA-and-citric-acid', 'antioxidant', { BHA: 0.5, 'citric acid': 0.5 }),
];

/** Every material of this file, for tests that go through all of them. */
export const TEST_MATERIALS: readonly Material[] = catalog;

const byId = new Map(catalog.map((entry) => [entry.id, entry]));

export function testMaterial(id: string): Material {
  const found = byId.get(id);
  if (!found) throw new RangeError(`no test material ${id}`);
  return found;
}

export function testSupply(id: string, costPerKg = 1): Supply {
  return supplyOfMaterial(testMaterial(id), costPerKg);
}

export const RAW: Process = {
  cooking: 'raw',
  smoked: false,
  yieldFraction: 1,
  fatLossFraction: 0,
  grindPlates: [],
  mixing: [],
};

export const COOKED: Process = { ...RAW, cooking: 'cooked' };
export const DRIED: Process = { ...RAW, cooking: 'dried' };

/** One weighed material, its mass as decimal text so that it is read exactly. */
export type Weighed = readonly [materialId: string, mass: string, unit?: MassUnit];

export function exactKg(mass: string, unit: MassUnit = 'kg'): Exact {
  return multiply(exact(mass), KILOGRAMS_PER[unit]);
}

/** Coefficients and exact weights of a batch of test materials. */
export function weigh(lines: readonly Weighed[], process: Process = RAW) {
  const coefficients = new Coefficients(
    lines.map(([id]) => testSupply(id)),
    process,
  );
  return { coefficients, massesKg: lines.map(([, mass, unit]) => exactKg(mass, unit)) };
}

export function checkOne(limit: Limit, lines: readonly Weighed[], process: Process = RAW): Check {
  const { coefficients, massesKg } = weigh(lines, process);
  const [check] = checkLimits([limit], coefficients, massesKg);
  if (!check) throw new RangeError(`${limit.id} was not checked`);
  return check;
}

/** Every standard with its rule set. */
export const ALL_STANDARDS: readonly { readonly ruleSet: RuleSet; readonly standard: Standard }[] =
  RULE_SETS.flatMap((ruleSet) => ruleSet.standards.map((standard) => ({ ruleSet, standard })));

/** Every limit of every standard, one a standard, so that a limit shared by two is there twice. */
export const ALL_LIMITS: readonly { readonly standard: Standard; readonly limit: Limit }[] =
  ALL_STANDARDS.flatMap(({ standard }) => standard.limits.map((limit) => ({ standard, limit })));

/** Limits by id; the data test proves that one id is one limit. */
export const LIMITS_BY_ID: ReadonlyMap<string, Limit> = new Map(
  ALL_LIMITS.map(({ limit }) => [limit.id, limit]),
);

export function limitOf(id: string): Limit {
  const found = LIMITS_BY_ID.get(id);
  if (!found) throw new RangeError(`no limit ${id}`);
  return found;
}

export function standardOf(productClass: string, jurisdiction = 'us'): Standard {
  const ruleSet = RULE_SETS.find((candidate) => candidate.jurisdiction === jurisdiction);
  const found = ruleSet && findStandard(ruleSet, productClass);
  if (!found) throw new RangeError(`no standard ${productClass}`);
  return found;
}

/** A product of a class with nothing in its recipe; a test gives what it is about. */
export function testProduct(productClass: string, given: Partial<Product> = {}): Product {
  return {
    id: 'test-product',
    name: 'House Product',
    standard: { jurisdiction: 'us', productClass },
    meatBlock: [],
    seasoning: [],
    targets: [],
    process: RAW,
    form: { shape: 'bulk' },
    label: { storage: 'keep refrigerated' },
    ...given,
  };
}

/** A settled line of a blend, weighed on a scale of one gram. */
export function blendLine(supplied: Material, massKg: string): BlendLine {
  const exactMassKg = exact(massKg);
  const scale = { id: 'test', name: 'Test scale', unit: 'kg', division: '0.001', capacity: 1e6 } as const;
  return {
    supply: supplyOfMaterial(supplied, 1),
    weight: { scale, divisions: Math.round(Number(massKg) * 1000), text: massKg },
    massKg: Number(massKg),
    exactMassKg,
    cost: Number(massKg),
  };
}

/** A blend of these lines, for what reads nothing but the lines. */
export function blendOf(lines: readonly BlendLine[]): Blend {
  const batchKg = lines.reduce((total, { massKg }) => total + massKg, 0);
  const makeup = { fatFraction: 0, waterFraction: 0, proteinFraction: 0, saltFraction: 0 };
  return {
    lines,
    loads: 1,
    batchKg,
    loadKg: batchKg,
    greenWeightKg: batchKg,
    finishedKg: batchKg,
    cost: 0,
    unroundedCost: 0,
    proof: { among: 'of this weight', leastCost: 0, aboveLeast: 0 },
    certainty: [],
    checks: [],
    switchedOff: [],
    raw: makeup,
    finished: makeup,
    leftOut: [],
    cautions: [],
  };
}
