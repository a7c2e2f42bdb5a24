import type { HouseRules } from '../batch/house-rules.ts';
import type { Supply } from '../batch/lot.ts';
import type { Material } from '../batch/material.ts';
import type { Plant } from '../batch/plant.ts';
import type { Process, Product } from '../batch/product.ts';
import type { MixLine } from '../correct/tested-mix.ts';
import { add, type Exact, exact, multiply, toNumber } from '../exact.ts';
import type { Makeup } from '../formulate/blend.ts';
import { makeup } from '../formulate/describe-blend.ts';
import { LABEL_LEAN } from '../formulate/house-limits.ts';
import { rulesOn } from '../formulate/prepare.ts';
import { micrograms } from '../ledger/micrograms.ts';
import { type Check, checkLimits } from '../rules/check.ts';
import { Coefficients } from '../rules/coefficients.ts';
import { FORMS } from '../rules/forms.ts';
import { shownBound } from '../rules/limit.ts';
import { isBeyondSlack, shownValue } from '../rules/missed.ts';
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

/**
 * Every limit on weights as a scale showed them, decided in exact arithmetic.
 * @param lines at least one that weighs something.
 * @param process with the yield that was found, where it is known.
 */
export function standingOf(
  basis: Basis,
  lines: readonly MixLine[],
  process: Process = basis.product.process,
): Standing {
  const coefficients = new Coefficients(
    lines.map(({ supply }) => supply),
    process,
  );
  const massesKg = lines.map(({ massKg }) => massKg);
  const { limits } = rulesOn({ ...basis, product: { ...basis.product, process } });
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

/**
 * The same for a batch of several loads. Each is mixed by itself, so each has to hold by itself: cure forgotten in one
 * and doubled in the next is right on the whole and wrong in both. A limit that loads miss stands with each of them.
 */
export function standingOfLoads(
  basis: Basis,
  loads: readonly LoadMix[],
  process: Process = basis.product.process,
): Standing {
  const whole = standingOf(
    basis,
    loads.flatMap(({ lines }) => lines),
    process,
  );
  if (loads.length < 2) return whole;
  const missed = loads.flatMap(({ load, lines }) =>
    standingOf(basis, lines, process)
      .limits.filter(({ holds }) => !holds)
      .map((limit) => ({ ...limit, load })),
  );
  return {
    makeup: whole.makeup,
    limits: whole.limits.flatMap((limit) => {
      const inLoads = missed.filter(({ limitId }) => limitId === limit.limitId);
      return inLoads.length > 0 ? inLoads : [limit];
    }),
  };
}

/** What is in one load. */
export interface LoadMix {
  readonly load: number;
  readonly lines: readonly MixLine[];
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

/** The lean that the label shows, which is missed by more than weighing and testing explain: the label drops it too. */
export function falseOnLabel(limits: readonly LimitStanding[]): readonly LimitStanding[] {
  return limits.filter((limit) => limit.limitId === LABEL_LEAN && isMissed(limit));
}

/** Limits of the law that do not hold. */
export function unlawful(limits: readonly LimitStanding[]): readonly LimitStanding[] {
  return limits.filter(({ holds, authority }) => !holds && authority === 'law');
}

/** Whether a limit does not hold, for the house by more than its slack. */
export function isMissed({ holds, authority, value, bound }: LimitStanding): boolean {
  if (holds) return false;
  return authority === 'law' || isBeyondSlack(value, bound);
}

function limitStanding({ limit, value, holds }: Check): LimitStanding {
  return {
    limitId: limit.id,
    says: limit.says,
    what: limit.numerator.says,
    basis: limit.basis.says,
    sense: limit.sense,
    bound: shownBound(limit),
    value: shownValue(value, limit.unit),
    unit: limit.unit,
    holds,
    authority: limit.authority,
    citation: limit.citation,
  };
}
