import type { Process } from '../batch/product.ts';

/** What comes out of a batch against what went in. */

/** How far the yield may be from the declared one without a reason. Own judgement. */
export const YIELD_TOLERANCE = 0.02;

/** Whether something was taken out before the process (off the stuffer) or after it (out of the cooler). */
export const STAGES = ['raw', 'finished'] as const;
export type Stage = (typeof STAGES)[number];

export interface Outcome {
  readonly weighedUg: number;
  /** The product. */
  readonly outputUg: number;
  /** Rework and what was discarded. */
  readonly aside: readonly { readonly stage: Stage; readonly massUg: number }[];
}

/** What went in and did not come out; negative when more came out than was weighed in. */
export function lossUg({ weighedUg, outputUg, aside }: Outcome): number {
  return weighedUg - outputUg - total(aside);
}

/** Finished over raw weight of what went through the process; undefined when nothing did. */
export function yieldFraction({ weighedUg, outputUg, aside }: Outcome): number | undefined {
  const rawUg = weighedUg - total(aside.filter(({ stage }) => stage === 'raw'));
  const finishedUg = outputUg + total(aside.filter(({ stage }) => stage === 'finished'));
  return rawUg > 0 && finishedUg > 0 ? finishedUg / rawUg : undefined;
}

/** Whether the yield is far from the declared one. */
export function isOddYield(
  found: number,
  { yieldFraction: declared }: Pick<Process, 'yieldFraction'>,
): boolean {
  return Math.abs(found - declared) > YIELD_TOLERANCE;
}

function total(parts: readonly { readonly massUg: number }[]): number {
  return parts.reduce((sum, { massUg }) => sum + massUg, 0);
}
