import type { HouseRules } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
import type { Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Product } from '../batch/product.ts';
import { type MixLine, testedMix } from '../correct/tested-mix.ts';
import { add, type Exact, exact, multiply, toNumber } from '../exact.ts';
import type { Makeup } from '../formulate/blend.ts';
import { makeup } from '../formulate/describe-blend.ts';
import { rulesOn } from '../formulate/prepare.ts';
import { micrograms } from '../ledger/micrograms.ts';
import { type Check, checkLimits } from '../rules/check.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import { inShownUnit, shownBound } from '../rules/limit.ts';
import type { Standard } from '../rules/standard.ts';
import { KILOGRAMS_PER } from '../units.ts';
import type { LimitStanding, ScaleWeight } from './batch.ts';

/** What a batch is held against: the same for all its life, as it was on the day it was planned for. */
export interface Basis {
  readonly product: Product;
  readonly standard: Standard;
  readonly edition: string;
  readonly houseRules?: HouseRules;
  readonly plant: Plant;
  readonly date: string;
  readonly casing?: Material;
}

/** How what was really weighed stands to every limit. */
export interface Standing {
  readonly limits: readonly LimitStanding[];
  /** Of the finished product. */
  readonly makeup: Makeup;
}

/** What was found out since, where it is known. */
export interface Found {
  /** Fat of the mix by a test. */
  readonly fatFraction?: number;
  /** Finished over raw weight. */
  readonly yieldFraction?: number;
}

/**
 * Every limit on weights as a scale showed them, decided in exact arithmetic.
 * @param lines at least one that weighs something.
 * @returns undefined when no mix of these lines can have the fat that was found.
 */
export function standingOf(basis: Basis, lines: readonly MixLine[], found: Found = {}): Standing | undefined {
  const { fatFraction, yieldFraction } = found;
  const mix = fatFraction === undefined ? lines : testedMix(lines, fatFraction);
  if (!mix) return undefined;
  const { product } = basis;
  const process = yieldFraction === undefined ? product.process : { ...product.process, yieldFraction };
  const coefficients = new Coefficients(
    mix.map(({ supply }) => supply),
    process,
  );
  const massesKg = mix.map(({ massKg }) => massKg);
  const { limits } = rulesOn({ ...basis, product: { ...product, process } });
  return {
    limits: checkLimits(limits, coefficients, massesKg).map(limitStanding),
    makeup: makeup(
      (form) => toNumber(coefficients.total(form, massesKg)),
      FORMS.finishedFat,
      FORMS.finishedWater,
      FORMS.finished,
    ),
  };
}

/** Lines of one supply as one line. */
export function mixOf(lines: readonly { readonly supply: Supply; readonly massKg: Exact }[]): MixLine[] {
  const bySupply = new Map<string, MixLine>();
  for (const { supply, massKg } of lines) {
    const known = bySupply.get(supply.id);
    bySupply.set(supply.id, { supply, massKg: known ? add(known.massKg, massKg) : massKg });
  }
  return [...bySupply.values()];
}

/** A weight as a scale showed it, in exact kilograms. */
export function exactKg({ value, unit }: ScaleWeight): Exact {
  return multiply(exact(value), KILOGRAMS_PER[unit]);
}

/** The same as the ledger counts it. */
export function weightUg({ value, unit }: ScaleWeight): number {
  return micrograms(value, unit);
}

/** Limits of the law that do not hold. */
export function unlawful(limits: readonly LimitStanding[]): readonly LimitStanding[] {
  return limits.filter(({ holds, authority }) => !holds && authority === 'law');
}

function limitStanding({ limit, value, holds }: Check): LimitStanding {
  return {
    limitId: limit.id,
    says: limit.says,
    what: limit.numerator.says,
    basis: limit.basis.says,
    sense: limit.sense,
    bound: shownBound(limit),
    value: Number.isNaN(value) ? 0 : Number(inShownUnit(value, limit.unit).toPrecision(12)),
    unit: limit.unit,
    holds,
    authority: limit.authority,
    citation: limit.citation,
  };
}
