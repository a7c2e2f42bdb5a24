import type { Supply } from '../../../src/batch/lot.ts';
import type { Process, Product } from '../../../src/batch/product.ts';
import type { Blend } from '../../../src/formulate/blend.ts';
import type { BatchSize } from '../../../src/formulate/request.ts';
import type { Sense } from '../../../src/rules/limit.ts';
import type { Standard } from '../../../src/rules/standard.ts';
import type { LinearModel, Row } from '../../../src/solver/model.ts';
import { AUSTRALASIA } from './australasia.ts';
import { CANADA } from './canada.ts';
import { CODEX } from './codex.ts';
import { CURED_CUTS } from './cured-cuts.ts';
import { EUROPE } from './europe.ts';
import { GENERAL } from './general.ts';
import {
  all,
  type Brings,
  cost,
  fatLeft,
  finished,
  grains,
  isCarcass,
  type Meaning,
  meat,
  printedGrains,
  protein,
  share,
  waterLeft,
  whole,
} from './quantities.ts';

const BOUND_GRAINS = 12;

/** Every limit on a product, said again from the words of the law and the house and decided in whole numbers. */

const MEANING: Readonly<Record<string, Meaning>> = {
  ...GENERAL,
  ...CURED_CUTS,
  ...EUROPE,
  ...CANADA,
  ...CODEX,
  ...AUSTRALASIA,
};

const BASES: Readonly<Record<string, Brings>> = {
  'green weight': meat,
  batch: all,
  'finished weight': finished,
};

export interface Demand {
  readonly id: string;
  readonly sense: Sense;
  readonly bound: number;
  readonly within?: number;
  readonly numerator: readonly Brings[];
  readonly basis: Brings;
}

/** No process loses more fat or water than the batch holds. */
const BALANCE: readonly Demand[] = [
  { id: 'mass-balance-fat', sense: 'min', bound: 0, numerator: [fatLeft], basis: all },
  { id: 'mass-balance-water', sense: 'min', bound: 0, numerator: [waterLeft], basis: all },
];

/** Every limit of the law, of nature and of the house on a product, read from the data of both. */
export function demandsOn(product: Product, standard: Standard, date: string): Demand[] {
  const law = standard.limits
    .filter(
      ({ inForce }) => !(inForce?.from && date < inForce.from) && !(inForce?.until && date >= inForce.until),
    )
    .map(({ id, sense, bound, within, numerator, basis }) => ({
      id,
      sense,
      bound,
      ...(within !== undefined && { within }),
      numerator: meanings(numerator.id),
      basis: onlyMeaning(basis.id),
    }));
  return [...law, ...BALANCE, ...houseDemands(product)];
}

function meanings(formId: string): readonly Brings[] {
  const found = MEANING[formId];
  if (!found) throw new RangeError(`the form ${formId} is not worked out by hand yet`);
  return typeof found === 'function' ? [found] : found;
}

function onlyMeaning(formId: string): Brings {
  const [only, ...more] = meanings(formId);
  if (!only || more.length > 0) throw new RangeError(`${formId} is no single sum`);
  return only;
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
    if (min !== undefined)
      found.push({ id: `${id}-min`, sense: 'min', bound: min, numerator: [numerator], basis });
    if (max !== undefined)
      found.push({ id: `${id}-max`, sense: 'max', bound: max, numerator: [numerator], basis });
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
        sense === 'max' && bound === 0 && numerator.some((brings) => brings(supply, product.process) > 0n),
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
  { sense, bound, within = 0, numerator, basis }: Demand,
  process: Process,
  weights: readonly { readonly supply: Supply; readonly mass: bigint }[],
): boolean {
  const base = total(basis, process, weights);
  return numerator.every((brings) => {
    const have = total(brings, process, weights) * 10n ** BigInt(2 * BOUND_GRAINS);
    if (sense === 'present') return have > 0n;
    const at = (factor: number) => grains(bound, BOUND_GRAINS) * grains(factor, BOUND_GRAINS) * base;
    if (sense === 'target') return have >= at(1 - within) && have <= at(1 + within);
    return sense === 'max' ? have <= at(1) : have >= at(1);
  });
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
  const limitRow = (id: string, side: 'max' | 'min', bound: number, numerator: Brings, basis: Brings) => {
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
    rows.push(row(id, coefficients, side === 'min' ? back : -free, side === 'max' ? -back : free));
  };
  for (const { id, sense, bound, within = 0, numerator, basis } of demands) {
    for (const brings of numerator) {
      if (sense === 'max' || sense === 'min') limitRow(id, sense, bound, brings, basis);
      if (sense !== 'target') continue;
      limitRow(id, 'min', fine(bound * (1 - within)), brings, basis);
      limitRow(id, 'max', fine(bound * (1 + within)), brings, basis);
    }
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

/** A product of two decimals without the noise of the multiplication. */
const fine = (value: number) => Number(value.toPrecision(9));

export const basisMeaning = (basis: string) => BASES[basis] as Brings;
