import type { Process } from '../batch/product.ts';
import { kilogramsOfMicrograms } from '../ledger/micrograms.ts';

/** What comes out of a batch against what went in. */

/** How far the yield may be from the declared one without a reason. Own judgement. */
export const YIELD_TOLERANCE = 0.02;
/** Share of a batch by which two scales of a plant may differ: no gain. Own judgement. */
export const SCALES_DIFFER = 0.002;

/** Whether something was taken out before the process (off the stuffer) or after it (out of the cooler). */
export const STAGES = ['raw', 'finished'] as const;
export type Stage = (typeof STAGES)[number];

export interface Part {
  readonly stage: Stage;
  readonly massUg: number;
}

export interface Outcome {
  readonly weighedUg: number;
  /** The product. */
  readonly outputUg: number;
  readonly rework: readonly Part[];
  readonly discarded: readonly Part[];
}

/** What went in and did not come out; negative when more came out than was weighed in. */
export function lossUg({ weighedUg, outputUg, rework, discarded }: Outcome): number {
  return weighedUg - outputUg - total([...rework, ...discarded]);
}

/** Finished over raw weight of what went through the process; undefined when nothing did. */
export function yieldFraction({ weighedUg, outputUg, rework, discarded }: Outcome): number | undefined {
  const aside = [...rework, ...discarded];
  const rawUg = weighedUg - total(at('raw', aside));
  const finishedUg = outputUg + total(at('finished', aside));
  return rawUg > 0 && finishedUg > 0 ? finishedUg / rawUg : undefined;
}

/** Whether the yield is far from the declared one, or more came out than two scales can differ. */
export function isOddYield(
  outcome: Outcome,
  found: number,
  { yieldFraction: declared }: Pick<Process, 'yieldFraction'>,
): boolean {
  return Math.abs(found - declared) > YIELD_TOLERANCE || isGain(outcome);
}

/** Whether so much more came out than was weighed in that something was never weighed in. */
export function isUnweighed(outcome: Outcome): boolean {
  return -lossUg(outcome) > outcome.weighedUg * YIELD_TOLERANCE;
}

function isGain(outcome: Outcome): boolean {
  return -lossUg(outcome) > outcome.weighedUg * SCALES_DIFFER;
}

/**
 * The process with the yield that was found. A raw product that is not smoked loses no water: what is missing stuck to
 * the machines and was made of the same as the rest; only a gain is counted, as water.
 */
export function processAsFound(process: Process, found: number): Process {
  const losesNothing = process.cooking === 'raw' && !process.smoked;
  if (losesNothing && found <= 1 + SCALES_DIFFER) return { ...process, yieldFraction: 1 };
  return { ...process, yieldFraction: found };
}

/** What a kilogram is worth of what was kept: raw rework what it cost to put in, the rest bears all else. */
export interface CostsPerKg {
  readonly raw: number;
  readonly finished: number;
}

/**
 * All that was put in is paid for by what is kept: cost = raw rework × raw + (product + finished rework) × finished.
 * @param cost of all that was weighed in.
 */
export function costsPerKg(cost: number, { weighedUg, outputUg, rework }: Outcome): CostsPerKg {
  const raw = cost / kilogramsOfMicrograms(weighedUg);
  const left = cost - raw * kilogramsOfMicrograms(total(at('raw', rework)));
  return { raw, finished: left / kilogramsOfMicrograms(outputUg + total(at('finished', rework))) };
}

function at(stage: Stage, parts: readonly Part[]): readonly Part[] {
  return parts.filter((part) => part.stage === stage);
}

function total(parts: readonly Part[]): number {
  return parts.reduce((sum, { massUg }) => sum + massUg, 0);
}
