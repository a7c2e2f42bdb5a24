import type { Supply } from '../../src/batch/lot.ts';
import type { Process, Product } from '../../src/batch/product.ts';
import type { Blend } from '../../src/formulate/blend.ts';
import type { BatchSize } from '../../src/formulate/request.ts';
import type { Standard } from '../../src/rules/standard.ts';
import type { LinearModel, Row } from '../../src/solver/model.ts';

/**
 * The trade's quantities worked out a second time, in whole numbers of fixed grains and by the words of each
 * limit, sharing no arithmetic with the product: a mass is a count of 1e-18 kg, a share of 1e-20.
 */
const MASS_GRAINS = 18;
const SHARE_GRAINS = 20;
const BOUND_GRAINS = 12;

/** A decimal as a whole number of grains of 10^-decimals. */
export function grains(value: number | string, decimals: number): bigint {
  const [mantissa = '', power = '0'] = String(value).toLowerCase().split('e');
  const [whole = '0', fraction = ''] = mantissa.split('.');
  const missing = decimals - fraction.length + Number(power);
  const digits = BigInt(whole + fraction);
  if (missing >= 0) return digits * 10n ** BigInt(missing);
  const step = 10n ** BigInt(-missing);
  if (digits % step !== 0n) throw new RangeError(`${value} is finer than 1e-${decimals}`);
  return digits / step;
}

const share = (value: number) => grains(value, SHARE_GRAINS);
const WHOLE = share(1);

/** One avoirdupois pound is 0.45359237 kg exactly (NIST Handbook 44, Appendix C). */
const GRAINS_PER_UNIT: Readonly<Record<string, bigint>> = {
  kg: grains(1, 15),
  g: grains(1, 12),
  lb: grains('0.45359237', 15),
  oz: grains('0.45359237', 15) / 16n,
};

/** Grains of 1e-18 kg in a printed weight; its text may have up to three decimals. */
export function printedGrains(text: string, unit: string): bigint {
  return grains(text, 3) * (GRAINS_PER_UNIT[unit] as bigint);
}

export const massGrains = (massKg: number) => grains(massKg, MASS_GRAINS);
export const inKg = (mass: bigint) => Number(mass) / 1e18;

export function divisionGrains({ division, unit }: { division: string; unit: string }): bigint {
  return printedGrains(division, unit);
}

/** How much of something one kilogram of a supply brings, in grains of 1e-20. */
export type Brings = (supply: Supply, process: Process) => bigint;

const CARCASS = new Set<string>([
  'skeletal meat',
  'cheek meat',
  'head meat',
  'heart meat',
  'tongue meat',
  'liver',
  'other byproduct',
  'mechanically separated',
  'partially defatted tissue',
  'fat',
  'skin',
]);
const BYPRODUCTS = ['liver', 'other byproduct', 'partially defatted tissue', 'skin'];
const BIRDS = ['chicken', 'turkey'];

export const isCarcass = ({ material }: Supply) => CARCASS.has(material.kind);
const isKind = (supply: Supply, ...kinds: string[]) => kinds.includes(supply.material.kind);
const isBird = ({ material }: Supply) => BIRDS.includes(material.species ?? '');
const whole = (yes: boolean) => (yes ? WHOLE : 0n);
const holds = ({ material }: Supply, substance: keyof Supply['material']['substances']) =>
  share(material.substances[substance] ?? 0);

const finished: Brings = (_, { yieldFraction }) => share(yieldFraction);
const fatLeft: Brings = ({ composition }, { fatLossFraction }) =>
  share(composition.fatFraction) - share(fatLossFraction);
const waterLeft: Brings = ({ composition }, { yieldFraction, fatLossFraction }) =>
  share(composition.waterFraction) - (WHOLE - share(yieldFraction) - share(fatLossFraction));
const addedWater: Brings = (supply, process) =>
  waterLeft(supply, process) - (isCarcass(supply) ? 4n * share(supply.composition.proteinFraction) : 0n);
const carries =
  (...names: (keyof Supply['material']['substances'])[]): Brings =>
  (supply) =>
    names.reduce((sum, name) => sum + holds(supply, name), 0n);
const all: Brings = () => WHOLE;
const meat: Brings = (supply) => whole(isCarcass(supply));
const protein: Brings = ({ composition }) => share(composition.proteinFraction);
const addedWaterByAllProtein: Brings = (supply, process) =>
  waterLeft(supply, process) - 4n * protein(supply, process);
