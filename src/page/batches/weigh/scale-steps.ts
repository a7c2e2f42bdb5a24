import { exact } from '../../../exact.ts';

/** Whether a scale can show a figure, in whole steps of its division. */

/** The figures that it can show next to one that it cannot. */
export interface Between {
  readonly lower: string;
  readonly upper: string;
}

/** @param text and division digits with a point, of the same unit. @returns undefined when the scale can show it. */
export function betweenSteps(text: string, division: string): Between | undefined {
  const [figure, step] = [exact(text), exact(division)];
  const scale = Math.max(figure.scale, step.scale);
  const atScale = (one: typeof figure) => one.digits * 10n ** BigInt(scale - one.scale);
  const [digits, size] = [atScale(figure), atScale(step)];
  if (size <= 0n || digits % size === 0n) return undefined;
  const decimals = division.split('.')[1]?.length ?? 0;
  const lower = digits - (digits % size);
  return { lower: written(lower, scale, decimals), upper: written(lower + size, scale, decimals) };
}

function written(digits: bigint, scale: number, decimals: number): string {
  const all = String(digits).padStart(scale + 1, '0');
  const whole = all.slice(0, all.length - scale);
  const part = all.slice(all.length - scale).slice(0, decimals);
  return part === '' ? whole : `${whole}.${part}`;
}
