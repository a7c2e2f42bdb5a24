/** The yield while what came out is typed: the same sum as the service makes when it is sent. */

export interface Part {
  readonly stage: 'raw' | 'finished';
  readonly massKg: number;
}

export interface CameOut {
  readonly weighedKg: number;
  readonly outputKg: number;
  readonly aside: readonly Part[];
}

/** Beyond these the service asks for a reason about the yield. */
const TOLERANCE = 0.02;
const SCALES_DIFFER = 0.002;

export interface Yield {
  /** Undefined where nothing went through the process. */
  readonly fraction?: number;
  /** What went in and did not come out; negative for a gain. */
  readonly lossKg: number;
  readonly isOdd: boolean;
}

export function yieldOf({ weighedKg, outputKg, aside }: CameOut, declared: number): Yield {
  const sum = (stage: Part['stage']) =>
    aside.filter((part) => part.stage === stage).reduce((total, { massKg }) => total + massKg, 0);
  const rawKg = weighedKg - sum('raw');
  const finishedKg = outputKg + sum('finished');
  const lossKg = rawKg - finishedKg;
  if (!(rawKg > 0 && finishedKg > 0)) return { lossKg, isOdd: false };
  const fraction = finishedKg / rawKg;
  const isOdd = Math.abs(fraction - declared) > TOLERANCE || -lossKg > weighedKg * SCALES_DIFFER;
  return { fraction, lossKg, isOdd };
}