const accelerators = carries('ascorbic acid', 'sodium ascorbate');
/** Water that a liquid of another kind brings. */
const freeWater: Brings = (supply) => (isKind(supply, 'water') ? 0n : holds(supply, 'free water'));
const waterPutIn: Brings = (supply, process) => whole(isKind(supply, 'water')) + freeWater(supply, process);
const soyAndCaseinate = carries('isolated soy protein', 'sodium caseinate');
const isFiller = (supply: Supply) => isKind(supply, 'vegetable', 'dairy');
const citricAcidOf =
  (...kinds: string[]): Brings =>
  (supply) =>
    isKind(supply, ...kinds) ? holds(supply, 'citric acid') : 0n;
const citricAcidAsAccelerator = citricAcidOf('cure', 'cure accelerator');
const cost: Brings = ({ costPerKg }) => share(costPerKg);

/** What each form means, said again from the regulations' words. */
export const MEANING: Readonly<Record<string, Brings>> = {
  formula: all,
  formulaWithoutWater: (supply, process) => WHOLE - waterPutIn(supply, process),
  finished,
  greenWeight: meat,
  fat: ({ composition }) => share(composition.fatFraction),
  finishedFat: fatLeft,
  waterPutIn,
  addedWater,
  fatAndAddedWater: (supply, process) => fatLeft(supply, process) + addedWater(supply, process),
  addedWaterByAllProtein,
  fatAndAddedWaterByAllProtein: (supply, process) =>
    fatLeft(supply, process) + addedWaterByAllProtein(supply, process),
  notBeef: (supply) => whole(isCarcass(supply) && supply.material.species !== 'beef'),
  notPork: (supply) => whole(isCarcass(supply) && supply.material.species !== 'pork'),
  cheekMeat: (supply) => whole(isKind(supply, 'cheek meat')),
  organMeat: (supply) => whole(isKind(supply, 'heart meat', 'tongue meat')),
  byproducts: (supply) => whole(isKind(supply, ...BYPRODUCTS)),
  byproductsOtherThanDefattedTissue: (supply) => whole(isKind(supply, 'liver', 'other byproduct', 'skin')),
  notMuscleOfOneAnimal: (supply) => whole(isCarcass(supply) && !isKind(supply, 'skeletal meat', 'fat')),
  fatAsSuch: (supply) => whole(isKind(supply, 'fat')),
  mechanicallySeparated: (supply) => whole(isKind(supply, 'mechanically separated') && !isBird(supply)),
  mechanicallySeparatedBeef: (supply) =>
    whole(
      isKind(supply, 'mechanically separated') && ['beef', 'veal'].includes(supply.material.species ?? ''),
    ),
  mechanicallySeparatedMeat: (supply) => whole(isKind(supply, 'mechanically separated')),
  poultry: (supply) => whole(isCarcass(supply) && isBird(supply)),
  poultrySkinAndFat: (supply) => whole(isBird(supply) && isKind(supply, 'skin', 'fat')),
  meatOrFat: (supply) => whole(isKind(supply, 'skeletal meat', 'head meat', 'cheek meat', 'fat')),
  notSeasoning: (supply) => whole(isFiller(supply)),
  notSeasoningNorPepper: (supply) => (isFiller(supply) ? WHOLE - holds(supply, 'red or green pepper') : 0n),
  nitrite: carries('nitrite'),
  nitrate: carries('nitrate'),
  nitriteAndNitrate: carries('nitrite', 'nitrate'),
  ascorbicAcid: carries('ascorbic acid'),
  sodiumAscorbate: carries('sodium ascorbate'),
  accelerators,
  citricAcidAsAccelerator,
  acceleratorsAndCitricAcid: (supply, process) =>
    accelerators(supply, process) + citricAcidAsAccelerator(supply, process),
  citricAcidAsSynergist: citricAcidOf('antioxidant'),
  phosphate: carries('phosphate'),
  // 2 % of isolated soy protein or caseinate counts as 3.5 % of binder: each kilogram weighs 1.75. In a binder the
  // first 1 of it is the weight of the binder itself.
  binder: (supply, process) =>
    isKind(supply, 'binder')
      ? WHOLE + (3n * soyAndCaseinate(supply, process)) / 4n
      : (7n * soyAndCaseinate(supply, process)) / 4n,
  anyBinder: (supply, process) => (isKind(supply, 'binder') ? WHOLE : soyAndCaseinate(supply, process)),
  isolatedSoy: carries('isolated soy protein'),
  caseinate: carries('sodium caseinate'),
  antimicrobials: (supply, process) =>
    isKind(supply, 'antimicrobial') ? WHOLE : carries('lactate', 'diacetate')(supply, process),
  lactate: carries('lactate'),
  diacetate: carries('diacetate'),
  antioxidants: carries('BHA', 'BHT', 'propyl gallate', 'TBHQ'),
  BHA: carries('BHA'),
  BHT: carries('BHT'),
  propylGallate: carries('propyl gallate'),
  TBHQ: carries('TBHQ'),
  saltPutIn: carries('salt'),
  pepper: carries('pepper'),
  fennelOrAnise: carries('fennel or anise'),
};

