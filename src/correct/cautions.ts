import { CURING_AGENTS, carries } from '../batch/carries.ts';
import { ALLERGENS, type Allergen, isRework } from '../batch/material.ts';
import type { Product } from '../batch/product.ts';
import { toNumber } from '../exact.ts';
import type { BlendLine } from '../formulate/blend.ts';
import { untestedFat } from '../formulate/cautions.ts';
import { LEAST_DIVISIONS } from '../formulate/scales.ts';
import type { Applied } from '../rules/house-rules.ts';
import { sourceOf } from '../rules/limit.ts';
import { fixed } from '../units.ts';
import type { Job } from './model.ts';
import { type MixLine, mixKg, saidFatFraction } from './tested-mix.ts';

/** What a person should know before anything is done to a load that waits in the mixer. */
export function waitingCautions(mix: readonly MixLine[], { switchedOff }: Applied): string[] {
  return [
    "Keep the mix cold while it waits: time and temperature by the plant's HACCP plan.",
    'Was the sample of the whole mix, ground fine and mixed? A poor sample is corrected into a poor batch.',
    ...(isCured(mix)
      ? ['The mix is cured: never add cure a second time by hand; the cure here is reckoned on the whole.']
      : []),
    ...switchedOff.map(
      ({ limit, reason }) =>
        `Switched off by the house: "${limit.says}" (${sourceOf(limit)}). Reason given: ${reason}. The law still holds: ask the inspector.`,
    ),
  ];
}

/** Deviations by which a test may differ from what the lots said before it is worth another test. */
const FAR = 3;

/** A test that the lots make hardly possible: of the wrong mix, of a bad sample, or of a wrong weighing. */
export function farTest(inMixer: readonly MixLine[], { test }: Pick<Job, 'test'>): string[] {
  const inKg = toNumber(mixKg(inMixer));
  const lots = inMixer.reduce(
    (sum, { supply, massKg }) => sum + ((supply.fat?.sdFraction ?? 0) * toNumber(massKg)) ** 2,
    0,
  );
  const said = saidFatFraction(inMixer);
  const off = Math.abs(test.fatFraction - said);
  if (off <= FAR * Math.hypot(test.sdFraction, Math.sqrt(lots) / inKg)) return [];
  return [
    `The test is ${fixed(off * 100, 1)} points from what the lots said (${fixed(said * 100, 1)} %), more than lots and test explain: check the weighings and test again before anything is added.`,
  ];
}

/** What goes with every addition. */
export function additionCautions(mix: readonly MixLine[], lines: readonly BlendLine[]): string[] {
  return [
    'A correction is a new weighing: record lots, weights, time and who weighed, beside the batch record.',
    'Mix until the addition is even, then test the fat again before the load leaves the mixer.',
    ...(lines.some(({ supply }) => !isRework(supply.material) && carries(supply.material, CURING_AGENTS))
      ? [
          'Cure is topped up for the added meat alone: a second person checks the weight, and no other cure goes in.',
        ]
      : []),
    ...untestedFat({ lines }),
    ...lines
      .filter(({ supply }) => supply.lot?.state === 'frozen')
      .map(({ supply }) => `${supply.id} is frozen: temper it before it goes in.`),
    ...coarseLines(lines),
    ...newAllergens(mix, lines),
  ];
}

/** What goes with sending a mix to another product. */
export function otherProductCautions(
  { name }: Product,
  mix: readonly MixLine[],
  lines: readonly BlendLine[],
): string[] {
  const held = allergensOf(mix);
  return [
    `Every ingredient of the mix must be allowed and declared on the label of ${name}: compare label and mix before it is packed.`,
    ...(held.length > 0 ? [`The mix holds ${held.join(', ')}: the label of ${name} must say so.`] : []),
    ...newAllergens(mix, lines),
  ];
}

function isCured(mix: readonly MixLine[]): boolean {
  return mix.some(({ supply }) => carries(supply.material, CURING_AGENTS));
}

function allergensOf(lines: readonly Pick<MixLine, 'supply'>[]): Allergen[] {
  return ALLERGENS.filter((allergen) =>
    lines.some(({ supply }) => supply.material.allergens.includes(allergen)),
  );
}

function newAllergens(mix: readonly MixLine[], lines: readonly BlendLine[]): string[] {
  const held = allergensOf(mix);
  const brought = allergensOf(lines).filter((allergen) => !held.includes(allergen));
  if (brought.length === 0) return [];
  return [
    `What is added brings ${brought.join(', ')}, which the mix does not hold: check label and cleaning before it goes in.`,
  ];
}

function coarseLines(lines: readonly BlendLine[]): string[] {
  return lines
    .filter(({ weight }) => weight.divisions < LEAST_DIVISIONS)
    .map(({ supply, weight: { text, scale, divisions } }) => {
      const count = divisions === 1 ? '1 division' : `${divisions} divisions`;
      return `${supply.material.name}: ${text} ${scale.unit} is only ${count} of the ${scale.name}; weigh it on a finer scale if there is one.`;
    });
}
