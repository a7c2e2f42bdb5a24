/**
 * Control chart for individual values: what a series varies by from one value to the next says how far a value may lie
 * off the mean before something has changed. NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2
 * "Individuals Control Charts" (secondary: its example and formula as quoted by others; verify): limits at the mean plus
 * and minus 3 × (mean moving range ÷ 1.128), which is 2.66 × the mean moving range.
 */

/** Expected range of two values of a normal distribution, in standard deviations (d2 of n = 2; section 6.3.2.2). */
export const D2_OF_TWO = 1.128;

/** So many lots in a row on one side of the mean are no chance (section 6.3.2, WECO rules; from memory, verify). */
export const RUN_OF = 8;

/** Fewer moving ranges than this say little of a spread: the limits are drawn, and called early. Own judgement. */
export const EARLY_BELOW = 10;

export interface ControlLimits {
  readonly mean: number;
  readonly meanMovingRange: number;
  /** Mean moving range ÷ 1.128: the spread from one value to the next, not that of all values about their mean. */
  readonly sd: number;
}

export type Standing =
  | 'within'
  /** Beyond 2 standard deviations: one in twenty by chance. */
  | 'warned'
  /** Beyond 3. */
  | 'outside';

export interface ChartPoint {
  readonly value: number;
  readonly standing: Standing;
  readonly side: 'above' | 'below' | 'on';
  /** Whether it is among so many on one side of the mean that the mean itself has moved. */
  readonly inRun: boolean;
}

export interface ControlChart {
  /** Absent with fewer than two values: there is no moving range. */
  readonly limits?: ControlLimits;
  readonly points: readonly ChartPoint[];
}

/** @param values in the order of time. */
export function controlChart(values: readonly number[]): ControlChart {
  const limits = limitsOf(values);
  if (!limits)
    return { points: values.map((value) => ({ value, standing: 'within', side: 'on', inRun: false })) };
  const { mean, sd } = limits;
  const sides = values.map((value) => (value > mean ? 'above' : value < mean ? 'below' : 'on'));
  const inRun = runs(sides);
  return {
    limits,
    points: values.map((value, at) => ({
      value,
      standing: standingOf(Math.abs(value - mean), sd),
      side: sides[at] ?? 'on',
      inRun: inRun[at] ?? false,
    })),
  };
}

function limitsOf(values: readonly number[]): ControlLimits | undefined {
  if (values.length < 2) return undefined;
  const moving = values.slice(1).map((value, at) => Math.abs(value - (values[at] ?? value)));
  const meanMovingRange = meanOf(moving);
  return { mean: meanOf(values), meanMovingRange, sd: meanMovingRange / D2_OF_TWO };
}

function standingOf(apart: number, sd: number): Standing {
  if (apart > 3 * sd) return 'outside';
  return apart > 2 * sd ? 'warned' : 'within';
}

/** Which values stand in a run of at least eight on one side; one on the mean itself ends a run. */
function runs(sides: readonly ChartPoint['side'][]): boolean[] {
  const found = sides.map(() => false);
  let start = 0;
  sides.forEach((side, at) => {
    if (side === 'on' || side !== sides[start]) start = at;
    if (side !== 'on' && at - start + 1 >= RUN_OF) found.fill(true, start, at + 1);
  });
  return found;
}

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