const BASES: Readonly<Record<string, Brings>> = {
  'green weight': meat,
  batch: all,
  'finished weight': finished,
};

export interface Demand {
  readonly id: string;
  readonly sense: 'max' | 'min' | 'present';
  readonly bound: number;
  readonly numerator: Brings;
  readonly basis: Brings;
}

/** No process loses more fat or water than the batch holds. */
const BALANCE: readonly Demand[] = [
  { id: 'mass-balance-fat', sense: 'min', bound: 0, numerator: fatLeft, basis: all },
  { id: 'mass-balance-water', sense: 'min', bound: 0, numerator: waterLeft, basis: all },
];

/** Every limit of the law, of nature and of the house on a product, read from the data of both. */
export function demandsOn(product: Product, standard: Standard, date: string): Demand[] {
  const law = standard.limits
    .filter(
      ({ inForce }) => !(inForce?.from && date < inForce.from) && !(inForce?.until && date >= inForce.until),
    )
    .map(({ id, sense, bound, numerator, basis }) => ({
      id,
      sense,
      bound,
      numerator: meaning(numerator.id),
      basis: meaning(basis.id),
    }));
  return [...law, ...BALANCE, ...houseDemands(product)];
}

function meaning(formId: string): Brings {
  const found = MEANING[formId];
  if (!found) throw new RangeError(`the form ${formId} is not worked out by hand yet`);
  return found;
}

function houseDemands({ targets, label, meatBlock, seasoning }: Product): Demand[] {
  const found: Demand[] = [];
  const between = (
    id: string,
    numerator: Brings,
    basis: Brings,
    min: number | undefined,
    max: number | undefined,
  ) => {
    if (min !== undefined) found.push({ id: `${id}-min`, sense: 'min', bound: min, numerator, basis });
    if (max !== undefined) found.push({ id: `${id}-max`, sense: 'max', bound: max, numerator, basis });
  };
  const measured: Record<string, Brings> = {
    fat: fatLeft,
    water: waterLeft,
    protein,
    salt: ({ composition }) => share(composition.saltFraction),
    'cost per kg': cost,
  };
  for (const { measure, min, max } of targets) {
    between(`house-${measure.replaceAll(' ', '-')}`, measured[measure] as Brings, finished, min, max);
  }
  if (label.leanPercent !== undefined) {
    between(
      'house-label-lean',
      fatLeft,
      finished,
      undefined,
      Number((1 - label.leanPercent / 100).toFixed(6)),
    );
  }
  meatBlock.forEach((part, index) => {
    const inPart: Brings = (supply) => whole(isInPart(part, supply));
    between(
      `house-share-${index + 1}`,
      inPart,
      meat,
      part.minFraction === 0 ? undefined : part.minFraction,
      part.maxFraction === 1 ? undefined : part.maxFraction,
    );
  });
  for (const { materialId, basis, minFraction, maxFraction } of seasoning) {
    if (minFraction === maxFraction) continue;
    const line: Brings = ({ material }) => whole(material.id === materialId);
    const of = BASES[basis] as Brings;
    between(`house-line-${materialId}`, line, of, minFraction === 0 ? undefined : minFraction, maxFraction);
  }
  return found;
}

function isInPart(part: Product['meatBlock'][number], { material }: Supply): boolean {
  return (
    (part.materialIds?.includes(material.id) ?? true) &&
    (part.kinds?.includes(material.kind) ?? true) &&
    (part.species === undefined ||
      (material.species !== undefined && part.species.includes(material.species)))
  );
}

/** The supplies that may go in: they have a place, are good on the day, and no rule forbids them. */
export function eligible(
  supplies: readonly Supply[],
  product: Product,
  demands: readonly Demand[],
  date: string,
): Supply[] {
  return supplies.filter((supply) => {
    const { lot, material, onHandKg } = supply;
    const hasPlace = isCarcass(supply)
      ? product.meatBlock.some((part) => isInPart(part, supply))
      : product.seasoning.some(({ materialId }) => materialId === material.id);
    if (!hasPlace || onHandKg <= 0) return false;
    if (lot?.useByDate !== undefined && lot.useByDate < date) return false;
    if (lot !== undefined && lot.receivedDate > date) return false;
    return !demands.some(
      ({ sense, bound, numerator }) =>
        sense === 'max' && bound === 0 && numerator(supply, product.process) > 0n,
    );
  });
}

