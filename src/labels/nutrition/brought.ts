import type { Composition } from '../../batch/composition.ts';
import type { Supply } from '../../batch/lot.ts';
import { isRework, type Material } from '../../batch/material.ts';
import type { Process } from '../../batch/product.ts';
import { compare, type Exact, exact, multiply, subtract, sum, ZERO } from '../../exact.ts';
import { partsOfSupply } from '../../rules/form.ts';
import type { LabelBatch } from '../put-in.ts';
import { HUNDRED, least, quotient } from './quotient.ts';

/** An ingredient that went in, into this batch or into one that left rework, with what it was made of there. */
export interface Brought {
  readonly material: Material;
  readonly composition: Composition;
  readonly massKg: Exact;
  /** Where its figures come from. */
  readonly source: string;
}

/** What one process took: of the ingredients of some rework, or of all of the batch. Less than nothing is a gain. */
export interface Taken {
  readonly of: readonly Brought[];
  readonly fatKg: Exact;
  readonly waterKg: Exact;
}

/** A batch as its nutrients are counted: what went in, less what processes took, makes the finished weight. */
export interface Makeup {
  readonly brought: readonly Brought[];
  /** Those of rework first, that of this batch last. */
  readonly taken: readonly Taken[];
  readonly rawKg: Exact;
  readonly finishedKg: Exact;
}

/** A finished weight that differs by less from the raw weight times the declared yield is meant to be it. */
const SAME_WEIGHT = exact('1e-9');

/**
 * Opens the lines of a batch and its rework. The loss of this batch is what its finished weight lacks of its raw
 * weight; fat has the share of it that the process declares, the rest is water.
 */
export function makeupOf({ lines, finishedKg }: LabelBatch, process: Process): Makeup {
  const opened = lines.map(({ supply, exactMassKg }) => open(supply, exactMassKg));
  const brought = opened.flatMap((line) => line.brought);
  const rawKg = sum(lines.map(({ exactMassKg }) => exactMassKg));
  const weightKg = finishedWeight(rawKg, exact(finishedKg), process);
  const ofRework = opened.flatMap(({ taken }) => taken);
  const lostKg = subtract(rawKg, weightKg);
  if (lostKg.digits === 0n) return { brought, taken: ofRework, rawKg, finishedKg: weightKg };
  const fatKg = least(fatOfLoss(rawKg, lostKg, process), fatLeft(brought, ofRework));
  return {
    brought,
    taken: [...ofRework, { of: brought, fatKg, waterKg: subtract(lostKg, fatKg) }],
    rawKg,
    finishedKg: weightKg,
  };
}

/** Water that is left, in kilograms: less than nothing where more weight is gone than can be. */
export function waterLeft({ brought, taken }: Makeup): Exact {
  const putIn = brought.map(({ massKg, composition }) => multiply(massKg, exact(composition.waterFraction)));
  return subtract(sum(putIn), sum(taken.map(({ waterKg }) => waterKg)));
}

function open(supply: Supply, massKg: Exact): { brought: Brought[]; taken: Taken[] } {
  if (!isRework(supply.material)) {
    const { material, composition } = supply;
    return { brought: [{ material, composition, massKg, source: sourceOf(supply) }], taken: [] };
  }
  const parts = partsOfSupply(supply).map(({ part, fraction }) => ({
    part,
    partKg: multiply(massKg, exact(fraction)),
  }));
  const isLoss = ({ part }: (typeof parts)[number]) => part.material.kind === 'process loss';
  const inner = parts.filter((entry) => !isLoss(entry)).map(({ part, partKg }) => open(part, partKg));
  const of = inner.flatMap(({ brought }) => brought);
  const lost = parts.filter(isLoss);
  const taken = (what: 'fatFraction' | 'waterFraction') =>
    subtract(ZERO, sum(lost.map(({ part, partKg }) => multiply(partKg, exact(part.composition[what])))));
  const own = { of, fatKg: taken('fatFraction'), waterKg: taken('waterFraction') };
  return {
    brought: of,
    taken: [...inner.flatMap((entry) => entry.taken), ...(lost.length > 0 ? [own] : [])],
  };
}

/** The source of a material, and of a lot with a fat of its own which lot it was. */
function sourceOf({ material, composition, lot }: Supply): string {
  return lot && composition.fatFraction !== material.composition.fatFraction
    ? `${material.source}; at the fat of lot ${lot.id}`
    : material.source;
}

function finishedWeight(rawKg: Exact, finishedKg: Exact, { yieldFraction }: Process): Exact {
  const declaredKg = multiply(rawKg, exact(yieldFraction));
  const apart = subtract(finishedKg, declaredKg);
  const positive = apart.digits < 0n ? subtract(ZERO, apart) : apart;
  return compare(positive, multiply(rawKg, SAME_WEIGHT)) <= 0 ? declaredKg : finishedKg;
}

/** Fat in a loss: the declared share of the declared loss. What gains weight loses no fat. */
function fatOfLoss(rawKg: Exact, lostKg: Exact, { yieldFraction, fatLossFraction }: Process): Exact {
  const declared = subtract(exact(1), exact(yieldFraction));
  if (lostKg.digits <= 0n || declared.digits <= 0n) return ZERO;
  const fatKg = multiply(rawKg, exact(fatLossFraction));
  const declaredKg = multiply(rawKg, declared);
  if (compare(lostKg, declaredKg) === 0) return fatKg;
  return least(quotient(multiply(lostKg, fatKg), declaredKg), lostKg);
}

function fatLeft(brought: readonly Brought[], taken: readonly Taken[]): Exact {
  const putIn = brought.map(({ massKg, composition }) => multiply(massKg, exact(composition.fatFraction)));
  return subtract(sum(putIn), sum(taken.map(({ fatKg }) => fatKg)));
}

/** Percent of the raw weight. */
export function percentOfRaw(partKg: Exact, { rawKg }: Makeup): Exact {
  return quotient(multiply(partKg, HUNDRED), rawKg);
}
