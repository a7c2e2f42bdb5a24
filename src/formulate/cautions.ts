import { ACCELERATORS, CURING_AGENTS, carriedFraction, carries, NITRITES } from '../batch/carries.ts';
import { isMeat, isRework, type Material } from '../batch/material.ts';
import type { Product } from '../batch/product.ts';
import type { Check } from '../rules/check.ts';
import type { Applied } from '../rules/house-rules.ts';
import { sourceOf } from '../rules/limit.ts';
import { fatPercentOf, fixed, fractionOfPercent, percentOfFraction } from '../units.ts';
import type { BlendLine, Makeup } from './blend.ts';
import { LEAST_DIVISIONS } from './scales.ts';

export interface Cautioned {
  readonly product: Product;
  readonly lines: readonly BlendLine[];
  readonly checks: readonly Check[];
  readonly switchedOff: Applied['switchedOff'];
  readonly greenWeightKg: number;
  readonly finished: Makeup;
  readonly missing: Missing;
}

/** How far the printed weights fall short of the asked size. */
export interface Missing {
  readonly says: string;
  readonly askedKg: number;
  readonly missingKg: number;
}

/** What a person should know before trusting this blend: none of it is forbidden, all of it has gone wrong before. */
export function blendCautions(blend: Cautioned): string[] {
  return [
    ...coarseLines(blend),
    ...untestedFat(blend),
    ...reworkPutIn(blend),
    ...limitsFromMemory(blend),
    ...limitsOff(blend),
    ...declaredYield(blend),
    ...weakCure(blend),
    ...uselessAccelerator(blend),
    ...farFromLabel(blend),
    ...shortOfSize(blend),
  ];
}

function coarseLines({ lines }: Cautioned): string[] {
  return lines
    .filter(({ weight }) => weight.divisions < LEAST_DIVISIONS)
    .map(({ supply, weight: { text, scale, divisions } }) => {
      const count = divisions === 1 ? '1 division' : `${divisions} divisions`;
      const cure = carries(supply.material, CURING_AGENTS)
        ? ' A cure weighed so coarsely may be far off its rate.'
        : '';
      return `${supply.material.name}: ${text} ${scale.unit} is only ${count} of the ${scale.name}; weigh it on a finer scale or blend it beforehand.${cure}`;
    });
}

export function untestedFat({ lines }: Pick<Cautioned, 'lines'>): string[] {
  const untested = lines.filter(({ supply }) => isMeat(supply.material) && !supply.lot?.measuredFat);
  const learned = untested.filter(({ supply }) => supply.fat?.from === 'lots of the supplier');
  const rework = untested.filter(({ supply }) => isRework(supply.material));
  const byClass = untested.filter((line) => !learned.includes(line) && !rework.includes(line));
  const names = byClass.map(({ supply }) => supply.id).join(', ');
  return [
    ...learned.map(
      ({ supply: { id, fat } }) =>
        `Fat of ${id} was not tested; ${fixed((fat?.meanFraction ?? 0) * 100, 1)} % is expected from ${fat?.says}: test the ground batch.`,
    ),
    ...rework.map(
      ({ supply: { id } }) =>
        `Fat of ${id} is worked out from the batch that it was left over from, not tested: test the ground batch.`,
    ),
    ...(byClass.length === 0
      ? []
      : [`Fat of ${names} is the figure of its class, not a test of the lot: test the ground batch.`]),
  ];
}

/** Rework carries what is wrong with one batch into the next; what to look at is common practice. */
function reworkPutIn({ product, lines }: Cautioned): string[] {
  const rework = lines.filter(({ supply }) => isRework(supply.material));
  if (rework.length === 0) return [];
  const names = rework.map(({ supply }) => supply.id).join(', ');
  const lostWeight = rework.some(({ supply }) => hasLost(supply.material));
  return [
    `Rework goes in (${names}): only what was kept cold and clean and is free of inedible casing. What is wrong with its batch is then wrong with this one: keep the two together in the records. Which rework may go in, and for how long, is for the HACCP plan to say.`,
    ...(lostWeight && product.process.yieldFraction < 1
      ? [
          'The declared yield is reckoned on the rework as well, which has lost weight once and will lose less now: weigh the finished batch, and test its moisture where it is near a limit.',
        ]
      : []),
  ];
}