/** Grains (1e-38) of something in a batch of these weights. */
export function total(
  brings: Brings,
  process: Process,
  weights: readonly { readonly supply: Supply; readonly mass: bigint }[],
): bigint {
  return weights.reduce((sum, { supply, mass }) => sum + brings(supply, process) * mass, 0n);
}

/** Whether a demand holds on exact weights, decided in whole numbers. */
export function isMet(
  { sense, bound, numerator, basis }: Demand,
  process: Process,
  weights: readonly { readonly supply: Supply; readonly mass: bigint }[],
): boolean {
  const have = total(numerator, process, weights) * 10n ** BigInt(BOUND_GRAINS);
  if (sense === 'present') return have > 0n;
  const allowed = grains(bound, BOUND_GRAINS) * total(basis, process, weights);
  return sense === 'max' ? have <= allowed : have >= allowed;
}

export function weightsOf(blend: Blend) {
  return blend.lines.map((line) => ({
    supply: line.supply,
    mass: printedGrains(line.weight.text, line.weight.scale.unit) * BigInt(blend.loads),
  }));
}

/** What the asked size counts and how many kilograms of it are asked. */
export function asked(
  size: BatchSize,
  product: Product,
): { readonly counts: Brings; readonly massKg: number } {
  switch (size.by) {
    case 'total':
      return { counts: all, massKg: size.massKg };
    case 'meat':
      return { counts: meat, massKg: size.massKg };
    case 'finished':
      return { counts: finished, massKg: size.massKg };
    case 'pieces':
      return { counts: all, massKg: size.pieces * (product.form.pieceKg ?? Number.NaN) };
  }
}

export interface OwnProblem {
  readonly usable: readonly Supply[];
  readonly demands: readonly Demand[];
  readonly model: LinearModel;
}

interface Asked {
  readonly product: Product;
  readonly standard: Standard;
  readonly supplies: readonly Supply[];
  readonly size: BatchSize;
  readonly date: string;
}

/**
 * The linear problem of a request. Where weights are given, the batch has their size and each fixed seasoning
 * weighs what it weighs there: the least cost of such a batch cannot be above the cost of those weights.
 * @param heldBackKg by how much each supply may be off: every limit is held back by all of that together.
 */
export function ownProblem(
  { product, standard, supplies, size, date }: Asked,
  weights?: readonly { readonly supply: Supply; readonly mass: bigint }[],
  heldBackKg: (supply: Supply) => number = () => 0,
): OwnProblem {
  const { process } = product;
  const demands = demandsOn(product, standard, date);
  const usable = eligible(supplies, product, demands, date);
  const perKg = (brings: Brings) => usable.map((supply) => Number(brings(supply, process)) / 1e20);
  const row = (name: string, coefficients: readonly number[], lower: number, upper: number): Row => ({
    name,
    lower,
    upper,
    terms: coefficients.map((coefficient, column) => ({ column, coefficient })),
  });
  const wanted = asked(size, product);
  const sizeKg = weights ? Number(total(wanted.counts, process, weights)) / 1e38 : wanted.massKg;
  const rows: Row[] = [row('size', perKg(wanted.counts), sizeKg, sizeKg)];
  for (const { materialId, basis, minFraction, maxFraction } of product.seasoning) {
    if (minFraction !== maxFraction) continue;
    const line: Brings = ({ material }) => whole(material.id === materialId);
    if (weights) {
      const massKg = Number(total(line, process, weights)) / 1e38;
      rows.push(row(materialId, perKg(line), massKg, massKg));
    } else {
      const of = perKg(BASES[basis] as Brings);
      const coefficients = perKg(line).map((own, column) => own - minFraction * (of[column] as number));
      rows.push(row(materialId, coefficients, 0, 0));
    }
  }
  for (const { id, sense, bound, numerator, basis } of demands) {
    if (sense === 'present') continue;
    // Subtracted in grains, so that an exact zero stays one.
    const coefficients = usable.map((supply) => {
      const exactly =
        numerator(supply, process) * 10n ** BigInt(BOUND_GRAINS) -
        grains(bound, BOUND_GRAINS) * basis(supply, process);
      return Number(exactly) / 1e32;
    });
    const back = coefficients.reduce(
      (sum, perKg, column) => sum + Math.abs(perKg) * heldBackKg(usable[column] as Supply),
      0,
    );
    const free = Number.POSITIVE_INFINITY;
    rows.push(row(id, coefficients, sense === 'min' ? back : -free, sense === 'max' ? -back : free));
  }
  return {
    usable,
    demands,
    model: {
      columns: usable.map(({ costPerKg, onHandKg }) => ({ cost: costPerKg, lower: 0, upper: onHandKg })),
      rows,
    },
  };
}

export const basisMeaning = (basis: string) => BASES[basis] as Brings;
