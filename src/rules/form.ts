import { carries, NEEDED_WITH } from '../batch/carries.ts';
import type { Composition } from '../batch/composition.ts';
import type { Supply } from '../batch/lot.ts';
import { partsOf } from '../batch/made-of.ts';
import type { Material, MaterialKind, Species, Substance } from '../batch/material.ts';
import type { Process } from '../batch/product.ts';
import { add, type Exact, exact, multiply, ONE, subtract, sum, ZERO } from '../exact.ts';

/**
 * A linear form: a weighted sum, over what goes into the batch, of kilograms of something. Every limit of the
 * trade compares two of these, so a form is data and is evaluated in one place.
 */
export interface Form {
  readonly id: string;
  /** In the trade's words, as it stands in an explanation. */
  readonly says: string;
  readonly terms: readonly FormTerm[];
}

export interface FormTerm {
  readonly of: Quantity;
  /** Only materials that match every given list count; absent means all. */
  readonly from?: Selector;
  readonly times: number;
  /** What the process makes of it, times the number. */
  readonly process?: ProcessFactor;
}

/**
 * Several forms of which the one that shows the batch in the worst light counts: the greatest under a maximum,
 * the least under a minimum. So a rule with "up to" or "not below zero" in its words stays linear.
 */
export interface WorstOf {
  readonly id: string;
  readonly says: string;
  readonly worstOf: readonly Form[];
}

/** The forms of a numerator; one for nearly every limit. */
export function formsOf(numerator: Form | WorstOf): readonly Form[] {
  return 'worstOf' in numerator ? numerator.worstOf : [numerator];
}

export type Quantity =
  | 'mass'
  | 'cost'
  | { readonly constituent: Constituent }
  | { readonly substance: Substance };

export type Constituent = {
  [Key in keyof Composition]-?: Key extends `${infer Name}Fraction` ? Name : never;
}[keyof Composition];

/**
 * Which materials count. A selector that names the kind 'rework', to have it or to leave it out, is about what is
 * weighed; every other one looks into rework and finds its ingredients.
 */
export interface Selector {
  readonly kinds?: readonly MaterialKind[];
  readonly exceptKinds?: readonly MaterialKind[];
  readonly species?: readonly Species[];
  readonly exceptSpecies?: readonly Species[];
  readonly materialIds?: readonly string[];
}

/** What the process fixes: finished over raw weight, and the water and fat lost per raw kilogram. */
export type ProcessFactor = 'yield' | 'water loss' | 'fat loss';

/** A figure that a form needs and that a material does not have. */
export class MissingFigure extends Error {
  readonly materialId: string;
  readonly constituent: string;

  constructor(materialId: string, constituent: string) {
    super(`${materialId} has no figure for ${constituent}; add it to its table`);
    this.name = 'MissingFigure';
    this.materialId = materialId;
    this.constituent = constituent;
  }
}

/** Whether a material may lack a figure that the form counts. */
export function mayLack({ terms }: Form): boolean {
  return terms.some(
    ({ of }) =>
      typeof of === 'object' &&
      ('constituent' in of ? OPTIONAL.includes(of.constituent) : NEEDED_WITH[of.substance] !== undefined),
  );
}

/** Constituents that are not determined for every material. */
const OPTIONAL: readonly Constituent[] = ['collagen', 'saturatedFat'];

/** Whether a supply matches every list that the selector gives. */
export function selects(selector: Selector | undefined, { material }: Supply): boolean {
  if (!selector) return true;
  const { kinds, exceptKinds, species, exceptSpecies, materialIds } = selector;
  if (kinds && !kinds.includes(material.kind)) return false;
  if (exceptKinds?.includes(material.kind)) return false;
  if (species && !(material.species && species.includes(material.species))) return false;
  if (exceptSpecies && material.species && exceptSpecies.includes(material.species)) return false;
  return !materialIds || materialIds.includes(material.id);
}

/**
 * Kilograms of the form per kilogram of the supply, exact. Of rework it is the sum over what it is made of, each by its
 * share: rework counts as if its ingredients, and less than nothing of what the process took, were put in.
 * @throws MissingFigure when a composition lacks a constituent that the form counts.
 */
export function coefficient(form: Form, supply: Supply, process: Process): Exact {
  let total = ZERO;
  for (const term of form.terms) {
    const { times, process: factor } = term;
    const perKg = counted(term, supply);
    if (perKg === ZERO) continue;
    const part = times === 1 ? perKg : multiply(perKg, exact(times));
    total = add(total, factor ? multiply(part, processFactor(factor, process)) : part);
  }
  return total;
}

/** What a supply is made of, each part as a supply of its own with its kilograms per kilogram; none for all but rework. */
export function partsOfSupply(
  supply: Supply,
): readonly { readonly part: Supply; readonly fraction: string }[] {
  if (!supply.material.madeOf) return [];
  return partsOf(supply.material, supply.composition).map(({ material, fraction }) => ({
    part: {
      id: material.id,
      material,
      composition: material.composition,
      costPerKg: 0,
      onHandKg: Number.POSITIVE_INFINITY,
    },
    fraction,
  }));
}

/** Kilograms that a term counts of a kilogram of the supply, before its factors. */
function counted(term: FormTerm, supply: Supply): Exact {
  const { of, from } = term;
  if (supply.material.madeOf && !isOfWhatIsWeighed(term)) {
    return sum(partsOfSupply(supply).map(({ part, fraction }) => share(counted(term, part), fraction)));
  }
  return selects(from, supply) ? quantity(of, supply) : ZERO;
}

function share(perKg: Exact, fraction: string): Exact {
  return perKg === ZERO ? ZERO : multiply(perKg, exact(fraction));
}

/** A price is paid for what is weighed, and only there is rework a kind. */
function isOfWhatIsWeighed({ of, from }: FormTerm): boolean {
  const named = [...(from?.kinds ?? []), ...(from?.exceptKinds ?? [])];
  return of === 'cost' || named.includes('rework');
}

function quantity(of: Quantity, supply: Supply): Exact {
  if (of === 'mass') return ONE;
  if (of === 'cost') return exact(supply.costPerKg);
  if ('substance' in of) return substance(of.substance, supply.material);
  const fraction = supply.composition[`${of.constituent}Fraction`];
  if (fraction === undefined) throw new MissingFigure(supply.material.id, of.constituent);
  return exact(fraction);
}

function substance(name: Substance, material: Material): Exact {
  const fraction = material.substances[name];
  if (fraction === undefined && carries(material, NEEDED_WITH[name] ?? [])) {
    throw new MissingFigure(material.id, name);
  }
  return exact(fraction ?? 0);
}

function processFactor(factor: ProcessFactor, process: Process): Exact {
  const yieldFraction = exact(process.yieldFraction);
  const fatLoss = exact(process.fatLossFraction);
  if (factor === 'yield') return yieldFraction;
  if (factor === 'fat loss') return fatLoss;
  return subtract(subtract(ONE, yieldFraction), fatLoss);
}