function hasLost({ madeOf = [] }: Material): boolean {
  return madeOf.some(({ fraction }) => Number(fraction) < 0);
}

function limitsFromMemory({ checks }: Cautioned): string[] {
  const touched = checks.filter(
    ({ limit, numeratorKg }) =>
      limit.read === 'from memory' && limit.authority === 'law' && limit.bound > 0 && numeratorKg > 0,
  );
  if (touched.length === 0) return [];
  const names = [...new Set(touched.map(({ limit }) => limit.numerator.says))].join(', ');
  return [`The limits on these were entered from memory; look at the rule before relying on them: ${names}.`];
}

function limitsOff({ switchedOff }: Cautioned): string[] {
  return switchedOff.map(
    ({ limit, reason }) =>
      `Switched off by the house: "${limit.says}" (${sourceOf(limit)}). Reason given: ${reason}. The law still holds: ask the inspector.`,
  );
}

function declaredYield({ product: { process } }: Cautioned): string[] {
  if (process.yieldFraction === 1) return [];
  const percent = percentOfFraction(process.yieldFraction);
  return [
    `Figures of the finished product rest on the declared yield of ${percent} %: weigh the finished batch and compare.`,
  ];
}

/** Least ingoing nitrite of a cured product that is kept refrigerated. */
const NITRITE_FLOOR_PPM = 120;

function weakCure({ product, lines, greenWeightKg }: Cautioned): string[] {
  const nitriteKg = lines.reduce(
    (sum, { supply, massKg }) => sum + massKg * carriedFraction(supply.material, NITRITES),
    0,
  );
  const nitritePpm = (nitriteKg / greenWeightKg) * 1e6;
  if (nitriteKg === 0 || nitritePpm >= NITRITE_FLOOR_PPM || product.label.storage !== 'keep refrigerated')
    return [];
  return [
    `Ingoing nitrite is ${fixed(nitritePpm, 1)} ppm; inspectors' material asks for at least ${NITRITE_FLOOR_PPM} in a cured product that is kept refrigerated (calculations handbook of 1995, p. 12, as quoted in a secondary text). Ask the inspector.`,
  ];
}

function uselessAccelerator({ lines }: Cautioned): string[] {
  const some = (substances: typeof ACCELERATORS) =>
    lines.some(({ supply }) => carries(supply.material, substances));
  if (!some(ACCELERATORS) || some(CURING_AGENTS)) return [];
  return ['A curing accelerator goes in without a cure; 9 CFR 424.21(c) has it only together with one.'];
}

/** Points of fat by which a batch may stay under the fat on its label before it is worth a word. */
const LABEL_SLACK = fractionOfPercent(2);

function farFromLabel({ product: { label }, finished }: Cautioned): string[] {
  if (label.leanPercent === undefined) return [];
  const promised = fractionOfPercent(fatPercentOf(label.leanPercent));
  if (promised - finished.fatFraction <= LABEL_SLACK) return [];
  return [
    `The label says ${percentOfFraction(promised)} % fat and the batch has ${fixed(finished.fatFraction * 100, 1)} %: set a least fat, or sell it as what it is.`,
  ];
}

/** Less missing than this share of the asked size is what any scale leaves. */
const SIZE_SLACK = 0.005;

function shortOfSize({ missing }: Cautioned): string[] {
  if (missing.missingKg <= SIZE_SLACK * missing.askedKg) return [];
  const { says, askedKg, missingKg } = missing;
  return [
    `The batch is ${fixed(missingKg, 3)} kg short of the ${fixed(askedKg, 3)} kg asked (${says}): the lots end there on the scales they are weighed on. Weigh on a finer scale, or take another lot.`,
  ];
}
